"""The steps to build name this wheel's own figures, and each caution stands where it bites."""

from __future__ import annotations

import math
import re

import pytest

from platewheel.cli.papers.sheet.steps import steps_section
from platewheel.cli.schema.shop import StepRow
from tests.cli.shop import steps as steps_of

IN_ORDER = [
    *("buy", "strip", "deburr", "roll", "close", "measure", "cut", "clean", "hub", "fit", "true"),
    *("tack", "weld", "dress", "flange", "root", "vents", "coat", "bore", "gauge", "prove"),
]
NUMBER = re.compile(r"\d+(?:\.\d+)?")


def numbers(step: StepRow) -> list[float]:
    """Every number in what the step tells to do."""
    return [float(number) for line in step.do for number in NUMBER.findall(line)]


def told(step: StepRow, value: float) -> bool:
    """Whether a number is told, to the last digit printed."""
    return any(abs(number - value) <= 0.051 for number in numbers(step))


def figure(step: StepRow, name: str) -> float:
    return next(row.value for row in step.figures if row.name == name)


def test_all_steps_in_order() -> None:
    assert [step.id for step in steps_of().steps] == IN_ORDER
    for step in steps_of().steps:
        assert numbers(step) or step.id == "prove", step.id  # a wheel that is not rated
        assert step.figures, step.id
        for row in step.figures:
            assert math.isfinite(row.value)
            assert row.source or not row.limit, row.name


# The wheel: tread 180 x 50 x 6, flange 12 deep at 65 degrees, 5 thick, 3 pieces; discs 5 thick,
# 8 inside both edges; bore 30, tube 42 x 60; two vents of 16 on 140; fit 0.5, seam 2, throat 3.
MID = 90 - 2.5 * math.cos(math.radians(65))  # root radius of the flange on its mid-surface
SINE = math.sin(math.radians(65))


@pytest.mark.parametrize(
    ("step", "value"),
    [
        ("roll", math.pi * (180 - 6) - 2),  # strip: pi (D - t) less the gap
        ("roll", 5 * 6),  # straight ends, 5 t
        ("roll", 84),  # bore's radius
        ("roll", 82.97 - 3),  # 82.97 = 87 (1 - 3 X + 4 X^3), X = 235 x 82.97 / (210000 x 6)
        ("close", 2),
        ("measure", math.pi * 180),
        ("measure", math.pi * (180 + 2 * (0.5 + 0.2 * 3 - 0.5))),  # gap 0.5 + 0.2 a
        ("measure", 2 * (6 + 0.5)),  # off the diameter for the disc
        ("fit", 180 - 2 * 6 - 2 * 0.5),  # disc
        ("hub", 50 - 8 - 8 - 5 - 5),  # between the discs
        ("hub", (60 - (50 - 16)) / 2),  # tube out of each disc
        ("hub", (180 - 2 * 6 - 2 * 0.5) / 2 * math.sqrt(2)),  # stick, as far up as the rim is out
        ("true", math.pi * 180 / 8),
        ("true", 30),
        ("tack", math.pi * 168 / 4),  # four tacks on a bore of 168
        ("weld", 3 * math.sqrt(2)),
        ("weld", math.pi * 168 / 4),
        ("weld", math.pi * 42 / 2),
        ("dress", 50),
        ("flange", MID / SINE),
        ("flange", (MID + 12) / SINE),
        ("flange", 12 / math.tan(math.radians(65)) + 5 * SINE),  # height, tip edge down
        ("flange", 65),
        ("flange", 96 / math.cos(math.radians(65))),  # across its marks, half way up
        ("flange", 197.17),  # = 227.15 (1 - 3 X + 4 X^3), X = 235 x 197.17 / (210000 x 5)
        ("root", 5),
        ("vents", 0.8 * 16),
        ("vents", 4),
        ("coat", 16),
        ("gauge", 381),
        ("gauge", 10),  # tightest curve, m
    ],
)
def test_a_step_tells_the_wheels_own_figure(step: str, value: float) -> None:
    assert told(steps_of().step(step), value), steps_of().step(step).do


def test_figures_follow_the_wheel() -> None:
    other = steps_of({"wheel.tread_diameter_mm": "200", "wheel.vent_circle_mm": "160"})
    assert figure(other.step("measure"), "circumference, drawn") == pytest.approx(math.pi * 200)
    assert told(other.step("roll"), math.pi * 194 - 2)
    assert not told(other.step("roll"), math.pi * 174 - 2)


def test_a_ring_is_pressed_round_with_the_force_of_a_thin_ring() -> None:
    """Roark's Formulas: (0.1488 + 0.1366) F R^3 / (E I); R 87, 50 x 6."""
    step = steps_of().step("measure")
    oval = figure(step, "out of round")
    force = oval * 210000 * 50 * 6**3 / 12 / (0.2854 * 87**3) / 1000
    assert figure(step, "force that presses so much round") == pytest.approx(force, rel=1e-3)
    assert told(step, force)


def test_the_galvanizer_is_told_how_to_hang_it() -> None:
    step = steps_of({"finish.coating": '"galvanized"'}).step("coat")
    (line,) = (line for line in step.do if line.startswith("Ask for this tilt"))
    level, tilted = (float(kg) for kg in re.findall(r"([\d.]+) kg", line))
    assert 0 <= tilted < level < 1
    assert re.search(r"(field|flange) side down until the axle is \d+ degrees", line)


def test_a_flat_flange_springs_from_nothing() -> None:
    flat = {"wheel.flange_angle_deg": "90", "wheel.flange_segments": "3"}
    assert not any("springs" in line for line in steps_of(flat).step("flange").do)
    assert any("springs" in line for line in steps_of().step("flange").do)


def test_gauge_and_play_make_the_track() -> None:
    step, track = steps_of().step("gauge"), steps_of().job.track
    over = figure(step, "over the flanges' feet")
    least = figure(step, "play in the tightest gauge")
    assert over + least + 1 + 2 == pytest.approx(track.gauge_mm)  # 1 mm of the wheels, 2 of it
    reach = 12 / math.tan(math.radians(65)) + 5 * SINE
    assert figure(step, "back to back") == pytest.approx(over - 2 * reach)


@pytest.mark.parametrize(
    ("words", "steps"),
    [
        ("zinc fume", {"strip", "cut", "close", "coat"}),
        ("on zinc or paint", {"tack", "root"}),
        ("explodes", {"hub", "coat"}),
        ("bomb", {"vents"}),
        ("discs burst", {"deburr", "clean"}),
        ("hoist", {"buy", "gauge"}),
        ("Nobody stands below|Never a hand or foot below", {"true", "prove"}),
        ("people ride", {"prove"}),
        ("[Bb]rakes", {"prove"}),
        ("Local codes", {"prove"}),
        ("qualified welder", {"weld", "root"}),
        ("plasma arc", {"strip", "cut"}),
    ],
)
def test_cautions_stand_where_they_bite(words: str, steps: set[str]) -> None:
    found = {
        step.id
        for step in steps_of().steps
        if re.search(words, " ".join(step.cautions), re.IGNORECASE)
    }
    assert found == steps


def test_a_heavy_wheel_is_for_two_people() -> None:
    light = " ".join(steps_of().step("true").cautions)
    heavy = steps_of({"wheel.disc_thickness_mm": "15", "wheel.tread_thickness_mm": "12",
                  "wheel.tread_width_mm": "100", "wheel.tread_diameter_mm": "380",
                  "wheel.vent_circle_mm": "310", "wheel.hub_tube_length_mm": "110"})  # fmt: skip
    assert "hoist" not in light
    assert "hoist" in " ".join(heavy.step("true").cautions)


def test_strips_are_cut_alone_where_discs_or_flanges_share_their_plate() -> None:
    apart, shared = steps_of(), steps_of({"wheel.flange_thickness_mm": "6"})
    for found, told in ((apart, False), (shared, True)):
        assert ("strips alone first" in " ".join(found.step("strip").do)) is told


def test_a_pipe_is_neither_rolled_nor_closed() -> None:
    steps = {step.id for step in steps_of({"wheel.tread_from": '"pipe"'}).steps}
    assert steps == set(IN_ORDER) - {"roll", "close"}


def test_coats_other_than_zinc() -> None:
    paint, bare = (
        steps_of({"finish.coating": f'"{coat}"'}).step("coat") for coat in ("painted", "bare")
    )
    assert "prime" in " ".join(paint.do)
    assert "explodes" not in " ".join(paint.cautions)
    assert "oil" in " ".join(bare.do)
    assert not any("zinc" in row.name for row in (*paint.figures, *bare.figures))


def test_a_root_without_room_is_told_where_it_is_welded() -> None:
    """The V of ring and flange is filled in the step of the root, not in that of the discs."""
    found = steps_of({"wheel.root_weld_mm": "12"})
    assert any("room for" in line for line in found.step("root").cautions)
    assert not any("room for" in line for line in found.step("weld").cautions)
    assert re.search(r"\d+ x disc", found.step("cut").do[0])


def test_a_wheel_without_vents_is_stopped_at_its_step() -> None:
    found = steps_of({"wheel.vent_count": "0"})
    step = found.step("vents")
    assert len(step.do) == 1
    assert "vent_count = 2" in step.do[0]
    assert any(line.startswith("FAIL") and "SEALED HOLLOW" in line for line in step.cautions)


def test_what_a_check_says_is_told_at_its_step() -> None:
    found = steps_of({"shop.roll_diameter_mm": "160"})
    lines = found.step("roll").cautions
    assert any(line.startswith("FAIL, smallest rolled ring") for line in lines)
    assert not any(line.startswith(("FAIL", "WARN")) for line in steps_of().step("roll").cautions)


def test_lengths_in_inches() -> None:
    step = steps_of({"paper.units": '"inch"'}).step("measure")
    # pi x 180 mm = 565.487 mm = 22.2633 in = 22 17/64 in
    assert "22 17/64 in as drawn" in step.do[0]
    assert not any(" mm" in line for line in step.do)


def test_the_form_stands_on_the_page_to_be_filled_in() -> None:
    row = StepRow(
        id="prove",
        title="Prove",
        do=["Press."],
        figures=[],
        order=[],
        cautions=[],
        form=["run-out of the tread"],
    )
    page = steps_section([row], "mm")
    assert "run-out of the tread" in page
    assert page.count("<th") >= 4
    assert "Before" in page
    assert "After" in page


def test_a_first_disc_welded_inside_has_its_step_before_the_second() -> None:
    found = steps_of({"wheel.first_disc_both_sides": "true"})
    ids = [step.id for step in found.steps]
    assert ids.index("measure") < ids.index("hub") < ids.index("inside") < ids.index("fit")
    hub, inside, fit = found.step("hub"), found.step("inside"), found.step("fit")
    for value in (8, math.pi * 168 / 4, math.pi * 42 / 2, 3):
        assert told(inside, value), value
    assert inside.order == ["1", "3", "2", "4"]
    assert "gauge disc" in inside.do[0]
    assert told(hub, (60 - 34) / 2)
    assert not any("field disc" in line for line in hub.do)
    assert any("Set the field disc" in line for line in fit.do)
    assert any("field disc" in line for line in steps_of().step("hub").do)
    assert figure(inside, "throat of the fillets inside") == 3


def test_a_narrow_ring_says_so_where_it_is_welded_inside() -> None:
    keys = {"wheel.first_disc_both_sides": "true", "shop.weld_reach_mm": "60"}
    assert any(line.startswith("WARN") for line in steps_of(keys).step("inside").cautions)


def test_a_backed_root_is_ground_out_and_welded_from_the_tread() -> None:
    backed, plain = steps_of({"wheel.root_backed": "true"}).step("root"), steps_of().step("root")
    assert figure(backed, "groove behind the root") == 2
    assert any("grind the root out all round" in line for line in backed.do)
    assert not any("grind the root out all round" in line for line in plain.do)


def test_dressed_seams_are_ground_on_both_faces() -> None:
    dressed, plain = steps_of({"wheel.seam": '"dressed"'}), steps_of()
    for step in ("close", "root"):
        both, one = (" ".join(found.step(step).do) for found in (dressed, plain))
        assert "no edge of the bead" in both
        assert "no edge of the bead" not in one


def test_rings_are_paired_again_by_what_welding_leaves() -> None:
    """A fillet takes 0.8 mm in 3 m (TWI, from memory); each of the discs' and the root's run round
    180 mm. Three flange seams pull too, as far as the ring follows."""
    step = steps_of().step("measure")
    shrinks = figure(step, "welding the wheel shrinks it by")
    assert 3 * 180 * 0.8 / 3000 < shrinks < 1.0
    assert told(step, round(shrinks, 2))
    line = step.do[-1]
    assert "after_welding_mm" in line
    assert "flange_angle_deg" in line
    # wall of 6 mm, gap 2: 12 mm2 and a V of 3 mm, 5.2 mm2; (0.2 A / t + 0.05 g) / pi
    own = (0.2 * (12 + 9 * math.tan(math.radians(30))) / 6 + 0.1) / math.pi
    assert figure(step, "its own seam has shrunk the ring by") == pytest.approx(own, rel=1e-6)
