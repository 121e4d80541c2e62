"""The step that cuts strips or pipe for the rings, and hub tubes; by hand strips are marked out."""

from __future__ import annotations

import math

from platewheel.parts.base.so_many import noun, so_many
from platewheel.parts.base.units import Units, length
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.marking_way import marking_way
from platewheel.parts.making.steps.plate import FIRE, PROCESS_CAUTIONS, SQUARE_MM, ZINC
from platewheel.parts.making.steps.shop_limits import PRACTICE, figure
from platewheel.parts.making.steps.step import Figure, Step, Work, cut_files, used
from platewheel.parts.wheel.tread_ring import tread_blank


def strip(work: Work, units: Units) -> Step:
    """Strips or pipe for the rings, hub tubes."""
    wheel, wheels = work.setting.wheel, work.wheels
    blank = tread_blank(wheel)
    wide = length(wheel.tread_width_mm, units)
    figures: list[Figure] = []
    end = length(SQUARE_MM, units)
    if blank is None:
        do = [
            f"Saw {so_many(wheels, 'ring')} of {wide} off the pipe, ends square to {end} "
            f"({PRACTICE}).",
        ]
    else:
        long = length(blank.sizes["length_mm"], units)
        how = "Saw" if wheel.tread_from == "bar" else "Cut"
        by_hand = work.setting.process == "hand" and wheel.tread_from == "sheet"
        do = [
            *(_scribed(blank, units) if by_hand else []),
            f"{how} {so_many(wheels, 'strip')} for the {noun(wheels, 'ring')}, {long} long and "
            f"{length(blank.sizes['width_mm'], units)} wide, ends square to {end} ({PRACTICE}).",
        ]
        figures.append(figure("strip length", blank.sizes["length_mm"]))
        if by_hand:
            across = math.hypot(blank.sizes["length_mm"], blank.sizes["width_mm"])
            figures.append(figure("strip, both diagonals", across))
    if wheel.has_tube:
        do.append(
            f"Saw {so_many(wheels, 'hub tube')} of {length(wheel.hub_tube_length_mm, units)}"
            + (
                ", 1 mm longer, and face both ends in one set-up with the bore."
                if work.setting.shop.lathe
                else f", ends square to {end}: a sheet of paper wrapped round the tube, edge on "
                "edge, is the line; file to it."
            )
        )
        figures.append(figure("hub tube", wheel.hub_tube_length_mm))
    do.append(
        "Cut one of each and roll one ring before the rest. Discs and flanges are not cut yet: "
        "they are cut to the rings as measured."
    )
    figures.append(figure("rings", wheels, "rings"))
    from_plate = wheel.tread_from == "sheet"
    late = (wheel.disc_thickness_mm, wheel.flange_thickness_mm)
    if from_plate and wheel.tread_thickness_mm in late:
        do.append(
            f"Plates of this thickness hold discs or flanges too: {_alone(work)} the strips alone "
            "first and leave the rest in the plate. What is cut along with them all the same goes "
            "to `platewheel refit --already-cut`."
        )
    gauges = used(work, "blanks/gauge-*.dxf")
    if gauges:
        do.append("Cut the gauges now and file them true: the steps below measure with them.")
    own = PROCESS_CAUTIONS.get(work.setting.process) if from_plate else None
    return Step(
        id="strip",
        title="Cut strip and tube",
        do=do,
        figures=figures,
        order=[],
        cautions=[ZINC, *([own] if own else []), FIRE],
        uses=(*_strip_files(work), *gauges),
    )


def _scribed(blank: Blank, units: Units) -> list[str]:
    """How the strips are marked out, before they are cut by hand."""
    return [
        "Scribe the straight cuts of plates.pdf that the strips ask for, all from the plate's own "
        "left and lower edge, and prick them.",
        *marking_way(blank, units),
    ]


def _alone(work: Work) -> str:
    return "cut" if work.setting.process == "hand" else "run"


def _strip_files(work: Work) -> tuple[str, ...]:
    from_plate = work.setting.wheel.tread_from == "sheet"
    files = cut_files(work, "tread") if from_plate else ()
    if from_plate and work.setting.process == "hand":
        files = (*files, *used(work, "marking-out.pdf"))
    return tuple(
        dict.fromkeys([*files, *used(work, "templates/tread.pdf", "templates/strip-hub-tube.pdf")])
    )
