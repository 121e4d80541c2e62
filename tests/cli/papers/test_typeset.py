"""A Typst template that somebody broke is told by its file and line; no other font is taken."""

from __future__ import annotations

import shutil
from pathlib import Path

import pypdfium2
import pytest

from platewheel.cli.papers import typeset as module
from platewheel.cli.papers.templates.place import TEMPLATES
from platewheel.cli.papers.typeset import typeset
from platewheel.cli.work.not_finished import NotFinished

PAGE = {"width_mm": 210.0, "height_mm": 297.0, "margin_mm": 10.0}
RECORD = {"title": "t", "font": "Libertinus Serif", "words": "w", "page": PAGE}
RECORD |= {"columns": [{"head": "a", "align": "text", "wide": True}], "rows": [["1"]]}


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The templates, for somebody to change."""
    home = tmp_path / "templates"
    shutil.copytree(TEMPLATES, home)
    monkeypatch.setattr(module, "TEMPLATES", home)
    return home


def broken(file: Path, old: str, new: str) -> int:
    """Change it; the line of the change."""
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), "utf-8")
    return text[: text.index(old)].count("\n") + 1


def test_the_line_of_the_template(folder: Path) -> None:
    file = folder / "record.typ"
    line = broken(file, "#data.words", "#data.wordz")
    with pytest.raises(NotFinished) as error:
        typeset("record.typ", RECORD)
    (told,) = error.value.lines
    assert told.startswith(f"{file}, line {line}: ")
    assert "wordz" in told


def test_the_line_of_a_template_that_is_imported(folder: Path) -> None:
    file = folder / "plate-page.typ"
    line = broken(file, "#let long-words(lines) = {", "#let long-words(lines = {")
    with pytest.raises(NotFinished) as error:
        typeset("plates.typ", {})
    (told,) = error.value.lines
    assert told.startswith(f"{file}, line ")
    assert int(told.split("line ")[1].split(":")[0]) >= line


def test_a_font_that_is_not_there_is_refused_and_those_that_are_named(folder: Path) -> None:
    file = folder / "record.typ"
    line = broken(file, "font: data.font", 'font: "Nowhere Sans"')
    with pytest.raises(NotFinished) as error:
        typeset("record.typ", RECORD)
    (told,) = error.value.lines
    assert told.startswith(f"{file}, line {line}: unknown font family: nowhere sans")
    assert "Libertinus Serif" in told


def test_a_letter_that_no_font_has_stands_there_by_its_number() -> None:
    """A name in another script ended a whole build. Unicode Standard, appendix A: U+ and at least
    four digits; Han, Hangul and a picture are in no font that comes with Typst."""
    name = "\u5b57 \u6c34 \ud55c \U0001f682 \u041f\u0440\u0443\u0434 \u03b1\u0301"
    name += " =1+1 #x $y$ <b> \\u{5b57}"
    made = typeset("record.typ", RECORD | {"words": name})
    text = pypdfium2.PdfDocument(made)[0].get_textpage().get_text_bounded()
    there = "[U+5B57] [U+6C34] [U+D55C] [U+1F682] \u041f\u0440\u0443\u0434"
    assert there in text
    assert "=1+1 #x $y$ <b> \\u{5b57}" in text


FITTED = """#import "plate-page.typ": fitted, sizes
#set page(width: 60mm, height: 30mm, margin: 10mm)
#set par(leading: 0.42em, spacing: 0mm)
#let words = text(size: sizes.first(), "pgqy")
#context {
  let high = measure(block(width: 30mm, words)).height
  WAY
}
"""


def test_letters_below_the_last_line_are_not_clipped(folder: Path) -> None:
    """The figures of a plate that just fill their box, as wide and as dark as without it."""
    dark = []
    for way in ("fitted(30mm, high, ((words, 30mm),))", "block(width: 30mm, words)"):
        (folder / "fitted.typ").write_text(FITTED.replace("WAY", way), encoding="utf-8")
        page = pypdfium2.PdfDocument(typeset("fitted.typ", {}))[0]
        dark.append(sum(page.render(scale=4, grayscale=True).to_numpy().ravel() < 128))
    assert dark[0] == dark[1] > 100
