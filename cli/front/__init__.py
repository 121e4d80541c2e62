"""Fabricated wagon wheels for light field railways, as a library and as the command `platewheel`.

What a script may use stands here by name. The folders `parts`, `nesting` and `cli` are installed
below this one; this file only hands on names, each loaded when it is first asked for.

Threads: one call at a time in a process. A function, or a question to a job, that another thread
asks meanwhile waits for its turn; for work side by side take processes.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

from platewheel.parts.base.library_settings import leave_settings_alone

if TYPE_CHECKING:
    __version__: str
    from platewheel.cli.schema.report import Report
    from platewheel.cli.script.job_file import JobFile, demo, load
    from platewheel.cli.script.proposing import propose
    from platewheel.cli.script.results import Built, Checks, Laid, Priced, Proposed, Rated
    from platewheel.cli.work.not_finished import NotFinished
    from platewheel.parts.base.faults import Fault, GeometryError, SpecError
    from platewheel.parts.geometry.blank import Blank
    from platewheel.parts.geometry.outline import Arc, Circle, Line, polygon
    from platewheel.parts.wheel.assembly import wheel, wheel_mass_kg, wheel_parts, wheel_solids
    from platewheel.parts.wheel.flange import flange_blank, flange_cone
    from platewheel.parts.wheel.hub_disc import disc_blank, hub_disc
    from platewheel.parts.wheel.hub_tube import hub_tube
    from platewheel.parts.wheel.spec import WheelSpec
    from platewheel.parts.wheel.tread_ring import tread_blank, tread_ring
    from platewheel.parts.wheel.welds import weld_beads

leave_settings_alone()  # before any room loads a library

_HOMES = {
    "Arc": "parts.geometry.outline",
    "Blank": "parts.geometry.blank",
    "Built": "cli.script.results",
    "Checks": "cli.script.results",
    "Circle": "parts.geometry.outline",
    "Fault": "parts.base.faults",
    "GeometryError": "parts.base.faults",
    "JobFile": "cli.script.job_file",
    "Laid": "cli.script.results",
    "Line": "parts.geometry.outline",
    "NotFinished": "cli.work.not_finished",
    "Priced": "cli.script.results",
    "Proposed": "cli.script.results",
    "Rated": "cli.script.results",
    "Report": "cli.schema.report",
    "SpecError": "parts.base.faults",
    "WheelSpec": "parts.wheel.spec",
    "demo": "cli.script.job_file",
    "disc_blank": "parts.wheel.hub_disc",
    "flange_blank": "parts.wheel.flange",
    "flange_cone": "parts.wheel.flange",
    "hub_disc": "parts.wheel.hub_disc",
    "hub_tube": "parts.wheel.hub_tube",
    "load": "cli.script.job_file",
    "polygon": "parts.geometry.outline",
    "propose": "cli.script.proposing",
    "tread_blank": "parts.wheel.tread_ring",
    "tread_ring": "parts.wheel.tread_ring",
    "weld_beads": "parts.wheel.welds",
    "wheel": "parts.wheel.assembly",
    "wheel_mass_kg": "parts.wheel.assembly",
    "wheel_parts": "parts.wheel.assembly",
    "wheel_solids": "parts.wheel.assembly",
}

__all__ = [
    "Arc",
    "Blank",
    "Built",
    "Checks",
    "Circle",
    "Fault",
    "GeometryError",
    "JobFile",
    "Laid",
    "Line",
    "NotFinished",
    "Priced",
    "Proposed",
    "Rated",
    "Report",
    "SpecError",
    "WheelSpec",
    "__version__",
    "demo",
    "disc_blank",
    "flange_blank",
    "flange_cone",
    "hub_disc",
    "hub_tube",
    "load",
    "polygon",
    "propose",
    "tread_blank",
    "tread_ring",
    "weld_beads",
    "wheel",
    "wheel_mass_kg",
    "wheel_parts",
    "wheel_solids",
]


def __getattr__(name: str) -> Any:
    if name == "__version__":  # takes a tenth of a second
        from importlib.metadata import version

        return version("platewheel")
    if name not in _HOMES:
        raise AttributeError(f"module 'platewheel' has no attribute {name!r}")
    found = getattr(import_module(f"platewheel.{_HOMES[name]}"), name)
    if not _HOMES[name].startswith("parts.wheel") or isinstance(found, type):
        return found
    from platewheel.cli.script.of_wheel import of_wheel

    return of_wheel(found)


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
