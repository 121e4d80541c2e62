"""The records of report.json, as models, and the sections of a job file, as specs of their keys.

Start at `report.py` and `job_sections.py`; `platewheel schema` prints the first.
May import: parts, nesting.
"""
