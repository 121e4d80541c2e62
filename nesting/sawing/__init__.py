"""Bar, pipe and axles cut to length with least stock, by integer programme.

Start at `cut_lengths.py`.
May import: nesting: stock, geometry; parts: geometry, base.
"""
