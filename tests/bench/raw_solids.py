"""The demo's wheelset by plain cadquery, none of our code: what the kernel alone takes.

Sizes by hand from `cli/job/demo.toml`; as many bodies of the same kinds as `solids/wheelset.step`
has, fillets and beads as triangles of their leg.
"""

from __future__ import annotations

from pathlib import Path

import cadquery as cq

Section = list[tuple[float, float]]
DISC_R, TUBE_R, BORE_R = 141.0, 28.5, 20.0


def turned(section: Section, degrees: float = 360.0, start: float = 0.0) -> cq.Solid:
    """A section of radius and height turned about Z."""
    wire = cq.Wire.makePolygon([cq.Vector(r, 0, z) for r, z in section], close=True)
    solid = cq.Solid.revolve(wire, [], degrees, cq.Vector(0, 0, 0), cq.Vector(0, 0, 1))
    return solid.rotate(cq.Vector(0, 0, 0), cq.Vector(0, 0, 1), start)


def box(r0: float, r1: float, z0: float, z1: float) -> Section:
    return [(r0, z0), (r1, z0), (r1, z1), (r0, z1)]


def bead(r: float, z: float, out: float, up: float) -> Section:
    return [(r, z), (r + out, z), (r, z + up)]


def wheel_bodies() -> dict[str, cq.Shape]:
    """Tread, two vented discs, three flange segments, keyed tube, beads."""
    made: dict[str, cq.Shape] = {"tread": turned(box(142, 150, 0, 60), 359.2, 0.4)}
    vents = [
        cq.Solid.makeCylinder(8, 6, cq.Vector(126, 0, 0)).rotate(
            cq.Vector(0, 0, 0), cq.Vector(0, 0, 1), 90 * k
        )
        for k in range(4)
    ]
    disc = turned(box(29, DISC_R, 0, 6)).cut(*vents)
    made |= {name: disc.moved(cq.Location(cq.Vector(0, 0, z))) for name, z in
             (("disc-field", 8.0), ("disc-gauge", 46.0))}  # fmt: skip
    cone = [(150.0, 52.0), (165.0, 57.5), (162.3, 65.0), (150.0, 60.5)]
    made |= {f"flange-{k + 1}": turned(cone, 119.3, 120.0 * k + 0.35) for k in range(3)}
    made["hub-tube"] = turned(box(BORE_R, TUBE_R, -5, 65)).cut(
        cq.Solid.makeBox(6.3, 12, 70, cq.Vector(17, -6, -5))
    )
    beads = {
        "disc-field": bead(DISC_R, 8, -5.7, -5.7), "disc-gauge": bead(DISC_R, 52, -5.7, 5.7),
        "tube-field": bead(TUBE_R, 8, 5.7, -5.7), "tube-gauge": bead(TUBE_R, 52, 5.7, 5.7),
        "root": bead(150, 52, 8, -8),
    }  # fmt: skip
    made |= {f"weld-{name}": turned(section) for name, section in beads.items()}
    made["weld-seam-tread"] = turned(box(142, 150, 0, 60), 0.8, -0.4)
    made |= {f"weld-seam-flange-{k}": turned(cone, 0.7, 120.0 * k - 0.35) for k in range(3)}
    return made


def beside() -> dict[str, list[tuple[cq.Shape, cq.Location]]]:
    """Axle, keys, spacers, bearings, rails, sleepers, by product and places."""

    def at(*places: tuple[float, float, float]) -> list[cq.Location]:
        return [cq.Location(cq.Vector(*place)) for place in places]

    slots = [cq.Solid.makeBox(5, 12, 60, cq.Vector(15, -6, z)) for z in (-260, 200)]
    axle = turned([(0, -360), (20, -360), (20, 360), (0, 360)]).cut(*slots)
    ball = cq.Solid.makeSphere(6.5, cq.Vector(), cq.Vector(0, 0, 1), -90, 90, 360)
    rail = cq.Solid.makeBox(800, 25, 60)
    ends = at((0, 0, -310), (0, 0, 290))
    found: dict[str, tuple[cq.Shape, list[cq.Location]]] = {
        "axle": (axle, at((0, 0, 0))),
        "key": (cq.Solid.makeBox(8, 12, 60), at((15, -6, -260), (15, -6, 200))),
        "spacer": (turned(box(20.2, 26, 0, 20)), at((0, 0, -285), (0, 0, 265))),
        "inner ring": (turned(box(20, 26, 0, 49)), ends),
        "outer ring": (turned(box(33, 40, 0, 18)), ends),
        "ball": (ball, at(*((30, 0, z) for z in (-300, 300) for _ in range(9)))),
        "housing": (cq.Solid.makeBox(180, 50, 100), ends),
        "rail": (rail, at((-400, 0, -250), (-400, 0, 225))),
        "sleeper": (cq.Solid.makeBox(100, 100, 900), at((-300, 0, 0), (200, 0, 0))),
    }
    return {name: [(shape, place) for place in places] for name, (shape, places) in found.items()}


def bodies() -> tuple[dict[str, cq.Shape], cq.Assembly, cq.Assembly]:
    """What is made as files of its own; wheel and wheelset."""
    made, others = wheel_bodies(), beside()
    wheel, wheelset = cq.Assembly(name="wheel"), cq.Assembly(name="wheelset")
    for name, shape in made.items():
        wheel.add(shape, name=name, color=cq.Color(0.6, 0.6, 0.6))
    for name, z in (("wheel-left", -228.0), ("wheel-right", 168.0)):
        wheelset.add(wheel, name=name, loc=cq.Location(cq.Vector(0, 0, z)))
    for name, placed in others.items():
        for k, (shape, place) in enumerate(placed):
            wheelset.add(shape, name=f"{name}-{k}", loc=place, color=cq.Color(0.5, 0.5, 0.5))
    alone = {name: made[name] for name in ("tread", "disc-field", "flange-1", "hub-tube")}
    alone |= {name: others[name][0][0] for name in ("axle", "key", "spacer")}
    return alone, wheel, wheelset


def write(alone: dict[str, cq.Shape], wheel: cq.Assembly, wheelset: cq.Assembly, to: Path) -> None:
    """The same nine STEP files and the glTF."""
    for name, shape in alone.items():
        shape.exportStep(str(to / f"{name}.step"))
    for assembly in (wheel, wheelset):
        assembly.export(str(to / f"{assembly.name}.step"))
    wheel.export(str(to / "wheel.glb"), tolerance=0.3, angularTolerance=0.15)
