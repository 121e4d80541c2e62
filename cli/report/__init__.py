"""The rows of report.json, made from a job, its plan and its checks.

Start at `rows.py`.
May import: job, words, schema and below.
"""
