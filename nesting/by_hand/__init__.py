"""A plate cut by hand: rows and columns, the straight cuts between them, how holes are made.

Start at `fill.py`, then `straight_cuts.py`, `hole_ways.py`.
May import: nesting: stock, geometry; parts: geometry, base.
"""
