"""What is left of a plate: remnants to keep, skeleton to cut up, the file for the next job.

Start at `remnant.py`.
May import: nesting: stock, geometry; parts: geometry, base.
"""
