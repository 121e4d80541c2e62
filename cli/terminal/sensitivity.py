"""What the terminal shows of a sensitivity: the table of steps, and a sentence a tight check."""

from __future__ import annotations

from typing import Any

from platewheel.cli.terminal.show import show_table
from platewheel.cli.words.phrases import Name
from platewheel.cli.words.table import Cells, Column, Table, table
from platewheel.cli.words.values import Change
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.propose.dimension_steps import DimensionStep
from platewheel.parts.propose.sensitivity import Moved, Sensitivity, best_help

UNIT = {"deg": "degrees", "mm": "mm"}


def show_sensitivity(found: Sensitivity) -> None:
    """The table of steps, and what follows from it."""
    rated = found.rated_n is not None
    title = (
        f"Change of margin, percentage points of the limit (blank: none); wheel now "
        f"{found.mass_kg:.2f} kg{f', bears {found.rated_n:.0f} N (mean load)' if rated else ''}"
    )
    show_table(title, steps_table(found))
    for line in told(found):
        print(line)


def steps_table(found: Sensitivity) -> Table:
    """Rows are steps, columns the tightest checks, cells the change of margin in points."""
    tight, rated = found.tightest(), found.rated_n is not None
    columns = [
        Column("dimension", "dimension", Name),
        Column("change", "mm, degrees", Name),
        Column("mass", "kg", Change),
        *([Column("rated", "rated N", Change)] if rated else []),
        *(Column(_margin_of(one), _folding(one.id), Change) for one in tight),
        Column("then", "then", Name),
    ]
    blank = dict.fromkeys(column.key for column in columns)
    return table(columns, ({**blank, **_cells(moved, tight, rated)} for moved in found.moves))


def _cells(moved: Moved, tight: list[CheckResult], rated: bool) -> Cells:
    step = moved.step
    named = {
        "dimension": Name(_folding(step.key.rsplit("_", 1)[0]) if step.way == "up" else ""),
        "change": Name(_change(step)),
    }
    if step.wheel is None:
        return {**named, "then": Name("no wheel: see below")}
    return {
        **named,
        "mass": Change(moved.mass_by_kg or 0.0, 2),
        **({"rated": Change(moved.rated_by_n, 0)} if rated else {}),
        **{_margin_of(one): Change(moved.points(one.id)) for one in tight},
        "then": Name(_folding(_broken(moved))),
    }


def _margin_of(check: CheckResult) -> str:
    return f"margin of {check.id}"


def told(found: Sensitivity) -> list[str]:
    """Sentences under the table: what follows, what cannot be made, what helps each check."""
    lines = ["", "What helps the tightest checks most by the kilogram:"]
    lines += [f"  {_help_words(found, check)}" for check in found.tightest()]
    fixed = [f"{one.title} ({_margin(one)})" for one in found.unmoved()]
    if fixed:
        lines.append(f"As tight, but no step here moves them: {'; '.join(fixed)}.")
    bad = [moved.step for moved in found.moves if moved.step.wheel is None]
    if bad:
        lines.append("No wheel can be made of these steps:")
        lines += [f"  {step.key} {_change(step)}: {step.refused}" for step in bad]
    lines += [f"Not stepped: {key}: {why}." for key, why in found.left_out]
    lines.append(
        "Each row changes one dimension. The vent circle follows the ring's bore and the vents' "
        "size, the tube's length the span of the discs. Bar and pipe come in their own sizes."
    )
    if found.rated_n is None:
        lines.append("The load rating is not in it: --rating rates plates and beads too.")
    else:
        lines.append("?: not rated; only plates and beads are rated.")
    return lines


def _broken(moved: Moved) -> str:
    worse = [shift for shift in moved.shifts if shift.worse_verdict]
    return ", ".join(f"{one.check} {one.after.verdict}s" for one in worse if one.after)


def _folding(name: str) -> str:
    """A name that a narrow column can fold between its words."""
    return name.replace("-", " ").replace("_", " ")


def _change(step: DimensionStep) -> str:
    return f"{step.was:g} -> {'none' if step.becomes is None else f'{step.becomes:g}'}"


def _margin(check: CheckResult) -> str:
    return f"{check.id}, {check.verdict}, margin {check.margin:+.0%}"


def _help_words(found: Sensitivity, check: CheckResult) -> str:
    start = f"{check.title} ({_margin(check)}): "
    best = best_help(found, check.id)
    if best is None:
        return start + "no single step helps."
    step, mass = best.moved.step, best.moved.mass_by_kg or 0.0
    words = f"{step.key} {step.was:g} to {step.becomes:g} {_unit(step.key)} adds "
    words += f"{best.points:.1f} points"
    if best.points_per_kg is not None:
        words += f" for {mass:.2f} kg a wheel, {best.points_per_kg:.0f} a kg"
    else:
        words += f" and saves {-mass:.2f} kg" if Change(mass, 2).told("mm") else " at no mass"
    broken = _broken(best.moved)
    return start + words + (f", but then {broken}." if broken else ".")


def _unit(key: str) -> str:
    return UNIT[key.rsplit("_", 1)[1]]


def sensitivity_table(found: Sensitivity) -> dict[str, Any]:
    """The same as numbers: mass kg, margins in percentage points, rated loads N."""
    tight = found.tightest()
    return {
        "mass_kg": found.mass_kg,
        "rated_n": found.rated_n,
        "tightest": [
            {
                "id": one.id,
                "title": one.title,
                "verdict": one.verdict,
                "margin": one.margin,
                "helps_most": _help_words(found, one),
            }
            for one in tight
        ],
        "unmoved": [one.id for one in found.unmoved()],
        "steps": [
            {
                "key": moved.step.key,
                "was": moved.step.was,
                "becomes": moved.step.becomes,
                "follows": {one.key: one.becomes for one in moved.step.follows},
                "refused": moved.step.refused or None,
                "mass_by_kg": moved.mass_by_kg,
                "rated_by_n": moved.rated_by_n,
                "margin_points": {shift.check: shift.points for shift in moved.shifts},
                "makes_worse": list(moved.breaks),
            }
            for moved in found.moves
        ],
        "not_stepped": dict(found.left_out),
    }
