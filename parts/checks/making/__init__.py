"""Can it be made here: rolled, cut, fitted, and each joint reached with a torch.

Each module ends in `CHECKS`, the questions that it answers.
May import: setting, wheel and below.
"""
