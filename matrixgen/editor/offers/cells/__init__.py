"""What a key may do, the likeliest first.

Each file here knows one kind of reason why a word is likely, and yields words with votes; the votes
of a word are added up (`likely.py`). Words are compared by what they send (`sent.py`), whatever
spelling the file has for that.
"""
