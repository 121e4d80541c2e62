"""Drawings of wheel, wheelset, steps and plates: SVG lines, shaded pictures, a turning view.

Start at `section.py`.
May import: parts, nesting.
"""
