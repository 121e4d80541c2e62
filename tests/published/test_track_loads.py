"""Loads from the track against handbooks and standards; each value says where it is from."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.base.spec_model import Spec
from platewheel.parts.checks.running.climb import nadal_limit
from platewheel.parts.loads.curving import curving
from platewheel.parts.loads.joint import JOINT_SHARE, impact_n
from platewheel.parts.setting.track import TrackSpec
from platewheel.parts.setting.use import UseSpec
from platewheel.parts.setting.wagon import WagonSpec

E_STEEL = 210_000.0


def default(kind: type[Spec], key: str) -> float:
    return float(kind.model_fields[key].default)


def test_stiffness_of_a_light_rail_by_a_beam_on_an_elastic_bed() -> None:
    """k = 2 (4 E I)^1/4 u^3/4; Zimmermann 1888, Timoshenko, Strength of Materials II, from memory.
    A rail of 7 kg/m has some 52 cm4 (section tables, from memory); 2.5 kN/mm under each end of
    sleepers every 500 mm are u = 5 N/mm2, soft ground (common practice, no source)."""
    k = 2 * (4 * E_STEEL * 52e4) ** 0.25 * 5**0.75
    assert default(TrackSpec, "stiffness_n_per_mm") == pytest.approx(k, rel=0.1)


def test_a_joint_is_between_a_free_end_and_a_whole_rail() -> None:
    """At a free end the same load sinks four times as deep: 2 P b / u against P b / 2u. Timoshenko,
    Strength of Materials II, semi-infinite beam, from memory. A fishplate joins two free ends, so
    a half is twice the one and half the other."""
    beta = 0.01
    whole, end = beta / 2, 2 * beta
    assert whole / end == 0.25 < JOINT_SHARE < 1.0


def test_frame_of_two_timber_sills() -> None:
    """GJ of two squares of 100 mm, J = 0.141 a^4 (Roark), G 690 N/mm2 (EN 338, C24); both from
    memory: 19.5 kN m2."""
    gj = 2 * 0.141 * 100**4 * 690 / 1e9
    assert default(WagonSpec, "frame_torsion_kn_m2") == pytest.approx(gj, rel=0.05)


def test_how_a_load_lies() -> None:
    """Loading guidelines of railways (UIC), from memory: one wheel of an axle no more than 1.25
    times the other, so 2 x 1.25 / 2.25 of the mean."""
    assert default(WagonSpec, "load_placing") == pytest.approx(2.5 / 2.25, abs=0.015)


def test_friction_that_a_standard_reckons_with() -> None:
    """EN 14363 lets Y / Q go to 1.2 on a flange of 70 degrees: Nadal's limit at friction 0.36;
    from memory."""
    friction = default(UseSpec, "friction_high")
    assert nadal_limit(math.radians(70), friction) == pytest.approx(1.2, abs=0.005)


def test_the_inner_wheel_of_a_tight_curve_shows_the_friction() -> None:
    """Measured practice: in tight curves the low rail's sideways over vertical force is the
    friction itself, all of the slip lying across (TCRP Report 71 vol. 5, from memory)."""
    found = curving(1800.0, 2, 1500.0, 20.0, 100_000.0, loose=False)
    assert 0.85 < found.across <= 1.0


def test_p2_force_of_a_published_limit() -> None:
    """GM/TT0088 (1993), from memory: dip 0.02 rad, track 245 kg, 55.4 kN s/m, 62 MN/m, P2 at most
    322 kN. A wheel of 125 kN with 1 t unsprung at 44.4 m/s keeps it, one with 2.5 t does not."""
    held, broken = (
        125e3 + impact_n(44.4, 0.02, mass, 62_000.0, 245.0, 55_400.0) for mass in (1000.0, 2500.0)
    )
    assert held < 322e3 < broken


def test_the_flange_takes_what_a_wheel_standard_takes() -> None:
    """EN 13979-1 rates wheels in curves with 0.7 of the wheel load sideways, from memory: what the
    leading outer wheel of a two-axle wagon hands to its axle lies within a fifth of it."""
    friction = default(UseSpec, "friction_high")
    for base, radius in ((600.0, 12.0), (900.0, 20.0), (500.0, 7.0)):
        found = curving(base, 2, base * 0.8, 12.0, 1000 * radius, loose=False)
        assert friction * found.net == pytest.approx(0.7, rel=0.2)
