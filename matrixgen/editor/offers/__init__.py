"""What may be written where the cursor stands, the likeliest first.

The grammar says which words and which kinds of names can come; each kind has its own way to say
which of its names are likely. A kind that has none, such as one that the grammar got later, is
offered as it stands elsewhere in the file and in the forms of statements.
"""

from matrixgen.editor.offers.all import offers_at
from matrixgen.editor.offers.offer import Offer
