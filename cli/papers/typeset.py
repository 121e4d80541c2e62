"""A PDF made by Typst from a template and data; a template that somebody broke is told."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from functools import cache
from typing import TYPE_CHECKING, Any

from platewheel.cli.papers.templates.place import TEMPLATES
from platewheel.cli.work.not_finished import NotFinished

if TYPE_CHECKING:
    from typst import TypstError, TypstWarning

WRITTEN_S = 0  # the time in the file, since 1970: the same data give the same bytes
# ISO 19005-2, level A: to be kept, all fonts inside, tagged so that a reading program follows
STANDARD = "a-2a"
NO_FONT = "unknown font family"
NO_LETTER = re.compile(r"the text `\"(.+?)\"` could not be displayed with")


def typeset(
    template: str, data: Mapping[str, object], pictures: Mapping[str, str] | None = None
) -> bytes:
    """The PDF; the template reads its data from data.json, as text and never as Typst, and its
    pictures (SVG) by their names. It may import the other templates.

    Fonts are those that come with Typst, so that every machine sets the same page; a letter that
    none of them has, as in a name chalked in another script, stands there by its number, [U+5B57].
    Raises: NotFinished by file and line where a template is broken, or asks for another font.
    """
    sources = {file.name: file.read_bytes() for file in TEMPLATES.glob("*.typ")}
    sources["main.typ"] = sources.pop(template)
    sources["data.json"] = json.dumps(data, ensure_ascii=False).encode()
    sources |= {name: svg.encode() for name, svg in (pictures or {}).items()}
    made, warnings = _compiled(sources, template)
    fonts = [_told(one, template) for one in warnings if one.message.startswith(NO_FONT)]
    if fonts:
        names = ", ".join(sorted(_fonts().families()))
        raise NotFinished([f"{line}; there are {names}" for line in fonts])
    return made


def _compiled(
    sources: dict[str, bytes], template: str, known: frozenset[str] = frozenset()
) -> tuple[bytes, list[TypstWarning]]:
    """Once more without the letters that no font has, where it is they that are refused."""
    import typst

    try:
        # its stubs lack sources by name
        made, warnings = typst.compile_with_warnings(  # type: ignore[call-overload]
            sources, font_paths=_fonts(), timestamp=WRITTEN_S, pdf_standards=STANDARD
        )
    except typst.TypstError as error:
        without = {mark for text in NO_LETTER.findall(_full(error)) for mark in _letters(text)}
        if not without - known:
            raise NotFinished([_told(error, template)]) from error
    else:
        assert isinstance(made, bytes)
        return made, warnings
    numbers = str.maketrans({mark: f"[U+{ord(mark):04X}]" for mark in without})
    given = {
        name: made if name.endswith(".typ") else made.decode().translate(numbers).encode()
        for name, made in sources.items()
    }
    return _compiled(given, template, known | without)


def _letters(text: str) -> str:
    """What stands between the quotes of a message: some by their numbers."""
    plain = re.sub(r"\\u\{([0-9a-f]+)\}", lambda found: chr(int(found[1], 16)), text)
    return "".join(mark for mark in plain if not mark.isascii())


def _full(error: TypstError) -> str:
    return f"{error.message}\n{error.diagnostic or ''}"


@cache
def _fonts() -> Any:
    """Those that come with Typst, read once."""
    import typst

    return typst.Fonts(include_system_fonts=False)


def _told(problem: TypstError | TypstWarning, template: str) -> str:
    """File, line, what is wrong; the first place that stands in a template."""
    found = re.search(r"([\w.-]+\.typ):(\d+):", problem.diagnostic or "")
    if not found:
        return f"{TEMPLATES / template}: {problem.message}"
    file = template if found[1] == "main.typ" else found[1]
    return f"{TEMPLATES / file}, line {found[2]}: {problem.message}"
