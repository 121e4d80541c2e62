"""Numbers and results in words, the same for terminal, page and paper.

Start at `figures.py`.
May import: schema.
"""
