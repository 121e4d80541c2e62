"""Every load of a wheel in its life, in blocks: how many turns, how heavy, how hard pushed."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from platewheel.parts.loads.wheel_load import (
    frame_in_curve,
    push_shares,
    rest_loads_n,
    rolling_load_n,
    sliding_friction,
    struck_load_n,
)
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.way import WaySpec

STRAIGHT = "straight"


@dataclass(frozen=True)
class Block:
    """Turns of one kind. `load_n` is the wheel load between joints, `struck_n` at one; `hits` is
    how many joints it meets a turn. `push_n` is on the flange, `side_n` what the wheel hands to
    its axle; `slides` that treads slide on the rails. `where` and `state` ("loaded", "empty") name
    it for the reader."""

    where: str
    state: str
    turns: float
    load_n: float
    struck_n: float
    hits: float
    push_n: float
    side_n: float
    slides: bool = False


def spectrum(setting: Setting) -> tuple[Block, ...]:
    """The blocks of `setting.pieces`; what their shares leave is straight and level.

    On each piece, loaded and empty: twist makes this wheel heavy on half of it and light on the
    other half. In a curve it leads on the outer rail on half of it: there and back, or to the left
    and to the right; on a line that bends one way alone so does one wheel of four. On the other
    half its tread slides across with no flange against the rail, as the leading inner wheel's;
    where a frame lies across the track its trailing inner flange is pushed too, by less, on turns
    of the first half that a wagon running both ways gives it.
    A quarter of each is thus the worst of all: heavy, leading, outer.
    """
    loads = (
        ("loaded", setting.use.loaded_share, setting.static_wheel_load_n),
        ("empty", 1 - setting.use.loaded_share, setting.empty_wheel_load_n),
    )
    return tuple(
        block
        for share, piece in shares(setting)
        for state, part, mean in loads
        if part > 0
        for block in _blocks(setting, piece, state, share * part, mean)
    )


def shares(setting: Setting) -> Iterator[tuple[float, WaySpec]]:
    """Each piece with its share of the way; what the pieces leave is straight."""
    pieces = setting.pieces
    whole = sum(piece.length_m or 0.0 for piece in pieces)
    if whole:
        yield from ((piece.length_m / whole, piece) for piece in pieces if piece.length_m)
        return
    left = 1.0
    for piece in pieces:
        share = piece.share or 0.0
        left -= share
        yield share, piece
    if left > 1e-9:
        yield left, WaySpec(share=left)


def piece_words(piece: WaySpec) -> str:
    """A piece as a reader names it."""
    words = STRAIGHT if piece.radius_m is None else f"curve of {piece.radius_m:g} m"
    return words + (f", {piece.gradient_percent:g} % steep" if piece.gradient_percent else "")


def _blocks(
    setting: Setting, piece: WaySpec, state: str, share: float, mean_n: float
) -> Iterator[Block]:
    turns = share * setting.turns_in_life
    joints = piece.joints_per_km
    per_km = setting.track.joints_per_km if joints is None else joints
    hits = per_km * math.pi * 2 * setting.wheel.tread_radius_mm / 1e6
    for rest in rest_loads_n(setting, piece, mean_n):
        for part, push_n, side_n in _pushes_n(setting, piece, mean_n, rest):
            yield Block(
                piece_words(piece),
                state,
                turns * part / 2,
                rolling_load_n(setting, rest),
                struck_load_n(setting, rest, mean_n),
                hits,
                push_n,
                side_n,
                piece.radius_m is not None,
            )


def _pushes_n(
    setting: Setting, piece: WaySpec, mean_n: float, rest_n: float
) -> list[tuple[float, float, float]]:
    """Shares of a piece's turns, with the push on the flange and what the wheel hands on. A wheel
    that twist relieves has less friction of its tread against the push, and hands on more."""
    if piece.radius_m is None:
        return [(1.0, 0.0, 0.0)]
    push, side = (share * mean_n for share in push_shares(setting, piece.radius_m))
    across = frame_in_curve(setting, piece.radius_m).across
    friction = sliding_friction(setting, piece.radius_m) * across
    if setting.use.lateral_share is not None:
        friction = min(friction, setting.use.lateral_share)
    else:
        side += friction * max(mean_n - rest_n, 0.0)
    return [(0.5, push, side), (0.5, 0.0, friction * mean_n)]
