"""The shop's own measuring plates, cut along with the wheel: shapes, sizes, how each is used.

Start at `wanted.py`.
May import: checks and below.
"""
