"""Wheels of several diameters: mass, cost and load rating, printed and drawn as sweep.svg.

Each is a job of its own by all rules, so a diameter that cannot be made is told and left out.
"""

from pathlib import Path

from platewheel import SpecError, demo, wheel_mass_kg

rows = []
for diameter in (60.0, 280.0, 320.0):
    try:
        job = demo().changed(tread_diameter_mm=diameter, vent_circle_mm=diameter - 48, wheels=12)
    except SpecError as error:
        print(f"{diameter:g} mm: {error.faults[0]}")
        continue
    rated = job.rate()
    load = rated.load_n if rated else 0.0  # 0: the analysis does not know this wheel
    rows.append((diameter, wheel_mass_kg(job.job.wheel), job.cost().per_wheel, load))

print(f"{'mm':>6}{'kg':>8}{'cost':>8}{'N':>8}")
for diameter, mass, cost, load in rows:
    print(f"{diameter:6.0f}{mass:8.2f}{cost:8.2f}{load:8.0f}")

most = max(load for *_, load in rows)
bars = [
    f'<rect x="{20 + 60 * k}" y="{110 - 90 * load / most:.1f}" width="40" '
    f'height="{90 * load / most:.1f}" fill="#667788"/>'
    f'<text x="{40 + 60 * k}" y="124" font-size="9" text-anchor="middle">{diameter:g} mm</text>'
    f'<text x="{40 + 60 * k}" y="{106 - 90 * load / most:.1f}" font-size="9" '
    f'text-anchor="middle">{load:.0f} N</text>'
    for k, (diameter, *_, load) in enumerate(rows)
]
size = f'viewBox="0 0 {20 + 60 * len(rows)} 130" width="{3 * (20 + 60 * len(rows))}"'
drawing = f'<svg xmlns="http://www.w3.org/2000/svg" {size} font-family="sans-serif">'
Path("sweep.svg").write_text("\n".join([drawing, *bars, "</svg>"]), encoding="utf-8")
