"""What one newton does to the welded wheel: its section meshed, loads as Fourier series, stress.

Start at `response.py` (unit loads solved once), then `turn.py` (one turn of the wheel).
May import: setting, wheel, geometry, base.
"""
