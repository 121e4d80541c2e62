"""What each way to hold a wheel, and each axle, asks of the shop's tools."""

from __future__ import annotations

from collections.abc import Sequence

from platewheel.parts.setting.shop import ShopSpec
from platewheel.parts.wheelset.assembly import Wheelset

# keys of [shop]; keys, screws and collars themselves are bought
ASKED: dict[str, tuple[str, ...]] = {
    "key": ("keyway_cutter",),
    "screws": ("drill_press",),
    "press": ("lathe", "press_t", "reamer", "measures_with"),
    "weld": (),
    "collar": (),
}


def lacking(shop: ShopSpec, retention: str) -> Sequence[str]:
    """Keys of the tools that this way asks for and the shop has not."""
    return [name for name in ASKED[retention] if not _has(shop, name)]


def has_all(shop: ShopSpec) -> bool:
    """Whether no tool that any way or axle asks for is missing."""
    return shop.lathe and not any(lacking(shop, way) for way in ASKED)


def turned(made: Wheelset) -> list[str]:
    """Why the axle goes on a lathe; empty for bright bar as bought."""
    why = []
    if len(made.steps) > 1:
        sizes = " / ".join(f"{d:g}" for d in sorted({d for _, _, d in made.steps}))
        why.append(f"shoulders ({sizes} mm)")
    if made.bearing is not None and made.bearing.kind == "deep-groove":
        why.append(f"a seat for {made.bearing.name} that no bright bar has")
    return why


def _has(shop: ShopSpec, name: str) -> bool:
    value = getattr(shop, name)
    return value == "micrometer" if name == "measures_with" else bool(value)
