" Colours of .keys files. Made by tests/editor/grammars.py from keys.lark.
if exists("b:current_syntax")
  finish
endif
syntax iskeyword @,48-57,_,-,192-255
syntax sync fromstart
syntax match keysComment /#.*$/ contains=@Spell
syntax region keysText start=/"/ skip=/\\./ end=/"/ oneline
syntax match keysNumber /\%(^\|[ \t,~:]\)\@<=-\?\d\+\%(\.\d\+\)\?\>/ contained
syntax match keysLeftAlone /\~/ contained
syntax region keysKeyboard matchgroup=keysBlock start=/^keyboard\>/ end=/^\ze[^ \t#]/ contains=keysComment,keysText,keysNumber,keysLeftAlone,keysKeyboardStatement,keysKeyboardWord
syntax keyword keysKeyboardWord and double second within after lasts press reset steps base ms on to a contained
syntax match keysKeyboardStatement /^\s\+\zs\%(controller\|debounce\|maker\|usb\|boot-loader\|once\|hold\|roll\|computer\|pace\|together\|remember\|pointer\|wheel\|allow\)\>/ contained
highlight default link keysKeyboardStatement Statement
highlight default link keysKeyboardWord Keyword
syntax region keysPlate matchgroup=keysBlock start=/^plate\>/ end=/^\ze[^ \t#]/ contains=keysComment,keysText,keysNumber,keysLeftAlone,keysPlateStatement,keysPlateWord
syntax keyword keysPlateWord and stabilizer mirrors margin radius turned about clear down from none for at in mm to x contained
syntax match keysPlateStatement /^\s\+\zs\%(line\|cluster\|hole\|keep\|controller\|outline\|cut-out\|thickness\|stabiliser\|light\|knob\)\>/ contained
highlight default link keysPlateStatement Statement
highlight default link keysPlateWord Keyword
syntax region keysWiring matchgroup=keysBlock start=/^wiring\>/ end=/^\ze[^ \t#]/ contains=keysComment,keysText,keysNumber,keysLeftAlone,keysWiringStatement,keysWiringWord
syntax keyword keysWiringWord and columns ground states supply toward diode sense while band rows step wire with and are at is on to us µs μs a contained
syntax match keysWiringStatement /^\s\+\zs\%(drive\|diodes\|without\|reversed\|settle\|row\|column\|light\|knob\)\>/ contained
highlight default link keysWiringStatement Statement
highlight default link keysWiringWord Keyword
syntax region keysActions matchgroup=keysBlock start=/^actions\>/ end=/^\ze[^ \t#]/ contains=keysComment,keysText,keysNumber,keysLeftAlone,keysActionsStatement,keysActionsWord
syntax keyword keysActionsWord and nothing release unlatch change layers loader second within after first latch layer other press start third usage base boot hand hold once roll then time type wait with tap by ms to contained
highlight default link keysActionsWord Keyword
syntax region keysLayer matchgroup=keysBlock start=/^layer\>/ end=/^\ze[^ \t#]/ contains=keysComment,keysText,keysNumber,keysLeftAlone,keysLayerStatement,keysLayerWord
syntax keyword keysLayerWord and nothing release unlatch change layers loader second within after first latch other press start third usage while base boot hand hold once roll then time type wait with and are tap by ms on to contained
syntax match keysLayerStatement /^\s\+\zs\%(together\)\>/ contained
highlight default link keysLayerStatement Statement
highlight default link keysLayerWord Keyword
highlight default link keysComment Comment
highlight default link keysText String
highlight default link keysNumber Number
highlight default link keysLeftAlone Special
highlight default link keysBlock Structure
let b:current_syntax = "keys"
