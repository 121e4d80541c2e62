"""Folders that a run writes: job, refit, proposal. Written aside, put in place when whole.

Start at `build.py` (the whole road of a job), then `folder.py`.
May import: papers, report, money, job and below.
"""
