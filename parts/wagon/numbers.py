"""All figures of a wagon on its track: pulling, pushing, rolling away, braking, tipping."""

from __future__ import annotations

from dataclasses import dataclass

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.setting.setting import GRAVITY, Setting
from platewheel.parts.wagon.braking import (
    braked_axles,
    holding_share,
    roll_away_percent,
    stop_distance_m,
    stopping_share,
)
from platewheel.parts.wagon.curving import equilibrium_cant_mm
from platewheel.parts.wagon.overturning import balanced_speed_km_h, inner_rail_share, tipping_safety
from platewheel.parts.wagon.overturning import tipping_speed_km_h as tipping
from platewheel.parts.wagon.pushing import people, people_over, people_worth
from platewheel.parts.wagon.resistance import (
    PLAIN,
    ROLLING,
    force_n,
    least_factor,
    running_factor,
    setting_curve_factor,
)


@dataclass(frozen=True, kw_only=True)
class WagonNumbers:
    """Figures of the loaded wagon. `start` is from rest, `pull` keeps it moving; `level` is
    straight; `gradient` is straight and up the steepest one, `curve` is level in the tightest.

    `people` are counted by the HSE figures for men; `people_30_m` by the table from memory, level.
    Factors and shares are over the wagon's weight. None: not known, or not possible (`*_axles`:
    not even with brakes on all of them).
    """

    gross_kg: float
    running_factor: float
    curve_factor: float
    start_level_n: float
    pull_level_n: float
    start_gradient_n: float
    pull_gradient_n: float
    start_curve_n: float
    pull_curve_n: float
    people_level: int
    people_gradient: int
    people_curve: int
    people_30_m: int
    push_worth_people: float  # the worse of gradient and curve, not rounded
    push_worst: str  # "gradient" or "curve"
    gradient_percent: float
    roll_away_percent: float
    holding_n: float
    stop_distance_m: float
    stopping_n: float
    stopping_share: float
    holding_axles: int | None
    stopping_axles: int | None
    tipping_speed_km_h: float | None
    tipping_safety: float | None
    inner_rail_share: float | None
    equilibrium_cant_mm: float
    balanced_speed_km_h: float


def journal_of(setting: Setting) -> tuple[float, bool]:
    """Diameter that slides or carries the bearing, and whether it is a rolling bearing: the
    frame's bearings where the axle turns, the hub's where the wheels are loose.

    An axle that cannot be made (its own checks say why) counts by the hub's bore, which slides
    with the longest lever.
    """
    from platewheel.parts.wheelset.seats import axle_seats

    rolling = setting.axle.bearing_kind != "bush"
    try:
        seats = axle_seats(setting)
    except SpecError:
        return setting.wheel.hub_bore_mm, rolling
    return seats.journal_mm if setting.axle.turning else seats.seat_mm, rolling


def wagon_numbers(
    setting: Setting, journal_diameter_mm: float, rolling_bearings: bool
) -> WagonNumbers:
    """Figures of the loaded wagon; `rolling_bearings` False is plain bushes.

    Raises: SpecError for a journal that is not above 0 and smaller than the tread.
    """
    tread = setting.wheel.tread_diameter_mm
    if not 0 < journal_diameter_mm < tread:
        allowed = f"above 0 and below the tread diameter, {tread:g} mm"
        advice = "the axle's diameter where the bearing sits"
        raise SpecError([Fault("journal_diameter_mm", journal_diameter_mm, allowed, advice)])
    wagon, track = setting.wagon, setting.track
    bearing = ROLLING if rolling_bearings else PLAIN
    mass, slope = wagon.tare_kg + wagon.payload_kg, track.steepest_gradient_percent
    run = running_factor(tread, journal_diameter_mm, bearing)
    bend = setting_curve_factor(setting)
    level, gradient, curve = (
        (force_n(mass, bearing.start * run + extra, rise), force_n(mass, run + extra, rise))
        for extra, rise in ((0.0, 0.0), (0.0, slope), (bend, 0.0))
    )
    worth = {"gradient": people_worth(*gradient), "curve": people_worth(*curve)}
    worst = max(worth, key=lambda name: worth[name])
    way = stop_distance_m(wagon.max_speed_km_h)
    hold, stop = holding_share(slope), stopping_share(wagon.max_speed_km_h, way, slope)
    grip = setting.use.friction_low
    return WagonNumbers(
        gross_kg=mass,
        running_factor=run,
        curve_factor=bend,
        start_level_n=level[0],
        pull_level_n=level[1],
        start_gradient_n=gradient[0],
        pull_gradient_n=gradient[1],
        start_curve_n=curve[0],
        pull_curve_n=curve[1],
        people_level=people(people_worth(*level)),
        people_gradient=people(worth["gradient"]),
        people_curve=people(worth["curve"]),
        people_30_m=people_over(30, *level),
        push_worth_people=worth[worst],
        push_worst=worst,
        gradient_percent=slope,
        roll_away_percent=roll_away_percent(least_factor(tread, journal_diameter_mm, bearing)),
        holding_n=mass * GRAVITY * hold,
        stop_distance_m=way,
        stopping_n=mass * GRAVITY * stop,
        stopping_share=stop,
        holding_axles=braked_axles(hold, grip, slope, wagon.axles),
        stopping_axles=braked_axles(stop, grip, slope, wagon.axles),
        tipping_speed_km_h=tipping(setting),
        tipping_safety=tipping_safety(setting),
        inner_rail_share=inner_rail_share(setting),
        equilibrium_cant_mm=equilibrium_cant_mm(
            setting.contact_spacing_mm, wagon.max_speed_km_h, track.min_curve_radius_m
        ),
        balanced_speed_km_h=balanced_speed_km_h(setting),
    )
