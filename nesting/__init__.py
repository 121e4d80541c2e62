"""Blanks laid on steel and on paper: plans, cutting files, templates, saw lists. Knows no wheel.

Start at `stock/layout.py` (the records), then `search/nest.py`.
May import: of parts only geometry and base; its rooms one way, as `.importlinter` says.
"""
