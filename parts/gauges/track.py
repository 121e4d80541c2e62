"""Track gauge: a plate on edge across both rails, stepped from the least gauge to the greatest."""

from __future__ import annotations

from itertools import pairwise

from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.gauges.edge import Bite, Stop, closed, mirrored, usual_bite_mm
from platewheel.parts.gauges.gauge import (
    CALIPER,
    LEAST_STEP_MM,
    Gauge,
    Keys,
    Measure,
    Stuff,
    gauge_blank,
    label,
    refuse,
)
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.track import TrackSpec

NAME, NUMBER = "gauge-track", 2
CURVE = "greatest in the curve"
BEARING_MM = 4.0  # of each step below the rail's rounded corner, or below its bite
LUG_MM = 40.0  # length of a lug along the plate
BAR_SHARE, LEAST_BAR_MM = 1 / 16, 40.0  # height of the bar on the rails, of the gauge: stiff enough


def gauge_steps(track: TrackSpec) -> tuple[Measure, ...]:
    """The steps, narrowest first; sizes that are the same are one step with both names."""
    named = [
        ("least", track.least_gauge_mm),
        ("nominal", track.gauge_mm),
        ("greatest", track.gauge_mm + track.gauge_off_mm[1]),
    ]
    if track.gauge_widening_mm:
        named.append((CURVE, track.most_gauge_mm))
    steps: list[Measure] = []
    for name, size in named:
        if steps and abs(steps[-1].value - size) < 1e-9:
            steps[-1] = Measure(f"{steps[-1].name} and {name}", size)
        else:
            steps.append(Measure(name, size))
    return tuple(steps)


def track_gauge(setting: Setting, stuff: Stuff) -> Gauge:
    """Lugs stepped alike on both running edges, so that the plate lies level on either step. Each
    step reaches below the rounding of the rail head. Raises: SpecError where two steps are so near
    that a file does not tell them apart."""
    track = setting.track
    steps = gauge_steps(track)
    near = min((b.value - a.value for a, b in pairwise(steps)), default=0.0)
    if near < LEAST_STEP_MM - 1e-9:
        raise refuse(
            "track",
            f"least, nominal and greatest gauge the same or {LEAST_STEP_MM:g} mm apart, two of "
            f"them at least; here {', '.join(f'{step.value:g}' for step in steps)}",
            CALIPER,
            *_other_steps(track),
        )
    bite = usual_bite_mm(stuff)  # a step of a tenth is cut only from within it
    deep = BEARING_MM + max(bite, track.rail_corner_radius_mm)
    foot, bar = len(steps) * deep, max(LEAST_BAR_MM, BAR_SHARE * track.gauge_mm)
    half = track.most_gauge_mm / 2 + track.rail_head_width_mm
    right: list[Stop] = [(steps[0].value / 2, 0.0)]
    for i, step in enumerate(steps):
        top, face = (i + 1) * deep, step.value / 2
        right += [(face, i * deep), (face, top - bite), Bite((face, top))]
    right += [(half, foot), (half, foot + bar)]
    inner = steps[0].value / 2 - LUG_MM
    arch: list[Stop] = []
    if inner > LUG_MM:
        arch = [(-inner, 0.0), (-inner, foot), (inner, foot), (inner, 0.0)]
    edge = closed([*arch, *right, *mirrored(right)])
    words = ", ".join(f"{step.value:.1f}" for step in steps)
    marks = [label((0.0, foot + bar / 2), f"No. {NUMBER} track {words}", 1.8 * half, bar)]
    return Gauge(
        NUMBER,
        "track gauge",
        gauge_blank(NAME, stuff, edge, marks),
        (*steps, Measure("reaches below the rail top", foot)),
        _use(steps),
    )


def _other_steps(track: TrackSpec) -> tuple[Keys, ...]:
    """Values that may set the steps apart: the tolerance usual on this track, or a widening that is
    none or can be told from none."""
    usual = unchecked(track, {"gauge_tolerance_mm": None}).gauge_off_mm
    tolerance, none = {"track.gauge_tolerance_mm": usual}, {"track.gauge_widening_mm": 0.0}
    return none, {"track.gauge_widening_mm": LEAST_STEP_MM}, tolerance, {**tolerance, **none}


def _use(steps: tuple[Measure, ...]) -> str:
    nominal = next(step.value for step in steps if "nominal" in step.name)
    most = f"the step {steps[-1].value:.1f} goes in nowhere"
    if steps[-1].name == CURVE and len(steps) > 2:
        most = f"the step {steps[-2].value:.1f} goes in only in the tightest curve, {most}"
    return (
        "Stand it across the rails, square to them, and press it down: the step "
        f"{steps[0].value:.1f} goes in everywhere, {most}. New rails are spiked up to the step "
        f"{nominal:.1f}; stamp each step with its size."
    )
