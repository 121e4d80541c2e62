"""The last word on a cutting file: read back and proved by code that had no share in it.

Start at `cuts.py`.
May import: nesting: stock; parts: geometry, base.
"""
