"""What a wheel is: its dimensions, what must hold between them, each part as solid and blank.

Start at `spec.py`, then `assembly.py`, which gathers the parts.
May import: geometry, base.
"""
