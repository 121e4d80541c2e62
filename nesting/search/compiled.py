"""How the search is compiled: without the interpreter's lock, kept on disk between runs.

Our structures carry some twenty arrays; counting references to each of them at every call takes
most of the time, the more so with two threads at it. Functions that allocate nothing do without
(`leaf`); those that make arrays count them (`kernel`). A division by nothing gives an infinite
number as numpy's does: no test at each division.

The copy on disk goes by a name that holds a digest of all compiled files, as each function has
those it calls built in: a change in one makes all of them anew. It lies with the user's other
caches and not beside the sources, where pip would leave it behind; NUMBA_CACHE_DIR names another
place. Without a place for it, or where the copy is damaged or the disk full, they are made anew.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from functools import partial
from hashlib import sha256
from pathlib import Path
from typing import Any

from numba import config, njit
from numba.misc.appdirs import AppDirs

FILES = (
    "compiled.py",
    "depth.py",
    "distance.py",
    "edge_grid.py",
    "move.py",
    "separate.py",
    "shape.py",
)
_sources = [(Path(__file__).parent / name).read_bytes() for name in FILES]
DIGEST = sha256(b"".join(_sources)).hexdigest()[:12]
_caches = AppDirs("platewheel", appauthor=False).user_cache_dir
PLACE = config.CACHE_DIR or (_caches if Path(_caches).is_absolute() else "")  # not of no home


class _Copy:
    """The copy on disk of one function; without it all goes on."""

    def __init__(self, cache: Any) -> None:
        self._cache = cache

    def __getattr__(self, name: str) -> Any:
        return getattr(self._cache, name)

    def load_overload(self, *asked: Any) -> Any:
        """The machine code; None where there is none that can be read."""
        try:
            return self._cache.load_overload(*asked)
        except Exception:  # damaged pickles can fail in any way
            with suppress(Exception):
                self._cache.flush()
            return None

    def save_overload(self, *made: Any) -> None:
        """Keep the machine code where there is room."""
        with suppress(Exception):
            self._cache.save_overload(*made)


def _compiled(function: Callable[..., Any], **options: Any) -> Any:
    function.__qualname__ = f"{function.__name__}_{DIGEST}"
    compiled = partial(njit, nogil=True, error_model="numpy", **options)
    of_all, config.CACHE_DIR = config.CACHE_DIR, PLACE  # other users of numba keep their own
    try:
        made = compiled(cache=bool(PLACE))(function)
    except RuntimeError:  # no folder that may be written in: compiled anew each time
        return compiled()(function)
    finally:
        config.CACHE_DIR = of_all
    if not PLACE:
        return made
    if not Path(made._cache.cache_path).is_relative_to(PLACE):  # numba took the sources' own
        return compiled()(function)
    made._cache = _Copy(made._cache)
    return made


kernel = _compiled
leaf = partial(_compiled, _nrt=False)
