"""Which warning opens stronger wheels, on a coarser grid."""

from __future__ import annotations

from dataclasses import replace

from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.propose.let_in import coarser, opened, thickness, warning_checks
from platewheel.parts.propose.screening import Sieve, first_wheels, widened
from platewheel.parts.setting.setting import Setting
from tests.parts.propose.test_sifting import SMALL
from tests.parts.settings import demo_setting


def narrow(setting: Setting) -> CheckResult:
    """Warns of rings above 6 mm."""
    wall, words = setting.wheel.tread_thickness_mm, {"good": "good", "bad": "bad"}
    return judged("narrow", "N", wall, 6, "mm", "-", at_most=True, bad_verdict="warn", **words)


def test_checks_that_held_most_back_come_first_and_once() -> None:
    sieves = [
        Sieve("a", 9, 4, 5),
        Sieve("b", 9, 9, 0),
        Sieve("c", 9, 2, 7),
        Sieve("a", 4, 1, 3),
        Sieve("d", 9, 4, 5),
    ]
    assert warning_checks(sieves) == ["c", "a", "d"]


def test_a_warning_let_in_opens_the_thicker_wheels() -> None:
    setting = demo_setting()
    few, thin = opened(setting, SMALL, (narrow,), ())
    more, strong = opened(setting, SMALL, (narrow,), ("narrow",))
    assert 0 < few < more
    assert {one.wheel.tread_thickness_mm for one in thin} == {6.0}
    assert {one.wheel.tread_thickness_mm for one in strong} == {8.0}
    assert max(one.wheel.tread_diameter_mm for one in strong) == 300.0
    assert opened(setting, SMALL, (never,), ()) == (0, [])


def never(setting: Setting) -> CheckResult:
    """Fails for every wheel."""
    width, words = setting.wheel.tread_width_mm, {"good": "good", "bad": "bad"}
    return judged("never", "N", width, 1, "mm", "-", at_most=True, **words)


def test_thickness_is_the_product_of_plates_and_beads() -> None:
    wheels = first_wheels(demo_setting().wheel, SMALL)
    for axis in ("flange", "depth", "angle", "disc", "inset", "fit", "throat", "root"):
        wheels = widened(wheels, axis)
    values = wheels.values(0)
    product = values["tread_thickness_mm"] * values["flange_thickness_mm"]
    product *= values["disc_thickness_mm"] * values["weld_throat_mm"] * values["root_weld_mm"]
    assert abs(thickness(wheels, 0) - product) < 1e-9 * product


def test_a_coarser_grid_keeps_the_ends_and_every_pipe() -> None:
    many = replace(
        SMALL,
        diameter=tuple(float(d) for d in (*range(200, 400, 10), 273)),
        angle=tuple(float(a) for a in range(60, 91)),
    )
    few = coarser(many)
    assert few.wheels < many.wheels
    assert (min(few.diameter), max(few.diameter)) == (200, 390)
    assert 273 in few.diameter
    assert len(few.diameter) == 7
    assert (len(few.angle), few.angle[0], few.angle[-1]) == (12, 60, 90)
    assert few.throat == many.throat
