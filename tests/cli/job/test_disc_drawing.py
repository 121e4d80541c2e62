"""A hub disc by the user's own drawing, [disc] of the job file: read, fitted, carried, refused."""

from __future__ import annotations

import json
import math
import tomllib
from pathlib import Path

import ezdxf
import pytest

from platewheel.cli.compare.run import differing_keys
from platewheel.cli.job.job import Job, job_of, read_job
from platewheel.cli.job.plan import plan_job
from platewheel.cli.job.wheelset import checks_with_advice
from platewheel.cli.papers.drawings.pulled_apart import pulled_apart
from platewheel.cli.papers.drawings.section import section_picture
from platewheel.cli.papers.sheet.summary import read_first
from platewheel.cli.report.rows import blank_rows, wheel_row
from platewheel.nesting.drawings.read import read_outline
from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks.galvanizing.coating import coated_area_mm2
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import segments
from platewheel.parts.rating.assess import assess
from platewheel.parts.wheel.assembly import wheel_parts
from platewheel.parts.wheel.hub_disc import disc_blank
from platewheel.parts.wheelset.bodies.hub import finished_solids
from tests.cli.jobs import NAME, job_text, run, write_job

AT = (300.0, -40.0)  # where the axis lies in the drawing
RIM, HUB = 167.0, 43.0  # of the small job: bore 168 and tube 42 mm, 0.5 mm all round
SLOT = (32.0, 70.0, 60.0)  # radii, and how far it goes round in degrees


def draw(
    path: Path,
    *,
    rim: float = RIM,
    hub: float = HUB,
    far: float = SLOT[1],
    slots: int = 3,
    off: float = 0.0,
    unit: int = 4,
) -> Path:
    """A disc with three slots between arcs about the axis, their ends radial."""
    doc = ezdxf.new("R2000")
    doc.header["$INSUNITS"] = unit
    space = doc.modelspace()
    space.add_circle(AT, rim / 2)
    space.add_circle((AT[0] + off, AT[1]), hub / 2)
    for k in range(slots):
        first, last = 120 * k, 120 * k + SLOT[2]
        ends = [
            [
                (AT[0] + r * math.cos(math.radians(a)), AT[1] + r * math.sin(math.radians(a)))
                for r in (SLOT[0], far)
            ]
            for a in (first, last)
        ]
        for radius in (SLOT[0], far):
            space.add_arc(AT, radius, first, last)
        for end in ends:
            space.add_line(*end)
    doc.saveas(path)
    return path


def draw_plain(path: Path, blank: Blank) -> None:
    """The built-in disc as a drawing of its own."""
    doc = ezdxf.new("R2000")
    doc.header["$INSUNITS"] = 4
    for loop in (blank.outline, *blank.holes):
        doc.modelspace().add_circle(loop.centre, loop.radius_mm)  # type: ignore[union-attr]
    doc.saveas(path)


def own_text(**more: str) -> str:
    keys = {"wheel.vent_count": "0", "disc.file": '"mine.dxf"', "finish.coating": '"galvanized"'}
    return job_text(keys | {key.replace("__", "."): value for key, value in more.items()})


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("disc")
    draw(folder / "mine.dxf")
    write_job(folder, own_text())
    return folder


@pytest.fixture(scope="module")
def own(home: Path) -> Job:
    return read_job(home / "job.toml")


def test_the_disc_lies_on_its_axis_wherever_it_was_drawn(own: Job) -> None:
    """Slots of a third of an annulus sector each: pi (70^2 - 32^2) / 6."""
    disc = own.own_disc
    assert disc is not None
    assert disc.bounds == pytest.approx((-RIM / 2, -RIM / 2, RIM / 2, RIM / 2))
    slots = 3 * math.pi * (SLOT[1] ** 2 - SLOT[0] ** 2) * SLOT[2] / 360
    assert disc.area_mm2 == pytest.approx(math.pi * (RIM**2 - HUB**2) / 4 - slots)
    assert (disc.sizes["diameter_mm"], disc.sizes["hub_hole_diameter_mm"]) == (RIM, HUB)


def test_a_plain_disc_as_a_drawing_is_the_built_in_one(tmp_path: Path) -> None:
    plain = job_of(tomllib.loads(job_text()))
    draw_plain(tmp_path / "mine.dxf", disc_blank(plain.wheel))
    drawn = job_of(tomllib.loads(own_text()), tmp_path)
    parts = [wheel_parts(one.wheel, disc=one.own_disc) for one in (plain, drawn)]
    named = [{p.name: (p.count_per_wheel, p.volume_mm3) for p in one} for one in parts]
    assert named[1] == {key: (n, pytest.approx(mm3)) for key, (n, mm3) in named[0].items()}
    assert wheel_row(drawn).mass_kg == pytest.approx(wheel_row(plain).mass_kg, rel=1e-9)
    areas = [coated_area_mm2(one.wheel, one.own_disc) for one in (plain, drawn)]
    assert areas[1] == pytest.approx(areas[0], rel=1e-9)
    volumes = [
        {name: solid.Volume() for name, solid in finished_solids(one.setting, None)}
        for one in (plain, drawn)
    ]
    assert volumes[1] == pytest.approx(volumes[0], rel=1e-9)
    laid = [plan_job(one, 0, lambda text: None, "quick") for one in (plain, drawn)]
    assert laid[1].nest.layouts[0].parts_area_mm2 == pytest.approx(
        laid[0].nest.layouts[0].parts_area_mm2
    )
    checks = [{c.id: c for c in checks_with_advice(one, None)} for one in (plain, drawn)]
    judged = {key for key, one in checks[1].items() if one.verdict != "not-assessed"}
    assert len(judged) > 30
    assert {key: checks[1][key] for key in judged} == {key: checks[0][key] for key in judged}


def test_papers_and_report_tell_the_drawing(own: Job) -> None:
    rows = {row.name: row for row in blank_rows(own, wheel_parts(own.wheel, disc=own.own_disc))}
    assert (rows["disc"].drawing, rows["disc"].count) == ("mine.dxf", 4)
    slot = math.radians(SLOT[2]) * (SLOT[0] + SLOT[1]) + 2 * (SLOT[1] - SLOT[0])
    assert rows["disc"].cut_length_mm == pytest.approx(math.pi * (RIM + HUB) + 3 * slot)
    assert rows["tread"].drawing is None
    picture = section_picture(own.wheel, "mm", own.own_disc)
    assert "3 openings" in picture
    assert "64 to" in picture
    solids = dict(finished_solids(own.setting, None))
    told = {one.key: one.rows for one in pulled_apart(own.wheel, solids, "mm", own.own_disc)}
    assert "3 openings, own drawing" in told["disc-gauge"]


def test_a_build_has_it_in_every_file(home: Path) -> None:
    """Blank, plates and STEP read back: area of the outline, slots, volume."""
    import cadquery as cq

    result = run("build", home / "job.toml", "--out", home / "out")
    assert result.exit_code == 0, result.stderr
    assert "The hub discs are a drawing of your own" in result.stderr
    folder = home / "out" / NAME
    disc = read_job(home / "job.toml").own_disc
    assert disc is not None
    back = read_outline(folder / "blanks" / "disc.dxf")
    assert [len(segments(hole)) for hole in back.holes].count(4) == 3
    solid = cq.importers.importStep(str(folder / "solids" / "disc.step")).val()
    assert solid.Volume() == pytest.approx(disc.volume_mm3, rel=1e-6)  # type: ignore[union-attr]
    report = json.loads((folder / "report.json").read_text(encoding="utf-8"))
    assert report["rating"] is None
    (step,) = (one for one in report["steps"] if one["id"] == "vents")
    area = {one["name"]: one["value"] for one in step["figures"]}["open area of all openings"]
    slots = 3 * math.pi * (SLOT[1] ** 2 - SLOT[0] ** 2) * SLOT[2] / 360
    assert area == pytest.approx(2 * slots / 100)  # both discs, cm2
    assert "every opening: 3 in each disc, 6 in a wheel" in step["do"][0]
    sheet = (folder / "job-sheet.html").read_text(encoding="utf-8")
    assert "your own disc, from mine.dxf" in sheet


def test_the_job_sheet_begins_with_a_caution_of_it(own: Job) -> None:
    assert "drawing of your own" in read_first(own)[0]
    assert "drawing of your own" not in read_first(job_of(tomllib.loads(job_text())))[0]


def test_a_refit_begins_with_a_caution_of_it(home: Path) -> None:
    rings = home / "rings.csv"
    rings.write_text("ring,outside_circumference_mm\n1,565.5\n2,565.6\n", encoding="utf-8")
    shown = run("refit", home / "job.toml", "--rings", rings, "--out", home / "out", "--no-nest")
    assert shown.exit_code == 0, shown.stderr
    folder = home / "out" / f"{NAME}-refit"
    report = json.loads((folder / "report.json").read_text(encoding="utf-8"))
    assert "drawing of your own" in report["warnings"][0]


def test_nothing_rates_it_and_vents_are_not_known(own: Job) -> None:
    assert assess(own.setting) is None
    found = {one.id: one.verdict for one in checks_with_advice(own, None)}
    unknown = ("rating-new", "vent-number", "vent-size", "sealed-hollow", "weld-rim", "vent-web")
    assert {found[key] for key in unknown} == {"not-assessed"}
    assert found["play-least"] == found["throat-least"] == "pass"
    # the disc is drawn by the wheel's fit, the bore is the tube's, zinc is by thickness
    for key in ("fit-allowance", "fillet-gap", "bore-pressure", "coating-life"):
        assert found[key] != "not-assessed", key


def test_a_disc_without_any_opening_seals_the_box(tmp_path: Path) -> None:
    """Known of any disc: the galvanizer's rule against sealed hollows needs no strength of it."""
    for slots, verdict in ((0, "fail"), (1, "not-assessed")):
        draw(tmp_path / "mine.dxf", slots=slots)
        job = job_of(tomllib.loads(own_text()), tmp_path)
        found = {one.id: one for one in checks_with_advice(job, None)}["sealed-hollow"]
        assert found.verdict == verdict
        assert ("EXPLODES" in found.says) == ("disc.file" in found.says) == (slots == 0)
    painted = job_of(tomllib.loads(own_text(finish__coating='"painted"')), tmp_path)
    assert "sealed-hollow" not in {one.id for one in checks_with_advice(painted, None)}


WRONG = {
    "wide": (draw, {"rim": 170.0}, {}, r"line 28: disc\.file.*ring bore.*outline has 170"),
    "gap": (draw, {"rim": 166.5}, {}, r"a rim of 167 mm, the ring bore less twice fit_clearance"),
    "hub": (draw, {"hub": 43.4}, {}, r"a hub hole of 43 mm, the hub tube and twice"),
    "off": (
        draw,
        {"off": 2.0},
        {},
        r"about \(302, -40\).*centre 2 mm off; try: move it by \(-2, 0\)",
    ),
    "unit": (draw, {"unit": 1}, {}, r'of 25\.4 mm it has 4241\.8; try: unit = "mm"'),
    "bead": (draw, {"far": 81.0}, {}, r"clear of the beads.*hole about \(3.*has 81"),
    "vents": (draw, {}, {"wheel__vent_count": "2"}, r"wheel\.vent_count: found 2; allowed: 0"),
    "none": (None, {}, {}, r"disc\.file: found 'mine\.dxf'; allowed: a DXF drawing.*no such file"),
    "key": (draw, {}, {"disc__fiel": '"x"'}, r"disc\.fiel.*did you mean file"),
    "kerf": (draw, {"far": 34.0}, {"cutting__kerf_mm": "4"}, r"disc\.file.*kerf"),
}


@pytest.mark.parametrize("why", WRONG)
def test_what_does_not_fit_is_refused_by_key_and_line(why: str, tmp_path: Path) -> None:
    drawn, sizes, keys, words = WRONG[why]
    if drawn:
        drawn(tmp_path / "mine.dxf", **sizes)
    path = write_job(tmp_path, own_text(**keys))
    with pytest.raises(SpecError, match=words) as told:
        read_job(path)
    assert all(fault.line for fault in told.value.faults)


def test_a_layer_may_be_the_discs_alone(home: Path) -> None:
    row = '[[drawing_layer]]\nname = "0"\nuse = "ignored"\npart = "disc"\n'
    with pytest.raises(SpecError, match=r"disc\.file.*closed lines on visible layers"):
        job_of(tomllib.loads(own_text() + row), home)


def test_what_tries_other_wheels_refuses_it_by_name(home: Path) -> None:
    for command in ("propose", "sensitivity"):
        result = run(command, home / "job.toml")
        assert result.exit_code == 2
        assert "disc.file: found 'mine.dxf'" in result.stderr
        assert f"where {command} tries other wheels" in result.stderr


def test_two_jobs_differ_by_their_drawings(own: Job) -> None:
    plain = job_of(tomllib.loads(job_text()))
    rows = {row.key: row for row in differing_keys(plain, own)}
    assert "disc.file" in rows
    assert "disc.area_mm2" in rows


def test_a_disc_of_so_many_lines_that_its_wheels_would_not_be_cut(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Three slots of four lines, rim, bore and a mark: 17 a disc, two discs a wheel."""
    draw(tmp_path / "mine.dxf")
    monkeypatch.setattr("platewheel.nesting.drawings.all_lines.MANY", 10)
    monkeypatch.setattr("platewheel.nesting.drawings.all_lines.MOST_LINES", 102)
    table = tomllib.loads(own_text())
    table["job"]["wheels"] = 3
    job_of(table, tmp_path)
    table["job"]["wheels"] = 4
    with pytest.raises(SpecError) as caught:
        job_of(table, tmp_path)
    (fault,) = caught.value.faults
    assert fault.key == "disc.file"
    assert "there are about 136, 17 on each disc" in fault.allowed
    assert "wheels = 3 in [job]" in fault.advice
