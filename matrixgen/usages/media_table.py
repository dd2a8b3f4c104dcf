"""The media keys: page, number, word, other words that mean the same.

Source: USB HID Usage Tables 1.12, section 15, "Consumer Page (0x0C)", and section 4.5, system
controls of the "Generic Desktop Page (0x01)". The words are the tables' names in one piece, without
the AL and AC of application launches and controls, and shorter where a keycap is. Where a key of
the keyboard page has the word, the name is the table's in full (`ACCopy`) or says what it does
(`StopMedia`). Of the hundreds that there are, these are what the Linux kernel 6.1 has a key for and
what a computer can use.

The names of 0xD8, 0xD9, 0x1CB and 0x2A2 are from memory of a later edition of the tables.
"""

MEDIA_TABLE = """
0C 030 ConsumerPower
0C 032 ConsumerSleep
0C 060 DataOnScreen
0C 061 ClosedCaption
0C 065 Snapshot
0C 06F BrightnessUp DisplayBrightnessIncrement
0C 070 BrightnessDown DisplayBrightnessDecrement
0C 072 DisplayBacklightToggle
0C 073 BrightnessMinimum DisplaySetBrightnessToMinimum
0C 074 BrightnessMaximum DisplaySetBrightnessToMaximum
0C 075 BrightnessAuto DisplaySetAutoBrightness
0C 079 KeyboardBrightnessUp KeyboardBrightnessIncrement
0C 07A KeyboardBrightnessDown KeyboardBrightnessDecrement
0C 07C KeyboardBacklight KeyboardBacklightOOC
0C 083 RecallLast
0C 094 Quit
0C 09C ChannelUp ChannelIncrement
0C 09D ChannelDown ChannelDecrement
0C 0B0 Play
0C 0B1 PauseMedia
0C 0B2 Record
0C 0B3 FastForward
0C 0B4 Rewind
0C 0B5 NextTrack ScanNextTrack
0C 0B6 PreviousTrack ScanPreviousTrack
0C 0B7 StopMedia
0C 0B8 Eject
0C 0B9 RandomPlay Shuffle
0C 0BC Repeat
0C 0CD PlayPause
0C 0CF VoiceCommand
0C 0D8 VoiceDictation
0C 0D9 EmojiPicker
0C 0E2 Mute
0C 0E5 BassBoost
0C 0E9 VolumeUp VolumeIncrement
0C 0EA VolumeDown VolumeDecrement
0C 183 MediaPlayer ConsumerControlConfig
0C 184 WordProcessor
0C 185 TextEditor
0C 186 Spreadsheet
0C 187 GraphicsEditor
0C 188 Presentation PresentationApp
0C 189 Database DatabaseApp
0C 18A Email EmailReader Mail
0C 18B Newsreader
0C 18C Voicemail
0C 18D Contacts AddressBook
0C 18E Calendar
0C 18F ProjectManager
0C 190 Journal
0C 191 Finance
0C 192 Calculator
0C 194 LocalMachineBrowser
0C 196 Browser InternetBrowser
0C 199 NetworkChat Chat
0C 19C Logoff
0C 19E TerminalLock LockScreen
0C 19F ControlPanel
0C 1A2 SelectTask
0C 1A3 NextTask
0C 1A4 PreviousTask
0C 1A6 HelpCenter IntegratedHelpCenter
0C 1A7 Documents
0C 1AB SpellCheck
0C 1AE KeyboardLayout
0C 1B1 ScreenSaver
0C 1B4 FileBrowser
0C 1B6 ImageBrowser
0C 1B7 AudioBrowser
0C 1B8 MovieBrowser
0C 1BC InstantMessaging
0C 1CB DesktopAssistant
0C 201 ACNew
0C 202 ACOpen
0C 203 ACClose
0C 204 ACExit
0C 207 ACSave
0C 208 ACPrint
0C 209 ACProperties
0C 21A ACUndo
0C 21B ACCopy
0C 21C ACCut
0C 21D ACPaste
0C 21F ACFind
0C 221 Search ACSearch
0C 222 ACGoTo
0C 223 HomePage ACHome
0C 224 Back ACBack
0C 225 Forward ACForward
0C 226 StopLoading ACStop
0C 227 Refresh ACRefresh
0C 22A Bookmarks ACBookmarks
0C 22D ZoomIn ACZoomIn
0C 22E ZoomOut ACZoomOut
0C 22F ZoomReset ACZoom
0C 232 FullScreen ACViewToggle
0C 233 ScrollUp ACScrollUp
0C 234 ScrollDown ACScrollDown
0C 279 ACRedo
0C 289 Reply ACReply
0C 28B ForwardMessage ACForwardMsg
0C 28C Send ACSend
0C 29D NextKeyboardLayout ACNextKeyboardLayoutSelect
0C 29F ShowAllWindows ACDesktopShowAllWindows
0C 2A2 ShowAllApplications ACDesktopShowAllApplications
01 81 Power PowerDown SystemPowerDown
01 82 Sleep SystemSleep
01 83 WakeUp SystemWakeUp Wake
"""
