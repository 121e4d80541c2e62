"""Texts that would hang a reader, files that never end, and names that no file can have."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from platewheel.cli.job import toml_lines
from platewheel.cli.job.job import read_job
from platewheel.cli.job.toml_lines import Places, statements
from platewheel.cli.ledger.read import read_ledger
from platewheel.cli.output.offcut_use import USED_FILE, _used_names
from platewheel.cli.refit.rings_file import read_rings
from platewheel.cli.work.text_file import MOST_DEEP, NotText, require_shallow
from platewheel.parts.base.faults import SpecError
from platewheel.parts.base.plain_values import odd_values
from platewheel.parts.setting.track import TrackSpec
from tests.cli.jobs import job_text, write_job

PIECE = "[[plate]]\nname = {}\nthickness_mm = 6\nwidth_mm = 900\nlength_mm = 900\n"
TRACK = {"gauge_mm": 381.0, "rail_head_width_mm": 20.0, "min_curve_radius_m": 10.0}


def faults(read: Callable[[Path], Any], path: Path) -> tuple[str, ...]:
    with pytest.raises(SpecError) as refused:
        read(path)
    return tuple(map(str, refused.value.faults))


def job_with(folder: Path, key: str, value: str) -> tuple[str, ...]:
    return faults(read_job, write_job(folder, job_text({key: value})))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("a." * 400_000 + "a = 1\n", "line 1: job.toml: found 40 names with dots between"),
        ("\n[" + "a . " * 200_000 + "a]\n", "line 2: job.toml: found 40 names"),
        ("x = " + "[" * 400_000, "line 1: job.toml: found 40 brackets in brackets, or more"),
        ("x = " + "{a=" * 200_000, "found 40 brackets in brackets"),
        ("x = " + "1" * 900_000 + "\n", "line 1: job.toml: found x = 111111"),
        ("a" + " " * 900_000 + "b\n", "line 1: job.toml: found a   "),
        ("[" + " " * 900_000 + '"$"]\n', "$: found 'a section'"),
        ("[" + "a " * 400_000 + "$]\n", "line 1: job.toml: found [a a "),
        ("[use]\n" + "track_gauge" * 80_000 + " = 1\n", "line 2: use.track_gauge"),
        ('"' * 900_000 + "\n", "line 1: job.toml: found"),
        ('k = """' + "\n" * 900_000, "found 9000"),
        ("x = [\n" + "[\n" * 40_000, "found 40 brackets in brackets"),
        ("x = [\n" + "1,\n" * 40_000, "x = ["),
    ],
)
def test_a_job_file_that_would_take_for_ever(text: str, words: str, tmp_path: Path) -> None:
    file = write_job(tmp_path, text + job_text())
    assert any(words in line.replace(f"{tmp_path}/", "") for line in faults(read_job, file))


@pytest.mark.parametrize(
    ("line", "letter"),
    [
        ("gauge_mm = 381 # \x1b[31m red", "letter 18 is U+001B"),
        ("gauge_mm = 381\t# \0", "letter 18 is U+0000"),
        ("gauge_mm\x7f = 381", "letter 9 is U+007F"),
    ],
)
def test_a_mark_that_cannot_be_seen_is_told_and_the_rest_is_read(
    line: str, letter: str, tmp_path: Path
) -> None:
    text = job_text({"job.wheels": "0"})
    number = next(i for i, own in enumerate(text.splitlines(), 1) if own.startswith("gauge_mm"))
    text = "\n".join(line if own.startswith("gauge_mm") else own for own in text.splitlines())
    told = faults(read_job, write_job(tmp_path, text))
    assert len(told) == 2
    (hidden,) = (one for one in told if one.startswith(f"line {number}: "))
    assert letter in hidden
    assert "write the line anew by hand" in hidden
    assert any("job.wheels: found 0" in one for one in told)


def test_a_date_is_shown_as_it_is_written(tmp_path: Path) -> None:
    (told,) = job_with(tmp_path, "track.gauge_mm", "1979-05-27T07:32:00Z")
    assert "found 1979-05-27T07:32:00+00:00;" in told


def test_lines_of_another_file_are_not_those_of_a_section() -> None:
    places = Places({"stock": 95, "stock.price": 97}, 99, frozenset({"stock"}))
    assert [places.line(key) for key in ("stock.toml:8", "stock.price", "stock[0]")] == [0, 97, 95]


def test_what_is_deep_as_ours_is_read() -> None:
    require_shallow("a." * (MOST_DEEP - 1) + "a = 1\nx = " + "[" * (MOST_DEEP - 1) + "\n# 1.2.3\n")
    with pytest.raises(NotText, match=f"{MOST_DEEP} names"):
        require_shallow("a." * MOST_DEEP + "a = 1\n")


def test_a_text_without_end_is_looked_through_a_few_times_only(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    looked, own = [], toml_lines.unended

    def unended(*given: Any) -> tuple[str, int]:
        looked.append(given)
        return own(*given)

    monkeypatch.setattr(toml_lines, "unended", unended)
    assert len([*statements("[ 1,\n" * 400)]) == 400
    assert len(looked) < 5 * 400


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    pipe = tmp_path / USED_FILE
    os.mkfifo(pipe)
    wheel = read_job(write_job(tmp_path, job_text())).wheel
    told: list[str] = []

    def read() -> None:
        told.extend(faults(read_job, pipe))
        told.extend(faults(read_ledger, pipe))
        told.extend(faults(lambda path: read_rings(path, wheel), pipe))
        try:
            list(_used_names(pipe))
        except NotText as error:
            told.append(error.found)

    reader = threading.Thread(target=read, daemon=True)
    reader.start()
    reader.join(30)
    assert len(told) == 4
    assert all("a pipe" in line for line in told)


@pytest.mark.parametrize(
    "name", ["CON", "aux", "nul.txt", "Com1", "LPT9.toml.txt", "conin$", "rest.", " rest", "rest "]
)
def test_names_that_a_system_keeps_or_cuts_off(name: str, tmp_path: Path) -> None:
    """Microsoft, "Naming files, paths, and namespaces": CON, PRN, AUX, NUL, COM1 ..., with any
    ending; a blank or a full stop at the end is dropped."""
    quoted = f'"{name}"'
    offcut = "[[offcut]]\nname = {}\nthickness_mm = 6\noutline = [[0, 0], [300, 0], [0, 300]]\n"
    extra = '[[extra]]\nname = {}\nfile = "none.dxf"\nthickness_mm = 6\n'
    file = tmp_path / "job.toml"
    rows = offcut.format(quoted) + extra.format(quoted)
    file.write_text(job_text({"job.name": quoted}, rows=rows), encoding="utf-8")
    told = faults(read_job, file)
    for key in ("job.name", "offcut[0].name", "extra[0].name"):
        assert any(f"{key}: found '{name}'" in line for line in told), told
    file.write_text(PIECE.format(quoted), encoding="utf-8")
    (line,) = faults(read_ledger, file)
    assert f"found '{name}'" in line


def test_marks_that_cannot_be_seen(tmp_path: Path) -> None:
    (line,) = job_with(tmp_path, "costs.currency", r'"E\u202eUR"')
    assert "costs.currency: found" in line
    file = tmp_path / "stock.toml"
    file.write_text(PIECE.format(r'"plate\u0007"'), encoding="utf-8")
    (line,) = faults(read_ledger, file)
    assert "text without marks that cannot be seen" in line


@pytest.mark.parametrize("point", [0x200B, 0xFEFF, 0xAD, 0x2060, 0x3164, 0x2800, 0xFE0F, 0xE0041])
def test_a_mark_of_no_width_makes_no_other_name(point: int, tmp_path: Path) -> None:
    """Unicode Character Database, DerivedCoreProperties.txt: Default_Ignorable_Code_Point."""
    offcut = "[[offcut]]\nname = {}\nthickness_mm = 6\noutline = [[0, 0], [300, 0], [0, 300]]\n"
    name = f'"li{chr(point)}d"'
    rows = offcut.format('"lid"') + offcut.format(name)
    (line,) = faults(read_job, write_job(tmp_path, job_text(rows=rows)))
    assert "text without marks that cannot be seen" in line
    assert f"letter 3 is U+{point:04X} (" in line
    (line,) = faults(read_ledger, write_job(tmp_path, PIECE.format(name)))
    assert f"letter 3 is U+{point:04X} (" in line


@pytest.mark.parametrize("value", [5e-324, 1e-300, 9e-7, 2e12, 1e300])
def test_numbers_out_of_all_measure(value: float) -> None:
    assert not [*odd_values(TrackSpec, TRACK)]
    (fault,) = odd_values(TrackSpec, TRACK | {"rail_head_radius_mm": value})
    assert fault.key == "rail_head_radius_mm"
    assert "0 or between 1e-06 and 1e+12" in str(fault)


def test_the_least_friction_is_refused_as_any_number_out_of_measure(tmp_path: Path) -> None:
    (line,) = job_with(tmp_path, "use.friction_low", "5e-324")
    assert "use.friction_low: found 4.94066e-324; allowed: a number" in line
