"""A refit of a job: rings.csv read and written, rows of the record. The plan is in `parts/refit`.

Start at `rows.py`.
May import: report, job and below; neither terminal nor papers.
"""
