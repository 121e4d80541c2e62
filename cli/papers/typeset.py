"""A PDF made by Typst from a template and data; a template that somebody broke is told."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import TYPE_CHECKING

from platewheel.cli.papers.templates.place import TEMPLATES
from platewheel.cli.work.not_finished import NotFinished

if TYPE_CHECKING:
    from typst import TypstError

WRITTEN_S = 0  # the time in the file, since 1970: the same data give the same bytes


def typeset(
    template: str, data: Mapping[str, object], pictures: Mapping[str, str] | None = None
) -> bytes:
    """The PDF; the template reads its data from data.json, as text and never as Typst, and its
    pictures (SVG) by their names.

    Fonts are those that come with Typst, so that every machine sets the same page.
    Raises: NotFinished by file and line where the template is broken.
    """
    import typst

    file = TEMPLATES / template
    text = json.dumps(data, ensure_ascii=False)
    sources = {"main.typ": file.read_bytes(), "data.json": text.encode()}
    sources |= {name: svg.encode() for name, svg in (pictures or {}).items()}
    fonts = typst.Fonts(include_system_fonts=False)
    try:
        # its stubs lack sources by name
        made = typst.compile(sources, font_paths=fonts, timestamp=WRITTEN_S)  # type: ignore[call-overload]
    except typst.TypstError as error:
        raise NotFinished([f"{file}{_line(error)}: {error.message}"]) from error
    assert isinstance(made, bytes)
    return made


def _line(error: TypstError) -> str:
    found = re.search(r"main\.typ:(\d+):", error.diagnostic or "")
    return f", line {found[1]}" if found else ""
