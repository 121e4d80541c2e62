"""Files of two states of a job never lie together in its folder, and what is taken away is told."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from platewheel.cli.output.folder import write_folder, write_part
from platewheel.cli.output.made_of import KINDS, MADE_OF, OF_PLATES, write_made_of

NAME = "pond"
NOW = dict.fromkeys(KINDS, "1")


def whole_job(made: Path) -> None:
    there = ("report.json", "calculation.pdf", "offcuts.toml", "sheets/5mm-1.dxf")
    for name in (*there, "templates/disc.pdf", "solids/disc.step"):
        (made / name).parent.mkdir(exist_ok=True)
        (made / name).write_text("whole")
    write_made_of(made, NOW, made, [one.name for one in made.iterdir()], ())


def sheets(text: str, name: str = "5mm-1.dxf") -> Callable[[Path], None]:
    def write(made: Path) -> None:
        (made / "sheets").mkdir()
        (made / "sheets" / name).write_text(text)
        (made / "offcuts.toml").write_text("whole")

    return write


def templates(made: Path) -> None:
    (made / "templates").mkdir()
    (made / "templates" / "disc.pdf").write_text("whole")


def more_of_them(made: Path) -> None:
    sheets("whole")(made)
    (made / "plates.pdf").write_text("whole")


def there_now(out: Path) -> set[str]:
    return {path.name for path in (out / NAME).iterdir()}


@pytest.mark.parametrize(
    ("write", "same", "stale"),
    [
        (sheets("whole"), False, False),
        (sheets("other"), False, True),
        (sheets("other"), True, False),
        (sheets("whole", "5mm-2.dxf"), True, True),
        (more_of_them, False, True),
    ],
    ids=["the-same", "other-bytes", "another-print", "other-names", "one-more"],
)
def test_part_of_a_folder_leaves_what_does_not_contradict_it(
    tmp_path: Path, write: Callable[[Path], None], same: bool, stale: bool
) -> None:
    write_folder(tmp_path, NAME, whole_job)
    _, told = write_part(tmp_path, NAME, write, OF_PLATES, NOW, same=same)
    there = there_now(tmp_path)
    assert {"calculation.pdf", "offcuts.toml", "sheets"} <= there
    assert ("report.json" in there) is not stale
    assert len(told) == stale
    assert not told or "other files than are there now: report.json; `platewheel build`" in told[0]


PAPERS, CUTTING = {"report.json", "calculation.pdf"}, {"sheets", "offcuts.toml"}


@pytest.mark.parametrize(
    ("changed", "gone"),
    [
        (set(), set()),
        ({"sheets", "papers"}, PAPERS | CUTTING),
        ({"solids", "papers"}, PAPERS | {"solids"}),
        ({"templates", "papers"}, PAPERS),
        ({"papers"}, PAPERS),
        ({"pieces"}, PAPERS),
    ],
)
def test_files_of_two_states_of_a_job_never_lie_together(
    tmp_path: Path, changed: set[str], gone: set[str]
) -> None:
    """New templates stood beside cutting files of the former wheel, and nothing told."""
    write_folder(tmp_path, NAME, whole_job)
    there, now = there_now(tmp_path), NOW | dict.fromkeys(changed, "2")
    _, told = write_part(tmp_path, NAME, templates, (), now)
    assert there_now(tmp_path) == there - gone
    assert all(any(name in line for line in told) for name in gone)
    assert write_part(tmp_path, NAME, templates, (), now) == (None, [])


def test_one_command_vouches_for_nothing_that_another_made(tmp_path: Path) -> None:
    """`solids` wrote down the job as it was then for files that it had not made: a later `nest`
    took them for files of that job."""
    write_folder(tmp_path, NAME, whole_job)
    former = (tmp_path / NAME / MADE_OF).read_text()
    knows_less = {one: "2" if one == "solids" else "1" for one in KINDS if one != "pieces"}

    def solids(made: Path) -> None:
        (made / "solids").mkdir()
        (made / "solids" / "disc.step").write_text("whole")

    write_part(tmp_path, NAME, solids, (), knows_less)
    after = json.loads((tmp_path / NAME / MADE_OF).read_text())
    assert after == json.loads(former) | {"solids": "2"}
    assert there_now(tmp_path) >= PAPERS | CUTTING


def test_which_offcuts_were_used_stays_known_until_there_is_another_plan(tmp_path: Path) -> None:
    """The steel may be cut: without the record another job plans on it again."""

    def planned(made: Path) -> None:
        (made / "sheets").mkdir()
        (made / "offcuts-used.toml").write_text("whole")

    write_part(tmp_path, NAME, planned, (), NOW)
    write_part(tmp_path, NAME, templates, (), NOW | dict.fromkeys(KINDS, "2"))
    assert there_now(tmp_path) == {"templates", "offcuts-used.toml", MADE_OF}
    write_part(tmp_path, NAME, lambda made: (made / "sheets").mkdir(), (), NOW)
    assert "offcuts-used.toml" not in there_now(tmp_path)


def test_what_is_made_no_more_goes(tmp_path: Path) -> None:
    """Of a job by hand `templates` writes a page that it does not write of another."""

    def by_hand(made: Path) -> None:
        templates(made)
        (made / "marking-out.pdf").write_text("whole")

    write_part(tmp_path, NAME, by_hand, (), NOW)
    _, told = write_part(tmp_path, NAME, templates, (), NOW | {"templates": "2"})
    assert there_now(tmp_path) == {"templates", MADE_OF}
    assert ["marking-out.pdf" in line for line in told] == [True]


@pytest.mark.parametrize("text", [None, "", "[", "[" * 900, "\0", "x" * 2000, "{}", "[]"])
def test_what_nothing_is_known_of_does_not_stay(tmp_path: Path, text: str | None) -> None:
    write_folder(tmp_path, NAME, whole_job)
    record = tmp_path / NAME / MADE_OF
    record.unlink() if text is None else record.write_text(text)
    _, told = write_part(tmp_path, NAME, templates, (), NOW)
    assert there_now(tmp_path) == {"templates", MADE_OF}
    (line,) = told
    assert "nothing tells of which: sheets, offcuts.toml, solids, report.json" in line
    assert json.loads(record.read_text()) == {"templates": "1"}
