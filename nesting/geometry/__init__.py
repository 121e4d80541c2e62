"""Exact gaps, trimmed paths, facets that never hide an overlap: shapes for laying. mm.

Start at `gaps.py`: distances of true arcs and lines, nothing sampled. Words to mark on steel are
strokes of `stroke_words.py`.
May import: parts: geometry, base.
"""
