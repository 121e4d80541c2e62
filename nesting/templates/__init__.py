"""Full-size paper templates: pages, drawing, marking out, notes, strips, one PDF each.

Start at `sets.py`, then `pdf.py`.
May import: nesting: stock, geometry; parts: geometry, base.
"""
