"""The bench sheet: pictures of a keyboard to wire it by, lists, and the page that holds them."""

from matrixgen.emit.sheet.contents import Sheet
from matrixgen.emit.sheet.of_keyboard import sheet_of
from matrixgen.emit.sheet.page import page
from matrixgen.emit.sheet.pictures import back_svg, board_svg, front_svg
