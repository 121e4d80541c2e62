"""Numbers of report.json against closed forms, for wheels of every make on 15 inch gauge."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import pytest

from tests.cli.jobs import NAME, ROWS, job_text, run, write_job

# BASE of jobs.py: tread 180 x 50 x 6, flange 12 deep, 65 degrees, 5 thick, discs 5 thick 8 from
# the edges, tube 42 / 30 x 60, vents 2 x 16 on 140; defaults: clearance 0.5, seam gap 2
WHEELS = 2
RADIUS, WIDTH, WALL = 90.0, 50.0, 6.0
DEPTH, ANGLE, FLANGE = 12.0, math.radians(65), 5.0
DISC, CLEARANCE, GAP = 5.0, 0.5, 2.0
KG_PER_MM3 = 7.85e-6  # 7.85 kg per m2 and mm of plate, as steel dealers list it
BAR = ROWS + "[[bar]]\nwidth_mm = 50\nthickness_mm = 6\nlength_mm = 3000\n"
PIPE = ROWS + "[[pipe]]\noutside_mm = 180\nwall_mm = 6\nlength_mm = 1000\n"
JOBS: dict[str, tuple[dict[str, str], str]] = {
    "three-segments": ({}, ROWS),
    "whole-cone": ({"wheel.flange_segments": "1", "job.wheels": "1"}, ROWS),
    "taper": ({"wheel.tread_taper_1_in": "20"}, ROWS),
    "bar": ({"wheel.tread_from": '"bar"'}, BAR),
    "pipe": ({"wheel.tread_from": '"pipe"'}, PIPE),
}


@pytest.fixture(scope="module", params=JOBS)
def built(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> tuple[str, Path]:
    """Name of the make, and the job folder."""
    changes, rows = JOBS[request.param]
    here = tmp_path_factory.mktemp(request.param)
    result = run("build", write_job(here, job_text(changes, rows=rows)), "--out", here)
    assert result.exit_code == 0, result.stderr
    return request.param, here / NAME


def report_of(folder: Path) -> tuple[dict[str, Any], dict[str, Any], dict[str, Any]]:
    """The report, its blanks by name and its parts by name."""
    report = json.loads((folder / "report.json").read_text())
    blanks = {row["name"]: row for row in report["blanks"]}
    return report, blanks, {row["name"]: row for row in report["parts"]}


def test_tread_blank(built: tuple[str, Path]) -> None:
    """Strip pi (D - t) less the gap. Source: development on the mid-surface of a cylinder."""
    make, folder = built
    _, blanks, _ = report_of(folder)
    if make == "pipe":
        assert "tread" not in blanks
        assert not (folder / "blanks" / "tread.dxf").exists()
        assert not (folder / "templates" / "tread.pdf").exists()
        return
    tread = blanks["tread"]
    if make == "taper":  # development of a cone frustum: slant radius = radius / sin(half apex)
        half = math.atan(1 / 20)
        outer = (RADIUS - WALL / 2 * math.cos(half)) / math.sin(half)
        inner = outer - WIDTH / math.cos(half)
        assert tread["outer_radius_mm"] == pytest.approx(outer)
        assert tread["inner_radius_mm"] == pytest.approx(inner)
        whole = 2 * math.pi * (outer + inner) / 2 * math.sin(half)
        assert tread["length_mm"] == pytest.approx(whole - GAP, abs=0.01)  # of mid-width
        swept = math.radians(tread["sweep_deg"]) * (outer + inner) / 2
        assert swept == pytest.approx(tread["length_mm"])
    else:
        assert tread["length_mm"] == pytest.approx(math.pi * (2 * RADIUS - WALL) - GAP)
        assert tread["width_mm"] == WIDTH
        assert tread["area_mm2"] == pytest.approx(tread["length_mm"] * WIDTH)
        assert tread["cut_length_mm"] == pytest.approx(2 * (tread["length_mm"] + WIDTH))


def test_disc_blanks(built: tuple[str, Path]) -> None:
    make, folder = built
    _, blanks, parts = report_of(folder)
    bore = 2 * (RADIUS - WALL)
    if make == "taper":
        half = math.atan(1 / 20)
        bore = 2 * (RADIUS - WALL / math.cos(half))  # at the gauge edge
        field, gauge = blanks["disc-field"], blanks["disc-gauge"]
        # at the narrower face of each: 8 from the field edge, 8 + 5 from the gauge edge
        assert field["diameter_mm"] == pytest.approx(bore - 2 * (WIDTH - 8) / 20 - 2 * CLEARANCE)
        assert gauge["diameter_mm"] == pytest.approx(bore - 2 * (8 + DISC) / 20 - 2 * CLEARANCE)
        assert field["count"] == gauge["count"] == WHEELS
        assert "disc" not in blanks
        return
    disc = blanks["disc"]
    assert disc["diameter_mm"] == pytest.approx(bore - 2 * CLEARANCE)
    assert disc["hub_hole_diameter_mm"] == pytest.approx(42 + 2 * CLEARANCE)
    squares = disc["diameter_mm"] ** 2 - disc["hub_hole_diameter_mm"] ** 2 - 2 * 16**2
    assert disc["area_mm2"] == pytest.approx(math.pi / 4 * squares)
    assert parts["disc"]["count_per_wheel"] == 2


def test_flange_blank(built: tuple[str, Path]) -> None:
    """Development of a cone frustum on the plate's mid-surface."""
    make, folder = built
    report, blanks, parts = report_of(folder)
    segments = 1 if make == "whole-cone" else 3
    inner = (RADIUS - FLANGE / 2 * math.cos(ANGLE)) / math.sin(ANGLE)
    outer = inner + DEPTH / math.sin(ANGLE)
    gap = math.degrees(GAP / ((inner + outer) / 2))
    flange = blanks["flange"]
    assert flange["inner_radius_mm"] == pytest.approx(inner)
    assert flange["outer_radius_mm"] == pytest.approx(outer)
    assert flange["sweep_deg"] == pytest.approx(360 * math.sin(ANGLE) / segments - gap)
    sweep = math.radians(flange["sweep_deg"])
    assert flange["area_mm2"] == pytest.approx(sweep / 2 * (outer**2 - inner**2))
    assert flange["count"] == segments * report["job"]["wheels"]
    assert parts["flange"]["count_per_wheel"] == segments


def test_masses_are_volumes_of_steel(built: tuple[str, Path]) -> None:
    _, folder = built
    report, blanks, parts = report_of(folder)
    for part in parts.values():
        assert part["mass_kg"] == pytest.approx(part["volume_mm3"] * KG_PER_MM3)
    for name, blank in blanks.items():
        volume = blank["area_mm2"] * blank["thickness_mm"]
        assert parts[name]["volume_mm3"] == pytest.approx(volume)
        assert blank["count"] == parts[name]["count_per_wheel"] * report["job"]["wheels"]
    tube = math.pi / 4 * (42**2 - 30**2) * 60
    assert parts["hub-tube"]["volume_mm3"] == pytest.approx(tube)
    plates = math.fsum(p["mass_kg"] * p["count_per_wheel"] for p in parts.values())
    wheel = report["wheel"]
    assert wheel["weld_mass_kg"] > 0
    assert wheel["mass_kg"] == pytest.approx(plates + wheel["weld_mass_kg"])
    assert wheel["over_flange_diameter_mm"] == 2 * (RADIUS + DEPTH)


def test_treads_cut_to_length_are_a_cutting_list(built: tuple[str, Path]) -> None:
    make, folder = built
    report, blanks, parts = report_of(folder)
    lists = report["cutting_lists"]
    on_sheets = {p["blank"] for sheet in report["sheets"] for p in sheet["placements"]}
    if make not in ("bar", "pipe"):
        assert lists == []
        assert "tread" in on_sheets
        return
    assert "tread" not in on_sheets
    (row,) = lists
    piece = math.pi * (2 * RADIUS - WALL) - GAP if make == "bar" else WIDTH
    assert row["piece_length_mm"] == pytest.approx(piece)
    assert row["stock"].startswith(make)
    assert row["stock_length_mm"] == (3000 if make == "bar" else 1000)
    assert row["pieces"] == {"tread": WHEELS}
    assert row["repeat"] == 1
    kerf = 1.7  # the default; one saw cut after each of the two pieces
    assert row["rest_mm"] == pytest.approx(row["stock_length_mm"] - WHEELS * (piece + kerf))
    if make == "pipe":  # no seam: a whole hollow cylinder
        ring = math.pi * (RADIUS**2 - (RADIUS - WALL) ** 2) * WIDTH
        assert parts["tread"]["volume_mm3"] == pytest.approx(ring)
    else:
        assert blanks["tread"]["count"] == WHEELS  # drawn and templated, though not nested
