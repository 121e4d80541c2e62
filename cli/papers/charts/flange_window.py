"""The flange angle's window as a drawing (SVG): climb margin and curve clearance over angle."""

from __future__ import annotations

from collections.abc import Callable
from html import escape

from platewheel.parts.checks.running.curve import LEAST_ANGLE_DEG, WASHER_DEG, fits_curve
from platewheel.parts.checks.running.flange_window import (
    FlangeWindow,
    clearance_margin,
    climb_margin,
    flange_window,
    touch_margin,
)
from platewheel.parts.setting.setting import Setting

LEFT, RIGHT, TOP, BOTTOM = 70.0, 560.0, 40.0, 320.0  # of the plot's frame
WIDTH, HEIGHT = 600, 441
STEP_DEG = 0.25
HATCH = (
    '<defs><pattern id="window" width="7" height="7" patternUnits="userSpaceOnUse" '
    'patternTransform="rotate(45)"><rect width="7" height="7" fill="#eee"/>'
    '<path d="M0 0V7" stroke="#bbb" stroke-width="1"/></pattern></defs>'
)


def window_picture(setting: Setting) -> str:
    """SVG element, greyscale: both margins over 45 to 90 degrees, 0 % the limit, the window
    hatched, the present angle marked. Margins beyond -100 % are cut off at the frame."""
    body = [HATCH]
    if fits_curve(setting):
        window = flange_window(setting)
        body += [*_shade(window), *_frame()]
        body += _curve(lambda deg: climb_margin(setting, deg), "#000", "")
        body += _curve(lambda deg: clearance_margin(setting, deg), "#000", "7 4")
        body += _curve(lambda deg: touch_margin(setting, deg), "#000", "2 4")
        body += _mark(setting.wheel.flange_angle_deg)
        says = window.says
    else:
        body += [*_frame(), *_mark(setting.wheel.flange_angle_deg)]
        says = "the wheelbase does not fit the curve: there is no window"
    body.append(_words((LEFT + RIGHT) / 2, HEIGHT - 56, says, "middle", bold=True))
    body += _key()
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" role="img" '
        f'aria-label="window of the flange angle" viewBox="0 0 {WIDTH} {HEIGHT}" '
        'font-family="sans-serif" font-size="12" fill="#222">'
        f"<title>Window of the flange angle: {escape(says)}</title>{''.join(body)}</svg>"
    )


def _x(deg: float) -> float:
    return LEFT + (deg - LEAST_ANGLE_DEG) / (WASHER_DEG - LEAST_ANGLE_DEG) * (RIGHT - LEFT)


def _y(margin: float) -> float:
    return (TOP + BOTTOM) / 2 - max(-1.0, min(1.0, margin)) * (BOTTOM - TOP) / 2


def _shade(window: FlangeWindow) -> list[str]:
    if not window.is_open or window.greatest_deg is None:
        return []
    low, high = _x(max(window.least_deg, LEAST_ANGLE_DEG)), _x(window.greatest_deg)
    return [
        f'<rect class="window" x="{low:.2f}" y="{TOP:g}" width="{high - low:.2f}" '
        f'height="{BOTTOM - TOP:g}" fill="url(#window)"/>'
    ]


def _frame() -> list[str]:
    parts = [
        f'<path d="M{LEFT:g} {TOP:g}V{BOTTOM:g}H{RIGHT:g}V{TOP:g}Z" fill="none" stroke="#666"/>',
        f'<path d="M{LEFT:g} {_y(0):g}H{RIGHT:g}" stroke="#666" stroke-width="1.5"/>',
    ]
    for deg in range(45, 91, 5):
        parts.append(f'<path d="M{_x(deg):.2f} {BOTTOM:g}v5" stroke="#666"/>')
        parts.append(_words(_x(deg), BOTTOM + 18, str(deg), "middle"))
    for percent in (-100, -50, 0, 50, 100):
        y = _y(percent / 100)
        parts.append(f'<path d="M{LEFT - 5:g} {y:g}h5" stroke="#666"/>')
        parts.append(_words(LEFT - 8, y + 4, f"{percent} %", "end"))
    parts.append(
        _words((LEFT + RIGHT) / 2, BOTTOM + 34, "flange angle, deg (90 = unflared)", "middle")
    )
    middle = (TOP + BOTTOM) / 2
    parts.append(
        f'<text transform="rotate(-90)" x="{-middle:g}" y="16" text-anchor="middle">'
        "margin to the limit</text>"
    )
    return parts


def _curve(margin: Callable[[float], float], colour: str, dashes: str) -> list[str]:
    """Line of a margin over the angle, only where it is inside the frame."""
    count = round((WASHER_DEG - LEAST_ANGLE_DEG) / STEP_DEG)
    runs: list[list[str]] = [[]]
    for i in range(count + 1):
        deg = LEAST_ANGLE_DEG + i * STEP_DEG
        value = margin(deg)
        if value < -1:
            runs.append([])
        else:
            runs[-1].append(f"{_x(deg):.2f} {_y(value):.2f}")
    return [
        f'<path d="M{"L".join(run)}" fill="none" stroke="{colour}" stroke-width="2" '
        f'stroke-dasharray="{dashes or "none"}"/>'
        for run in runs
        if len(run) > 1
    ]


def _mark(deg: float) -> list[str]:
    anchor, shift = ("end", -4) if deg > 75 else ("start", 4)
    return [
        f'<path class="present" d="M{_x(deg):.2f} {TOP - 8:g}V{BOTTOM:g}" stroke="#000" '
        'stroke-width="1.5" stroke-dasharray="2 3"/>',
        _words(_x(deg) + shift, TOP - 10, f"this wheel, {deg:g} deg", anchor),
    ]


def _key() -> list[str]:
    y = HEIGHT - 30
    return [
        f'<path d="M{LEFT:g} {y - 4}h30" stroke="#000" stroke-width="2"/>',
        _words(LEFT + 36, y, "against climbing the rail"),
        f'<path d="M{LEFT + 215:g} {y - 4}h30" stroke="#000" stroke-width="2" '
        'stroke-dasharray="7 4"/>',
        _words(LEFT + 251, y, "room in the curve"),
        f'<path d="M{LEFT:g} {y + 12}h30" stroke="#000" stroke-width="2" stroke-dasharray="2 4"/>',
        _words(LEFT + 36, y + 16, "against touching low, or with the tip"),
        f'<rect x="{LEFT + 385:g}" y="{y - 11}" width="24" height="13" fill="url(#window)" '
        'stroke="#888"/>',
        _words(LEFT + 415, y, "window"),
    ]


def _words(x: float, y: float, text: str, anchor: str = "start", bold: bool = False) -> str:
    weight = ' font-weight="bold"' if bold else ""
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}"{weight}>{escape(text)}</text>'
