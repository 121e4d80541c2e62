"""Does the axle hold: bending, cracks, bearings and bushes, and what keeps the wheels on.

Each module ends in `CHECKS`, the questions that it answers.
May import: strength, wheelset, rating and below.
"""
