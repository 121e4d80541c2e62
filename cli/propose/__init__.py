"""The search for a wheel run on a job: finalists laid on plates, cheaper steps, rows.

Start at `run.py`. What is looked for and how stands in `parts/propose`.
May import: report, money, job and below; neither terminal nor papers.
"""
