"""The last word on a layout, on true arcs; of the search's code only outlines and exact gaps.

Start at `verify.py`.
May import: nesting: stock, geometry; parts: geometry, base.
"""
