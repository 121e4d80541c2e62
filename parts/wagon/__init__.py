"""The wagon on its track as numbers: pulling, rolling away, braking, curving, tipping.

Start at `numbers.py`. Limits on them stand in `checks/running`.
May import: wheelset, rating, setting and below.
"""
