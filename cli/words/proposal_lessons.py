"""What a proposal teaches, in three sentences: what binds it, what it gives up, when to take it."""

from __future__ import annotations

from collections.abc import Sequence

from platewheel.cli.schema.propose import ProposalRow, WheelKind

TAKE: dict[WheelKind, str] = {
    "": "when its tread diameter or its stock suits the wagon and the shop better",
    "cheapest": "when money counts most and the wheels are looked over each season",
    "other stock": "when {stock} is to hand, or easier to get and roll than {first_stock}",
    "most reserve for its money": "when loads are guessed, beads are a beginner's, or nobody has "
    "measured the track",
    "lightest": "when wheels are lifted by hand, or wagons are pushed empty half of the way",
    "least welding": "when welding is the slowest work, or one welder makes all wheels",
    "fewest plates": "when few wheels are made and whole plates would be left over",
}
LEAST = {"money": 0.005, "kg": 0.05, "points": 0.5, "minutes": 0.5}  # less is not told


def lessons(row: ProposalRow, rows: Sequence[ProposalRow], money: str) -> list[str]:
    """Three sentences on one of the proposals `rows`, the first of which is the cheapest; `money`
    is the unit of the costs."""
    return [binds(row), gives_up(row, rows, money), take(row, rows[0])]


def reserve_percent(row: ProposalRow) -> float:
    """Rating over the load, in per cent of it."""
    return 100 * (row.rated_n / row.load_n - 1)


def binds(row: ProposalRow) -> str:
    """Which limit sets the rating and which check is nearest to its own, and how near."""
    rating = f"The rating, {reserve_percent(row):.0f} % over the load, is set by {row.governs}"
    if row.binds == "none":
        return f"{rating}."
    return f"{rating}; the check nearest to its limit, {_close(row.binds_margin)}: {row.binds}."


def _close(margin: float) -> str:
    percent = 100 * margin
    return f"{percent:.1f} % from it" if percent < 10 else f"{percent:.0f} % from it"


def gives_up(row: ProposalRow, rows: Sequence[ProposalRow], money: str) -> str:
    """Differences to the first proposal; of the first, to the proposals that are better in one."""
    if row is rows[0]:
        return _gives_up_first(row, rows[1:], money)
    more, less = _differences(row, rows[0], money)
    if not more and not less:
        return "Against the first it gives up nothing that is counted here."
    told = " and ".join(
        part
        for part in (
            f"gives up {_listed(more)}" if more else "gives up nothing that is counted here",
            f"gains {_listed(less)}" if less else "",
        )
        if part
    )
    return f"Against the first it {told}."


def _gives_up_first(row: ProposalRow, others: Sequence[ProposalRow], money: str) -> str:
    if not others:
        return "No other wheel was found to give something up against."
    light = min(others, key=lambda one: one.mass_kg)
    strong = max(others, key=reserve_percent)
    lost = []
    if (by := row.mass_kg - light.mass_kg) >= LEAST["kg"]:
        lost.append(f"{by:.1f} kg to proposal {light.rank}")
    if (by := reserve_percent(strong) - reserve_percent(row)) >= LEAST["points"]:
        lost.append(f"{by:.0f} points of reserve to proposal {strong.rank}")
    if not lost:
        return "It gives up nothing: no other proposal is lighter or stronger."
    return f"It gives up {_listed(lost)}."


def _differences(row: ProposalRow, first: ProposalRow, money: str) -> tuple[list[str], list[str]]:
    """What is worse than in the first and what is better."""
    minutes = 60 * (row.hours_per_wheel - first.hours_per_wheel)
    reserve = reserve_percent(row) - reserve_percent(first)
    each = (
        ("money", row.cost_per_wheel - first.cost_per_wheel, f".2f {money}".rstrip()),
        ("kg", row.mass_kg - first.mass_kg, ".1f kg"),
        ("points", -reserve, ".0f points of reserve"),
        ("minutes", minutes, ".0f minutes of work"),
    )
    worse, better = list[str](), list[str]()
    for name, by, form in each:
        if abs(by) < LEAST[name]:
            continue
        digits, _, unit = form.partition(" ")
        (worse if by > 0 else better).append(f"{abs(by):{digits}} {unit}".rstrip())
    return worse, better


def _listed(words: Sequence[str]) -> str:
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last


def take(row: ProposalRow, first: ProposalRow) -> str:
    """When a builder would take it."""
    when = TAKE[row.kind].format(stock=_stock(row), first_stock=_stock(first))
    return f"Take it {when}."


def _stock(row: ProposalRow) -> str:
    w = row.wheel
    if w["tread_from"] == "pipe":
        return f"pipe of {w['tread_diameter_mm']:g} x {w['tread_thickness_mm']:g} mm"
    if w["tread_from"] == "bar":
        return f"flat bar of {w['tread_width_mm']:g} x {w['tread_thickness_mm']:g} mm"
    return f"sheet of {w['tread_thickness_mm']:g} mm"
