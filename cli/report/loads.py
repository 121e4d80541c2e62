"""What the verdict rests on: each load of a wheel, how it was worked out, and its source."""

from __future__ import annotations

from platewheel.cli.schema.rating import BlockRow, LoadRow
from platewheel.parts.base.so_many import so_many
from platewheel.parts.loads.joint import joint_load_n, unsprung_kg
from platewheel.parts.loads.twist import placing, twisted_load_n
from platewheel.parts.loads.wheel_load import (
    flange_push_n,
    frame_in_curve,
    heavy_load_n,
    lean_share,
    rolling_load_n,
    side_force_n,
    sliding_friction,
    tightest,
    wheel_load_n,
)
from platewheel.parts.rating.assess import Assessment
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.way import ASSUMED

OWN = "the job's own figure"
STATICS = "plain statics"


def load_rows(setting: Setting) -> list[LoadRow]:
    """Vertical loads first, then sideways ones, then how often; one loaded wheel."""
    return [*_vertical(setting), *_sideways(setting), *_often(setting)]


def _vertical(setting: Setting) -> list[LoadRow]:
    wagon, track, mean = setting.wagon, setting.track, setting.static_wheel_load_n
    rows = [LoadRow(name="mean wheel load", value=mean, unit="N", how="loaded", source=STATICS)]
    if wagon.load_unevenness is not None:
        how, source = f"mean x load_unevenness {wagon.load_unevenness:g}", OWN
    else:
        uneven = placing(setting) + lean_share(setting, tightest(setting))
        how = (
            f"mean x {uneven:.2f} (how the load lies, speed, cant and slope) + "
            f"{twisted_load_n(setting, mean):.0f} N (twist {track.twist_mm_per_m:g} mm/m "
            f"and a joint's step, {wagon.suspension}, frame {wagon.frame_torsion_kn_m2:g} kN m2)"
        )
        source = "plain statics of a frame on four springs, as ORE B 55 (from memory)"
    rows.append(
        LoadRow(
            name="heaviest wheel", value=heavy_load_n(setting), unit="N", how=how, source=source
        )
    )
    heavy, joint = heavy_load_n(setting), joint_load_n(setting, mean)
    rolling = rolling_load_n(setting, heavy)
    between = LoadRow(
        name="between joints",
        value=rolling,
        unit="N",
        how=f"heaviest x {rolling / heavy:.2f} at {wagon.max_speed_km_h:g} km/h on this wheel",
        source="Talbot's speed factor, AREMA manual (from memory)",
    )
    rows.append(between)
    if wagon.shock_factor is not None:
        how, source = f"heaviest x shock_factor {wagon.shock_factor:g}", OWN
    elif heavy + joint < rolling:
        how, source = "no more than between joints", between.source
    else:
        how = (
            f"heaviest + {joint:.0f} N (step {track.joint_step_mm:g} mm, gap "
            f"{track.joint_gap_mm:g} mm, {wagon.max_speed_km_h:g} km/h, "
            f"{unsprung_kg(setting, mean):.0f} kg unsprung, rail {track.stiffness_n_per_mm:g} N/mm)"
        )
        source = (
            "P2 of Jenkins et al., 1974 (from memory), no more than stiffness x (step + drop in "
            "the gap)"
        )
    rows.append(
        LoadRow(
            name="at a rail joint: design load",
            value=wheel_load_n(setting),
            unit="N",
            how=how,
            source=source,
        )
    )
    return rows


def _sideways(setting: Setting) -> list[LoadRow]:
    use, track = setting.use, setting.track
    if use.lateral_share is not None:
        how, source = f"mean x lateral_share {use.lateral_share:g}, and speed's part", OWN
    else:
        found = frame_in_curve(setting, track.min_curve_radius_m)
        how = (
            f"radius {track.min_curve_radius_m:g} m, wheelbase {setting.wagon.wheelbase_mm:g} mm, "
            f"{setting.axle.wheels_on_axle} wheels: mean x {found.push:.2f} x friction "
            f"{sliding_friction(setting, track.min_curve_radius_m):.3g}, and speed's part"
        )
        if setting.wagon.axles > 1:
            how += f"; yaw {1000 * found.attack:.0f} mrad"
        if setting.wagon.axles > 2:
            how += "; axles in between have no side play (upper bound)"
        source = "steady curving with full sliding: Porter 1935, Heumann 1954 (from memory)"
    push = LoadRow(
        name="push on the leading outer flange",
        value=flange_push_n(setting),
        unit="N",
        how=how,
        source=source,
    )
    side = LoadRow(
        name="of it to the axle",
        value=side_force_n(setting),
        unit="N",
        how="less the friction of its tread, which acts the other way",
        source=source,
    )
    return [push, side]


def _often(setting: Setting) -> list[LoadRow]:
    way = ASSUMED if not setting.way else f"{so_many(len(setting.way), 'piece')} as [[way]] says"
    share = 100 * setting.use.loaded_share
    return [
        LoadRow(
            name="turns in its life",
            value=setting.turns_in_life,
            unit="",
            how=f"{setting.use.km_per_year:g} km a year, {so_many(setting.use.years, 'year')}; "
            f"{way}; {share:g} % of it loaded",
            source="Palmgren and Miner, EN 1993-1-9:2005, annex A (from memory)",
        ),
        LoadRow(
            name="joints a km",
            value=setting.track.joints_per_km,
            unit="",
            how="each strikes a wheel once, anywhere on its round; a piece of [[way]] may differ",
            source="plain counting",
        ),
    ]


def block_rows(found: Assessment) -> list[BlockRow]:
    """What each kind of turn does to the place that cracks first."""
    return [
        BlockRow.of(one, state="loaded" if one.state == "loaded" else "empty")
        for one in found.by_block
    ]
