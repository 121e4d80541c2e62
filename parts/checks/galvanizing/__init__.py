"""Can it be galvanized: hollows, vents, thicknesses, coating and its life.

Each module ends in `CHECKS`, the questions that it answers.
May import: setting, wheel and below.
"""
