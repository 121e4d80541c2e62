"""What every room may know: faults, typed keys with ranges, units, steel, ways of cutting.

Start at `faults.py`: how a bad input is told.
May import: nothing.
"""
