"""Pages and parts of pages, made from the templates; a template that somebody broke is told."""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Callable
from functools import cache
from pathlib import Path
from traceback import extract_tb
from typing import TYPE_CHECKING

from platewheel.cli.papers.templates.place import TEMPLATES
from platewheel.cli.words.on_paper import backticked, lines_on_paper, on_paper
from platewheel.cli.work.not_finished import NotFinished
from platewheel.parts.base.units import Units

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup


def render(template: str, units: Units, **what: object) -> Markup:
    """A template filled; all but what is `drawn` or rendered already is escaped.

    Raises: NotFinished by file and line where the template is broken.
    """
    from jinja2 import TemplateError
    from markupsafe import Markup

    try:
        page = _environment(TEMPLATES).get_template(template)
        return Markup(page.render(units=units, **what))
    except TemplateError as error:
        raise NotFinished([f"{_place(error, template)}: {error.message}"]) from error


def drawn(svg: str) -> Markup:
    """A drawing of ours, for a page to take as it is."""
    from markupsafe import Markup

    return Markup(svg)


def _place(error: Exception, template: str) -> str:
    """File and line of a mistake: of its syntax, or of what was filled, and from where."""
    from jinja2 import TemplateSyntaxError

    if isinstance(error, TemplateSyntaxError):
        return f"{error.filename or template}, line {error.lineno}"
    lines = [
        f"{one.filename}, line {one.lineno}"
        for one in extract_tb(error.__traceback__)
        if Path(one.filename).parent == TEMPLATES
    ]
    return ", from ".join(reversed(lines)) or template


@cache
def _environment(folder: Path) -> Environment:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined
    from markupsafe import Markup

    made = Environment(
        loader=FileSystemLoader(folder),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    filters: dict[str, Callable[..., object]] = {
        "words": on_paper,
        "lines": lines_on_paper,
        "drawn": drawn,
        "backticked": backticked,
        "json": lambda data: Markup(
            json.dumps(data, separators=(",", ":")).replace("<", "\\u003c")
        ),
    }
    made.filters.update(filters)

    def file(name: str) -> str:
        return (folder / name).read_text(encoding="utf-8")

    made.globals["file"] = lambda name: Markup(file(name))
    made.globals["hash_of"] = lambda name: _hash(file(name))
    return made


def _hash(text: str) -> str:
    """Of a script that stands in a page, for its Content-Security-Policy (W3C CSP level 3)."""
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}"
