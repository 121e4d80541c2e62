"""The way that the wagons run, in pieces: what loads the wheel how often."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Any, ClassVar

from pydantic import Field

from platewheel.parts.base.faults import Fault
from platewheel.parts.base.spec_model import Rule, Spec
from platewheel.parts.setting.track import TrackSpec
from platewheel.parts.setting.wagon import WagonSpec

CURVED_SHARE = 0.25  # of a way that the job does not describe; our choice, no source
ASSUMED = "a quarter of the way lies in the tightest curve, as many to the left as to the right"


def _measure(v: Any) -> Iterator[Fault]:
    if v.share is None and v.length_m is None:
        yield Fault("share", None, "share or length_m, one of them", "share = 0.25")
    if v.share is not None and v.length_m is not None:
        yield Fault("length_m", v.length_m, "share or length_m, not both", "remove one of them")


class WaySpec(Spec):
    """A piece of the way; what is left of the shares is straight, level track."""

    rules: ClassVar[tuple[Rule, ...]] = (_measure,)

    share: float | None = Field(
        None,
        gt=0,
        le=1,
        examples=[0.25],
        description="of the way; all pieces have a share, or all a length",
        json_schema_extra={"takes": "a number"},
    )
    length_m: float | None = Field(
        None,
        gt=0,
        le=1e6,
        examples=[80.0],
        description="of the piece, all pieces alike together",
        json_schema_extra={"takes": "a number"},
    )
    radius_m: float | None = Field(
        None,
        gt=0,
        le=1e5,
        examples=[12.0],
        description="of the curve, track centre line; absent = straight",
        json_schema_extra={"takes": "a number"},
    )
    joints_per_km: float | None = Field(
        None,
        ge=0,
        le=2000,
        examples=[200.0],
        description="rail joints in each rail; absent = as in [track]",
        json_schema_extra={"takes": "a number"},
    )
    gradient_percent: float = Field(
        0.0, ge=0, le=25, description="rise in 100 (default: laid level)"
    )


def least_radius_m(wagon: WagonSpec) -> float:
    """Tightest curve in which a rigid wheelbase still lies: past it an axle yaws 45 degrees."""
    return wagon.wheelbase_mm / 1000 / math.sqrt(2) if wagon.axles > 1 else 0.0


def curve_faults(track: TrackSpec, wagon: WagonSpec) -> Iterator[Fault]:
    """The tightest curve against the wheelbase; the key with its section."""
    least = least_radius_m(wagon)
    if track.min_curve_radius_m < least:
        yield Fault(
            "track.min_curve_radius_m",
            track.min_curve_radius_m,
            f"from {least:g} m, what a wheelbase of {wagon.wheelbase_mm:g} mm can pass",
            "an easier curve, or a shorter wagon.wheelbase_mm",
        )


def way_faults(way: Sequence[WaySpec], track: TrackSpec, wagon: WagonSpec) -> Iterator[Fault]:
    """What must hold between the pieces, and with track and wagon; keys as `way[0].share`."""
    shares = [piece.share for piece in way if piece.share is not None]
    if shares and len(shares) < len(way):
        at = next(i for i, piece in enumerate(way) if piece.share is None)
        yield Fault(
            f"way[{at}].length_m",
            way[at].length_m,
            "share or length_m, the same in all pieces",
            "give every [[way]] a share",
        )
    elif sum(shares) > 1 + 1e-9:
        yield Fault(
            "way", sum(shares), "shares of 1 in all; what is left is straight", "lower a share"
        )
    for i, piece in enumerate(way):
        yield from _piece_faults(f"way[{i}]", piece, track, wagon)


def _piece_faults(key: str, piece: WaySpec, track: TrackSpec, wagon: WagonSpec) -> Iterator[Fault]:
    tightest = track.min_curve_radius_m
    if piece.radius_m is not None and piece.radius_m < least_radius_m(wagon):
        yield Fault(
            f"{key}.radius_m",
            piece.radius_m,
            f"from {least_radius_m(wagon):g} m, what a wheelbase of {wagon.wheelbase_mm:g} mm can "
            "pass",
            f"radius_m = {max(tightest, least_radius_m(wagon)):g}",
        )
    elif piece.radius_m is not None and piece.radius_m < tightest:
        yield Fault(
            f"{key}.radius_m",
            piece.radius_m,
            f"from {tightest:g} m, track.min_curve_radius_m, the tightest curve",
            f"radius_m = {tightest:g}, or track.min_curve_radius_m = {piece.radius_m:g}",
        )
    if piece.gradient_percent > track.steepest_gradient_percent:
        steepest = track.steepest_gradient_percent
        yield Fault(
            f"{key}.gradient_percent",
            piece.gradient_percent,
            f"up to {steepest:g} percent, track.steepest_gradient_percent",
            f"track.steepest_gradient_percent = {piece.gradient_percent:g}",
        )


def assumed_way(track: TrackSpec) -> tuple[WaySpec, ...]:
    """The way of a job that describes none: `ASSUMED`."""
    return (WaySpec(share=CURVED_SHARE, radius_m=track.min_curve_radius_m),)
