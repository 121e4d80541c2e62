"""How a quantity of the code is called on paper: the one table of short symbols, and its own words
for all others."""

from __future__ import annotations

import re
from typing import Final

SYMBOLS: Final = {
    "E_N_MM2": "E",
    "GAMMA_M1": "γ_M1",
    "GAMMA_M2": "γ_M2",
    "GRAVITY": "g",
    "LOAD_FACTOR": "γ_F",
    "POISSON": "ν",
    "_mean_load_n": "P_m",
    "axle_yaw": "ψ",
    "axles": "n_a",
    "back_to_back_mm": "B",
    "bending_stress_n_mm2": "σ_b",
    "beta_w": "β_w",
    "c0_n": "C_0",
    "c_n": "C",
    "cant_mm": "e",
    "centre_of_gravity_mm": "h_g",
    "check_rail_flangeway_mm": "F_c",
    "contact_length_mm": "l_c",
    "contact_modulus_n_mm2": "E_c",
    "contact_spacing_mm": "s",
    "corner_ride_mm": "c_r",
    "critical_force_n": "F_cr",
    "curve_radius_mm": "R_mm",
    "disc_diameter_mm": "D_d",
    "disc_field_inset_mm": "i_f",
    "disc_gauge_inset_mm": "i_g",
    "disc_spacing_mm": "c_d",
    "disc_thickness_mm": "t_d",
    "empty_wheel_load_n": "Q_e",
    "equilibrium_cant_mm": "e_q",
    "equivalent_moment_n_mm": "M_v",
    "fillet_strength_n_mm2": "f_w",
    "fit_clearance_mm": "c_f",
    "flange_angle": "δ",
    "flange_angle_deg": "δ_deg",
    "flange_depth_mm": "h_f",
    "flange_push_n": "Y_f",
    "flange_reach_mm": "T",
    "flange_thickness_mm": "t_f",
    "flange_wear_mm": "w_f",
    "flangeway_mm": "F_x",
    "friction_high": "μ",
    "friction_low": "μ_low",
    "fu_n_mm2": "f_u",
    "fy_n_mm2": "f_y",
    "gap_drop_mm": "h_d",
    "gauge_mm": "G",
    "gauge_widening_mm": "w",
    "greatest_disc_share": "k_d",
    "hub_bore_mm": "d_b",
    "hub_tube_length_mm": "l_h",
    "hub_tube_outside_mm": "D_h",
    "joint_gap_mm": "g_j",
    "joint_load_n": "Q_j",
    "joint_step_mm": "h_j",
    "joint_stiffness_n_per_mm": "c_j",
    "impact_n": "P_2",
    "least_back_mm": "B_least",
    "life_turns": "L_10",
    "line_half_width_mm": "b_c",
    "line_pressure_n_mm2": "p_0",
    "max_speed_km_h": "V",
    "min_curve_radius_m": "R",
    "most_gauge_mm": "G_most",
    "nadal_limit": "YQ_Nadal",
    "expected_share": "YQ",
    "nose_mm": "n_x",
    "overturning_n_mm": "M_Y",
    "payload_kg": "m_p",
    "play_mm": "s_p",
    "push_force_n": "F_p",
    "radial_error": "α",
    "rail_corner_radius_mm": "r_c",
    "rail_head_width_mm": "b_r",
    "rest_loads_n_1": "Q_r",
    "rim_force_n_mm": "q_rim",
    "rim_spread_mm": "l_s",
    "rolling_load_n": "Q_v",
    "root_weld_mm": "z_r",
    "side_force_n": "Y",
    "slip_torque_n_mm": "T_s",
    "spread_length_mm": "l_s",
    "static_wheel_load_n": "Q_m",
    "strip_stress_n_mm2": "σ_s",
    "struck_load_n": "Q",
    "tare_kg": "m_t",
    "travel_mm": "s_t",
    "tread_diameter_mm": "D",
    "tread_radius_mm": "r",
    "tread_thickness_mm": "t_r",
    "tread_width_mm": "b",
    "tube_force_n_mm": "q_tube",
    "twist_mm_per_m": "w_t",
    "twisted_load_n": "Q_t",
    "vent_circle_mm": "D_v",
    "vent_diameter_mm": "d_v",
    "wear_allowance_mm": "w_a",
    "weld_leg_mm": "z",
    "weld_throat_mm": "a",
    "wheelbase_mm": "L",
}
# names of functions in equations, which no symbol has
FUNCTIONS: Final = frozenset(
    ("sqrt", "sin", "cos", "tan", "asin", "acos", "atan", "atan2", "hypot", "ceil", "floor")
) | {"log10", "rad", "deg", "min", "max", "abs", "round"}
_UNIT: Final = re.compile(
    r"_(n_mm2|n_per_mm|mm_per_m|mm2_per_km|n_s_per_m|per_min|km_h|m_s|n_mm|mm2|mm3|mm4|percent|deg"
    r"|rad|mm|kn|kg|km|um|m|n|s)(?=(_\d+)?$)"
)


def symbol_of(name: str) -> str:
    """Of a quantity by its name in the code."""
    if name in SYMBOLS:
        return SYMBOLS[name]
    plain = _UNIT.sub("", name.strip("_<>").lower()) or name
    return f"{plain}_of" if plain in FUNCTIONS else plain


def in_turn(symbol: str, taken: set[str]) -> str:
    """A symbol that nothing else has; it is then taken."""
    found, k = symbol, 1
    while found in taken:
        k += 1
        found = f"{symbol}_{k}"
    taken.add(found)
    return found
