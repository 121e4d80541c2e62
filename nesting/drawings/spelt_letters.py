"""Letters that older DXF drawings spell out (`\\U+010D`) in names of layers and in words."""

from __future__ import annotations

import re

_SPELT = re.compile(r"\\U\+([0-9A-Fa-f]{4})")


def with_letters(text: str) -> str:
    """The text with each letter that is spelt out as itself. Source: DXF reference, strings of
    drawings before 2007; some writers have small hex digits.

    >>> with_letters("pl\\\\U+00e1t")
    'plát'
    """
    return _SPELT.sub(lambda found: chr(int(found[1], 16)), text)
