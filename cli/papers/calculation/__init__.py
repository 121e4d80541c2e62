"""The calculation for whoever signs: formulas with their numbers, tables, what is from memory.

May import: drawings, charts, report, words and below.
"""
