"""The analysis on one core: of several, most of the time would go into waiting for each other.

Its matrices are small: with a thread for each core the linear algebra takes three times as much
of the processor and is no sooner done, and takes from the nest that is searched for beside it.
"""

from __future__ import annotations

from contextlib import ContextDecorator
from threading import Lock
from typing import Any


class OneCore(ContextDecorator):
    """Holds the linear algebra of this process on one core while any function that it decorates
    runs, in whatever thread; what was set before is set again when the last of them ends."""

    def __init__(self) -> None:
        self._lock, self._inside = Lock(), 0
        self._limits: Any = None

    def __enter__(self) -> None:
        import scipy.sparse.linalg  # noqa: F401 - only what is loaded can be limited
        from threadpoolctl import threadpool_limits  # type: ignore[import-untyped]

        with self._lock:
            if not self._inside:
                self._limits = threadpool_limits(limits=1)
            self._inside += 1

    def __exit__(self, *raised: object) -> None:
        with self._lock:
            self._inside -= 1
            if not self._inside:
                self._limits.restore_original_limits()


one_core = OneCore()
