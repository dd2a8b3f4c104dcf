"""The words for media keys against tables that we did not write.

`hidtools.hut` is the usage table of hid-tools. `data/consumer_to_evdev.csv` joins its names for the
consumer page with the key codes of the Linux kernel 6.1 (`drivers/hid/hid-input.c`,
`hidinput_configure_usage()`, and `include/uapi/linux/input-event-codes.h`). What the kernel makes
of the system controls (the same function, `HID_UP_GENDESK`) is from memory.
"""

import re
from pathlib import Path

import hidtools.hut
import pytest

from matrixgen import usages
from matrixgen.usages import media
from tests.documents import rows_of

# Ours says what it does, or hid-tools has the wording of an old edition, or none.
REWORDED = {
    "ConsumerPower": "Power",
    "ConsumerSleep": "Sleep",
    "PauseMedia": "Pause",
    "StopMedia": "Stop",
    "Contacts": "AL Contacts/Address Book",
    "Calendar": "AL Calendar/Schedule",
    "ProjectManager": "AL Task/Project Manager",
    "Journal": "AL Log/Journal/Timecard",
    "Finance": "AL Checkbook/Finance",
    "TerminalLock": "AL Terminal Lock/Screensaver",
    "SelectTask": "AL Select Task/Application",
    "NextTask": "AL Next Task/Application",
    "PreviousTask": "AL Previous Task/Application",
    "ACRedo": "AC Redo/Repeat",
    "VoiceDictation": None,
    "EmojiPicker": None,
    "DesktopAssistant": None,
    "ShowAllApplications": None,
}
SYSTEM_CODES = {0x81: "KEY_POWER", 0x82: "KEY_SLEEP", 0x83: "KEY_WAKEUP"}

# Kernel key names that say the same in other words.
KERNEL_WORDS = {
    "KEY_NEXTSONG": "NextTrack",
    "KEY_PREVIOUSSONG": "PreviousTrack",
    "KEY_STOPCD": "StopMedia",
    "KEY_EJECTCD": "Eject",
    "KEY_CALC": "Calculator",
    "KEY_MAIL": "Email",
    "KEY_WWW": "Browser",
    "KEY_HOMEPAGE": "HomePage",
    "KEY_COFFEE": "TerminalLock",
    "KEY_KBDILLUMUP": "KeyboardBrightnessUp",
    "KEY_KBDILLUMDOWN": "KeyboardBrightnessDown",
    "KEY_FULL_SCREEN": "FullScreen",
    "KEY_DICTATE": "VoiceDictation",
}


def plain(name):
    return re.sub(r"[^A-Za-z0-9]", "", name).casefold()


def kernel_codes():
    table = Path(__file__).parent / "data" / "consumer_to_evdev.csv"
    codes = {(0x0C, int(row["usage_hex"], 16)): row["evdev_name"] for row in rows_of(table)}
    return codes | {(0x01, usage): code for usage, code in SYSTEM_CODES.items()}


@pytest.mark.parametrize("one", media.media_usages(), ids=lambda one: media.media_word(*one))
def test_a_media_key_has_the_name_of_the_usage_table_among_its_words(one):
    page, usage = one
    word, names = media.media_word(*one), hidtools.hut.HUT[page]
    theirs = names[usage].name if usage in names else None
    if word in REWORDED:
        assert REWORDED[word] == theirs
    else:
        ours = {plain(other) for other in media.media_words_of(*one)}
        assert ours & {plain(theirs), plain(re.sub("^A[LC] ", "", theirs))}


@pytest.mark.parametrize("one", media.media_usages(), ids=lambda one: media.media_word(*one))
def test_the_kernel_has_a_key_for_every_media_key(one):
    assert kernel_codes()[one].startswith("KEY_")


def test_the_kernel_gives_a_word_the_key_that_the_word_says():
    said = 0
    for one, code in kernel_codes().items():
        found = media.media_usage_of(KERNEL_WORDS.get(code) or plain(code.removeprefix("KEY_")))
        if found is not None and media.media_words_of(*one):
            assert kernel_codes()[found] == code, (one, code)
            said += 1
    assert said >= 55


def test_no_word_stands_for_two_keys_of_any_page_in_any_case():
    words = [word.casefold() for word in usages.words()]
    assert len(words) == len(set(words))
    assert {"volumeup", "keyboardvolumeup", "sleep"} <= set(words)


def test_capitals_do_not_matter_and_output_has_one_spelling():
    for one in media.media_usages():
        for word in media.media_words_of(*one):
            assert media.media_usage_of(word.upper()) == media.media_usage_of(word.lower()) == one
            assert usages.is_spelling(word) and not usages.is_spelling(word.swapcase())
        assert media.media_word(*one) == media.media_words_of(*one)[0]


def test_a_usage_without_a_word_is_shown_by_its_numbers():
    assert media.media_word(0x0C, 0x1FF) == "usage 0x0C 0x1FF"
