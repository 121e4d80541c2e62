"""The wheelset's bodies: what is turned, keyed and drilled, with volumes in closed form, and what
stands beside it for reference.

Start at `axle.py`. Own axes: axle = Z, +X up, as in `assembly.py`.
May import: wheelset and below.
"""
