"""One plate drawn for the machine, in millimetres of paper: lines, and where its numbers stand.

Start at `picture.py`, then `numbers.py`.
May import: nesting and parts.
"""
