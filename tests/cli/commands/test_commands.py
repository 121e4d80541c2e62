"""The commands: what goes to stdout, what to stderr, with which exit code, and what is loaded."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from platewheel.cli.job.job import Job
from platewheel.cli.output.made_of import MADE_OF
from tests.cli.jobs import NAME, files_of, job_text, run, write_job

COMMANDS = (
    "new",
    "build",
    "check",
    "solids",
    "nest",
    "templates",
    "demo",
    "rings",
    "record",
    "refit",
    "standards",
    "schema",
)
ON_JOBS = ("build", "check", "solids", "nest", "templates")
HEAVY = ("cadquery", "OCP", "ezdxf", "shapely", "scipy", "reportlab", "numba", "jinja2", "typst")
LOADED = """
import contextlib, io, sys
from platewheel.cli.commands.main import app
with contextlib.redirect_stdout(io.StringIO()):
    try:
        app(sys.argv[1:])
    except SystemExit as stop:
        assert not stop.code, stop.code
print(*sorted({name.partition(".")[0] for name in sys.modules}))
"""


@pytest.fixture
def job(own_folder: Path) -> str:
    """The small job, in the current folder."""
    return write_job(own_folder, job_text()).name


def loaded(*arguments: str) -> set[str]:
    """Packages that a fresh process holds after a command."""
    command = [sys.executable, "-c", LOADED, *arguments]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    packages = set(done.stdout.split())
    assert {"platewheel", "typer"} <= packages  # the list is a list
    return packages


def test_help_loads_no_library_but_the_command_line() -> None:
    assert loaded("--help").isdisjoint({*HEAVY, "numpy", "pydantic", "pydantic_core"})


def test_check_builds_no_solid_and_opens_no_drawing(job: str) -> None:
    assert loaded("check", job, "--quick").isdisjoint({*HEAVY, "skfem"} - {"shapely"})
    assert loaded("check", job).isdisjoint({"cadquery", "OCP", "ezdxf", "reportlab"})


def test_templates_build_no_solid(job: str) -> None:
    assert loaded("templates", job).isdisjoint({"cadquery", "OCP"})


def test_help_names_every_command() -> None:
    result = run("--help")
    assert result.exit_code == 0
    assert [name for name in COMMANDS if f" {name} " not in result.stdout] == []


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help(command: str) -> None:
    result = run(command, "--help")
    assert result.exit_code == 0
    assert f"platewheel {command}" in result.stdout or f" {command} " in result.stdout
    assert ("--json" in result.stdout) == (command not in ("new", "record", "rings", "schema"))


def test_a_wrong_command_line_is_refused() -> None:
    for arguments in ([], ["biuld"], ["build"], ["build", "x.toml", "--seed", "-1"]):
        result = run(*arguments)
        assert result.exit_code == 2, arguments


@pytest.mark.parametrize("command", ON_JOBS)
def test_a_bad_job_is_refused_by_every_command_on_stderr(own_folder: Path, command: str) -> None:
    write_job(own_folder, job_text({"wheel.flange_angle_deg": "91", "job.wheels": "0"}))
    for more in ([], ["--json"]):
        result = run(command, "job.toml", *more)
        assert result.exit_code == 2
        assert result.stdout == ""
        keys = [line.split(": ")[1] for line in result.stderr.splitlines()]
        assert keys == ["job.wheels", "wheel.flange_angle_deg"]
    assert [path.name for path in own_folder.iterdir()] == ["job.toml"]


def test_check_as_table_and_as_json(own_folder: Path, job: str) -> None:
    table, shown = run("check", job, "--quick", "--all"), run("check", job, "--quick", "--json")
    assert table.exit_code == shown.exit_code == 0
    assert table.stderr == shown.stderr == ""
    checks = json.loads(shown.stdout)["checks"]
    assert checks
    assert all(row["title"] in table.stdout for row in checks)
    assert [path.name for path in own_folder.iterdir()] == ["job.toml"]  # a check writes nothing


def test_check_of_a_sealed_wheel_for_the_zinc_bath_fails(own_folder: Path) -> None:
    sealed = {"wheel.vent_count": "0", "finish.coating": '"galvanized"'}
    result = run("check", write_job(own_folder, job_text(sealed)), "--quick")
    assert result.exit_code == 1
    assert "EXPLODES" in result.stdout
    painted = sealed | {"finish.coating": '"painted"'}
    assert run("check", write_job(own_folder, job_text(painted)), "--quick").exit_code == 0


def test_parts_of_the_folder_one_by_one(own_folder: Path, job: str) -> None:
    """Each command writes its own entries and leaves those of the others alone."""
    home = own_folder / "out" / NAME
    made: dict[str, bytes] = {}
    for command, key, entries in (
        ("templates", "templates", {"templates"}),
        ("nest", "sheets", {"sheets", "plates.pdf", "offcuts.toml", "offcuts-used.toml"}),
        ("solids", "parts", {"solids"}),
    ):
        result = run(command, job, "--json")
        assert result.exit_code == 0, result.stderr
        assert result.stderr == ""
        rows = json.loads(result.stdout)[key]
        assert rows
        named = [row.get("file") or row["step"] for row in rows]
        assert [file for file in named if not (home / file).is_file()] == []
        now = files_of(home)
        assert now.pop(MADE_OF)
        assert {name: now[name] for name in made} == made
        assert {name.split("/")[0] for name in now.keys() - made.keys()} == entries
        made = now
    assert [path.name for path in home.parent.iterdir()] == [NAME]


@pytest.mark.parametrize(("command", "word"), [("templates", "disc.pdf"), ("nest", "5mm-1.dxf")])
def test_tables_name_the_files(job: str, command: str, word: str) -> None:
    result = run(command, job)
    assert result.exit_code == 0
    assert word in result.stdout
    assert result.stderr == ""


def test_demo_is_the_bundled_job(monkeypatch: pytest.MonkeyPatch, own_folder: Path) -> None:
    names: list[str] = []

    def build(
        job: Job, out: Path, seed: int, step: object, effort: str, *about: object, **more: object
    ) -> None:
        names.append(job.head.name)
        assert (job.track.gauge_mm, out, seed, effort) == (457, Path("elsewhere"), 3, "quick")
        raise KeyboardInterrupt

    monkeypatch.setattr("platewheel.cli.output.build.build_job", build)
    assert run("demo", "--out", "elsewhere", "--seed", "3").exit_code == 3
    assert names == ["oyster-tramway"]


def test_schema_is_json(own_folder: Path) -> None:
    result = run("schema")
    assert result.exit_code == 0
    keys = json.loads(result.stdout)["properties"]
    assert {"wheel", "parts", "blanks", "sheets", "nesting", "checks"} <= keys.keys()


def in_shell(arguments: str) -> subprocess.CompletedProcess[str]:
    """The command in a shell line, in 2 GB of memory so that it cannot take the machine's."""
    python = f'"{sys.executable}" -c "from platewheel.cli.commands.main import main; main()"'
    call = f"ulimit -v 2000000; {python} {arguments}"
    return subprocess.run(
        call, shell=True, capture_output=True, text=True, check=False, env=os.environ
    )


@pytest.mark.usefixtures("own_folder")
@pytest.mark.parametrize(
    "arguments", ["check job.toml --quick", "check job.toml --quick --json", "schema"]
)
def test_output_that_cannot_be_written_is_told_in_a_line(job: str, arguments: str) -> None:
    done = in_shell(f"{arguments} > /dev/full")  # every write to it fails: no space left
    assert "Traceback" not in done.stderr
    assert "No space left on device" in done.stderr
    assert done.returncode == 3


def test_a_file_without_end_is_not_read_for_ever(own_folder: Path) -> None:
    done = in_shell("check /dev/zero")
    assert done.returncode == 2
    assert done.stderr.startswith("/dev/zero: found ")


@pytest.mark.parametrize(
    "command",
    [
        ["new"],
        ["stock", "new"],
        ["rings", "job.toml", "--out"],
        ["record", "job.toml", "--out"],
        ["calculation", "job.toml", "--quick", "--out"],
        ["standards", "job.toml", "--out"],
        ["propose", "job.toml", "--write"],
    ],
    ids=lambda words: words[0],
)
def test_a_path_that_ends_as_a_folder_s_is_no_file(command: list[str], own_folder: Path) -> None:
    """POSIX, 4.16: a path that ends in a slash is resolved as that of a folder."""
    write_job(own_folder, job_text())
    before = files_of(own_folder)
    result = run(*command, f"made{os.sep}")
    assert result.exit_code == 2
    assert result.stderr.startswith(f"made{os.sep}: named as a folder; ")
    assert files_of(own_folder) == before
