"""Cutting files: kerf, leads, tabs, order, time, marks and words, and the DXF itself.

Start at `part_cuts.py` (all cuts of a plate), then `write_dxf.py`.
May import: nesting: offcuts and below; parts: geometry, base.
"""
