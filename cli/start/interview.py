"""Asks the questions one by one: wrong answers again, back by one, nothing written here."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Protocol

from platewheel.cli.job.job import job_of
from platewheel.cli.schema.job_sections import REPEATED, SINGLE
from platewheel.cli.start.first_job import SHEETS, SIZE, UNITS, starts, table_of
from platewheel.cli.start.questions import (
    QUESTIONS,
    Question,
    default_text,
    measure_of,
    note_of,
    read_answer,
    shown,
    summary,
)
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.spec_model import allowed, find_faults

BACK, WHY = "<", "?"
HELP = "Enter takes what stands in brackets, < goes back, ? tells more, Ctrl-C writes nothing."
CAUTION = (
    "No one rides before the wheels are proof-loaded; no wagon without a brake where the track "
    "falls; local codes and licensed engineers come first."
)
END = (
    "1: write it with the cheapest wheel that passes every check (`platewheel propose`: one to "
    "three minutes on two free cores, more where none passes)",
    "2: write it with a wheel to start from, at once",
)


class Talk(Protocol):
    """A person, or a file of answers."""

    def say(self, line: str) -> None:
        """Tells a line."""

    def ask(self, label: str, default: str) -> str:
        """What was answered, the default where nothing; ends as the terminal does."""


def interview(talk: Talk) -> tuple[dict[str, Any], bool]:
    """Answers by path, a job without faults; and whether a wheel is to be searched for."""
    answered: dict[str, Any] = {}
    former: dict[str, Any] = {}
    talk.say(HELP)
    while True:
        while len(answered) < len(QUESTIONS):
            question = QUESTIONS[len(answered)]
            back = _asked(talk, question, answered, former)
            if back and not answered:
                talk.say("This is the first question.")
            elif back:
                path, value = answered.popitem()
                former[path] = value
        talk.say("")
        for line in (*summary(answered), "", *END):
            talk.say(line)
        while (choice := talk.ask("1, 2 or <", "1").strip().lower()) not in ("1", "2", BACK):
            talk.say(str(Fault("answer", choice, "1, 2 or <", "1")))
        if choice != BACK:
            return answered, choice == "1"
        path, value = answered.popitem()
        former[path] = value


def _asked(
    talk: Talk, question: Question, answered: dict[str, Any], former: Mapping[str, Any]
) -> bool:
    """Puts a good answer into `answered`; True where the person goes back instead."""
    path = question.path
    units = answered.get(UNITS, "mm")
    default = starts(answered)[path]
    if path in former and not faults_of(answered | {path: former[path]}, path):
        default = former[path]
    offered = default_text(path, default, units)
    measure = measure_of(path, units)
    label = measure.bare if measure else "answer"
    talk.say("")
    talk.say(f"{len(answered) + 1}/{len(QUESTIONS)} {question.title}")
    talk.say(note_of(question, units))
    while True:
        text = talk.ask(label, offered).strip()
        if text == BACK:
            return True
        if text == WHY:
            talk.say(f"{question.field.description} ({allowed(path, question.field)})")
            continue
        try:
            value = default if text == offered else read_answer(question, text, units)
            faults: Sequence[Fault] = faults_of(answered | {path: value}, path)
        except SpecError as error:
            faults = error.faults
        if not faults:
            break
        for fault in faults:
            talk.say(str(fault))
    if (read := shown(path, value, units)) not in (text, f"{text} {label}"):
        talk.say(f"read as {read}")
    if path == "use.consequence" and value == "high":
        talk.say(CAUTION)
    answered[path] = value
    return False


def faults_of(answered: Mapping[str, Any], path: str) -> tuple[Fault, ...]:
    """What is wrong with the answer to `path`: by its own range, else with the job that it makes
    together with those before it, by the rules of the job file."""
    section, key = path.split(".")
    value = answered[path]
    pairs: list[tuple[str, Any]] = [(key, value)]
    if path == SIZE:
        pairs = list(zip(("width_mm", "length_mm"), value, strict=True))
    elif path == SHEETS:
        pairs = [(key, one) for one in value]
    elif value is None:
        pairs = []
    kind = (SINGLE | REPEATED)[section]
    own = [
        fault.below(section)
        for name, one in pairs
        for fault in find_faults(kind, {name: one})
        if fault.key == name
    ]
    if own:
        return tuple(own)
    try:
        job_of(table_of(answered))
    except SpecError as error:
        return error.faults
    return ()
