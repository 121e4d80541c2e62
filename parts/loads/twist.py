"""Load that a twisted track moves from wheel to wheel, and the wheel that has most at rest."""

from __future__ import annotations

from platewheel.parts.setting.setting import Setting

KN_M2 = 1e9  # N mm2
SPRUNG_SAG_MM = 15.0  # of a loaded wagon on springs that are not known; common practice, no source


def moved_load_n(
    change_mm: float,
    spacing_mm: float,
    wheel_stiffness_n_per_mm: float,
    frame_torsion_n_mm2: float,
    wheelbase_mm: float,
) -> float:
    """Load that two wheels on one diagonal take from the other two: h / (4 / c + s2 L / GJ).

    `change_mm` is the change of cross-level from axle to axle. Each wheel sinks by dQ / c, each
    axle rolls by 2 dQ / (c s), the frame twists by dQ s L / GJ, and together they make h / s.
    Source: plain statics of a frame on four springs; it is what ORE B 55 works with, from memory.
    """
    sinking = 4 / wheel_stiffness_n_per_mm
    return change_mm / (sinking + spacing_mm**2 * wheelbase_mm / frame_torsion_n_mm2)


def spring_stiffness_n_per_mm(setting: Setting) -> float | None:
    """Of one wheel's spring: what the loaded wagon puts on it over its sag; None without."""
    if setting.wagon.suspension != "sprung":
        return None
    return setting.static_wheel_load_n / (setting.wagon.spring_sag_mm or SPRUNG_SAG_MM)


def axle_places_mm(setting: Setting) -> list[float]:
    """Of the axles along the wagon from its middle, evenly spaced."""
    wagon = setting.wagon
    if wagon.axles < 2:
        return [0.0]
    return [wagon.wheelbase_mm * (i / (wagon.axles - 1) - 0.5) for i in range(wagon.axles)]


def lifted_share(setting: Setting) -> float:
    """Of its stiffness times its lift that a wheel takes which stands higher than all others of a
    stiff frame: 1 - 1 / n - x2 / (2 sum x2), n axles at x; the worst, nearest to the middle.

    A quarter of two axles. Source: plane fitted to 2 n springs, plain statics.
    """
    places = axle_places_mm(setting)
    squares = sum(place**2 for place in places)
    near = min(place**2 for place in places)
    return 1 - 1 / len(places) - (near / (2 * squares) if squares else 0.0)


def twisted_load_n(setting: Setting, mean_n: float) -> float:
    """What twist and a joint's step move to the heaviest wheel of a wagon whose mean wheel load
    is given, N; at most what leaves it on one diagonal. On three points nothing.

    With more than two axles the step is taken by the frame as stiff; humps under axles in between
    are not in it.
    """
    wagon, track = setting.wagon, setting.track
    if wagon.axles < 2 or wagon.suspension == "three-point":
        return 0.0
    soft = 1 / track.stiffness_n_per_mm
    if (spring := spring_stiffness_n_per_mm(setting)) is not None:
        soft += 1 / spring
    two = wagon.axles == 2
    moved = moved_load_n(
        track.twist_mm_per_m * wagon.wheelbase_mm / 1000 + (track.joint_step_mm if two else 0.0),
        setting.contact_spacing_mm,
        1 / soft,
        wagon.frame_torsion_kn_m2 * KN_M2,
        wagon.wheelbase_mm,
    )
    if not two:
        moved += lifted_share(setting) * track.joint_step_mm / soft
    # on one diagonal of outer wheels, each has half of the wagon
    return min(moved, max(wagon.axles - placing(setting), 0.0) * mean_n)


def placing(setting: Setting) -> float:
    """Heaviest over mean wheel load on level straight track. On three points one axle alone keeps
    the wagon upright, and bears all that lies off the middle."""
    off = setting.wagon.load_placing - 1
    return 1 + (setting.wagon.axles * off if setting.wagon.suspension == "three-point" else off)
