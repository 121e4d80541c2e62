"""Whether the wheel may be built and used: a module a question, each answer with its source.

Start at `run.py` (of the wheel) and `run_wheelset.py` (of the axle); `result.py` is an answer.
May import: wagon, rating, wheelset and below; its rooms know `result` and `trying`,
running and wheelset also strength.
"""
