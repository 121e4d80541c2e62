"""What only the owner can know: the keys that a newcomer meets, in the order of telling it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal, get_args, get_origin

from pydantic.fields import FieldInfo

from platewheel.cli.schema.job_sections import REPEATED, SINGLE
from platewheel.parts.base.spec_model import allowed, unit_of

# from here on a description tells why its default is so, or what a key left out means
_REASON = re.compile(r"\s*(\(default|; absent =|; 0 =).*$", re.DOTALL)


@dataclass(frozen=True)
class FirstKey:
    """A key of the short file: `usual` is the range that most lines have, in the key's own unit;
    `words` stand in for the spec's description where that is too long for a line."""

    section: str
    key: str
    usual: tuple[float, float] | None = None
    words: str = ""

    @property
    def path(self) -> str:
        """Such as `track.gauge_mm`."""
        return f"{self.section}.{self.key}"

    @property
    def field(self) -> FieldInfo:
        """The key in its spec, with its type and range."""
        return (SINGLE | REPEATED)[self.section].model_fields[self.key]


FIRST_KEYS = (
    FirstKey("job", "name"),
    FirstKey("job", "wheels", (4, 100)),
    FirstKey("track", "gauge_mm", (184, 762)),
    FirstKey("track", "min_curve_radius_m", (2, 50)),
    FirstKey("track", "rail_head_width_mm", (8, 50)),
    FirstKey("track", "steepest_gradient_percent", (0, 4), "steepest slope, rise in 100"),
    FirstKey("wagon", "tare_kg", (15, 1000)),
    FirstKey("wagon", "payload_kg", (50, 2000)),
    FirstKey("wagon", "axles", (2, 4)),
    FirstKey("wagon", "wheelbase_mm", (200, 1200)),
    FirstKey("wagon", "max_speed_km_h", (4, 15)),
    FirstKey("use", "km_per_year", (50, 2000), "each wagon, km in a year"),
    FirstKey(
        "use", "consequence", None,
        "of a broken wheel; high where people ride, on slopes, at speed",
    ),
    FirstKey("shop", "roll_most_thickness_mm", (3, 12)),
    FirstKey("shop", "roll_diameter_mm", (40, 150)),
    FirstKey("cutting", "process"),
    FirstKey("finish", "coating"),
    FirstKey("stock", "thickness_mm", (3, 12)),
    FirstKey("stock", "width_mm", (1000, 1500)),
    FirstKey("stock", "length_mm", (2000, 3000)),
    FirstKey("wheel", "hub_bore_mm", (15, 60)),
    FirstKey("wheel", "tread_diameter_mm", (100, 450)),
    FirstKey("wheel", "tread_width_mm", (30, 100)),
    FirstKey("wheel", "tread_thickness_mm", (5, 12)),
    FirstKey("wheel", "flange_depth_mm", (6, 25)),
    FirstKey("wheel", "flange_angle_deg", (60, 80), "flange face to axle; 90 is a flat washer"),
    FirstKey("wheel", "flange_thickness_mm", (5, 12)),
    FirstKey("wheel", "disc_thickness_mm", (4, 10)),
    FirstKey("wheel", "hub_tube_outside_mm", (26, 90)),
    FirstKey("wheel", "hub_tube_length_mm", (40, 110), "centred, through both discs"),
    FirstKey("wheel", "vent_circle_mm", (60, 420), "through the vent centres, near the ring"),
    FirstKey("wheel", "vent_count", (2, 6)),
    FirstKey("wheel", "fit_clearance_mm", (0.3, 1)),
    FirstKey("wheel", "weld_throat_mm", (3, 6)),
    FirstKey("wheel", "root_weld_mm", (4, 10), "leg of the bead between ring and flange"),
    FirstKey("wheel", "seam", None, "of ring and flange; dressed is ground flush: stronger"),
)  # fmt: skip


def note(key: str, field: FieldInfo, first: FirstKey | None = None) -> str:
    """One line on a key: what it is, its unit, what is usual or else what is allowed."""
    said = first.words if first and first.words else short(field)
    said = said if first else said.split(";")[0]
    if get_origin(field.annotation) is Literal:
        return f"{said}: {' | '.join(map(str, get_args(field.annotation)))}"
    if first is None:
        return f"{said}; {allowed(key, field)}"
    if first.usual is None:
        return said
    unit = unit_of(key)
    low, high = first.usual
    return f"{said}; {unit + ', ' if unit else ''}usually {low:g} to {high:g}"


def short(field: FieldInfo) -> str:
    """A key's description without the reason for its default."""
    return _REASON.sub("", str(field.description))
