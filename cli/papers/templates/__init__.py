"""What pages and papers look like: templates of jinja2 (.html) and Typst (.typ), styles, scripts.

Start at `page.html`, the frame of every page, and `tables.html`.
May import: nothing; `html/render.py` and `typeset.py` fill them.
"""
