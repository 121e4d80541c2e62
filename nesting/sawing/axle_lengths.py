"""Axles sawn from round bar: which bar, which lengths, what is left of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from platewheel.nesting.sawing.cut_lengths import CutPlan, Length, Piece, cut_lengths
from platewheel.nesting.stock.round_bar import Round

FACING_MM = 1.0  # turned off each sawn end; common practice, no source
LEAST_REST_MM = 100.0  # a shorter rest is scrap; common practice, no source
_PIECE = "axle"


@dataclass(frozen=True)
class AxleCuts:
    """How axles are sawn: the plans, how many found no bar, and the rests worth keeping, mm.

    `bars` has the bar of each plan; `least_bar_mm` is the thinnest that the axle can be turned
    from.
    """

    piece_mm: float
    least_bar_mm: float
    plans: tuple[CutPlan, ...]
    bars: tuple[Round, ...]
    missing: int
    rests: tuple[Round, ...]


def axle_cut_list(
    axle_length_mm: float, least_bar_mm: float, axles: int, rounds: Sequence[Round], kerf_mm: float
) -> AxleCuts:
    """Axles cut from the thinnest bar that will do, the next thicker where that runs out.

    Each diameter's lengths are planned by `cut_lengths`, cheapest or shortest; rests are whole
    bars' ends, ready for the next job's table.
    """
    piece = axle_length_mm + 2 * FACING_MM
    plans: list[CutPlan] = []
    bars: list[Round] = []
    rests: list[Round] = []
    missing = axles
    for diameter in sorted({r.diameter_mm for r in rounds if r.diameter_mm >= least_bar_mm - 1e-9}):
        if not missing:
            break
        these = [r for r in rounds if r.diameter_mm == diameter]
        stock = [Length(f"round {diameter:g}", r.length_mm, r.count, r.price) for r in these]
        cut, over = cut_lengths([Piece(_PIECE, piece, missing)], stock, kerf_mm)
        missing = sum(left.count for left in over)
        plans += cut
        bars += (these[stock.index(plan.stock)] for plan in cut)
        rests += (
            Round(diameter_mm=diameter, length_mm=plan.rest_mm, count=plan.repeat)
            for plan in cut
            if plan.rest_mm >= LEAST_REST_MM
        )
    return AxleCuts(piece, least_bar_mm, tuple(plans), tuple(bars), missing, tuple(rests))
