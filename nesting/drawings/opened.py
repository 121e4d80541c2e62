"""A DXF file opened: found, small enough, read in whatever letters it is written, and its unit."""

from __future__ import annotations

import codecs
import re
from io import StringIO
from pathlib import Path
from typing import Any, Literal

from platewheel.nesting.drawings.closed_loops import Wrong
from platewheel.nesting.drawings.counted import MOST_ENTITIES, entities_in_text

Unit = Literal["file", "mm", "cm", "m", "inch"]
UNITS_MM: dict[str, float] = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "inch": 25.4}
INSUNITS = {1: "inch", 4: "mm", 5: "cm", 6: "m"}  # Source: DXF reference, $INSUNITS
MOST_BYTES = 40_000_000
A_DXF = "a DXF drawing of one flat part"
NO_FILE = "a path from the job file's folder; no such file is there"
# First bytes that tell how a text is written. Source: Unicode Standard, 23.8, byte order mark
MARKED = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
# The section HEADER begins, comments (999) passed over; a code of the binary form is 1 or 2 bytes
_HEADER = re.compile(
    rb"SECTION\s+(?:999[ \t]*[\r\n]+[^\r\n]*[\r\n]+[ \t]*)*2\s+HEADER\s"
    rb"|SECTION\x00\x02\x00?HEADER\x00"
)
_SPELT = re.compile(r"\\U\+([0-9A-Fa-f]{4})")


class Refused(Exception):  # noqa: N818 - a signal inside the reading, not an error
    """What is wrong with the drawing as a whole."""

    def __init__(self, allowed: str, advice: str) -> None:
        self.wrong: Wrong = (allowed, advice)


def opened(path: Path) -> Any:
    """The drawing in a DXF file; one without a header names no unit. Raises: Refused."""
    try:
        if not path.exists():
            raise Refused(A_DXF, NO_FILE)
        if not path.is_file():
            raise Refused(A_DXF, "name a file: this is none")
        size = path.stat().st_size
        if size == 0:
            raise Refused(A_DXF, "save the drawing again: the file is empty")
        if size > MOST_BYTES:
            allowed = f"a drawing of at most {MOST_BYTES} bytes; it has {size}"
            raise Refused(allowed, "save the one part alone")
        return _read(path)
    except Refused:
        raise
    except PermissionError as error:
        raise Refused(A_DXF, "a file that may be read") from error
    except Exception as error:  # a damaged file can upset the reader in any way
        if isinstance(error, OSError) and error.errno:  # a name too long for any file, a bad disk
            raise Refused(A_DXF, f"{NO_FILE}: {error.strerror}") from error
        advice = "save it as DXF (R12, or R2000 and later); the file cannot be read as one"
        raise Refused(A_DXF, advice) from error


def with_letters(text: str) -> str:
    """A text of the drawing, each letter that is spelt out as itself. Source: DXF reference,
    strings of drawings before 2007; some writers have small hex digits.

    >>> with_letters("pl\\U+00e1t")
    'plát'
    """
    return _SPELT.sub(lambda found: chr(int(found[1], 16)), text)


def _read(path: Path) -> Any:
    import ezdxf

    data = path.read_bytes()
    written = next((way for mark, way in MARKED if data.startswith(mark)), None)
    if written is None:
        require_few(entities_in_text(data))
        drawing = ezdxf.readfile(path)
    else:
        text = data.decode(written)
        data = text.encode()
        require_few(entities_in_text(data))
        drawing = ezdxf.read(StringIO(text.replace("\r\n", "\n")))
    if not _HEADER.search(data):  # the library then makes a header of its own, in metres
        drawing.header["$INSUNITS"] = 0
    return drawing


def unit_of(drawing: Any, unit: Unit) -> tuple[float, list[str]]:
    """One unit of the drawing in mm, and what was assumed. Raises: Refused."""
    if unit != "file":
        return UNITS_MM[unit], []
    code = drawing.header.get("$INSUNITS", 0)
    if code == 0:
        return 1.0, ["the drawing names no unit: taken as mm"]
    if code not in INSUNITS:
        raise Refused(
            f"a drawing in mm, cm, m or inches; its $INSUNITS is {code}",
            "draw it in mm, or say its unit with the key unit",
        )
    return UNITS_MM[INSUNITS[code]], []


def require_few(count: int) -> None:
    """Raises: Refused for more entities than any drawing of a part has."""
    if count > MOST_ENTITIES:
        allowed = f"at most {MOST_ENTITIES} entities, those of blocks counted; there are {count}"
        raise Refused(allowed, "save the one part alone")
