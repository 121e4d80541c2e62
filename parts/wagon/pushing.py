"""How many people a push asks for, and by what limits."""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.parts.base.faults import Fault, SpecError

# UK HSE, L23 and INDG143, guideline figures: to start or stop, and to keep moving. They hold
# with hands between knuckle and shoulder, over not more than about 20 m, not all day long.
MAN_START_N, MAN_SUSTAINED_N = 200.0, 100.0
WOMAN_START_N, WOMAN_SUSTAINED_N = 150.0, 70.0
HSE = "UK HSE L23 and INDG143: 200 N to start, 100 N to keep moving for a man, 150 and 70 N for "
HSE += "a woman; hands between knuckle and shoulder, up to 20 m, with rest between"


@dataclass(frozen=True)
class PushLimit:
    """Push that nine men in ten find acceptable over a distance, once a minute."""

    distance_m: float
    start_n: float
    sustained_n: float


# From memory, not read, to be looked up before use: the psychophysical tables that Annex A of
# ISO 11228-2:2007 rests on; men, hands at 95 cm, one push a minute, rounded to 10 N. No check
# judges by them. They show how the limits fall with the distance.
ISO_11228_2_FROM_MEMORY = (
    PushLimit(2, 250, 150),
    PushLimit(8, 210, 130),
    PushLimit(15, 190, 110),
    PushLimit(30, 150, 80),
    PushLimit(45, 130, 70),
)
ISO = "ISO 11228-2:2007 sets limits by height of the hands, distance and number of pushes; the "
ISO += "figures used are from memory of the tables behind it, for men, one push a minute, and "
ISO += "are not judged by: look yours up"


def people_worth(
    start_n: float,
    sustained_n: float,
    each_start_n: float = MAN_START_N,
    each_sustained_n: float = MAN_SUSTAINED_N,
) -> float:
    """Pushes over what one person may push, the worse of starting and keeping on; a fraction."""
    return max(start_n / each_start_n, sustained_n / each_sustained_n)


def people(worth: float) -> int:
    """Whole people, at least one."""
    return max(1, math.ceil(worth - 1e-9))


def people_over(distance_m: float, start_n: float, sustained_n: float) -> int:
    """People needed over one of the distances of the table from memory, once a minute, by its
    figures for men.

    Raises: SpecError for a distance that the table does not have.
    """
    for limit in ISO_11228_2_FROM_MEMORY:
        if limit.distance_m == distance_m:
            return people(people_worth(start_n, sustained_n, limit.start_n, limit.sustained_n))
    known = ", ".join(f"{limit.distance_m:g}" for limit in ISO_11228_2_FROM_MEMORY)
    advice = "take the next longer distance of these"
    raise SpecError([Fault("distance_m", distance_m, f"one of {known} m", advice)])
