"""The plan looked for: overlap taken away move by move, patterns mixed, the last plate compacted.

Start at `nest.py` (the one entry), then `best_plan.py`.
May import: nesting: quick, verify, stock, geometry; parts: geometry, base.
"""
