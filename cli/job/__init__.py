"""The job file read, checked, written anew; its blanks, wheelset and plan on the stock.

Start at `job.py`, then `plan.py`.
May import: ledger, words, work, schema; nesting, parts.
"""
