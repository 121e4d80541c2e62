"""The job sheet: the job for the person who builds it, section by section.

Start at `page.py`.
May import: html, charts, drawings; report, job, words, schema and below.
"""
