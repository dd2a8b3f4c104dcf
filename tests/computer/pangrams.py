"""A text of ours in each of ten languages, with every letter of its alphabet, and its layout."""

from __future__ import annotations

ALPHABETS = {
    "de": "abcdefghijklmnopqrstuvwxyzäöüß",
    "fr": "abcdefghijklmnopqrstuvwxyzàâçèéêëîïôùû",
    "es": "abcdefghijklmnopqrstuvwxyzáéíñóúü",
    "pt": "abcdefghijklmnopqrstuvwxyzàáâãçéêíóôõú",
    "se": "abcdefghijklmnopqrstuvwxyzåäö",
    "pl": "aąbcćdeęfghijklłmnńoóprsśtuwyzźż",
    "cz": "aábcčdďeéěfghiíjklmnňoóprřsštťuúůvyýzž",
    "tr": "abcçdefgğhıijklmnoöprsştuüvyz",
    "gr": "αάβγδεέζηήθιίκλμνξοόπρσςτυύφχψωώ",
    "ru": "абвгдеёжзийклмнопрстуфхцчшщъыьэюя",
}
"""The letters that its schools teach, and those with marks; q, v and x where words have them."""

PANGRAMS = {
    "de": "Übermütig jagt Frau Xöder vom Café Quark zwölf große Bären; das Pony lacht.",
    "fr": (
        "Où va Zoé, l'âme gâtée du wagon ? Et ça brûle, naïf : Noël, à dix pas, quête, où il hèle "
        "un jockey du Québec, l'île et l'hôtel."
    ),
    "es": (
        "¿Qué pingüino exigió más kiwis? ¡Wu, el niño fácil! Jamás habrá vez, allí, sin tu yate "
        "azul, dijo el búho."
    ),
    "pt": (
        "Às vezes, José põe açúcar no chá; você, avô Wix, já quer kiwi à mão, aí, e um xale "
        "bem fofo de gala. Só três: Yago, o tio e a âncora."
    ),
    "se": "Får en gul zebra köpa tjock yxa, vid quiz om wienerschnitzel på ägg, i hög ås?",
    "pl": "Gdzie łoś? Pchnął w tę jaźń biały kwef: ćma, żmija, ósmy sęk, koń, kula i grzech.",
    "cz": (
        "Vůně růží: žlutý čáp, též ďas, běží přes úsvit; kůň fňuká, šíp hýří, móda, oko, "
        "taxi, gejša, byť cesta k zámku mizí."
    ),
    "tr": "Fahiş bülbül, jöle ve çığ: ıssız dağ köyünde İpek, Zeynep ile geç mi oturdu acaba?",
    "gr": (
        "Ψάχνω την ξύλινη βάρκα, όμως φεύγει ζωηρά· θέλω δέκα γαλάζια ψωμιά, πού ήταν ο "
        "κόσμος του; Ίσως ώρα."
    ),
    "ru": ("Эй, юный пёс: объезд у фьорда, щука в цвете, чужой шмель и хмурая погода."),
}
