"""What the terminal shows, options that commands share, exit codes.

Start at `show.py`.
May import: propose, compare, refit, words, schema and below; no papers.
"""
