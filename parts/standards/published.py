"""What published standards have, gauge by gauge, to set beside one's own. All in mm.

Every figure was read in the source named or in a page that prints it, unless it says "from
memory" or "worked out" there. Two figures are least and most; None is not given.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

Range = tuple[float | None, float | None]


@dataclass(frozen=True)
class Published:
    """One gauge's standards; `rows` by the keys of `rows.py`, each least and most."""

    name: str
    gauge_mm: float
    rows: Mapping[str, Range]


PUBLISHED = (
    Published(
        "G1MRA standard",
        45.0,
        {
            "gauge": (44.5, 45.0),
            "gauge_curve": (None, 45.5),
            "check_gauge": (42.0, 42.5),
            "span": (None, 39.5),
            "check_flangeway": (2.5, 3.0),
            "crossing_flangeway": (2.5, 3.0),
            "back_to_back": (40.0, 40.5),
            "flange_new": (1.0, 1.5),
            "flange_depth": (None, 2.0),
            "tread_width": (5.5, 6.0),
            "wheel_check": (41.0, 42.0),
        },
    ),
    Published(
        "NMRA S-3.2, S-4.2, 3/4 in",
        88.9,
        {
            "gauge": (88.9, 91.6),
            "check_gauge": (85.1, None),
            "span": (None, 81.6),
            "crossing_flangeway": (None, 4.60),
            "flangeway_depth": (3.18, None),
            "back_to_back": (81.8, None),
            "wheel_check": (None, 85.1),
            "flange_depth": (None, 3.18),
            "tread_width": (10.3, None),
        },
    ),
    Published(
        "NEM 110G (2013) track; IBLS (1974) wheel, 5 in",
        127.0,
        {
            "gauge": (127.0, 130.0),
            "check_gauge": (122.0, 123.0),
            "span": (115.0, 116.0),
            "crossing_flangeway": (6.0, 7.0),
            "flangeway_depth": (4.7, None),
            "back_to_back": (119.05, 119.56),
            "over_flanges": (124.97, 125.48),
            "flange_new": (None, 3.18),
            "flange_depth": (None, 3.56),
            "tread_width": (12.83, None),
        },
    ),
    Published(
        "NEM 110G (2013) track; IBLS (1974) wheel, 7 1/4 in",
        184.15,
        {
            "gauge": (184.0, 190.0),
            "check_gauge": (176.0, 178.0),
            "span": (168.0, 170.0),
            "crossing_flangeway": (6.0, 8.0),
            "flangeway_depth": (6.3, None),
            "back_to_back": (174.50, 175.01),
            "over_flanges": (182.12, 182.63),
            "wheel_check": (178.59, 178.59),
            "flange_new": (None, 3.96),
            "flange_depth": (None, 4.75),
            "tread_width": (19.05, None),
        },
    ),
    Published(
        "7.5 in wheel standard (undated)",
        190.5,
        {
            "gauge": (190.5, None),
            "check_flangeway": (6.53, None),
            "crossing_flangeway": (6.53, None),
            "flangeway_depth": (None, 4.98),
            "back_to_back": (180.97, 181.48),
            "over_flanges": (186.92, 188.98),
            "wheel_check": (183.95, None),
            "flange_new": (None, 3.96),
            "flange_scrap": (2.97, None),
            "flange_depth": (4.75, None),
            "depth_scrap": (None, 5.54),
            "tread_width": (19.05, 47.6),
        },
    ),
    Published(
        "NEM 110G (2013) track",
        260.0,
        {
            "gauge": (260.0, 268.0),
            "check_gauge": (251.5, 253.0),
            "span": (240.0, 241.5),
            "crossing_flangeway": (10.0, 11.5),
            "flangeway_depth": (9.0, None),
        },
    ),
    Published(
        "KBO 1912, field railways; joints: coal-mine rules",
        600.0,
        {
            "gauge": (597.0, 610.0),
            "gauge_curve": (None, 618.0),
            "widening": (None, 18.0),
            "check_gauge": (None, 568.0),  # worked out, gauge less 32
            "span": (None, 536.0),  # worked out, gauge less twice 32
            "check_flangeway": (45.0, None),
            "crossing_flangeway": (32.0, None),
            "flangeway_depth": (32.0, None),
            "back_to_back": (537.0, 543.0),
            "flange_new": (None, 30.0),
            "flange_scrap": (20.0, None),
            "tread_width": (105.0, 130.0),  # with the flange
            "joint_step": (None, 2.0),  # coal-mine rules, main track, second-hand
            "joint_gap": (None, 5.0),  # the same
        },
    ),
    Published(
        "KBO 1912, metre gauge",
        1000.0,
        {
            "gauge": (997.0, 1010.0),
            "gauge_curve": (None, 1025.0),
            "widening": (None, 25.0),
            "check_gauge": (None, 959.0),  # worked out
            "span": (None, 918.0),  # worked out
            "check_flangeway": (45.0, None),
            "crossing_flangeway": (41.0, None),
            "flangeway_depth": (38.0, None),
            "back_to_back": (922.0, 928.0),
            "flange_new": (None, 36.0),
            "flange_scrap": (25.0, None),
            "flange_depth": (20.0, None),
            "tread_width": (125.0, 150.0),  # with the flange
            "twist": (None, 3.3),  # ESBO 6: ramps of cant 1 in 300
        },
    ),
    Published(
        "EBO (1991) wheel; EN 13232-9 and 49 CFR 213, class 1, track",
        1435.0,
        {
            "gauge": (1422.0, 1473.0),
            "check_gauge": (1391.0, 1396.0),
            "span": (None, 1352.6),
            "crossing_flangeway": (38.1, None),  # from memory
            "flangeway_depth": (34.9, None),  # from memory
            "switch_opening": (58.0, None),
            "back_to_back": (1357.0, 1363.0),
            "over_flanges": (1410.0, 1426.0),
            "flange_scrap": (20.0, None),
            "flange_depth": (26.0, 36.0),
            "depth_scrap": (None, 36.0),
            "tread_width": (130.0, 150.0),  # with the flange
            "hollow": (None, 7.9),
            "twist": (None, 4.0),
            "joint_step": (None, 6.4),  # from memory
        },
    ),
)


def beside(gauge_mm: float, most: int = 2) -> tuple[Published, ...]:
    """The published standards of the gauges nearest below and above, or of one within 1 % alone."""
    same = [one for one in PUBLISHED if abs(one.gauge_mm / gauge_mm - 1) <= 0.01]
    if same:
        return tuple(same[:most])
    below = [one for one in PUBLISHED if one.gauge_mm < gauge_mm][-1:]
    above = [one for one in PUBLISHED if one.gauge_mm > gauge_mm][:1]
    return tuple([*below, *above][:most])
