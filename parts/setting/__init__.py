"""What a wheel meets: track, wagon, finish, use, axle, shop and prices, as the job file says.

Start at `setting.py`: all that a check may ask about.
May import: wheel, geometry, base.
"""
