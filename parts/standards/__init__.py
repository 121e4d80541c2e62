"""A railway's own standards of track and wheel, each size with what it follows from and with what
published standards have.

Start at `rows.py`.
May import: checks and below.
"""
