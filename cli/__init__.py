"""The command line and all that a person reads. No formula here, and no geometry but of a page.

Start at `commands/main.py`.
May import: parts, nesting; its rooms one way, as `.importlinter` says.
"""
