"""Steps of the hub: its keyways, threads and screw holes, and the bore cleared for the axle."""

from __future__ import annotations

from platewheel.parts.base.units import Units, length
from platewheel.parts.making.steps.shop_limits import GEOMETRY, PRACTICE, figure
from platewheel.parts.making.steps.shop_words import (
    galvanized,
    hand_drilled,
    measured_without_micrometer,
)
from platewheel.parts.making.steps.step import Figure, Step, Work, used
from platewheel.parts.wheelset.hub_holes import (
    DRILL_SOURCE,
    KEY_SOURCE,
    holed_mm,
    key_place,
    screw_place,
)
from platewheel.parts.wheelset.hub_holes import PITCH_MM as THREADS
from platewheel.parts.wheelset.iso_fits import fit, limits

OUTLINE = ("bore", "outside of it", "length of it")  # of hub or collar, as it is drawn
BEFORE = "Everything here is done before the coat: nothing is cut or drilled through zinc or paint."


def holes(work: Work, units: Units) -> Step | None:
    """Keyways and set-screw holes of hubs and collars; None where nothing of the kind is there."""
    made = work.wheelset
    if made is None:
        return None
    key, screw = key_place(work.setting, made), screw_place(work.setting, made)
    if key is None and screw is None:
        return None
    over, alike = "a vent of the field disc", "vents"
    if work.setting.disc is not None:
        over, alike = "the x of the field disc's drawing", "discs"
    do: list[str] = []
    figures = [
        figure(name, value)
        for name, value in zip(OUTLINE, holed_mm(work.setting, made), strict=True)
    ]
    if key is not None:
        do.append(
            "Welding has drawn the bore in at both discs: clear it as in the step for it, the "
            "keyway is cut along it. "
            f"Cut the hub's keyway {length(key.width_mm, units)} wide through its whole "
            f"{length(key.length_mm, units)}, {length(key.hub_depth_mm, units)} deep: from its "
            f"bottom to the far side of the bore {length(key.hub_over_mm, units)}. Put it over "
            f"{over}, in all wheels alike, so that the {alike} of an axle stand alike."
            + (
                ""
                if work.setting.shop.keyway_cutter
                else " No keyway cutter: have it broached; a filed keyway bears on its corners."
            )
        )
        figures += [
            figure("keyway, width", key.width_mm, "mm", "P9 or by its key", KEY_SOURCE),
            figure("keyway in the hub, depth", key.hub_depth_mm, "mm", "+0.2 mm", KEY_SOURCE),
            figure("bottom of the keyway to the far side of the bore", key.hub_over_mm),
        ]
    if screw is not None:
        over = " one over the keyway," if key is not None else ""
        thread = f"M{screw.screw_mm:g} x {THREADS[screw.screw_mm]:g}"
        bought = "Bought collars come threaded; else: " if made.retention == "collar" else ""
        do.append(
            f"{bought}Drill and tap two holes {thread} in {screw.where},{over} a quarter turn "
            f"apart, {length(screw.from_end_mm, units)} from its end, square to the bore: drill "
            f"{length(screw.drill_mm, units)}, tap with oil, half a turn back at every turn."
            f"{hand_drilled(work)}"
        )
        figures += [
            figure("from the end to the middle of the screws", screw.from_end_mm, "mm"),
            figure("screw", screw.screw_mm),
            figure(f"drill for {thread}", screw.drill_mm, "mm", "", DRILL_SOURCE),
        ]
    do.append(f"{BEFORE} Screw an oiled bolt into each thread until the coat is on.")
    cautions = [
        "A drill that breaks through grips and spins the wheel: clamp it, no gloves at a drill, "
        "chips off with a brush.",
    ]
    return Step(
        id="holes",
        title="Keyways, threads and screw holes of the hub",
        do=do,
        figures=figures,
        order=[],
        cautions=cautions,
        uses=used(work, "solids/wheelset.step"),
    )


def bore(work: Work, units: Units) -> Step:
    """The bore cleared of weld, zinc and paint until the axle goes in as it should."""
    setting, shop, made = work.setting, work.setting.shop, work.wheelset
    size = setting.wheel.hub_bore_mm
    here = next((row for row in made.fits if _in_hub(row[0])), None) if made else None
    hole = here[2] if here else None
    pressed = here is not None and fit(*here[1:])[0] < 0
    low, high = limits(size, hole) if hole else (0.0, 0.1)
    zinc = galvanized(work)
    coat = "zinc, " if zinc else ""
    way = (
        f"Ream the bore to {length(size, units)}"
        if shop.reamer
        else "No reamer: a round file, then emery cloth in a split rod on a hand drill, turned and "
        f"drawn to and fro, until the bore is {length(size, units)}"
    )
    do = [
        f"{way}"
        + (f", {hole}." if hole else ", as far as the axle goes in by hand.")
        + f" Welding has drawn it in at both discs: take from there.{_plug(work)}"
        + measured_without_micrometer(work, high, units, pressed),
        f"Look along it against the light, and wipe it out: no {coat}scale or paint in it.",
    ]
    figures = [
        Figure(
            name=f"bore{' ' + hole if hole else ''}, {word}",
            value=size + off,
            unit="mm",
            limit="",
            source="ISO 286" if hole else PRACTICE,
            fine=True,
        )
        for word, off in (("least", low), ("greatest", high))
    ]
    figures.append(figure("bore as drawn", size, "mm", "", GEOMETRY))
    cautions = [
        *(["Zinc is filed and reamed, never ground or burnt: its fume makes ill."] if zinc else []),
        "Long chips of a reamer cut: hook, not hand."
        if shop.reamer
        else "A rod that turns grips gloves and sleeves: none near it. Clamp the wheel, glasses.",
    ]
    title = "Clear the bore"
    return Step(id="bore", title=title, do=do, figures=figures, order=[], cautions=cautions)


def _in_hub(place: str) -> bool:
    return "wheel" in place or "hub" in place


def _plug(work: Work) -> str:
    zinc = work.setting.finish.coating == "galvanized"
    return " Pull the plug out first." if zinc and work.setting.finish.bore == "plugged" else ""
