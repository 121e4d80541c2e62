"""Shear along the beads of a wheel fixed to its axle, by the torque that the rail gives it.

In a curve the two wheels of an axle want to turn unlike; both slip, and the rail drags each with
friction x load at the tread. That torque goes through rim and tube beads to the axle as shear
along them. It is the same all round but near the rail, where the drag enters: a bead feels it swell
once a turn, and turn its sign once a curve.
"""

from __future__ import annotations

import math

import numpy as np

from platewheel.parts.rating.detail import Detail
from platewheel.parts.rating.detail_class import SHEAR
from platewheel.parts.rating.vented_disc import bead_factor
from platewheel.parts.setting.setting import Setting
from platewheel.parts.stress.load_series import PLACES
from platewheel.parts.stress.response import Response
from platewheel.parts.stress.throat import throat_of
from platewheel.parts.stress.turn import angles
from platewheel.parts.wheel.hub_disc import SIDES, disc_diameter_mm, disc_z_mm
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import INSIDE, Bead, bead_words, weld_beads


def slip_shear_n_mm2(spec: WheelSpec, torque_n_mm: float) -> dict[str, float]:
    """Shear along the throat of each rim and tube bead, even all round, by a torque from tread to
    axle: share x T / (2 pi r^2 a). The disc that takes more is not known, so each is given
    `greatest_share`; the beads of one joint share by their throats. Source: equilibrium.
    """
    share = greatest_share(spec)
    shears = {}
    beads = [b for b in weld_beads(spec) if b.name.startswith(("weld-disc", "weld-tube"))]
    for bead in beads:
        joint = bead.name.removesuffix(INSIDE)
        throats = sum(_throat_mm(b) for b in beads if b.name.removesuffix(INSIDE) == joint)
        radius = sum(r for r, _ in bead.section) / len(bead.section)
        shears[bead.name] = share * torque_n_mm / (2 * math.pi * radius**2 * throats)
    return shears


def _throat_mm(bead: Bead) -> float:
    """Height of a fillet's section: legs a and b at right angles, a b / hypot(a, b)."""
    a, b = bead.legs_mm
    return a * b / math.hypot(a, b)


def greatest_share(spec: WheelSpec) -> float:
    """Share of the torque in the disc nearer to where the axle holds the tube, if it holds it at
    one end alone: springs in a row, the ring stiff beside them. Without a tube: one disc, all.

    Stiffness over G. Disc 4 pi t / (1/a^2 - 1/b^2), shear in the plane of a ring-shaped plate;
    tube pi (d^4 - c^4) / (32 l). Source: equilibrium with tau = T / (2 pi r^2 t), and St Venant.
    """
    if not spec.has_tube:
        return 1.0
    inner = spec.hub_tube_outside_mm / 2
    outer = min(disc_diameter_mm(spec, side) for side in SIDES) / 2
    disc = 4 * math.pi * spec.disc_thickness_mm / (1 / inner**2 - 1 / outer**2)
    (f0, f1), (g0, g1) = (disc_z_mm(spec, side) for side in SIDES)
    length = (g0 + g1 - f0 - f1) / 2
    tube = math.pi * (spec.hub_tube_outside_mm**4 - spec.hub_bore_mm**4) / 32 / length
    return (disc + tube) / (disc + 2 * tube)


def slip_details(response: Response, setting: Setting) -> list[Detail]:
    """Shear along every bead of a wheel that is fixed to its axle and slips, now one way and now
    the other, at the greatest friction; none of a loose wheel.

    Every turn that slides counts as a change from one way to the other (safe): it covers the swell
    of each turn, which is less. The analysis has the bore held all along; at the tube what
    `greatest_share` has above half is added to it.
    """
    if setting.axle.wheels_on_axle == "loose":
        return []
    spec, friction = response.spec, setting.use.friction_high
    beads = {bead.name: bead for bead in weld_beads(spec)}
    uneven = 1 - 0.5 / greatest_share(spec)
    at_one_end = slip_shear_n_mm2(spec, uneven * spec.tread_radius_mm)  # of 1 N at the tread
    around = angles(response)
    turns = np.outer(around, np.arange(response.series.count))
    details = []
    for name, amplitudes in response.traction_forces.items():
        throat = throat_of(beads[name], response.mesh)
        along = np.cos(turns) @ amplitudes / (throat.radius_mm * throat.size_mm)
        shear = float(np.abs(along).max())
        if name.startswith("weld-tube"):
            shear += at_one_end[name]
        both_ways = np.zeros((PLACES, len(around), 1))
        both_ways[:, 0] = 2 * friction * bead_factor(spec, name) * shear
        details.append(
            Detail(
                "slip in curves",
                bead_words(name),
                SHEAR.fat_n_mm2,
                both_ways,
                np.zeros((len(around), 1)),
                in_shear=True,
            )
        )
    return details
