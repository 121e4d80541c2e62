"""Choices beside the plan as rows: rings trued so that fewer sizes are cut."""

from __future__ import annotations

from platewheel.cli.job.job import Job
from platewheel.cli.schema.refit import ChoiceRow, TruedRing
from platewheel.parts.making.springback import RING_SOURCE
from platewheel.parts.refit.plan import Refit
from platewheel.parts.refit.ring_windows import RESIZE_SHARE, RESIZE_SOURCE
from platewheel.parts.refit.truing import MOST_SHARE, MOST_TRUED, choices


def choice_rows(job: Job, refit: Refit) -> list[ChoiceRow]:
    """Fewest rings first; empty where truing saves no size, and for blanks that were cut before:
    there the plan itself trues rings."""
    if refit.already_cut:
        return []
    now = len(refit.discs) + len(refit.flanges)
    return [
        ChoiceRow(
            sizes=choice.sizes,
            discs=choice.discs,
            flanges=choice.flanges,
            fewer=now - choice.sizes,
            rings=[
                TruedRing(
                    ring=one.ring,
                    press_mm=one.press_mm,
                    press_n=one.press_n,
                    resize_least_mm=one.resize_mm[0],
                    resize_most_mm=one.resize_mm[1],
                    round_least_mm=one.round_mm[0],
                    round_most_mm=one.round_mm[1],
                    tension_n=one.tension_n,
                )
                for one in choice.trued
            ],
        )
        for choice in choices(job.setting, refit)
    ]


def choice_limits() -> list[tuple[str, str, str]]:
    """What, limit and source."""
    return [
        (
            "a ring stretched or shrunk, for a choice",
            f"{100 * RESIZE_SHARE:g} % of its diameter; from pipe not shrunk, with a flange tried "
            "on not at all; a welded ring is neither resized nor pressed",
            RESIZE_SOURCE,
        ),
        ("force that presses a ring round, for a choice", "told, not limited", RING_SOURCE),
        (
            "rings trued for a choice",
            f"at most {100 * MOST_SHARE:g} % of them, and {MOST_TRUED}: choices of more are not "
            "told",
            "common practice, no source",
        ),
    ]
