"""Step of the hub: tube tacked square to its discs on shims, before any ring is set on them."""

from __future__ import annotations

import math

from platewheel.parts.base.units import Units, length
from platewheel.parts.making.steps.shop_limits import (
    GEOMETRY,
    PRACTICE,
    axial_limit_mm,
    figure,
    stick_limit_mm,
)
from platewheel.parts.making.steps.shop_words import vents_over_vents
from platewheel.parts.making.steps.step import Step, Work, used
from platewheel.parts.making.tacks import star_order, tacks_of
from platewheel.parts.wheel.hub_disc import disc_diameter_mm, disc_z_mm
from platewheel.parts.wheel.hub_tube import tube_z_mm

SHIMS = 3  # a plate on three points neither rocks nor jams


def hub(work: Work, units: Units) -> Step | None:
    """Tube and discs, or tube and first disc; None for a wheel without a tube."""
    wheel = work.setting.wheel
    if not wheel.has_tube:
        return None
    low, high = tube_z_mm(wheel)
    out = (disc_z_mm(wheel, "field")[0] - low, high - disc_z_mm(wheel, "gauge")[1])
    clear = disc_z_mm(wheel, "gauge")[0] - disc_z_mm(wheel, "field")[1]
    shim = length(wheel.fit_clearance_mm, units, 2)
    radius = disc_diameter_mm(wheel, "gauge") / 2
    off = stick_limit_mm(wheel, radius)
    stick = math.hypot(radius, radius)
    order = ", ".join(map(str, star_order(tacks_of(wheel).tube)))
    alone = wheel.first_disc_both_sides
    tacked = (
        f"Tack tube and disc at {tacks_of(wheel).tube} places on the outer face: {order}; a tack, "
        "the stick again, the next tack."
    )
    do = [
        f"Push a straight bar of {length(wheel.hub_bore_mm, units)}, some "
        f"{length(radius + wheel.hub_tube_length_mm, units, 0)} long, through the hub tube; paper "
        "round it where it is loose. It is the axle for all that follows.",
        f"Lay the gauge disc on three blocks, outer face up, the tube through it: it stands "
        f"{length(out[1], units)} out of the disc, on {SHIMS} shims of {shim} at 12, 4 and 8 "
        "o'clock.",
        f"Square: from a mark on the bar {length(radius, units)} above the disc a stick of about "
        f"{length(stick, units)} reaches the disc's rim at four places alike, within "
        f"{length(off, units, 2)}.",
        tacked,
    ]
    if not alone:
        do += [
            f"Turn it over. Four blocks alike, {length(clear, units)} high, on the gauge disc, the "
            f"field disc on them, {vents_over_vents(work)}. The tube stands "
            f"{length(out[0], units)} out of the field disc. Shims and stick as before; then tack "
            "it, and pull the blocks out between the discs.",
            "Spin it on the bar in two V-blocks: both rims run true to the eye before the ring "
            "goes on.",
        ]
    figures = [
        figure("tube beyond the gauge disc", out[1]),
        figure("shims round the tube", wheel.fit_clearance_mm),
        figure(
            "stick from bar to rim, four places differ by",
            off,
            "mm",
            "at most",
            f"{GEOMETRY}: the disc's share of the wobble of {axial_limit_mm(wheel):.1f} mm",
        ),
        figure("tacks on the tube, each disc", tacks_of(wheel).tube, "tacks", "", PRACTICE),
    ]
    if not alone:
        figures += [
            figure("tube beyond the field disc", out[0]),
            figure("between the discs", clear),
        ]
    cautions = [
        "Last chance to look: the vents of both discs are drilled and open. A box without a way "
        "out bursts when it is welded shut, and explodes in a zinc bath.",
    ]
    return Step(
        id="hub",
        title="Tack the hub square to its discs",
        do=do,
        figures=figures,
        order=[],
        cautions=cautions,
        uses=used(work, "templates/disc*.pdf"),
    )
