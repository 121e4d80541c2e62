"""How much load the welded wheel takes: stress analysis, limits, the load that they allow.

Start at `assess.py` (new and worn), then `rate.py` (the least of all limits).
May import: setting, wheel, geometry, base.
"""
