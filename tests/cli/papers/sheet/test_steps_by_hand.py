"""Steps of a shop without a machine: each figure stands before the cut, the roll or the tape that
needs it."""

from __future__ import annotations

import math
import re

import pytest

from platewheel.cli.words.plain import plain
from platewheel.parts.making.figures import flange_limits_mm
from platewheel.parts.refit.shared_blanks import flange_window
from tests.cli.papers.sheet.test_steps import MID, SINE, figure, told
from tests.cli.shop import steps as steps_of


def test_by_hand_blanks_are_marked_out_before_they_are_cut() -> None:
    made = steps_of({"cutting.process": '"hand"'})
    ids = [step.id for step in made.steps]
    assert ids[ids.index("mark-out") + 1] == "cut"
    step = made.step("mark-out")
    wheel = made.job.wheel
    assert figure(step, "disc: circle through their centres, diameter") == wheel.vent_circle_mm
    # developed on the mid-surface: root and foot of the flange over the sine of its angle
    assert figure(step, "flange: inner radius") == pytest.approx(MID / SINE)
    assert figure(step, "flange: outer radius") == pytest.approx((MID + 12) / SINE)
    assert told(step, (MID + 12) / SINE)
    assert step.uses == ["marking-out.pdf", "plates.pdf"]
    assert not any(line.startswith("tread") for line in step.do)  # it is cut and rolled by then


@pytest.mark.parametrize("process", ["hand", "plasma"])
@pytest.mark.parametrize("tread", ["sheet", "bar", "pipe"])
def test_a_strip_cut_by_hand_is_marked_out_before_it_is_cut(process: str, tread: str) -> None:
    made = steps_of({"cutting.process": f'"{process}"', "wheel.tread_from": f'"{tread}"'})
    step = made.step("strip")
    scribed = [at for at, line in enumerate(step.do) if "Scribe" in line]
    if (process, tread) != ("hand", "sheet"):
        assert not scribed
        return
    strip = math.pi * (180 - 6) - 2  # long, and 50 wide
    assert figure(step, "strip, both diagonals") == pytest.approx(math.hypot(strip, 50))
    cut = next(at for at, line in enumerate(step.do) if re.match(r"Cut \d+ strips", line))
    assert scribed[-1] < cut


def test_the_ring_is_flush_outside_before_it_is_rounded_and_taped() -> None:
    do = steps_of().step("close").do
    assert max(at for at, line in enumerate(do) if "flush outside too" in line) == len(do) - 1
    assert do[-1].index("flush outside") < do[-1].index("Then round the ring")


def test_the_ring_is_measured_for_its_flange_too() -> None:
    """Seams of 2 mm that may be 1 to 4: a whole flange on 1 less and 2 more of tape; in 3 pieces
    thrice that. The borders are those by which a refit trims a flange or cuts it anew."""
    drawn = math.pi * 180
    for count in (1, 3):
        step = steps_of({"wheel.flange_segments": str(count)}).step("measure")
        words = next(line for line in step.do if "drawn flange" in line)
        assert f"From {drawn - count:.1f} mm to {drawn + 2 * count:.1f} mm" in words
        wheel = steps_of({"wheel.flange_segments": str(count)}).job.wheel
        window = flange_window(wheel)  # of flanges for this ring; here of rings for this flange
        limits = flange_limits_mm(wheel)
        assert limits is not None
        assert (limits[1] - limits[0]) / math.pi == pytest.approx(
            window.greatest_mm - window.least_mm
        )


def test_a_step_that_another_is_put_before_is_told_by_name() -> None:
    for process in ("hand", "plasma"):
        words = " ".join(steps_of({"cutting.process": f'"{process}"'}).step("cut").do)
        assert "step that measures the ring" in words
        assert "step before" not in words


@pytest.mark.parametrize("coating", ["painted", "bare"])
def test_nobody_is_told_of_a_bath_who_has_none(coating: str) -> None:
    """Welds of a first disc, a wheel without a tube, a disc cut by hand: all that fits discs."""
    for more in ({}, {"wheel.first_disc_both_sides": "true"}, {"shop.reamer": "false"}):
        made = steps_of({"finish.coating": f'"{coating}"', "cutting.process": '"hand"', **more})
        do = " ".join(line for step in made.steps for line in step.do)
        assert not re.search("galvanizer|zinc|dross|nozzle", do), re.findall(".{30}zinc.{20}", do)
        assert not any(line.startswith("Zinc is filed") for line in made.step("bore").cautions)
    dipped = steps_of({"finish.coating": '"galvanized"'})
    assert "as your galvanizer asks" in " ".join(dipped.step("hub").do)
    assert "dross" in " ".join(dipped.step("clean").do)
    assert any(line.startswith("Zinc is filed") for line in dipped.step("bore").cautions)


def test_columns_of_the_list_of_rings_keep_their_names_on_paper() -> None:
    (line,) = (one for one in steps_of().step("measure").do if "after_welding_mm" in one)
    assert plain(line) == line
    assert plain("wheel.flange_angle_deg = 70, `flange_angle_deg`") == (
        "flange angle of 70 deg, `flange_angle_deg`"
    )


def test_the_lines_of_the_hammer_are_struck_on_the_flat_blank() -> None:
    """Ten degrees of the wheel on the blank's middle, MID + 6 from the axis: three to a mark."""
    (line,) = (one for one in steps_of().step("flange").do if one.startswith("Strike a line"))
    assert f"{math.radians(10) * (MID + 6):.1f} mm apart" in line


@pytest.mark.parametrize(
    ("lathe", "bore", "told"),
    [("true", "25", False), ("false", "25", True), ("false", "26.4", False)],
)
def test_a_tube_that_no_dealer_has_asks_for_a_lathe(lathe: str, bore: str, told: bool) -> None:
    """EN 10220 has 42.4 x 8 mm, of bore 26.4, and no bore of 25."""
    keys = {"shop.lathe": lathe, "wheel.hub_bore_mm": bore, "wheel.hub_tube_outside_mm": "42.4"}
    assert ("have it turned and bored" in " ".join(steps_of(keys).step("buy").do)) is told


@pytest.mark.parametrize(("most", "sizes"), [("80", 1), ("140", 2), ("50", 1)])
def test_rods_are_asked_for_by_size(most: str, sizes: int) -> None:
    do = steps_of({"shop.welder_most_a": most, "costs.welding": '"rod"'}).step("buy").do
    (line,) = (one for one in do if one.startswith("Rods"))
    assert line.count(" A)") == sizes
    inch = steps_of({"paper.units": '"inch"', "costs.welding": '"rod"'}).step("buy").do
    assert "3/32 in (60 to 100 A), 1/8 in (90 to 140 A)" in " ".join(inch)
    wire = steps_of({"costs.welding": '"wire"'}).step("buy").do
    assert not any(one.startswith("Rods") for one in wire)
