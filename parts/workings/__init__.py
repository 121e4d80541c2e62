"""How each check came to its numbers: the formulas, read off the code that judged by them.

Start at `of_checks.py`. Nothing here knows a formula: `reader.py` follows the functions themselves.
May import: checks, wheelset, rating and below.
"""
