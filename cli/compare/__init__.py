"""Two jobs side by side: keys, figures, checks, and which is better where.

Start at `run.py`.
May import: report, money, job and below; neither terminal nor papers.
"""
