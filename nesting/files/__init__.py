"""Cutting files: the DXF of a sheet or a blank, its layers and unit, what its proof is asked.

Start at `write_dxf.py`.
May import: nesting: cutting and below; parts: geometry, base.
"""
