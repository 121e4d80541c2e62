"""How pages are made: templates filled, words about offcuts.

Start at `render.py`.
May import: templates, charts, drawings; words, work, schema.
"""
