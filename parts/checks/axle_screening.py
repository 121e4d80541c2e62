"""The wheelset's checks asked of a setting, as the wheel's are: for choosing among many wheels."""

from __future__ import annotations

from collections.abc import Callable

from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.run_wheelset import CHECKS as OF_WHEELSET
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import Wheelset, wheelset, wheelset_on_rails


def wheelset_made(setting: Setting) -> CheckResult | None:
    """Whether a wheelset can be made of this wheel and axle; None where it can."""
    try:
        wheelset(setting)
    except SpecError as error:
        says = "; ".join(str(fault) for fault in error.faults)
        words = ("wheelset-made", "Wheelset of this wheel and axle")
        count = len(error.faults)
        return judged(
            *words, count, 0, "faults", "plain geometry", at_most=True, good=says, bad=says
        )
    return None


def _of_setting(
    check: Callable[[Setting, Wheelset], CheckResult | None],
) -> Callable[[Setting], CheckResult | None]:
    def asked(setting: Setting) -> CheckResult | None:
        try:
            made = wheelset_on_rails(setting)
        except SpecError:
            return None  # wheelset_made has it
        return check(setting, made)

    asked.__name__ = check.__name__
    return asked


CHECKS = (wheelset_made, *(_of_setting(check) for check in OF_WHEELSET))
