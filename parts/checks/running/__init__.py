"""Does the wheel stay on: play, curves, climbing, rough track, crossings, speed, brakes.

Each module ends in `CHECKS`, the questions that it answers.
May import: strength, wagon and below.
"""
