"""The last word on a layout, on true arcs, by code that the search does not use.

Start at `verify.py`.
May import: nesting: stock, geometry; parts: geometry, base.
"""
