"""Checks of a wheel with a disc of one's own: what may ask about the disc gives no verdict."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from platewheel.parts.checks.making import rolling
from platewheel.parts.checks.result import CheckResult, worst_first
from platewheel.parts.checks.run import RUNNING
from platewheel.parts.checks.strength import contact, corner_contact
from platewheel.parts.setting.setting import Setting

OF_NO_DISC = (*RUNNING, *contact.CHECKS, *corner_contact.CHECKS, *rolling.CHECKS)
SAYS = "the disc is one of your own: this check knows plain discs with round vents alone"


def not_of_own_disc(results: Iterable[CheckResult], setting: Setting) -> list[CheckResult]:
    """The same results, without a verdict where the check may ask about the disc.

    With a verdict stay track and flange, tread on rail, and rolling of the ring.
    """
    stay = {found.id for check in OF_NO_DISC if (found := check(setting)) is not None}
    return worst_first([one if one.id in stay else _not_assessed(one) for one in results])


def _not_assessed(result: CheckResult) -> CheckResult:
    return replace(
        result,
        value=None,
        limit=None,
        margin=None,
        at_most=None,
        verdict="not-assessed",
        says=SAYS,
    )
