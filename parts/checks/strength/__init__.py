"""Does the wheel hold: contact, discs, flange, hub, welds, and the load rating.

Each module ends in `CHECKS`, the questions that it answers.
May import: rating, setting, wheel and below.
"""
