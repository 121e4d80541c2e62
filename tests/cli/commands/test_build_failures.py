"""A build that fails or is stopped leaves the former job folder byte for byte as it was."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import ezdxf
import pytest

from platewheel.cli.job.job import Job, job_of
from platewheel.cli.job.plan import Plan, plan_job
from tests.cli.jobs import NAME, TOO_SMALL, files_of, job_text, run, write_job

WRITERS = ("write_blanks", "write_sheets", "write_templates", "write_solids", "drawings_of")


@pytest.fixture(scope="module")
def plan() -> Plan:
    """The small job, laid once."""
    job: Job = job_of(tomllib.loads(job_text()))
    return plan_job(job, 0, lambda text: None)


@pytest.fixture
def planned(plan: Plan, monkeypatch: pytest.MonkeyPatch, own_folder: Path) -> None:
    """The small job in the current folder, with its nest at hand."""
    monkeypatch.setattr("platewheel.cli.output.build.plan_job", lambda *given: plan)
    write_job(own_folder, job_text())


@pytest.fixture
def no_solids(monkeypatch: pytest.MonkeyPatch) -> None:
    """Solids take longest and say nothing about folders."""
    monkeypatch.setattr("platewheel.cli.output.build.write_solids", lambda job, parts, folder: [])


@pytest.fixture
def former(own_folder: Path) -> Iterator[dict[str, bytes]]:
    """A job folder from before; in the end out/ must hold it and nothing else."""
    home = own_folder / "out" / NAME
    (home / "solids").mkdir(parents=True)
    (home / "report.json").write_text('{"former": true}\n')
    (home / "solids" / "disc-gauge.step").write_bytes(b"ISO-10303-21;\r\n\x00former")
    before = files_of(own_folder / "out")
    yield before
    assert files_of(own_folder / "out") == before


def failing(error: BaseException) -> Callable[..., Any]:
    """A writer that leaves half a file behind and stops."""

    def write(*arguments: Any, **options: Any) -> None:
        folder = next(a for a in arguments if isinstance(a, Path))
        (folder / "half-written").write_text("half")
        raise error

    return write


@pytest.mark.usefixtures("planned", "no_solids", "former")
@pytest.mark.parametrize("writer", WRITERS)
@pytest.mark.parametrize(
    ("error", "words"),
    [
        (OSError(28, "No space left on device", "x.dxf"), "x.dxf: No space left on device"),
        (KeyboardInterrupt(), "as it was"),
        (MemoryError(), "short of memory"),
        (RuntimeError("odd"), "a fault of platewheel itself"),
    ],
    ids=["disk-full", "interrupted", "no-memory", "a-fault-of-ours"],
)
def test_a_writer_that_stops_half_way(
    writer: str, error: BaseException, words: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(f"platewheel.cli.output.build.{writer}", failing(error))
    result = run("build", "job.toml")
    assert result.exit_code == 3
    assert result.stdout == ""
    assert words in result.stderr
    assert len(result.stderr.splitlines()) == 1


@pytest.mark.usefixtures("planned", "no_solids", "former")
def test_a_cutting_file_that_its_proof_refuses(monkeypatch: pytest.MonkeyPatch) -> None:
    def spoilt(*given: Any, **more: Any) -> tuple[str, ...]:
        path = next(one for one in given if isinstance(one, Path))
        drawing = ezdxf.new("R2000", units=4)
        drawing.modelspace().add_line((0, 0), (9, 9), dxfattribs={"layer": "skeleton"})
        drawing.saveas(path)
        return ()

    monkeypatch.setattr("platewheel.nesting.files.write_dxf.write_sheet_dxf", spoilt)
    result = run("build", "job.toml")
    assert result.exit_code == 3
    assert result.stdout == ""
    assert "the cutting file 5mm-1.dxf is not sound: " in result.stderr
    assert "is not cut; " in result.stderr


@pytest.mark.usefixtures("planned", "no_solids", "former")
def test_the_traceback_of_a_fault_of_ours_is_shown_when_asked_for(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(f"platewheel.cli.output.build.{WRITERS[0]}", failing(RuntimeError("odd")))
    shown = run("--debug", "build", "job.toml")
    assert shown.exit_code == 3
    assert shown.stdout == ""
    assert shown.stderr.startswith("Traceback (most recent call last):")
    assert "in failing" not in shown.stderr
    assert "in _write_all" in shown.stderr
    *_, last = shown.stderr.splitlines()
    assert last.startswith("a fault of platewheel itself")
    quiet = run("build", "job.toml")  # and not when not
    assert quiet.stderr == f"{last}; platewheel --debug shows more\n"


@pytest.mark.usefixtures("planned", "no_solids", "former")
def test_what_can_be_expected_has_no_traceback(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(f"platewheel.cli.output.build.{WRITERS[0]}", failing(OSError(28, "full")))
    assert run("--debug", "build", "job.toml").stderr == "out/pond-line: full\n"


@pytest.mark.usefixtures("planned", "no_solids", "former")
def test_a_folder_that_cannot_be_put_in_place(monkeypatch: pytest.MonkeyPatch) -> None:
    rename = Path.rename

    def refuse(path: Path, target: Path) -> Path:
        if path.name == "made":
            raise PermissionError(13, "Permission denied", str(target))
        return rename(path, target)

    monkeypatch.setattr("platewheel.cli.output.folder.exchange", lambda one, other: False)
    monkeypatch.setattr(Path, "rename", refuse)
    result = run("build", "job.toml")
    assert result.exit_code == 3
    assert "Permission denied" in result.stderr


@pytest.mark.usefixtures("planned", "no_solids")
def test_part_of_a_folder_that_cannot_be_put_in_place(
    own_folder: Path, plan: Plan, monkeypatch: pytest.MonkeyPatch
) -> None:
    """`nest` replaces two entries: both or none, or cutting files and offcuts disagree."""
    home = own_folder / "out" / NAME
    (home / "sheets").mkdir(parents=True)
    (home / "sheets" / "5mm-1.dxf").write_text("former")
    (home / "offcuts.toml").write_text("former")
    before = files_of(own_folder)

    def refuse(path: Path, target: Path) -> Path:
        raise PermissionError(13, "Permission denied", str(target))

    monkeypatch.setattr("platewheel.cli.commands.nest.plan_job", lambda *given: plan)
    monkeypatch.setattr("platewheel.cli.output.folder.exchange", lambda one, other: False)
    with monkeypatch.context() as refusing:
        refusing.setattr(Path, "rename", refuse)
        assert run("nest", "job.toml").exit_code == 3
    assert files_of(own_folder) == before
    assert run("nest", "job.toml").exit_code == 0
    assert files_of(own_folder) != before


@pytest.mark.usefixtures("former", "own_folder")
@pytest.mark.parametrize("command", ["build", "nest"])
def test_a_blank_that_fits_no_stock(command: str) -> None:
    write_job(Path(), job_text(rows=TOO_SMALL))
    result = run(command, "job.toml")
    assert result.exit_code == 3
    disc, *others = sorted(result.stderr.splitlines())
    # 2 wheels of two discs, 180 - 2 x 6 - 2 x 0.5 = 167 mm, against a plate of 120 x 120
    assert disc.startswith("disc: 4 fit no stock: 5 mm S235, 167.0 x 167.0 mm")
    assert "120 x 120 x 5" in disc
    assert "try: " in disc
    assert [line.split(":")[0] for line in others] == ["flange"]


def test_nest_json_lists_what_is_not_laid(own_folder: Path) -> None:
    write_job(own_folder, job_text(rows=TOO_SMALL))
    result = run("nest", "job.toml", "--json")
    assert result.exit_code == 3
    nesting = json.loads(result.stdout)["nesting"]
    assert {"blank": "disc", "count": 4} in nesting["unplaced"]
    assert {row["blank"] for row in nesting["unplaced"]} == {"disc", "flange"}
    assert not (own_folder / "out").exists()


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"wheel.tread_from": '"bar"'}, r"[[bar]] of 50 x 6 mm"),
        ({"wheel.tread_from": '"pipe"'}, r"[[pipe]] of 180 x 6 mm"),
        ({"wheel.steel": '"S355"'}, "5 mm S355"),
    ],
)
def test_no_stock_of_the_kind(own_folder: Path, changes: dict[str, str], words: str) -> None:
    write_job(own_folder, job_text(changes))
    result = run("build", "job.toml")
    assert result.exit_code == 3
    assert words in result.stderr
    assert [path.name for path in own_folder.iterdir()] == ["job.toml"]


@pytest.mark.usefixtures("planned", "no_solids")
def test_a_rebuild_replaces_the_former_folder(own_folder: Path) -> None:
    home = own_folder / "out" / NAME
    (home / "solids").mkdir(parents=True)
    (home / "solids" / "disc-gauge.step").write_text("former")
    (home / "report.json").write_text("former")
    assert run("build", "job.toml").exit_code == 0
    assert not (home / "solids" / "disc-gauge.step").exists()
    assert json.loads((home / "report.json").read_text())["job"]["name"] == NAME
    assert [path.name for path in home.parent.iterdir()] == [NAME]


@pytest.mark.usefixtures("planned", "no_solids")
@pytest.mark.parametrize("stranger", ["notes.txt", ".git", "sheets/notes.txt", "solids/my.step"])
@pytest.mark.parametrize("command", ["build", "templates"])
def test_files_of_somebody_else_are_kept(own_folder: Path, stranger: str, command: str) -> None:
    assert run("build", "job.toml").exit_code == 0
    path = own_folder / "out" / NAME / stranger
    path.parent.mkdir(exist_ok=True)
    path.write_text("mine")
    before = files_of(own_folder)
    result = run(command, "job.toml")
    assert path.is_file()
    if result.exit_code == 0:  # a command that replaces other entries than the stranger's
        assert command != "build"
        return
    assert result.exit_code == 3
    assert stranger.split("/")[-1] in result.stderr
    assert files_of(own_folder) == before


@pytest.mark.usefixtures("planned", "no_solids")
def test_a_file_or_link_in_the_place_of_the_folder_is_kept(own_folder: Path) -> None:
    out = own_folder / "out"
    out.mkdir()
    (out / NAME).write_text("mine")
    result = run("build", "job.toml")
    assert result.exit_code == 3
    assert (out / NAME).read_text() == "mine"
    (out / NAME).unlink()
    (own_folder / "elsewhere").mkdir()
    (out / NAME).symlink_to(own_folder / "elsewhere")
    assert run("build", "job.toml").exit_code == 3
    assert (out / NAME).is_symlink()
    assert list((own_folder / "elsewhere").iterdir()) == []


@pytest.mark.usefixtures("planned")
def test_out_that_is_a_file(own_folder: Path) -> None:
    (own_folder / "out").write_text("mine")
    result = run("build", "job.toml")
    assert result.exit_code == 3
    assert "out" in result.stderr
    assert (own_folder / "out").read_text() == "mine"
