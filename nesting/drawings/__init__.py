"""A user's own parts read from DXF: runs, closed loops, outline and holes.

Start at `extra.py` (the job file's table), then `read.py`.
May import: nesting: stock, geometry; parts: geometry, base.
"""
