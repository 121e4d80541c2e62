"""Two wheels on their axle: lengths, diameters, fits, bearings, what holds the wheels.

Start at `assembly.py`. Formulas of axle and bearings stand here, their limits in `checks`.
May import: setting, wheel, geometry, base.
"""
