"""Keys, set screws and press fits against a textbook's worked example and against Lame's ring.

Shigley, Mechanical Engineering Design, example 7-6 and table 7-4, and the key sizes of ISO 773,
are quoted from memory.
"""

from __future__ import annotations

import math

import pytest

from platewheel.parts.wheelset.wheel_holding import (
    key_for,
    key_pressure_n_mm2,
    key_shear_n_mm2,
    press_holding_n,
    press_hub_stress_n_mm2,
    press_pressure_n_mm2,
    screw_holding_n,
)

LBF_N, INCH_MM, PSI = 4.4482216, 25.4, 0.006894757


def test_shigley_example_7_6() -> None:
    """40 hp at 600 rev/min, 4200 lbf in on 1 7/16 in; key 3/8 in square, yield 65 kpsi, factor
    2.8: 1.16 in long by shear with 37.5 kpsi, 1.34 in by pressure on half its height."""
    torque, axle, key = 4200 * LBF_N * INCH_MM, 1.4375 * INCH_MM, 0.375 * INCH_MM
    shear = key_shear_n_mm2(torque, axle, key, 1.16 * INCH_MM) / PSI
    assert shear == pytest.approx(37500 / 2.8, rel=0.01)
    pressure = key_pressure_n_mm2(torque, axle, key / 2, 1.34 * INCH_MM) / PSI
    assert pressure == pytest.approx(65000 / 2.8, rel=0.01)


@pytest.mark.parametrize(
    ("axle", "width", "height", "in_axle"),
    [
        *(
            (10, 3, 3, 1.8),
            (12, 4, 4, 2.5),
            (20, 6, 6, 3.5),
            (25, 8, 7, 4),
            (35, 10, 8, 5),
            (40, 12, 8, 5),
        ),
        *((50, 14, 9, 5.5), (60, 18, 11, 7), (80, 22, 14, 9), (120, 32, 18, 11)),
    ],
)
def test_keys_of_iso_773(axle: float, width: float, height: float, in_axle: float) -> None:
    key = key_for(axle)
    assert (key.width_mm, key.height_mm, key.axle_depth_mm) == (width, height, in_axle)
    # in axle and hub together the keyways are a little deeper than the key is high
    assert key.height_mm < key.axle_depth_mm + key.hub_depth_mm <= key.height_mm + 0.5


@pytest.mark.parametrize(("inch", "lbf"), [(0.25, 1000), (0.375, 2000), (0.5, 3500)])
def test_set_screws_of_shigley_table_7_4(inch: float, lbf: float) -> None:
    assert screw_holding_n(inch * INCH_MM) == pytest.approx(lbf * LBF_N)


def test_press_fit_closes_the_overlap() -> None:
    """What the bore grows and the axle shrinks, by Lame's radial displacements at the pressure
    found, is the overlap again; and the hub's hoop stress carries the pressure's split."""
    axle, hub, overlap, e, nu = 35.0, 51.0, 0.03, 210000.0, 0.3
    p = press_pressure_n_mm2(overlap, axle, hub)
    a2, b2 = axle**2, hub**2
    grows = p * axle / e * ((b2 + a2) / (b2 - a2) + nu)
    shrinks = p * axle / e * (1 - nu)
    assert grows + shrinks == pytest.approx(overlap)
    radii = [axle / 2 + (hub - axle) / 2 * (k + 0.5) / 2000 for k in range(2000)]
    hoop = [p * a2 / (b2 - a2) * (1 + b2 / (4 * r * r)) for r in radii]
    assert sum(hoop) / 2000 * (hub - axle) == pytest.approx(p * axle, rel=1e-5)
    at_bore = p * (b2 + a2) / (b2 - a2) + p  # hoop less radial, Tresca
    assert press_hub_stress_n_mm2(p, axle, hub) == pytest.approx(at_bore)
    assert press_pressure_n_mm2(-0.01, axle, hub) == 0
    assert press_holding_n(p, axle, 70, 0.12) == pytest.approx(0.12 * p * math.pi * 35 * 70)


def test_sizes_beyond_the_tables_are_named() -> None:
    with pytest.raises(ValueError, match="axle_mm: found 140"):
        key_for(140)
    with pytest.raises(ValueError, match="screw_mm: found 3"):
        screw_holding_n(3)
    with pytest.raises(ValueError, match="hub_outside_mm: found 30"):
        press_pressure_n_mm2(0.01, 35, 30)
