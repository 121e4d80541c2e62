"""How much load the welded wheel takes: limits from its stresses, the loads of a life, the rating.

Start at `assess.py` (new and worn), then `rate.py` (the least of all limits).
May import: stress, loads, setting, wheel, geometry, base.
"""
