"""How pages look: style, tables, the view that turns, words about offcuts.

Start at `style.py`.
May import: charts, drawings; words, schema.
"""
