"""A job file that is no job: sections and rows out of place, no TOML, no text, no file at all."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from platewheel.cli.job.job import read_job
from platewheel.parts.base.faults import SpecError
from tests.cli.jobs import ROWS, job_text, refused, run

pytestmark = pytest.mark.usefixtures("own_folder")


def offcut(outline: str, more: str = "") -> str:
    return f'{ROWS}[[offcut]]\nname = "one"\nthickness_mm = 5\noutline = {outline}\n{more}\n'


SQUARE = "[[0, 0], [300, 0], [300, 300], [0, 300]]"


@pytest.mark.parametrize(
    ("rows", "key"),
    [
        (offcut("[[0, 0], [300, 300], [300, 0], [0, 300]]"), "offcut[0].outline"),  # crosses
        (offcut("[[0, 0], [300, 0]]"), "offcut[0].outline"),
        (offcut("[[0, 0], [300, 0], [600, 0]]"), "offcut[0].outline"),  # no area
        (offcut("[[0, 0], [300, 0, 5], [300, 300]]"), "offcut[0].outline"),
        (offcut("[[0, 0], [nan, 0], [300, 300]]"), "offcut[0].outline"),
        (offcut('"300 x 300"'), "offcut[0].outline"),
        (offcut(SQUARE, "holes = [[[400, 0], [450, 0], [450, 50]]]"), "offcut[0].holes[0]"),
        (offcut(SQUARE, "holes = [[[250, 9], [350, 9], [350, 50]]]"), "offcut[0].holes[0]"),
        (offcut(SQUARE, "holes = [[9, 9], [50, 9], [50, 50]]"), "offcut[0].holes"),
        (offcut(SQUARE) + offcut(SQUARE).removeprefix(ROWS), "offcut[1].name"),  # same name
        (ROWS + "[[stock]]\nthickness_mm = 5\nlength_mm = 100\n", "stock[2].width_mm"),
        (ROWS + "[[bar]]\nwidth_mm = 50\nthickness_mm = 6\nlength_mm = 0\n", "bar[0].length_mm"),
        (ROWS.replace("thickness_mm = 6", "thickness_mm = 6\ncount = -1"), "stock[1].count"),
        (ROWS.replace("thickness_mm = 6", "thickness_mm = 6\ncount = 1.0"), "stock[1].count"),
    ],
)
def test_rows_are_told_by_their_number(rows: str, key: str) -> None:
    assert list(refused(job_text(rows=rows))) == [key]


@pytest.mark.parametrize(
    "holes",
    [  # the plate's area is told, and bought, by area: a hole must not be taken off twice
        "[[[10, 10], [60, 10], [60, 60], [10, 60]], [[30, 30], [90, 30], [90, 90], [30, 90]]]",
        "[[[10, 10], [60, 10], [60, 60], [10, 60]], [[10, 10], [60, 10], [60, 60], [10, 60]]]",
    ],
)
def test_holes_of_an_offcut_that_overlap_are_refused(holes: str) -> None:
    (key,) = refused(job_text(rows=offcut(SQUARE, f"holes = {holes}")))
    assert key.startswith("offcut[0].holes")


def test_an_offcut_larger_than_any_plate_is_refused() -> None:
    outline = "[[0, 0], [1e308, 0], [1e308, 1e308], [0, 1e308]]"
    assert list(refused(job_text(rows=offcut(outline)))) == ["offcut[0].outline"]


STRUCTURE: dict[str, tuple[str, dict[str, str]]] = {  # text, and key at fault -> words of the line
    "wheel-is-a-number": (
        job_text(without=("wheel",), head="wheel = 3"),
        {"wheel": r"3.*\[wheel\]"},
    ),
    "wheel-is-repeated": (
        job_text().replace("[wheel]", "[[wheel]]"),
        {"wheel": r"one section \[wheel\]"},
    ),
    "stock-is-single": (
        job_text(rows="[stock]\nthickness_mm = 5\nwidth_mm = 400\nlength_mm = 500\n"),
        {"stock": r"\[\[stock\]\]"},
    ),
    "stock-is-a-list-of-numbers": (job_text(rows="", head="stock = [3]"), {"stock": r"\[\[stock"}),
    "section-misspelt": (
        job_text().replace("[track]", "[trak]"),
        {"trak": "did you mean track", "track": r"a section \[track\]"},
    ),
    "section-of-nothing-near": (job_text(head="[zzzzzzzz]"), {"zzzzzzzz": "sections job, track"}),
    "section-missing": (job_text(without=("wagon",)), {"wagon": r"a section \[wagon\]"}),
    "keys-missing": (
        job_text(without=("track.gauge_mm", "wheel.hub_bore_mm")),
        {"track.gauge_mm": "found nothing", "wheel.hub_bore_mm": "found nothing"},
    ),
    "key-above-all-sections": (
        job_text(head="flangeway_mm = 30"),
        {"flangeway_mm": r"found 30.*inside \[track\].*move it"},
    ),
    "key-renamed": (
        job_text({"wheel.hub_bor_mm": "30"}, without=("wheel.hub_bore_mm",)),
        {"wheel.hub_bore_mm": "found nothing", "wheel.hub_bor_mm": "did you mean hub_bore_mm"},
    ),
}


@pytest.mark.parametrize("case", STRUCTURE)
def test_sections_and_keys_out_of_place(case: str) -> None:
    text, expected = STRUCTURE[case]
    faults = refused(text)
    assert set(faults) == set(expected)
    for key, words in expected.items():
        assert re.search(words, faults[key].string), faults[key].string


def test_faults_of_all_sections_are_told_at_once() -> None:
    changes = {
        "job.wheels": "-2",
        "track.gauge_mm": '"15 in"',
        "wagon.tare_kg": "nan",
        "wheel.flange_angle_deg": "30",
        "wheel.vent_circle_mm": "20",  # a rule between keys, told although another key is bad
        "finish.coating": '"chrome"',
        "cutting.kerf_mm": "-1",
        "paper.size": '"A9"',
        "nonsense.key": "1",
    }
    faults = refused(job_text(changes, rows=offcut("[[0, 0], [1, 1]]")))
    expected = {key for key in changes if key != "nonsense.key"}
    assert set(faults) == expected | {"nonsense", "offcut[0].outline"}


def test_a_huge_file_is_not_read(monkeypatch: pytest.MonkeyPatch) -> None:
    with open("huge.toml", "wb") as file:
        file.truncate(300_000_000)  # sparse: takes no room on the disk
    read = Path.read_bytes

    def small_only(path: Path) -> bytes:
        assert path.name != "huge.toml", "a huge file is being read"
        return read(path)

    with monkeypatch.context() as patch:
        patch.setattr(Path, "read_bytes", small_only)
        result = run("build", "huge.toml")
    assert result.exit_code == 2
    assert result.stderr.startswith("huge.toml: found '300000000 bytes'")
    assert sorted(path.name for path in Path().iterdir()) == ["huge.toml"]


UNREADABLE: dict[str, Any] = {
    "binary": bytes(range(256)) * 9,
    "zip": b"PK\x03\x04" + bytes(200),
    "utf-16": job_text().encode("utf-16"),
    "empty": b"",
    "blank": b" \n\t\n",
    "json": '{"job": {"name": "pond"}}',
}


@pytest.mark.parametrize("case", UNREADABLE)
def test_a_file_that_is_no_toml_is_refused(case: str) -> None:
    assert list(refused(UNREADABLE[case])) == ["job.toml"]


def test_a_folder_and_a_missing_file_are_refused() -> None:
    Path("folder").mkdir()
    assert list(refused(None, "folder")) == ["folder"]
    assert "No such file" in refused(None, "missing.toml")["missing.toml"]["found"]


@pytest.mark.parametrize(
    "value",
    [
        "1" * 400,  # no float is so large
        "1" * 5000,  # Python reads no decimal of more than 4300 digits
        "0x" + "f" * 5000,  # reads this one, but does not print it
        "[" * 200 + "]" * 200,
    ],
    ids=["400-digits", "5000-digits", "5000-hex-digits", "nested-list"],
)
def test_a_monstrous_value_is_a_fault_of_the_file(value: str) -> None:
    (line,) = refused(job_text({"track.gauge_mm": value})).values()
    assert len(line.string) < 500


def test_a_key_of_two_thousand_dots_is_a_fault_of_the_file() -> None:
    refused(job_text().replace("[track]\n", "[track]\na" + ".a" * 2_000 + " = 1\n"))


def test_one_bracket_for_two_is_guessed_at(tmp_path: Path) -> None:
    """[stock] and then [[stock]]: the reader says "cannot overwrite a value" and no more."""
    single = "[stock]\nthickness_mm = 5\nwidth_mm = 400\nlength_mm = 500\n"
    file = tmp_path / "job.toml"
    file.write_text(job_text(rows=single + single.replace("[stock]", "[[stock]]")))
    with pytest.raises(SpecError, match=r"line 26: .*write \[\[stock\]\]"):
        read_job(file)
