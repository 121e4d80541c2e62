"""From track and load to a wheel: choices, screening, few analyses, what to change.

Start at `choices.py`, then `sifting.py` and `rate_until_known.py`.
May import: all rooms of parts but refit.
"""
