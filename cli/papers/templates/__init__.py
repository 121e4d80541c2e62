"""What pages and papers look like: templates of jinja2 (.html) and Typst (.typ), styles, scripts.

Start at `page.html`, the frame of every page, and `tables.html`.
May import: nothing; `papers/html/render.py` and `papers/record_pdf.py` draw from these files.
"""
