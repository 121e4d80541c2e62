"""The modeller behind cadquery: what it says of a file that it cannot write goes to stdout, and it
knows no path but one of text."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


@contextmanager
def path_of_text(path: Path) -> Iterator[str]:
    """Where to have it write `path`: there, or where a folder on the way has a name of bytes that
    are no UTF-8, aside, from where the file is moved there. Raises: OSError."""
    try:
        str(path).encode()
    except UnicodeEncodeError:
        with tempfile.TemporaryDirectory(prefix="platewheel-") as aside:
            there = Path(aside, path.name)
            yield str(there)
            if there.is_file():
                shutil.move(there, path)
    else:
        yield str(path)


@contextmanager
def silent_modeller() -> Iterator[None]:
    """Within it nothing is said there: our own error tells it, and stdout may be JSON."""
    from OCP.Message import Message

    messenger = Message.DefaultMessenger_s()
    printers = list(messenger.Printers())
    for one in printers:
        messenger.RemovePrinter(one)
    try:
        yield
    finally:
        for one in printers:
            messenger.AddPrinter(one)
