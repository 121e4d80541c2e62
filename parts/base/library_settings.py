"""A library's own settings in the home or the working folder are not read: they are not the job's.

The one that writes DXF looks for files of settings and for a list of fonts while it is loaded, and
cannot be loaded where it may not look. One such file, of other work, would change the files of a
job. Another library loads it too, so it is met where it is loaded, whoever asks.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from importlib.machinery import ModuleSpec, PathFinder, SourceFileLoader
from types import ModuleType
from typing import Any

READ_BY = ("ezdxf._options", "ezdxf.fonts.fonts")
SETTINGS = "ezdxf.ini"
FONTS = "font_manager_cache.json"  # of the library itself, made anew where it cannot be read
VARIABLES = ("EZDXF_CONFIG_FILE", "EZDXF_DISABLE_C_EXT", "EZDXF_TEST_FILES")


class _Finder:
    """Finds those modules where they are, to be loaded without settings."""

    @classmethod
    def find_spec(
        cls, name: str, path: Sequence[str] | None = None, target: ModuleType | None = None
    ) -> ModuleSpec | None:
        if name not in READ_BY:
            return None
        spec = PathFinder.find_spec(name, path, target)
        if spec is not None and isinstance(spec.loader, SourceFileLoader):
            spec.loader = _Loader(spec.loader.name, spec.loader.path)
        return spec


class _Loader(SourceFileLoader):
    def exec_module(self, module: ModuleType) -> None:
        with _without_settings():
            super().exec_module(module)


def leave_settings_alone() -> None:
    """From here on in this process; once is enough."""
    if _Finder not in sys.meta_path:
        sys.meta_path.insert(0, _Finder)


@contextmanager
def _without_settings() -> Iterator[None]:
    """What reads settings finds none; what cannot be looked for is not there."""
    import json
    import os
    from configparser import ConfigParser
    from pathlib import Path

    exists: Any = Path.exists

    def there(self: Path, **how: bool) -> bool:  # `follow_symlinks` from Python 3.12 on
        try:
            if self.name == FONTS:
                json.loads(self.read_bytes())  # a broken one stops the library
            return self.name != SETTINGS and bool(exists(self, **how))
        except (OSError, ValueError):
            return False

    said = {name: os.environ.pop(name) for name in VARIABLES if name in os.environ}
    Path.exists = there  # type: ignore[method-assign]
    ConfigParser.read = lambda *_, **__: []  # type: ignore[method-assign]
    try:
        yield
    finally:
        Path.exists = exists  # type: ignore[method-assign]
        del ConfigParser.read
        os.environ.update(said)
