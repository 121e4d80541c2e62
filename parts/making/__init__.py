"""How the wheel is made, as figures: tapes, tacks, weld metal, roundness, quantities.

Start at `figures.py`.
May import: checks and below.
"""
