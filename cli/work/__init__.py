"""A long calculation: on other cores, telling how far it is, or not to be finished.

Start at `beside.py`.
May import: nothing of cli.
"""
