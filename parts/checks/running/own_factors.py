"""A job's own factors on the wheel load, against what track and wagon give."""

from __future__ import annotations

from platewheel.parts.base.units import at_least
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.trying import Check, tried
from platewheel.parts.loads.wheel_load import curving_shares, derived, load_unevenness, shock_factor
from platewheel.parts.setting.setting import Setting

SAME = 0.005  # figures rounded to two decimals are not lower


def own_unevenness(setting: Setting) -> CheckResult | None:
    """`wagon.load_unevenness` against statics of the frame on its track."""
    given = setting.wagon.load_unevenness
    if given is None:
        return None
    return _judged(
        setting,
        own_unevenness,
        "load-unevenness",
        "Own wagon.load_unevenness",
        "wagon.load_unevenness",
        given,
        load_unevenness(derived(setting)),
        "plain statics of a frame on four springs; how the load lies, twist, joint step, speed, "
        "cant, slope",
    )


def own_shock(setting: Setting) -> CheckResult | None:
    """`wagon.shock_factor` against the impact at joints, on a wheel as heavy as it is."""
    given = setting.wagon.shock_factor
    if given is None:
        return None
    return _judged(
        setting,
        own_shock,
        "shock-factor",
        "Own wagon.shock_factor",
        "wagon.shock_factor",
        given,
        shock_factor(derived(setting)),
        "second peak of Jenkins et al., 1974, from memory, no more than stiffness x (step + drop "
        "in the gap)",
    )


def own_lateral(setting: Setting) -> CheckResult | None:
    """`use.lateral_share` against steady curving."""
    given = setting.use.lateral_share
    if given is None:
        return None
    return _judged(
        setting,
        own_lateral,
        "lateral-share",
        "Own use.lateral_share",
        "use.lateral_share",
        given,
        curving_shares(setting, setting.track.min_curve_radius_m)[0],
        "steady curving with sliding treads, Porter 1935, Heumann 1954, from memory",
    )


def _judged(
    setting: Setting,
    check: Check,
    id: str,
    title: str,
    key: str,
    given: float,
    worked_out: float,
    source: str,
) -> CheckResult:
    least = at_least(worked_out, 2)
    does = tried(check, setting, key, float(least), 0.01, 1)
    return judged(
        id,
        title,
        given,
        worked_out - SAME,
        "",
        source,
        at_most=False,
        good=f"no lower than the {worked_out:.2f} worked out from track and wagon",
        bad=f"{given:g} stands in the job, {worked_out:.2f} is worked out: leave {key} out, or "
        "have it measured" + (f"; {key} = {does:g} would do" if does else ""),
        bad_verdict="warn",
    )


CHECKS = (own_unevenness, own_shock, own_lateral)
