"""The commands: read, call, write, report.

Start at `main.py`.
May import: all rooms of cli.
"""
