"""A plan at once: no-fit polygons, rows of discs, parts in parts, a bound that none can beat.

Start at `greedy.py`.
May import: nesting: stock, geometry; parts: geometry, base.
"""
