"""The steps to build a wheel, in order, in words with figures, sequences and cautions.

Start at `build_steps.py`; a step is a record of `step.py`.
May import: making, checks and below.
"""
