"""How a long calculation tells what it does now, whoever listens."""

from __future__ import annotations

from typing import Protocol


class Steps(Protocol):
    """Tells what is being done now."""

    def __call__(self, text: str) -> None: ...
