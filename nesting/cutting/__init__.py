"""How a plate is cut: kerf, leads, tabs, order, time, marks and words.

Start at `part_cuts.py`: all cuts of a plate.
May import: nesting: offcuts and below; parts: geometry, base.
"""
