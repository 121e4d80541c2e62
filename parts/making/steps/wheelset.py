"""Steps that put two wheels on an axle: held, spaced, carried; welded ones before the bath."""

from __future__ import annotations

from platewheel.parts.base.steel import E_N_MM2, POISSON
from platewheel.parts.base.units import Units, length
from platewheel.parts.making.preheat import SOURCE as PREHEAT
from platewheel.parts.making.preheat import preheat_deg
from platewheel.parts.making.press_force import (
    BRONZE_E_N_MM2,
    BRONZE_POISSON,
    FORCE_SOURCE,
    HEAT_SOURCE,
    TONNE_N,
    fit_pressure_n_mm2,
    nut_torque_n_m,
    pressing_force_n,
    rod_for_mm,
    warmer_by_deg,
)
from platewheel.parts.making.steps.shop_limits import figure
from platewheel.parts.making.steps.step import Figure, Step, Work, used
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.iso_fits import fit
from platewheel.parts.wheelset.wheel_seat import held_words, wheel_seat


def welded_on(work: Work) -> bool:
    """Whether the wheels are welded to their axle: then that comes before any coat."""
    return work.wheelset is not None and work.wheelset.retention == "weld"


def wheelset(work: Work, units: Units) -> Step | None:
    """What holds the wheels, and the order to put things on; None without a wheelset."""
    made = work.wheelset
    if made is None:
        return None
    fitted, figures = _pressed(work, made, units)
    bushes, hubs = (fitted, []) if not made.turning else ([], fitted)  # a bush goes in first
    warm, warm_figures = _welded(work, made, units)
    first = welded_on(work) and work.setting.finish.coating != "bare"
    order = (
        ["Spacers and bearings wait until the coat is on: they have their step after it."]
        if first
        else _order(made, units)
    )
    end = made.axle_length_mm / 2 - made.hub_z_mm[1]
    return Step(
        id="wheelset",
        title="Put the wheels on the axle",
        do=[*bushes, *_holding(work, made), *hubs, *warm, *order],
        figures=[
            figure("hub's outer end from the axle's end", end),
            figure("middles of bearings or grips", made.bearing_centres_mm),
            *figures,
            *warm_figures,
        ],
        order=[],
        cautions=_cautions(work, made),
        uses=used(work, "solids/wheelset.step", "blanks/gauge-back-to-back.dxf"),
    )


def bearings(work: Work, units: Units) -> Step | None:
    """Spacers and bearings of welded wheelsets, once the coat is on; None for all others."""
    made = work.wheelset
    if made is None or not welded_on(work) or work.setting.finish.coating == "bare":
        return None
    return Step(
        id="bearings",
        title="Clear the axle's seats, put the bearings on",
        do=[
            f"File zinc or paint off the seats of {length(made.journal_diameter_mm, units)} until "
            "the bearing goes on by hand; emery cloth last. Wipe, oil.",
            *_order(made, units),
        ],
        figures=[figure("middles of bearings or grips", made.bearing_centres_mm)],
        order=[],
        cautions=[
            "Zinc is filed off, not ground or burnt: its fume makes ill. Nothing is welded now.",
        ],
        uses=used(work, "solids/wheelset.step"),
    )


def _holding(work: Work, made: Wheelset) -> list[str]:
    held = "; ".join(held_words(work.setting, made))
    ways = {
        "key": "Lay the keys into the axle, push the wheels over them, tighten the screws on the "
        "key and beside it",
        "screws": "Push the wheels on, tighten the screws, take them off again, dimple the axle "
        "where they marked it, put all together with thread lock",
        "collar": "Push the wheels on, a collar to each, its screws tightened, dimpled and locked",
        "weld": "Weld on bare steel, both wheels gauged first, in quarters by turns so that the "
        "wheels stay true",
        "press": "Measure every hub and seat, pair those that give the overlap, oil, press on "
        "straight in one stroke",
    }
    return [
        f"{ways[made.retention]}. An axle takes {held}." if held else ways[made.retention] + "."
    ]


def _welded(work: Work, made: Wheelset, units: Units) -> tuple[list[str], list[Figure]]:
    """Set to gauge, warmed, welded; nothing where no wheel is welded to its axle."""
    if made.retention != "weld":
        return [], []
    thick = made.seat_diameter_mm
    dry = preheat_deg(made.steel, thick, "dry")
    words = [
        f"Set both wheels on the axle {length(work.setting.back_to_back_mm, units)} between the "
        "flanges' backs, held by wooden blocks cut to that length at three places, and tack each "
        "hub at four; measure again, then weld.",
    ]
    if dry > 20:
        words.append(
            f"Warm axle and hub's end to {dry:.0f} degrees before the first tack and before each "
            "run, with rods dried at 350 degrees or wire (a stick of temperature crayon, or tin "
            "solder that just melts at 180 to 230, says when); let it cool slowly under dry sand."
        )
    return words, [figure("axle and hub warmed to", dry, "degrees", "at least", PREHEAT)]


def _pressed(work: Work, made: Wheelset, units: Units) -> tuple[list[str], list[Figure]]:
    """Force of every fit that is pressed, and heat or a threaded rod in place of a press."""
    words, figures = [], []
    most_n = work.setting.shop.press_t * TONNE_N
    for name, size, force, overlap, into in _press_fits(work, made):
        figures.append(
            figure(f"force to press {name}", force / 1000, "kN", "at most", FORCE_SOURCE)
        )
        if force <= most_n:
            words.append(
                f"{name[0].upper()}{name[1:]}: {force / 1000:.1f} kN at the tightest, "
                f"{force / TONNE_N:.2f} t of the press; oil, straight, in one stroke."
            )
            continue
        words.append(
            f"{name[0].upper()}{name[1:]}: {force / 1000:.1f} kN at the tightest, more than the "
            f"shop's press gives. {_without_press(work, force, overlap, size, into)}"
        )
        figures.append(
            figure(f"{into} warmer by", warmer_by_deg(overlap, size), "degrees", "", HEAT_SOURCE)
        )
    return words, figures


def _without_press(work: Work, force: float, overlap: float, size: float, into: str) -> str:
    """A threaded rod, if one is strong enough; or heat, where no paint burns."""
    rod, ways = rod_for_mm(force), []
    if rod is not None:
        ways.append(
            f"Draw it in with an M{rod} rod, thick washers and a nut turned with "
            f"{nut_torque_n_m(force, rod):.0f} N m"
        )
    if work.setting.finish.coating != "painted" or not ways:
        burns = " (before it is painted)" if work.setting.finish.coating == "painted" else ""
        warm = warmer_by_deg(overlap, size)
        ways.append(f"warm {into} by {warm:.0f} degrees{burns} and it slides in by itself")
    said = "; or ".join(ways)
    return f"{said[0].upper()}{said[1:]}."


def _press_fits(work: Work, made: Wheelset) -> list[tuple[str, float, float, float, str]]:
    """Name, size, greatest force, greatest overlap, and what is warmed."""
    seat = wheel_seat(work.setting, made)
    found = []
    for place, size, hole, shaft in made.fits:
        overlap = -fit(size, hole, shaft)[0]
        if overlap <= 0:
            continue
        if place == "wheel on axle":
            pressure = fit_pressure_n_mm2(overlap, size, seat.outside_mm)
            name, long, into = "a wheel onto the axle", seat.length_mm, "the hub"
        elif place == "bush in hub" and made.bush is not None:
            bush = made.bush
            stiff = (
                (BRONZE_E_N_MM2, BRONZE_POISSON)
                if bush.material == "bronze"
                else (E_N_MM2, POISSON)
            )
            outside = max(work.setting.wheel.hub_tube_outside_mm, 1.5 * size)
            pressure = fit_pressure_n_mm2(overlap, size, outside, bush.bore_mm, *stiff)
            name, long, into = "a bush into the hub", bush.length_mm, "the hub"
        else:
            continue
        found.append((name, size, pressing_force_n(pressure, size, long), overlap, into))
    return found


def _order(made: Wheelset, units: Units) -> list[str]:
    bearing = made.bearing.name if made.bearing else "bush"
    if not made.turning:
        where = f"{bearing} into each hub, then the wheels on the axle"
    elif made.frames == "outside":
        where = f"wheels first, then spacers, then a {bearing} at each end"
    else:
        where = f"a {bearing} at each side first, then spacers, then the wheels"
    seats = ", ".join(f"{s[0]} {length(s[3], units)} long" for s in made.spacers if s[4] > 0)
    return [
        f"From the middle outwards: {where}"
        + (f" ({seats}, the same on the left)." if seats else ".")
        + f" Middles of the {'bearings' if made.turning else 'frame grips'} "
        f"{length(made.bearing_centres_mm, units)} apart."
    ]


def _cautions(work: Work, made: Wheelset) -> list[str]:
    found = [
        "Check every axle for cracks at its shoulders and keyways each season: an axle that "
        "breaks throws the wagon.",
    ]
    if made.retention == "weld":
        found.append(
            "Never weld on zinc or paint: the wheels are welded to their axles before the coat. "
            "An axle welded here turns its wheels for good: where your law asks for a qualified "
            "welder, ask one."
        )
    if made.retention == "press" or not made.turning:
        found.append("A part that is pressed askew shoots: plate between, nobody in line with it.")
    return found
