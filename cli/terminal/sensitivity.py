"""What the terminal shows of a sensitivity: the table of steps, and a sentence a tight check."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from platewheel.cli.terminal.show import say, show_table
from platewheel.cli.words.phrases import Name
from platewheel.cli.words.table import Cells, Column, Table, table
from platewheel.cli.words.values import Change
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.propose.dimension_steps import DimensionStep
from platewheel.parts.propose.line_steps import LineStep
from platewheel.parts.propose.sensitivity import (
    Moved,
    Sensitivity,
    Shift,
    best_help,
    line_help,
)

UNIT = {"deg": "degrees", "mm": "mm"}
TOLD_POINTS = 0.5  # less is left out of the tables: they are read, not added up
MOST_TOLD = 3  # checks in a list, the tightest of them


def show_sensitivity(found: Sensitivity) -> None:
    """The tables of steps, and what follows from them."""
    rated = f", bears {found.rated_n:.0f} N (mean load)" if found.rated_n is not None else ""
    title = f"Wheel now {found.mass_kg:.2f} kg{rated}; room: points of the limit, tightest first"
    show_table(title, steps_table(found))
    show_table("What you can change of the line, in the same points", line_table(found))
    for line in told(found):
        say(line)


def steps_table(found: Sensitivity) -> Table:
    """A row a step of the wheel; which checks gain room and which lose it."""
    return _table(found, found.moves, "dimension")


def line_table(found: Sensitivity) -> Table:
    """The same of steps on track, wagon and axle, which have no mass."""
    return _table(found, found.line_moves, "key")


def _table(found: Sensitivity, moves: Sequence[Moved], head: str) -> Table:
    columns = [
        Column("key", head, Name),
        Column("change", "from, to", Name),
        *([Column("mass", "kg", Change)] if moves is found.moves else []),
        *([Column("rated", "rated N", Change)] if found.rated_n is not None else []),
        Column("gains", "more room", Name),
        Column("loses", "less room", Name),
        Column("then", "then", Name),
    ]
    keys = [column.key for column in columns]
    rows = [_cells(moved) for moved in moves]
    return table(columns, ({key: row.get(key) for key in keys} for row in rows))


def _cells(moved: Moved) -> Cells:
    step = moved.step
    name = step.key if isinstance(step, LineStep) else step.key.rsplit("_", 1)[0]
    named = {
        "key": Name(_folding(name) if step.way == "up" else ""),
        "change": Name(_change(step)),
    }
    if step.wheel is None:
        return {**named, "then": Name("cannot be: see below")}
    return {
        **named,
        "mass": Change(moved.mass_by_kg or 0.0, 2),
        "rated": Change(moved.rated_by_n, 0),
        "gains": Name(_tightest_of(moved, 1)),
        "loses": Name(_tightest_of(moved, -1)),
        "then": Name(_folding(_broken(moved))),
    }


def _tightest_of(moved: Moved, sign: int) -> str:
    """The checks that a step gives room, or takes it from, the tightest first."""
    fit = [one for one in moved.shifts if sign * (one.points or 0.0) >= TOLD_POINTS]
    fit.sort(key=_tightness)
    told = [f"{_folding(one.check)} {one.points:+.1f}" for one in fit[:MOST_TOLD]]
    more = len(fit) - len(told)
    return ", ".join(told) + (f" and {more} more" if more > 0 else "")


def _tightness(shift: Shift) -> float:
    sides = (shift.before, shift.after)
    return min(one.margin for one in sides if one is not None and one.margin is not None)


def told(found: Sensitivity) -> list[str]:
    """Sentences under the table: what follows, what cannot be made, what helps each check."""
    lines = ["", "What helps the tightest checks most by the kilogram, and on the line:"]
    lines += [f"  {_help_words(found, check)}" for check in found.tightest()]
    fixed = [f"{one.title} ({_margin(one)})" for one in found.unmoved()]
    if fixed:
        lines.append(f"As tight, but no step here moves them: {'; '.join(fixed)}.")
    for moves, title in (
        (found.moves, "No wheel can be made of these steps:"),
        (found.line_moves, "The line does not take these steps:"),
    ):
        bad = [moved.step for moved in moves if moved.step.wheel is None]
        if bad:
            lines.append(title)
            lines += [f"  {step.key} {_change(step)}: {step.refused}" for step in bad]
    lines += [f"Not stepped: {key}: {why}." for key, why in found.left_out]
    lines.append(
        "Each row changes one dimension. The vent circle follows the ring's bore and the vents' "
        "size, the tube's length the span of the discs. Bar and pipe come in their own sizes. "
        "Where a limit moves with a step, the lesser of what margin and room gain is told, and "
        "nothing where one of them loses; a check that comes or goes counts as no gain."
    )
    if found.rated_n is None:
        lines.append("The load rating is not in it: --rating rates plates and beads too.")
    else:
        lines.append("?: not rated; plates, beads and the line alone are.")
    return lines


def _broken(moved: Moved) -> str:
    worse = [shift for shift in moved.shifts if shift.worse_verdict]
    return ", ".join(f"{one.check} {one.after.verdict}s" for one in worse if one.after)


def _folding(name: str) -> str:
    """A name that a narrow column can fold between its words."""
    return name.replace("-", " ").replace("_", " ")


def _change(step: DimensionStep | LineStep) -> str:
    return f"{step.was:g} -> {'none' if step.becomes is None else f'{step.becomes:g}'}"


def _margin(check: CheckResult) -> str:
    return f"{check.id}, {check.verdict}, margin {check.margin:+.0%}"


def _help_words(found: Sensitivity, check: CheckResult) -> str:
    start = f"{check.title} ({_margin(check)}): "
    best, line = best_help(found, check.id), line_help(found, check.id)
    on_line = ""
    if line is not None:
        step = line.step
        on_line = (
            f" On the line {step.key} {step.was:g} to {step.becomes:g} adds "
            f"{line.points(check.id):.1f} points."
        )
    if best is None:
        return start + "no single step of the wheel helps." + on_line
    step, mass = best.moved.step, best.moved.mass_by_kg or 0.0
    words = f"{step.key} {step.was:g} to {step.becomes:g} {_unit(step.key)} adds "
    words += f"{best.points:.1f} points"
    if best.points_per_kg is not None:
        words += f" for {mass:.2f} kg a wheel, {best.points_per_kg:.0f} a kg"
    else:
        words += f" and saves {-mass:.2f} kg" if Change(mass, 2).told("mm") else " at no mass"
    broken = _broken(best.moved)
    return start + words + (f", but then {broken}." if broken else ".") + on_line


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
        "steps": [_step_row(moved) for moved in found.moves],
        "line_steps": [_step_row(moved) for moved in found.line_moves],
        "not_stepped": dict(found.left_out),
    }


def _step_row(moved: Moved) -> dict[str, Any]:
    step = moved.step
    follows = () if isinstance(step, LineStep) else step.follows
    return {
        "key": step.key,
        "was": step.was,
        "becomes": step.becomes,
        "follows": {one.key: one.becomes for one in follows},
        "refused": step.refused or None,
        "mass_by_kg": moved.mass_by_kg,
        "rated_by_n": moved.rated_by_n,
        "margin_points": {shift.check: shift.points for shift in moved.shifts},
        "makes_worse": list(moved.breaks),
    }
