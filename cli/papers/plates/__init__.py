"""What the page of a plate says to the one who cuts it: figures, legend, warnings, boxes to tick.

Start at `figures.py`, then `legend.py`, `beside.py`.
May import: drawings and html of the papers; report, job, words and below.
"""
