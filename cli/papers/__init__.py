"""Pages and drawings that a person reads and prints.

Start at `sheet/page.py` (the job), `propose_page.py`, `refit_page.py`, `record_pdf.py`.
May import: propose, compare, refit, report, money, words, schema and below; no terminal.
"""
