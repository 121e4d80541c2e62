"""When two names chalked on steel are one."""

from __future__ import annotations

import unicodedata


def as_called(name: str) -> str:
    """The name as people compare it: `Rest 3` is `rest3`, capitals and blanks aside."""
    return "".join(unicodedata.normalize("NFKC", name).casefold().split())
