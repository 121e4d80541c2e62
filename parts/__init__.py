"""The wheel as an engineered thing: what it is, whether it holds, how it is made.

Knows nothing of sheets, papers or files other than STEP. Start at `wheel/spec.py`.
May import: nothing of platewheel but itself; its rooms one way, as `.importlinter` says.
"""
