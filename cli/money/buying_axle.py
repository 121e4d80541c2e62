"""Lines of the buying list for the wheelset: bar, bearings, spacers, what holds the wheels.

None of them is a wheel's: their share of the wheels' cost is nothing.
"""

from __future__ import annotations

from collections.abc import Iterator

from platewheel.cli.job.axles import axle_cuts, axles_of
from platewheel.cli.job.job import Job
from platewheel.cli.job.pieces import Size
from platewheel.cli.money.buying_row import TubeCut, buy_row, by_key, of_stock, stock_rows, tube_row
from platewheel.cli.money.order_words import standard_words
from platewheel.cli.schema.shop import BuyKind, BuyRow
from platewheel.nesting.stock.round_bar import Round
from platewheel.parts.base.so_many import so_many
from platewheel.parts.making.figures import round_bar_kg
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.wheel_seat import held_words


def axle_rows(job: Job, made: Wheelset, rack: dict[Size, list[str]]) -> Iterator[BuyRow]:
    """All of the job's axles; `rack` has the names of bars on the rack."""
    yield from _bars(job, made, rack)
    yield from _bearings(job, made)
    yield from _spacers(job, made)
    yield from _holding(job, made)


def _bars(job: Job, made: Wheelset, rack: dict[Size, list[str]]) -> Iterator[BuyRow]:
    cut = axle_cuts(job, made)
    counts: dict[Round, int] = {}
    for bar, plan in zip(cut.bars, cut.plans, strict=True):
        counts[bar] = counts.get(bar, 0) + plan.repeat
    for bar, count in counts.items():
        mass = round_bar_kg(bar.diameter_mm, bar.length_mm)
        paid = of_stock(bar.price, mass, job.costs, "round")
        words = f"axle bar, round {bar.diameter_mm:g} mm, {bar.length_mm:g} mm long, {made.steel}"
        names = rack.get(("round", bar.diameter_mm, bar.length_mm), [])
        yield from stock_rows(
            "round",
            words,
            count,
            paid,
            names,
            mass,
            wheel_share=0,
            standard=standard_words("round", made.steel),
            length_mm=bar.length_mm,
        )
    if cut.missing:
        mass = round_bar_kg(cut.least_bar_mm, cut.piece_mm) * cut.missing
        words = f"axle bar for {so_many(cut.missing, 'length')} of {cut.piece_mm:g} mm, round "
        words += f"{cut.least_bar_mm:.4g} mm or thicker, {made.steel}"
        price = job.costs.steel_price_per_kg
        says = "costs.steel_price_per_kg, without the rests of its bars"
        if price is None:
            says = "not priced: give the bar as [[round]], or costs.steel_price_per_kg"
        yield buy_row(
            "round",
            words,
            mass,
            "kg",
            price,
            says,
            mass_kg=mass,
            wheel_share=0,
            metres=cut.missing * cut.piece_mm / 1000,
            standard=standard_words("round", made.steel),
        )


def _bearings(job: Job, made: Wheelset) -> Iterator[BuyRow]:
    count = len(made.bearing_z_mm) * axles_of(job)
    if made.bearing is not None:
        where = "in its housing" if made.turning else "for the hubs"
        words = f"bearing {made.bearing.name}, {where}"
    else:
        assert made.bush is not None
        bush = made.bush
        words = (
            f"bush of {bush.material}, {bush.bore_mm:g} mm bore, {bush.outside_mm:g} mm outside, "
        )
        words += f"{bush.length_mm:g} mm long"
    paid = by_key(job.costs.bearing_price, "costs.bearing_price")
    kind: BuyKind = "bearing" if made.bearing is not None else "bush"
    yield buy_row(kind, words, count, "off", *paid, wheel_share=0)


def _spacers(job: Job, made: Wheelset) -> Iterator[BuyRow]:
    axles, kerf = axles_of(job), job.cutting.kerf_mm
    sizes: dict[tuple[str, float, float, float], int] = {}
    for name, inside, outside, length, _ in made.spacers:
        size = (name.rpartition("-")[0], inside, outside, round(length, 3))
        sizes[size] = sizes.get(size, 0) + axles
    for (name, inside, outside, length), count in sizes.items():
        mass = (round_bar_kg(outside, length) - round_bar_kg(inside, length)) * count
        cut = TubeCut(job.wheel.steel, outside, inside, mass, count * (length + kerf) / 1000)
        words = f"{name}, {count} off, {inside:.4g} mm inside, {outside:.4g} mm outside, "
        words += f"{length:.4g} mm long"
        yield tube_row("spacer", words, cut, job.costs, wheel_share=0)


def _holding(job: Job, made: Wheelset) -> Iterator[BuyRow]:
    if made.retention in ("weld", "press"):
        return
    words = "; ".join(held_words(job.setting, made))
    if not words:
        return
    paid = by_key(job.costs.wheel_holding_price, "costs.wheel_holding_price")
    item = f"to hold the two wheels of an axle: {words}"
    yield buy_row("holding", item, axles_of(job), "off", *paid, wheel_share=0)
