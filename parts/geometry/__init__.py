"""Lines, arcs, flat blanks, sections and solids: shapes that know no wheel. mm.

Start at `blank.py`: a flat part as true arcs and lines.
May import: base.
"""
