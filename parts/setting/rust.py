"""Steel lost to the weather on each bare face over the wheel's life."""

from __future__ import annotations

from platewheel.parts.setting.finish import FinishSpec

# first year, mm, upper ends of ISO 9223 for carbon steel: C3 25 to 50 um, C5 80 to 200 um; from
# memory
INLAND_MM, COAST_MM = 0.050, 0.200
SLOWING = 0.575  # ISO 9224, the upper exponent of carbon steel (0.523 the mean); from memory
STEADY_YEARS = 20.0  # ISO 9224: after these no slower any more; from memory


def bare_loss_mm(first_year_mm: float, years: float) -> float:
    """Depth of rust: r t^b for 20 years, then at the rate that it has reached.

    Raises: ValueError for a rate or years below 0. Source: ISO 9224:2012, from memory.
    """
    if first_year_mm < 0 or years < 0:
        raise ValueError(f"found {first_year_mm:g} mm, {years:g} years; allowed: from 0")
    slowing = min(years, STEADY_YEARS)
    after = max(years - STEADY_YEARS, 0.0)
    steady = SLOWING * STEADY_YEARS ** (SLOWING - 1) * after
    return float(first_year_mm * (slowing**SLOWING + steady))


def corrosion_mm(finish: FinishSpec, years: float) -> float:
    """Metal lost on each face: as the job says, or nothing under a coating that is kept up, and
    by the site where the steel is bare."""
    if finish.corrosion_mm is not None:
        return finish.corrosion_mm
    if finish.coating != "bare":
        return 0.0
    return bare_loss_mm(COAST_MM if finish.site == "coast" else INLAND_MM, years)
