"""Lines that a person wrote otherwise than TOML wants: refused by line, with what to write."""

from __future__ import annotations

import codecs
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.cli.job.job import read_job
from platewheel.cli.schema.job_sections import KINDS
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.meant import in_range
from platewheel.parts.base.spec_model import toml_value
from tests.cli.jobs import BASE, job_text
from tests.places import DEMO


def faults_of(file: Path, text: str | bytes) -> tuple[Fault, ...]:
    file.write_bytes(text if isinstance(text, bytes) else text.encode())
    with pytest.raises(SpecError) as caught:
        read_job(file)
    return caught.value.faults


def line_with(text: str, words: str) -> int:
    return next(i for i, line in enumerate(text.split("\n"), 1) if words in line)


# a line of the small job, what a person wrote instead, what is to be written
LINES: dict[str, tuple[str, str, str]] = {
    "comma": ("flange_depth_mm = 12", "flange_depth_mm = 12,5", "flange_depth_mm = 12.5"),
    "unit": ("gauge_mm = 381", "gauge_mm = 38.1 cm", "gauge_mm = 381"),
    "unit in quotes": ("gauge_mm = 381", 'gauge_mm = "381 mm"', "gauge_mm = 381"),
    "inches": ("gauge_mm = 381", 'gauge_mm = "15 in"', "gauge_mm = 381"),
    "inch mark": ("gauge_mm = 381", 'gauge_mm = 15"', "gauge_mm = 381"),
    "whole number": ("wheels = 2", "wheels = 2.0", "wheels = 2"),
    "whole in quotes": ("wheels = 2", 'wheels = "2"', "wheels = 2"),
    "no quotes": ('name = "pond-line"', "name = pond-line", 'name = "pond-line"'),
    "curly quotes": ('name = "pond-line"', "name = “pond-line”", 'name = "pond-line"'),
    "open quote": ('name = "pond-line"', 'name = "pond-line', 'name = "pond-line"'),
    "colon": ("gauge_mm = 381", "gauge_mm: 381", "gauge_mm = 381"),
    "no sign": ("gauge_mm = 381", "gauge_mm 381", "gauge_mm = 381"),
    "two signs": ("gauge_mm = 381", "gauge_mm == 381", "gauge_mm = 381"),
    "comma behind": ("gauge_mm = 381", "gauge_mm = 381,", "gauge_mm = 381"),
    "zero before": ("gauge_mm = 381", "gauge_mm = 0381", "gauge_mm = 381"),
    "point first": ("flange_depth_mm = 12", "flange_depth_mm = 12.", "flange_depth_mm = 12"),
    "note of another kind": ("gauge_mm = 381", "gauge_mm = 381 // wide", "gauge_mm = 381"),
    "key with spaces": ("gauge_mm = 381", "Gauge mm = 381", "gauge_mm = 381"),
    "minus sign": ("tare_kg = 80", "tare_kg = ~80 kg", "tare_kg = 80"),
    "hidden space": ("tare_kg = 80", "tare_kg = 80\u00a0kg", "tare_kg = 80"),
    "tonnes": ("tare_kg = 80", "tare_kg = 0,08 t", "tare_kg = 80"),
    "centimetres": ("tread_diameter_mm = 180", "tread_diameter_mm = 18", "18 is in cm"),
    "metres": ("wheelbase_mm = 500", "wheelbase_mm = 0.5", "wheelbase_mm = 500, if 0.5 is in m"),
    "inches bare": ("gauge_mm = 381", "gauge_mm = 15", "gauge_mm = 381, if 15 is in inches"),
    "no point": ("flange_angle_deg = 65", "flange_angle_deg = 650", "flange_angle_deg = 65"),
    "taped round": (
        "hub_bore_mm = 30",
        "hub_bore_mm = 942.48",
        "hub_bore_mm = 37.11, if 942.48 was turned from inches twice",
    ),
}


@pytest.mark.parametrize("case", LINES)
def test_a_line_is_told_with_what_to_write(case: str, tmp_path: Path) -> None:
    before, written, wanted = LINES[case]
    text = job_text()
    assert f"\n{before}\n" in text
    broken = text.replace(f"\n{before}\n", f"\n{written}\n")
    first, *_ = faults_of(tmp_path / "job.toml", broken)
    assert first.line == line_with(broken, written)
    assert first.key.endswith(before.split(" ")[0])
    assert wanted in first.advice
    assert str(first).startswith(f"line {first.line}: ")


@pytest.mark.parametrize(
    ("written", "wanted"),
    [('"-2; 5"', "[-2, 5]"), ('"±2"', "[-2, 2]"), ("-2 to 5", "[-2, 5]"), ("-2,5", "[-2, 5]")],
)
def test_two_numbers_in_another_way_are_told_as_a_list(
    written: str, wanted: str, tmp_path: Path
) -> None:
    line = f"gauge_tolerance_mm = {written}"
    text = job_text().replace("\ngauge_mm = 381\n", f"\ngauge_mm = 381\n{line}\n")
    (fault,) = faults_of(tmp_path / "job.toml", text)
    assert fault.line == line_with(text, line)
    assert wanted in fault.advice


CHOICES: dict[str, tuple[str, str]] = {  # line added to [cutting] or [wheel], what to write
    'process = "Hand"': "cutting",
    "process = hand": "cutting",
    "kerf_in_path = yes": "cutting",
    "kerf_in_path = False": "cutting",
    'lead_shape = "Arc"': "cutting",
    'process = "oxyfuel"': "cutting",
    'process = "plasme"': "cutting",
}  # type: ignore[assignment]
WANTED = ("hand", "hand", "true", "false", "arc", "oxy-fuel", "plasma")


@pytest.mark.parametrize(("line", "wanted"), [*zip(CHOICES, WANTED, strict=True)])
def test_a_choice_is_known_by_any_spelling(line: str, wanted: str, tmp_path: Path) -> None:
    text = job_text(head=f"[cutting]\n{line}")
    (fault,) = faults_of(tmp_path / "job.toml", text)
    key = line.split(" ")[0]
    assert fault.line == line_with(text, line)
    assert fault.advice.replace('"', "") == f"write {key} = {wanted}"


def test_a_left_over_piece_by_length_and_width_is_told_its_corners(tmp_path: Path) -> None:
    text = job_text() + (
        '[[offcut]]\nname = "rest"\nthickness_mm = 6\nlength_mm = 700\nwidth_mm = 250.5\n'
    )
    (fault,) = faults_of(tmp_path / "job.toml", text)
    assert fault.key == "offcut[0].outline"
    corners = "[[0, 0], [700, 0], [700, 250.5], [0, 250.5]]"
    assert fault.advice == f"outline = {corners} in place of length_mm and width_mm"
    lines = text.splitlines()
    assert lines[fault.line - 1] == "[[offcut]]"
    told = text.replace("length_mm = 700\nwidth_mm = 250.5\n", f"outline = {corners}\n")
    (tmp_path / "job.toml").write_text(told)
    assert len(read_job(tmp_path / "job.toml").offcuts) == 1


ELSEWHERE: dict[str, tuple[str, str, str]] = {  # line below [wheel], key at fault, advice
    "another section": ("gauge_mm = 382", "wheel.gauge_mm", "move it below [track]"),
    "rows": ("outside_mm = 300", "wheel.outside_mm", "move it below [[pipe]]"),
    "misspelt there": ("guage_mm = 381", "wheel.guage_mm", "did you mean gauge_mm, below [track]"),
    "misspelt here": ("weld_troat_mm = 4", "wheel.weld_troat_mm", "did you mean weld_throat_mm?"),
    "capitals": ("Weld_Throat_mm = 4", "wheel.Weld_Throat_mm", "did you mean weld_throat_mm?"),
}


@pytest.mark.parametrize("case", ELSEWHERE)
def test_a_stray_key_is_sent_home(case: str, tmp_path: Path) -> None:
    line, key, advice = ELSEWHERE[case]
    text = job_text().replace("[wheel]\n", f"[wheel]\n{line}\n")
    (fault,) = faults_of(tmp_path / "job.toml", text)
    assert (fault.key, fault.line) == (key, line_with(text, line))
    assert advice in fault.advice


HEADS = {
    "[track": "[track]",
    "track]": "[track]",
    "(track)": "[track]",
    "track:": "[track]",
    "[Track": "[track]",
    "[[track]": "[track]",
}


@pytest.mark.parametrize("head", HEADS)
def test_a_broken_head_still_heads_its_keys(head: str, tmp_path: Path) -> None:
    text = job_text({"track.gauge_mm": "38,1"}).replace("[track]", head)
    faults = faults_of(tmp_path / "job.toml", text)
    assert faults[0].advice == "write [track]"
    assert faults[0].line == line_with(text, head)
    assert faults[1].key == "track.gauge_mm"
    assert len(faults) == 2


def test_all_faults_come_at_once_also_behind_a_broken_line(tmp_path: Path) -> None:
    changes = {
        "job.wheels": "0",
        "track.gauge_mm": "38,1 cm",
        "wheel.flange_angle_deg": "30",
        "wheel.vent_circle_mm": "20",  # a rule between keys
    }
    text = job_text(changes)
    faults = faults_of(tmp_path / "job.toml", text)
    assert [fault.key for fault in faults] == [*changes]
    lines = [line_with(text, key.split(".")[1] + " = ") for key in changes]
    assert [fault.line for fault in faults] == lines


def test_a_list_may_be_wrong_behind_a_broken_line(tmp_path: Path) -> None:
    """Corners of an offcut that cross: such a value has no hash."""
    corners = "[[0, 0], [90, 0], [0, 90], [90, 90]]"
    rows = f'[[offcut]]\nname = "bow"\nthickness_mm = 5\noutline = {corners}'
    text = job_text(head="[# a pond", rows=rows)
    faults = faults_of(tmp_path / "job.toml", text)
    assert [fault.line for fault in faults] == [line_with(text, "[# a pond")]


def test_what_may_stand_in_a_line_not_understood_is_not_missed(tmp_path: Path) -> None:
    text = job_text({"track.gauge_mm": "wide", "job.wheels": "0"}, without=("wagon.tare_kg",))
    faults = faults_of(tmp_path / "job.toml", text)
    assert [fault.key for fault in faults] == ["job.wheels", "track.gauge_mm"]


def test_a_key_and_a_section_twice_are_told_by_both_lines(tmp_path: Path) -> None:
    text = job_text().replace("[wheel]\n", "gauge_mm = 400\n[track]\n[wheel]\nseam_gap_mm = 2\n")
    text = text.replace("seam_gap_mm = 2\n", "seam_gap_mm = 2\nseam_gap_mm = 3\n")
    faults = {fault.key: fault for fault in faults_of(tmp_path / "job.toml", text)}
    first = line_with(text, "seam_gap_mm = 2")
    assert faults["wheel.seam_gap_mm"].advice == f"take out this line or line {first}"
    assert faults["wheel.seam_gap_mm"].line == first + 1
    again = next(fault for fault in faults.values() if "again" in str(fault))
    assert f"line {line_with(text, '[track]')}" in again.advice


@pytest.mark.parametrize("encoding", ["utf-16", "utf-32", "cp1252"])
def test_another_encoding_is_told_and_the_rest_read(encoding: str, tmp_path: Path) -> None:
    text = job_text({"wheel.flange_angle_deg": "30"}, head="# Größe")
    first, second = faults_of(tmp_path / "job.toml", text.encode(encoding))
    assert "UTF-8" in first.advice
    assert first.line == 1
    assert (second.key, second.line) == ("wheel.flange_angle_deg", line_with(text, "_angle_"))


def test_marks_and_line_ends_of_other_editors_are_no_fault(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    for data in (
        codecs.BOM_UTF8 + job_text().encode(),
        job_text().replace("\n", "\r\n").encode(),
        job_text().replace("\n", "\r").encode(),
        job_text().replace(" = ", "\t=\t").encode(),
    ):
        file.write_bytes(data)
        assert read_job(file).track.gauge_mm == 381


def test_every_line_of_the_demo_is_found_again(tmp_path: Path) -> None:
    """Of each number of the demo its key is known by line, lists over lines and rows too."""
    text = DEMO.read_text(encoding="utf-8")
    places = read_job(DEMO).places
    assert places.line("wheel.weld_throat_mm") == line_with(text, "weld_throat_mm")
    assert places.line("stock[1].price") == line_with(text, "price = 165")
    assert places.line("offcut[0].holes") == line_with(text, "holes = [[[120")
    assert places.line("costs.bearing_price") == line_with(text, "bearing_price")
    assert places.line("wheel.seam_gap_mm + fit_clearance_mm") == line_with(text, "seam_gap_mm")
    assert places.line("finish.corrosion_mm") == line_with(text, "[finish]")
    assert places.line("stock.toml") == places.line("stock")
    assert places.line("elsewhere.toml") == 0


NUMBERS = [
    (section, key, float(value))
    for section, keys in BASE.items()
    for key, value in keys.items()
    if key.endswith("_mm") and value.isdigit()
]
HOW = {  # how a person writes a length in mm
    "comma": lambda mm: f"{mm:.2f}".replace(".", ","),
    "quoted": lambda mm: f'"{mm:.2f}"',
    "mm": lambda mm: f"{mm:.2f} mm",
    "mm quoted": lambda mm: f'"{mm:.2f}mm"',
    "cm": lambda mm: f"{mm / 10:.3f} cm",
    "m": lambda mm: f"{mm / 1000:.5f}m",
    "m comma": lambda mm: f"{mm / 1000:.5f}".replace(".", ",") + " m",
    "curly": lambda mm: f"“{mm:.2f}”",
    "thousands": lambda mm: f"{mm:,.2f}".replace(",", "'").replace(".", ","),
    "behind": lambda mm: f"{mm:.2f};",
}


@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    st.sampled_from(NUMBERS),
    st.floats(0.5, 2).map(lambda x: round(x, 2)),
    st.sampled_from(sorted(HOW)),
)
def test_any_length_written_in_any_way_is_read_back(
    tmp_path_factory: pytest.TempPathFactory, place: tuple[str, str, float], times: float, how: str
) -> None:
    section, key, usual = place
    mm = round(usual * times, 2)
    if not in_range(KINDS[section].model_fields[key], mm):
        return
    text = job_text({f"{section}.{key}": HOW[how](mm)})
    file = tmp_path_factory.getbasetemp() / "written.toml"
    found = [one for one in faults_of(file, text) if one.key == f"{section}.{key}"]
    assert found[0].line == line_with(text, f"{key} = ")
    assert f"{key} = {toml_value(mm)}" in found[0].advice
