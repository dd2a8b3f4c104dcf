"""The keys of the keyboard page: number, word, other words that mean the same.

Source: USB HID Usage Tables 1.12, section 10, "Keyboard/Keypad Page (0x07)". The word is the
table's name in one piece, without its "Keyboard". The other words stand on ordinary keycaps. Where
a keycap's word is the table's name for a second, rare usage, the keycap has it and the rare usage
keeps the table's name in full (`KeyboardReturn`, `KeyboardMenu`); so do the four whose word is a
media key's (`KeyboardPower`, `KeyboardMute`; `media_table.py`). `KP` for the keypad is how X11
(keysymdef.h, `XK_KP_7`) and Linux (input-event-codes.h, `KEY_KP7`) begin the names of its keys.

The numbers 0xB0 to 0xDD are from memory of that table: hid-tools and the Linux kernel, which the
tests compare with, know no names for them (the kernel maps 0xB6, 0xB7 and 0xD8).
"""

FIRST_LETTER = 0x04
LETTERS_AND_DIGITS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ1234567890"

TABLE = """
28 Enter Return
29 Escape Esc
2A Backspace
2B Tab
2C Space Spacebar
2D Minus -
2E Equal Equals
2F LeftBracket [
30 RightBracket ]
31 Backslash \\
32 NonUSHash
33 Semicolon ;
34 Apostrophe ' Quote
35 Grave ` GraveAccent
36 Comma
37 Period . Dot
38 Slash /
39 CapsLock Caps
3A F1
3B F2
3C F3
3D F4
3E F5
3F F6
40 F7
41 F8
42 F9
43 F10
44 F11
45 F12
46 PrintScreen PrtSc PrtScn Print
47 ScrollLock ScrLk
48 Pause Break
49 Insert Ins
4A Home
4B PageUp PgUp
4C Delete Del
4D End
4E PageDown PgDn PgDown
4F RightArrow Right
50 LeftArrow Left
51 DownArrow Down
52 UpArrow Up
53 NumLock NumLk
54 KeypadSlash KPDivide KPSlash
55 KeypadAsterisk KPMultiply KPAsterisk
56 KeypadMinus KPSubtract KPMinus
57 KeypadPlus KPAdd KPPlus
58 KeypadEnter KPEnter
59 Keypad1 KP1
5A Keypad2 KP2
5B Keypad3 KP3
5C Keypad4 KP4
5D Keypad5 KP5
5E Keypad6 KP6
5F Keypad7 KP7
60 Keypad8 KP8
61 Keypad9 KP9
62 Keypad0 KP0
63 KeypadPeriod KeypadDot KPDecimal KPPeriod KPDot
64 NonUSBackslash
65 Application Menu
66 KeyboardPower
67 KeypadEqual KeypadEquals KPEqual
68 F13
69 F14
6A F15
6B F16
6C F17
6D F18
6E F19
6F F20
70 F21
71 F22
72 F23
73 F24
74 Execute
75 Help
76 KeyboardMenu
77 Select
78 Stop
79 Again
7A Undo
7B Cut
7C Copy
7D Paste
7E Find
7F KeyboardMute
80 KeyboardVolumeUp
81 KeyboardVolumeDown
82 LockingCapsLock
83 LockingNumLock
84 LockingScrollLock
85 KeypadComma KPSeparator KPComma
86 KeypadEqualSign
87 International1
88 International2
89 International3
8A International4
8B International5
8C International6
8D International7
8E International8
8F International9
90 LANG1
91 LANG2
92 LANG3
93 LANG4
94 LANG5
95 LANG6
96 LANG7
97 LANG8
98 LANG9
99 AlternateErase
9A SysReq Attention
9B Cancel
9C Clear
9D Prior
9E KeyboardReturn
9F Separator
A0 Out
A1 Oper
A2 ClearAgain
A3 CrSel Props
A4 ExSel
B0 Keypad00
B1 Keypad000
B2 ThousandsSeparator
B3 DecimalSeparator
B4 CurrencyUnit
B5 CurrencySubunit
B6 KeypadLeftParenthesis
B7 KeypadRightParenthesis
B8 KeypadLeftBrace
B9 KeypadRightBrace
BA KeypadTab
BB KeypadBackspace
BC KeypadA
BD KeypadB
BE KeypadC
BF KeypadD
C0 KeypadE
C1 KeypadF
C2 KeypadXOR
C3 KeypadCaret
C4 KeypadPercent
C5 KeypadLess
C6 KeypadGreater
C7 KeypadAmpersand
C8 KeypadDoubleAmpersand
C9 KeypadBar
CA KeypadDoubleBar
CB KeypadColon
CC KeypadHash
CD KeypadSpace
CE KeypadAt
CF KeypadExclamation
D0 KeypadMemoryStore
D1 KeypadMemoryRecall
D2 KeypadMemoryClear
D3 KeypadMemoryAdd
D4 KeypadMemorySubtract
D5 KeypadMemoryMultiply
D6 KeypadMemoryDivide
D7 KeypadPlusMinus
D8 KeypadClear
D9 KeypadClearEntry
DA KeypadBinary
DB KeypadOctal
DC KeypadDecimal
DD KeypadHexadecimal
E0 LeftControl Ctrl Control LeftCtrl
E1 LeftShift Shift
E2 LeftAlt Alt Option
E3 LeftGUI GUI Command
E4 RightControl RightCtrl
E5 RightShift
E6 RightAlt AltGr
E7 RightGUI
"""
