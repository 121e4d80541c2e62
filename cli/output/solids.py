"""The solids of a job: STEP files, the wheel for a viewer, and models to print."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from importlib.metadata import version
from pathlib import Path
from typing import Literal

from platewheel.cli.job.job import Job
from platewheel.cli.job.wheelset import job_wheelset
from platewheel.cli.schema.solids import SolidRow
from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.geometry.product import Body, Group, Placed, bodies_in
from platewheel.parts.geometry.step_file import Header
from platewheel.parts.wheel.kinds import colour_of, kinds_of
from platewheel.parts.wheel.part import Part
from platewheel.parts.wheelset.bodies.bearing import REFERENCE

PrintFormat = Literal["stl", "3mf"]
WHEEL_GLB = "wheel.glb"
BUSH = "bush"  # of no steel: its maker tells its mass
VIEWED_FINE = 0.002  # chord error of the viewer's triangles, over the flange tip's radius


def step_header(job: Job) -> Header:
    """What the head of a STEP file says of this job."""
    made_by = f"platewheel {version('platewheel')}"
    return Header(job=job.head.name, author=job.head.author or "", made_by=made_by)


def write_solids(
    job: Job, parts: Sequence[Part], folder: Path, prints: Mapping[PrintFormat, float] | None = None
) -> list[SolidRow]:
    """One STEP for each part (as it is welded in), the wheel (hub keyed and drilled, where it has
    an axle; the same as glTF), each part of the axle, and the wheelset. Of each also a model to
    print in the formats of `prints`, that many times smaller. Returns what
    is in the files, row by row.

    Raises: GeometryError naming the part that the modeller cannot build.
    """
    from platewheel.parts.geometry.glb_file import write_glb
    from platewheel.parts.geometry.step_file import write_step
    from platewheel.parts.wheelset.solid import (
        axle_parts,
        on_track,
        wheel_group,
        wheelset_group,
    )

    home = folder / "solids"
    home.mkdir()
    header = step_header(job)
    rows = []
    for part in parts:
        body = Body(part.name, part.solid(), colour_of(part.name))
        write_step(body, part.name, home / f"{part.name}.step", header)
        rows.append(_row(part.name, part.volume_mm3, part.count_per_wheel, "a wheel"))
    made = job_wheelset(job).wheelset
    wheel = wheel_group(job.setting, made)
    write_step(wheel, "wheel", home / "wheel.step", header)
    volume = sum(shape.Volume() for _, _, shape in bodies_in(wheel))
    rows.append(_row("wheel", volume))
    own: dict[str, Body] = {}
    if made is not None:
        beside = axle_parts(job.setting, made)
        own = {name: body for one in beside for name, body in _bodies(one)}
        for name, body in own.items():
            write_step(body, name, home / f"{name}.step", header)
        whole = wheelset_group(job.setting, wheel, beside)
        write_step(whole, "wheelset", home / "wheelset.step", header)
        rows += _axle_rows(volume, beside, own, whole)
    standing = Group("wheel", (Placed("wheel", wheel, on_track()),))
    fine = VIEWED_FINE * job.wheel.over_flange_diameter_mm / 2
    write_glb(standing, "wheel", home / WHEEL_GLB, fine)
    rows.append(_row("wheel", volume, file=WHEEL_GLB))
    if prints:
        rows += _prints(job, wheel, own, home, prints)
    return rows


def _row(
    name: str,
    volume_mm3: float | None,
    count: int = 1,
    within: str = "",
    *,
    file: str = "",
    steel: bool = True,
) -> SolidRow:
    """What is made has a volume, and a mass where it is of steel."""
    known = steel and volume_mm3 is not None
    return SolidRow(
        name=name,
        count=count,
        within=within,
        volume_mm3=volume_mm3,
        mass_kg=volume_mm3 * DENSITY_KG_MM3 if known and volume_mm3 is not None else None,
        reference=volume_mm3 is None,
        file=f"solids/{file or f'{name}.step'}",
    )


def _axle_rows(
    wheel_mm3: float, beside: Sequence[Placed], own: Mapping[str, Body], whole: Group
) -> Iterator[SolidRow]:
    """The axle's parts, the wheelset, and what stands in it for reference."""
    counts = Counter(one.product.name for one in beside)
    volumes = {name: body.shape.Volume() for name, body in own.items()}
    for name, volume in volumes.items():
        yield _row(name, volume, counts[name], "an axle", steel=name != BUSH)
    all_mm3 = 2 * wheel_mm3 + sum(volumes[name] * count for name, count in counts.items())
    yield _row("wheelset", all_mm3, steel=BUSH not in volumes)
    seen = Counter(one.product.name for one in whole.members if one.name.endswith(f"({REFERENCE})"))
    for name, count in seen.items():
        yield _row(name.removesuffix(f" ({REFERENCE})"), None, count, file="wheelset.step")


def _bodies(one: Placed) -> list[tuple[str, Body]]:
    return [(body.name, body) for _, body, _ in bodies_in(one.product)]


def _prints(
    job: Job,
    wheel: Group,
    own: dict[str, Body],
    home: Path,
    prints: Mapping[PrintFormat, float],
) -> Iterator[SolidRow]:
    """The whole wheel, each kind of its parts (seams closed, so that a ring is a ring) and each
    part of the axle, one closed body a file."""
    from platewheel.parts.geometry.stl_file import fused, write_stl
    from platewheel.parts.geometry.threemf_file import write_3mf

    solids = {name: shape.Solids()[0] for name, _, shape in bodies_in(wheel)}
    groups = {"wheel": list(solids.values())}
    for kind in kinds_of(job.wheel):
        names = [name for name in solids if name.startswith(kind.name)]
        seams = [name for name in solids if name.startswith(f"weld-seam-{kind.name}")]
        if kind.fitted > 1:  # discs, alike or nearly: each by itself
            groups |= {name: [solids[name]] for name in names}
        else:
            groups[kind.name] = [solids[name] for name in (*names, *seams)]
    groups |= {name: body.shape.Solids() for name, body in own.items()}
    made_by = step_header(job).made_by
    bodies = {name: fused(found, name) for name, found in groups.items()}
    for form, scale in prints.items():
        for name, whole in bodies.items():
            path = home / f"{name}.{form}"
            if form == "3mf":
                write_3mf(whole, name, path, scale, made_by)
            else:
                write_stl(whole, name, path, scale)
            told = f"{name}, model 1:{scale:g}"
            yield _row(told, whole.Volume() / scale**3, file=path.name, steel=False)
