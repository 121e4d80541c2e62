"""A user's own parts read from DXF: runs, closed loops, outline and holes, held against the kerf.

Start at `extra.py` (the job file's table), then `read.py`; `kerf_fit.py` for what the cut cannot
follow. May import: nesting: stock, geometry; parts: geometry, base.
"""
