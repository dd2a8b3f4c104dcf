"""A keyboard that is played without hardware: the model of `behaviour/`, with a clock and words.

`script.py` reads what fingers do, `plan.py` puts it in time, `rehearsal.py` lets it happen, and
`happening.py` has what comes of it. Nothing is imported here, so that the pages of `problems/` cost
a check nothing else.
"""
