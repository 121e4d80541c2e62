"""README: its example runs, and the commands, pictures, files and codes that it names are there."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from xml.etree import ElementTree

import pytest
import typer.main

from platewheel.cli.commands.main import app
from platewheel.cli.terminal import exits
from platewheel.nesting.files.dxf_entities import LAYERS
from tests.cli.jobs import run
from tests.places import ROOT

README = (ROOT / "README.md").read_text(encoding="utf-8")
FENCE = re.compile(r"^```(\w*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
LINKED = sorted(set(re.findall(r"\]\(([^)#]+)\)", README)))
PICTURES = sorted(set(re.findall(r"!\[[^]]+\]\(([^)]+)\)", README)))
PYTHON = [body for language, body in FENCE.findall(README) if language == "python"]
LOOSE_ENDS = (
    r"\.\./",  # paths outside the project
    r"https?://",  # all that is needed is in the project
)


def code() -> list[str]:
    """What a reader would type or copy: fenced blocks, indented lines, words in backticks."""
    fenced = [body for _, body in FENCE.findall(README)]
    rest = FENCE.sub("", README)
    indented = re.findall(r"^ {4}(.+)$", rest, re.MULTILINE)
    return [*fenced, *indented, *re.findall(r"`([^`\n]+)`", rest)]


def commands() -> set[str]:
    """Every word that follows `platewheel` in code."""
    found = (re.findall(r"(?<!from )\bplatewheel +(--)?([a-z][a-z-]*)", text) for text in code())
    return {dashes + word for pairs in found for dashes, word in pairs}


def section(heading: str) -> str:
    """Text below a heading, up to the next."""
    return README.split(f"\n## {heading}\n")[1].split("\n## ")[0]


def test_the_example_of_a_script_runs(own_folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    exec(compile(PYTHON[1], "README.md", "exec"), {})
    told = capsys.readouterr().out
    assert "pass" in told
    assert told.splitlines()[-1].endswith(" plates True")
    assert list(own_folder.iterdir()) == []


def test_the_python_example_runs(own_folder: Path) -> None:
    examples = PYTHON
    assert len(examples) == 2
    names: dict[str, object] = {}
    exec(compile(examples[0], "README.md", "exec"), names)
    step = own_folder / "wheel.step"
    assert step.read_bytes().startswith(b"ISO-10303-21;")
    assert [path.name for path in own_folder.iterdir()] == ["wheel.step"]
    volumes = [names[part].Volume() for part in ("ring", "disc", "flange")]  # type: ignore[attr-defined]
    assert min(volumes) > 1000
    assert step.stat().st_size > 10_000


def test_the_commands_named_exist() -> None:
    known = typer.main.get_command(app)
    named = commands()
    assert named >= {"new", "check", "build", "demo", "schema"}
    there = set(known.commands)  # type: ignore[attr-defined]
    assert {name for name in named if not name.startswith("--")} <= there
    assert {"solids", "nest", "templates"} <= there
    assert all(f"`{name}`" in README for name in ("solids", "nest", "templates"))


@pytest.mark.parametrize("name", sorted(commands()))
def test_each_command_named_answers(name: str) -> None:
    result = run(name, "--help")
    assert result.exit_code == 0
    assert "Usage" in result.stdout


@pytest.mark.parametrize("option", sorted(set(re.findall(r"`(--[a-z-]+)`", README))))
def test_the_options_named_exist(option: str) -> None:
    helps = [run(name, "--help").stdout for name in sorted(commands())]
    assert any(option in text for text in [run("--help").stdout, *helps])


@pytest.mark.parametrize(
    ("marker", "last", "install"),
    [("demo", ".venv/bin/platewheel demo", "."), ("test", ".venv/bin/pytest", "-e '.[test]'")],
)
def test_one_line_does_it(marker: str, last: str, install: str) -> None:
    """One line of shell after the marker, from a fresh copy to the end."""
    assert README.count(f"<!-- {marker} -->") == 1
    after = README.split(f"<!-- {marker} -->\n")[1]
    block = FENCE.match(after)
    assert block
    assert block[1] == "sh"
    assert len(block[2].splitlines()) == 1
    steps = block[2].strip().split(" && ")
    assert steps == [
        "python3 -m venv .venv",
        f".venv/bin/pip install -q {install}",
        last,
    ]


def test_the_project_says_the_same_as_the_lines() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert "platewheel" in project["scripts"]
    assert any(need.startswith("pytest") for need in project["optional-dependencies"]["test"])
    assert f"Python {project['requires-python'].removeprefix('>=')} or newer" in README
    assert project["license"] in README


@pytest.mark.parametrize("picture", PICTURES)
def test_the_pictures_named_exist(picture: str) -> None:
    path = ROOT / picture
    assert path.is_relative_to(ROOT / "out" / "readme")
    if path.suffix == ".svg":
        assert ElementTree.parse(path).getroot().tag == "{http://www.w3.org/2000/svg}svg"
    else:
        assert path.read_bytes().startswith(b"\x89PNG\r\n")


def test_pictures_and_links_are_named_and_none_is_left_over() -> None:
    assert len(PICTURES) >= 3
    assert set(PICTURES) < set(LINKED)
    assert [name for name in LINKED if not (ROOT / name).is_file()] == []


def test_the_layers_named_are_those_written() -> None:
    table = section("If you cut on a CNC table").split("\n| in this order | layer |")[1]
    rows = [line.split("|") for line in table.split("\n\n")[0].splitlines()[2:]]
    assert {name for row in rows for name in re.findall(r"`([^`]+)`", row[2])} == set(LAYERS)


def test_the_exit_codes_told_are_those_given() -> None:
    told = dict(re.findall(r"(\d) (done|done but|refused|could not finish)[ ,]", README))
    assert {int(code) for code in told} == {
        exits.DONE,
        exits.CHECK_FAILED,
        exits.REFUSED,
        exits.NOT_FINISHED,
    }
    assert told[str(exits.REFUSED)] == "refused"
    assert told[str(exits.NOT_FINISHED)] == "could not finish"


@pytest.mark.parametrize("pattern", LOOSE_ENDS)
def test_no_line_names_what_it_must_not(pattern: str) -> None:
    lines = [line for line in README.splitlines() if re.search(pattern, line, re.IGNORECASE)]
    assert lines == []
