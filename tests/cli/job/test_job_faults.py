"""A faulty key is refused: exit 2, a line that tells how to put it right, nothing written."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.jobs import job_text, refused, run, write_job

pytestmark = pytest.mark.usefixtures("own_folder")


def test_the_small_job_is_good() -> None:
    write_job(Path(), job_text())
    assert (
        run("check", "job.toml", "--quick").exit_code == 0
    )  # so that each case below fails for its change


# changes, key at fault, value told, words of what is allowed, words of what to try
ONE_FAULT: dict[str, tuple[dict[str, str], str, str, str, str]] = {
    "flat-flange": (
        {"wheel.flange_angle_deg": "90.5"},
        "wheel.flange_angle_deg",
        "90.5",
        "from 45 up to 90",
        "= 70",
    ),
    "steep-flange": (
        {"wheel.flange_angle_deg": "44"},
        "wheel.flange_angle_deg",
        "44",
        "from 45 up to 90",
        "= 70",
    ),
    "vent-cuts-hub": (  # 42 mm tube, 0.5 mm clearance, 16 mm vents: above 59
        {"wheel.vent_circle_mm": "58"},
        "wheel.vent_circle_mm",
        "58",
        "above 59",
        "vent_circle_mm =",
    ),
    "vent-cuts-rim": (  # disc of 180 - 12 - 1 = 167: below 151
        {"wheel.vent_circle_mm": "152"},
        "wheel.vent_circle_mm",
        "152",
        "below 151",
        "vent_circle_mm =",
    ),
    "discs-collide": (  # 50 - 2 x 5 = 40 between the outer faces at most
        {"wheel.disc_field_inset_mm": "20", "wheel.disc_gauge_inset_mm": "20"},
        "wheel.disc_field_inset_mm + disc_gauge_inset_mm",
        "40",
        "below 40",
        "smaller insets",
    ),
    "short-tube": (  # 50 - 8 - 8 = 34 over the discs' outer faces
        {"wheel.hub_tube_length_mm": "33"},
        "wheel.hub_tube_length_mm",
        "33",
        "at least 34",
        "hub_tube_length_mm =",
    ),
    "thick-wall": (
        {"wheel.tread_thickness_mm": "36", "wheel.vent_circle_mm": "80"},
        "wheel.tread_thickness_mm",
        "36",
        "below 36",
        "thinner wall",
    ),
    "bore-over-tube": (
        {"wheel.hub_bore_mm": "42"},
        "wheel.hub_tube_outside_mm",
        "42",
        "above hub_bore_mm",
        "larger tube",
    ),
    "bar-does-not-taper": (
        {"wheel.tread_from": '"bar"', "wheel.tread_taper_1_in": "20"},
        "wheel.tread_taper_1_in",
        "20",
        "0 with",
        "sheet",
    ),
    "nan": ({"track.gauge_mm": "nan"}, "track.gauge_mm", "nan", "from 100 up to 2000", "= 457"),
    "inf": ({"track.gauge_mm": "inf"}, "track.gauge_mm", "inf", "from 100 up to 2000", "= 457"),
    "minus-inf": ({"wagon.tare_kg": "-inf"}, "wagon.tare_kg", "-inf", "above 0", "= 180"),
    "no-end-to-the-price": (  # the one kind of key without an upper limit
        {"cutting.price_per_h": "inf"},
        "cutting.price_per_h",
        "inf",
        "a number from 0",
        "price_per_h =",
    ),
    "negative": ({"wagon.payload_kg": "-1"}, "wagon.payload_kg", "-1", "from 0", "= 250"),
    "zero": ({"wheel.hub_bore_mm": "0"}, "wheel.hub_bore_mm", "0", "above 0", "= 35"),
    "no-wheels": ({"job.wheels": "0"}, "job.wheels", "0", "from 1", "= 8"),
    "half-a-wheel": ({"job.wheels": "1.5"}, "job.wheels", "1.5", "a whole number", "= 8"),
    "text": ({"track.gauge_mm": '"381"'}, "track.gauge_mm", "'381'", "a number", "without quotes"),
    "text-with-unit": (
        {"track.gauge_mm": '"15 in"'},
        "track.gauge_mm",
        "'15 in'",
        "a number",
        "without quotes or unit",
    ),
    "boolean": ({"track.gauge_mm": "true"}, "track.gauge_mm", "True", "a number", "= 457"),
    "boolean-count": ({"job.wheels": "true"}, "job.wheels", "True", "a whole number", "= 8"),
    "number-for-boolean": (
        {"cutting.kerf_in_path": "1"},
        "cutting.kerf_in_path",
        "1",
        "true or false",
        "false",
    ),
    "list": ({"track.gauge_mm": "[381]"}, "track.gauge_mm", "[381]", "a number", "= 381"),
    "table": ({"track.gauge_mm": "{ a = 1 }"}, "track.gauge_mm", "{", "a number", "= 457"),
    "date": ({"track.gauge_mm": "1979-05-27"}, "track.gauge_mm", "1979", "a number", "= 457"),
    "choice": ({"wheel.steel": '"S999"'}, "wheel.steel", "'S999'", '"S235" | "S275" | "S355"', "="),
    "name-with-slash": ({"job.name": '"../up"'}, "job.name", "'../up'", "letters", "name ="),
    "name-empty": ({"job.name": '""'}, "job.name", "''", "letters", "name ="),
    "spacing": (  # kerf 1.7 and 1 mm of steel
        {"cutting.part_spacing_mm": "2.6"},
        "cutting.part_spacing_mm",
        "2.6",
        "at least 2.7",
        "part_spacing_mm = 6",
    ),
    "sheet-margin": (
        {"cutting.sheet_margin_mm": "2"},
        "cutting.sheet_margin_mm",
        "2",
        "at least 2.7",
        "sheet_margin_mm = 6",
    ),
    "paper": ({"paper.size": '"B7"'}, "paper.size", "'B7'", '"A4"', "size ="),
    "overlap": ({"paper.overlap_mm": "80"}, "paper.overlap_mm", "80", "up to", "overlap_mm = 15"),
    "unknown-key": (
        {"wheel.tread_taper_1_inn": "20"},
        "wheel.tread_taper_1_inn",
        "20",
        "known keys",
        "did you mean tread_taper_1_in?",
    ),
    "other-unit": (
        {"track.flangeway_cm": "3.2"},
        "track.flangeway_cm",
        "3.2",
        "flangeway_mm, in mm",
        "flangeway_mm = the value in mm",
    ),
    "other-unit-speed": (
        {"wagon.max_speed_mph": "5"},
        "wagon.max_speed_mph",
        "5",
        "max_speed_km_h, in km/h",
        "max_speed_km_h = the value in km/h",
    ),
}


@pytest.mark.parametrize("case", ONE_FAULT)
def test_one_fault_is_told_with_key_value_allowed_and_advice(case: str) -> None:
    changes, key, found, allowed, advice = ONE_FAULT[case]
    faults = refused(job_text(changes))
    assert list(faults) == [key]
    assert found in faults[key]["found"]
    assert allowed in faults[key]["allowed"]
    assert advice in faults[key]["advice"]


def test_advice_for_a_text_is_not_a_number_without_quotes() -> None:
    (fault,) = refused(job_text({"job.name": '"pond/line"'})).values()
    assert "number" not in fault["advice"]
