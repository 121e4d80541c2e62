"""The pages tell every public name, key and script, and nothing else (sphinx itself: `.ci/run`)."""

from __future__ import annotations

import re
import sys
from contextlib import nullcontext
from pathlib import Path
from types import ModuleType, SimpleNamespace

import pytest

import platewheel
from platewheel.cli.schema.job_sections import REPEATED, SINGLE
from platewheel.cli.site import build
from platewheel.cli.site.as_rst import as_rst
from platewheel.cli.site.pages import examples_page, keys_page, reference_page, report_page
from tests.places import ROOT


def test_the_reference_is_the_list_of_public_names() -> None:
    told = re.findall(r"^\.\. auto\w+:: platewheel\.(\w+)$", reference_page(), re.MULTILINE)
    assert sorted(told) == sorted(set(platewheel.__all__) - {"__version__"})


def test_every_key_of_a_job_file_is_told() -> None:
    told = re.findall(r"^   \* - ``(\w+)``$", keys_page(), re.MULTILINE)
    kinds = (*SINGLE.values(), *REPEATED.values())
    assert told == [key for kind in kinds for key in kind.model_fields]


def test_every_key_of_the_report_is_told() -> None:
    schema = platewheel.Report.model_json_schema()
    tables = [schema, *schema["$defs"].values()]
    told = re.findall(r"^   \* - ``(\w+)``$", report_page(), re.MULTILINE)
    assert told == [key for table in tables for key in table["properties"]]


@pytest.mark.parametrize("status", [0, 1])
def test_the_pages_are_put_in_place_when_all_are_made(
    status: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Sphinx:
        statuscode = status

        def __init__(self, source: str, conf: None, out: str, *more: object, **options: object):
            self.out = Path(out)

        def build(self) -> None:
            assert (out / "former.html").exists()
            self.out.mkdir()
            (self.out / "index.html").write_text("new")

    out = tmp_path / "site"
    out.mkdir()
    (out / "former.html").write_text("former")
    monkeypatch.setitem(sys.modules, "sphinx", ModuleType("sphinx"))
    monkeypatch.setitem(sys.modules, "sphinx.application", SimpleNamespace(Sphinx=Sphinx))
    monkeypatch.setattr(build, "write_pages", lambda top, source: None)
    with nullcontext() if status == 0 else pytest.raises(SystemExit):
        build.main(ROOT, out)
    there = [one.name for one in out.iterdir()]
    assert there == (["former.html"] if status else ["index.html"])


def test_every_script_is_shown() -> None:
    scripts = sorted((ROOT / "tests" / "examples").glob("[!_]*.py"))
    told = re.findall(r"literalinclude:: (\w+\.py)", examples_page(scripts))
    assert told == [path.name for path in scripts]


@pytest.mark.parametrize(
    ("markdown", "rst"),
    [
        ("# A title", "A title\n======="),
        ("a `b` and **c**", "a ``b``\\  and **c**\\"),
        ("a_b * c", "a\\_b \\* c"),
        ("```python\nx = 1\n```", ".. code-block:: python\n\n   x = 1"),
        ("    platewheel new a.toml", ".. code-block:: text\n\n   platewheel new a.toml"),
        (
            "| a | b |\n|---|---|\n| c | d |",
            ".. list-table::\n   :header-rows: 1\n\n   * - a\n     - b\n   * - c\n     - d",
        ),
        ("![alt](out/a.svg)", ".. image:: out/a.svg\n   :alt: alt"),
        ("<!-- demo -->\ntext", "text"),
    ],
)
def test_markdown_becomes_the_same_in_another_markup(markdown: str, rst: str) -> None:
    assert as_rst(markdown).strip() == rst.strip()
