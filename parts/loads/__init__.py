"""What the track does to a wheel: twist, joints, curves, and all of it along the way.

Start at `wheel_load.py` (the greatest load) and `spectrum.py` (every load, how often).
May import: setting, wheel, geometry, base.
"""
