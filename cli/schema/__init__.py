"""The records of report.json, as models; `platewheel schema` prints them.

Start at `report.py`.
May import: parts, nesting.
"""
