"""A job that is sound but could not be finished."""

from __future__ import annotations

from platewheel.parts.base.faults import comes_whole


class NotFinished(Exception):  # noqa: N818 - named for what it tells
    """A job that is sound but could not be finished; `lines` says why and what to try.

    >>> NotFinished(["no room for 2 of disc"]).lines
    ['no room for 2 of disc']
    """

    def __init__(self, lines: list[str]) -> None:
        self.lines = lines
        super().__init__("\n".join(lines))

    __reduce__ = comes_whole
