"""Values and tables in words, the same for terminal, page and paper.

Start at `values.py`, then `table.py`.
May import: schema, ledger; of parts only base.
"""
