"""Everything that a check may ask about: the wheel, and what it runs on, carries and meets."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from platewheel.parts.geometry.blank import Blank
from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.setting.finish import FinishSpec
from platewheel.parts.setting.shop import ShopSpec
from platewheel.parts.setting.track import SMALL_GAUGE_MM, TrackSpec
from platewheel.parts.setting.use import UseSpec
from platewheel.parts.setting.usual_clearance import (
    BACK_TO_BACK_MM,
    SMALL_BACK_TO_BACK_MM,
    usual_flangeway_mm,
    usual_play_mm,
)
from platewheel.parts.setting.wagon import WagonSpec
from platewheel.parts.setting.way import WaySpec, assumed_way
from platewheel.parts.wheel.flange import flange_reach_mm
from platewheel.parts.wheel.spec import WheelSpec

FATIGUE_FACTORS = {"low": 1.15, "high": 1.35}  # EN 1993-1-9, table 3.1, safe life


@dataclass(frozen=True, kw_only=True)
class Setting:
    """One wheel in its setting."""

    wheel: WheelSpec
    track: TrackSpec
    wagon: WagonSpec
    finish: FinishSpec = field(default_factory=FinishSpec)
    use: UseSpec = field(default_factory=UseSpec)
    axle: AxleSpec = field(default_factory=AxleSpec)
    shop: ShopSpec = field(default_factory=ShopSpec)
    process: str = "plasma"  # how the sheet is cut
    way: tuple[WaySpec, ...] = ()  # as the job describes it; see `pieces`
    disc: Blank | None = None  # of a user's own, in place of both hub discs

    @property
    def flange_reach_mm(self) -> float:
        """Axial length of the flange beyond the tread: root to its inmost point."""
        return flange_reach_mm(self.wheel)

    @property
    def wheel_gauge_mm(self) -> float:
        """Over both flanges, root to root: back-to-back given and two flanges, or the gauge less
        the usual play."""
        if self.axle.back_to_back_mm is None:
            return self.track.gauge_mm - self.usual_play_mm
        return self.axle.back_to_back_mm + 2 * self.flange_reach_mm

    @property
    def back_to_back_mm(self) -> float:
        """Between the inner faces of the two flanges, given or set for the usual play."""
        if self.axle.back_to_back_mm is not None:
            return self.axle.back_to_back_mm
        return self.wheel_gauge_mm - 2 * self.flange_reach_mm

    @property
    def play_mm(self) -> float:
        """Total lateral play in the nominal gauge: gauge - (back-to-back + 2 flanges)."""
        return self.track.gauge_mm - self.wheel_gauge_mm

    @property
    def back_to_back_off_mm(self) -> tuple[float, float]:
        """Least and most back-to-back, less the nominal one: given, or by gauge."""
        if self.axle.back_to_back_tolerance_mm is not None:
            return self.axle.back_to_back_tolerance_mm
        small = self.track.gauge_mm < SMALL_GAUGE_MM
        usual = SMALL_BACK_TO_BACK_MM if small else BACK_TO_BACK_MM
        return -usual, usual

    @property
    def tight_mm(self) -> float:
        """Play lost where the gauge is tightest and the wheels are widest apart."""
        return self.back_to_back_off_mm[1] - self.track.gauge_off_mm[0]

    @property
    def loose_mm(self) -> float:
        """Play gained where the gauge is widest and the wheels are nearest together, widening and
        wear left out."""
        return self.track.gauge_off_mm[1] - self.back_to_back_off_mm[0]

    @property
    def usual_play_mm(self) -> float:
        """Play that is set where no back-to-back is given."""
        return usual_play_mm(self.track.gauge_mm, self.tight_mm)

    @property
    def flangeway_mm(self) -> float:
        """Flangeway of crossings, given or as published and no less than flange and backs need."""
        track = self.track
        if track.flangeway_mm is not None:
            return track.flangeway_mm
        back = self.back_to_back_mm + self.back_to_back_off_mm[0]
        both, own = track.most_gauge_mm - back, track.check_rail_flangeway_mm
        backs = both / 2 if own is None else both - own
        yawed = self.flange_in_way_mm(track.min_curve_radius_m)
        return usual_flangeway_mm(track.gauge_mm, self.flange_reach_mm, max(backs, yawed))

    def flange_in_way_mm(self, curve_radius_m: float) -> float:
        """Width that the flange takes in a flangeway at rail-top level, in a curve: from root to
        inmost point, and the yaw asin(L / 2R) of the wheelbase over its reach before and behind the
        axle, (2 r D + D2)^1/2 (safe: the flare takes some of it back); unyawed where the wheelbase
        does not fit. Source: plain geometry."""
        wheel, chord = self.wheel, self.wagon.wheelbase_mm / (2000 * curve_radius_m)
        if chord >= 1:
            return self.flange_reach_mm
        depth = wheel.flange_depth_mm
        reach = math.sqrt(depth * (wheel.tread_diameter_mm + depth))
        return self.flange_reach_mm + 2 * reach * math.tan(math.asin(chord))

    @property
    def contact_spacing_mm(self) -> float:
        """Distance between the two rails' head centres."""
        return self.track.gauge_mm + self.track.rail_head_width_mm

    @property
    def static_wheel_load_n(self) -> float:
        """Mean static load of one wheel, loaded wagon: gross mass over all wheels."""
        gross = self.wagon.tare_kg + self.wagon.payload_kg
        return gross * GRAVITY / (2 * self.wagon.axles)

    @property
    def empty_wheel_load_n(self) -> float:
        """Mean static load of one wheel, empty wagon."""
        return self.wagon.tare_kg * GRAVITY / (2 * self.wagon.axles)

    @property
    def pieces(self) -> tuple[WaySpec, ...]:
        """The way in pieces, as described or as assumed."""
        return self.way or assumed_way(self.track)

    @property
    def fatigue_factor(self) -> float:
        """Partial factor on stress ranges of wheel, axle and what holds them: one class for all.

        Source: EN 1993-1-9:2005, table 3.1, safe life method; from memory.
        """
        return FATIGUE_FACTORS[self.use.consequence]

    @property
    def turns_in_life(self) -> float:
        """Turns of the wheel in the stated years."""
        way_m = self.use.km_per_year * self.use.years * 1000
        return way_m / (math.pi * self.wheel.tread_diameter_mm / 1000)


GRAVITY = 9.81  # m/s2
