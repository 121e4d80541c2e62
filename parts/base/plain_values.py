"""What no key means, whatever its range: numbers out of all measure, names that no file can have.

Told of what a person writes, not of records that are computed: there a rest of 1e-17 is nothing.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping
from typing import Any

from platewheel.parts.base.faults import Fault
from platewheel.parts.base.spec_model import Spec, advised, allowed

LEAST, MOST = 1e-6, 1e12  # in the units of keys: a thousandth of a micrometre, a million km
# Source: Unicode Standard, 4.5, general categories: controls, marks of format (turns and what has
# no width), halves of letters, letters of nobody or not yet given, ends of lines and paragraphs
HIDDEN = ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")
# Source: Unicode Character Database, DerivedCoreProperties.txt, Default_Ignorable_Code_Point, what
# of it has another category; and the empty cell of braille, which is drawn as a blank
BLANK = re.compile(
    "[\u034f\u115f\u1160\u17b4\u17b5\u180b-\u180f\u2800\u3164\ufe00-\ufe0f\uffa0\U000e0100-\U000e01ef]"
)
# Source: Microsoft, "Naming files, paths, and namespaces": kept for devices, with any ending too
DEVICE = re.compile(r"(con|prn|aux|nul|conin\$|conout\$|(com|lpt)[0-9¹²³])\s*(\..*)?", re.I)
HIDES = "text without marks that cannot be seen (line ends, bells, turns, letters of no width)"
NAME = "a name that every system can give a file: no CON, AUX, NUL ..., no '.' or blank at an end"


def odd_values(kind: type[Spec], table: Mapping[str, Any]) -> Iterator[Fault]:
    """Faults of a section as it is written, beside those of its keys' types and ranges."""
    for key, value in table.items():
        field = kind.model_fields.get(key)
        if field is None:
            continue
        for one in _all(value):
            if isinstance(one, str) and any(_hidden(mark) for mark in one):
                takes = f"{HIDES}; {hidden_mark(one)}"
                yield Fault(key, value, takes, "write it anew by hand")
                break
            if isinstance(one, int | float) and one and not LEAST <= abs(one) <= MOST:
                takes = f"{allowed(key, field)}, 0 or between {LEAST:g} and {MOST:g}"
                yield Fault(key, one, takes, advised(key, field, value))
                break


def name_rule(v: Any) -> Iterator[Fault]:
    """A rule of a `Spec` with a `name`."""
    if DEVICE.fullmatch(v.name) or v.name != v.name.strip() or v.name.endswith("."):
        yield Fault("name", v.name, NAME, f'name = "{_mended(v.name)}"')


def unseen(text: str) -> tuple[str, ...]:
    """Marks of a text that cannot be seen, such as line ends, bells and turns, each once."""
    return tuple(dict.fromkeys(mark for mark in text if _hidden(mark)))


def without_unseen(text: str) -> str:
    """The text without them: what a drawing or a paper may bear."""
    return "".join(mark for mark in text if not _hidden(mark))


def _mended(name: str) -> str:
    bare = "".join(mark for mark in name if not _hidden(mark)).strip(" .") or "piece"
    return f"{bare.split('.')[0].strip()}-1" if DEVICE.fullmatch(bare) else bare


def _hidden(mark: str) -> bool:
    return unicodedata.category(mark) in HIDDEN or bool(BLANK.match(mark))


def hidden_mark(text: str) -> str:
    """The first mark that cannot be seen, and where: nobody finds it by looking."""
    at, mark = next((at, mark) for at, mark in enumerate(text, 1) if _hidden(mark))
    name = unicodedata.name(mark, "")
    return f"letter {at} is U+{ord(mark):04X}" + (f" ({name})" if name else "")


def _all(value: Any) -> Iterator[Any]:
    if isinstance(value, list | tuple):
        for one in value:
            yield from _all(one)
    else:
        yield value
