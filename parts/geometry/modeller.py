"""The modeller behind cadquery: what it says of a file that it cannot write goes to stdout."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager


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
