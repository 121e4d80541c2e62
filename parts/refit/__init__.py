"""Rings as they were rolled: which discs and flanges fit, which wheels share an axle.

Start at `plan.py`.
May import: making, checks and below.
"""
