"""How the search is compiled: without the interpreter's lock, kept on disk between runs.

Our structures carry some twenty arrays; counting references to each of them at every call takes
most of the time, the more so with two threads at it. Functions that allocate nothing do without
(`leaf`); those that make arrays count them (`kernel`). A division by nothing gives an infinite
number as numpy's does: no test at each division.

The copy on disk goes by the date of the file a function stands in: touch `separate.py` when
what it calls has changed.
"""

from __future__ import annotations

from typing import Any

from numba import njit

kernel: Any = njit(cache=True, nogil=True, error_model="numpy")
leaf: Any = njit(cache=True, nogil=True, error_model="numpy", _nrt=False)
