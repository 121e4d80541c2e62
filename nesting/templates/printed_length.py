"""Lengths as a template prints them: millimetres, or inches to 1/64 with the mm small beside."""

from __future__ import annotations

from platewheel.parts.base.units import MM_PER_INCH, PARTS, Units, inches, length


def printed_length(length_mm: float, units: Units) -> tuple[str, str]:
    """What is printed, and what stands small beside it: `282.5 mm` and nothing, or
    `11 1/8 in` and `282.5 mm`; below 1/64 in thousandths, `0.006 in`, for no tool grinds 0 in."""
    in_mm = f"{round(length_mm, 1) + 0:.12g} mm"
    if units == "mm":
        return in_mm, ""
    if 0 < abs(length_mm) < MM_PER_INCH / PARTS:
        return length(length_mm, units), in_mm
    return inches(length_mm), in_mm


def length_line(length_mm: float, units: Units) -> str:
    """The same in one line: `11 1/8 in (282.5 mm)`."""
    main, small = printed_length(length_mm, units)
    return f"{main} ({small})" if small else main
