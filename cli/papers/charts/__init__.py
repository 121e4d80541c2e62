"""Charts: stress, the window of flange angles, cost against strength, flare.

Start at `chart.py`, the frame of them all.
May import: drawings; parts, nesting.
"""
