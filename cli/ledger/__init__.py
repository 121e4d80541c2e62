"""The ledger of the steel on the rack: every piece by its name, and which job has it.

Start at `piece.py`, then `change.py`; `keep.py` writes it, one process at a time.
May import: work; of nesting stock, of parts base.
"""
