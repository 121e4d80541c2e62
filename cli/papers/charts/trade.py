"""A scatter of cost against strength, as a picture for a page (SVG)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from platewheel.cli.papers.charts.chart import EDGE, HALO, INK, Chart, line, span

LABEL = 14  # room for one beside another


@dataclass(frozen=True)
class Dot:
    """A wheel: cost, mean load it bears (N), how it is drawn, its label."""

    cost: float
    load_n: float
    kind: str  # "tried", "best" (nothing cheaper is as strong) or "proposed"
    label: str = ""


def trade_picture(dots: Sequence[Dot], needed_n: float, unit: str) -> str:
    """Cost along, rating up, the load that must be carried as a dashed line; marks differ in
    shape, not in colour alone. Raises: ValueError without dots."""
    if not dots:
        raise ValueError("trade_picture: no dots; allowed: at least one")
    chart = Chart(
        span([dot.cost for dot in dots]),
        span([*(dot.load_n for dot in dots), needed_n]),
        f"cost of a wheel, estimated{', ' + unit if unit else ''}",
        "mean wheel load borne, N",
    )
    marks = "".join(_mark(dot, *chart.at(dot.cost, dot.load_n)) for dot in dots)
    labels = _labels([(d.label, *chart.at(d.cost, d.load_n)) for d in dots if d.label])
    needs = chart.level(needed_n, f"must carry {needed_n:.0f} N")
    return chart.drawn(marks + labels + needs, "cost against rating")


def _mark(dot: Dot, x: float, y: float) -> str:
    if dot.kind == "proposed":
        return f'<rect x="{x - 5:.1f}" y="{y - 5:.1f}" width="10" height="10" fill="{INK}"/>'
    fill = "#5d7a8c" if dot.kind == "best" else "#fff"
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4" fill="{fill}" stroke="{INK}"/>'


def _labels(named: Sequence[tuple[str, float, float]]) -> str:
    """Labels over their marks, each with a line to it; of marks close together side by side."""
    groups: list[list[tuple[str, float, float]]] = []
    for one in sorted(named, key=lambda mark: mark[1]):
        if groups and one[1] - groups[-1][-1][1] < LABEL:
            groups[-1].append(one)
        else:
            groups.append([one])
    drawn = ""
    for group in groups:
        top = max(min(y for _, _, y in group) - 22, EDGE + 10)
        middle = sum(x for _, x, _ in group) / len(group)
        for k, (label, x, y) in enumerate(group):
            at = middle + (k - (len(group) - 1) / 2) * LABEL
            drawn += (
                f'<path d="M{at:.1f} {top + 3:.1f}L{x:.1f} {y:.1f}" {line()}/>'
                f'<text x="{at:.1f}" y="{top:.1f}" text-anchor="middle" {HALO}>'
                f"{escape(label)}</text>"
            )
    return drawn
