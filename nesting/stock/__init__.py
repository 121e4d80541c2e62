"""What is cut from and how: sheets, offcuts, bars, the cutting table, layouts as records.

Start at `layout.py`.
May import: nesting/geometry; parts: geometry, base.
"""
