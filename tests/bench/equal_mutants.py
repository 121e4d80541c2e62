"""Mutants that live and are no fault: why each is the same in meaning as the line it changes.

Installed module -> changed line as the mutant has it -> the reason. Read by tests.bench.mutants.
"""

from __future__ import annotations

ONE = "the sign is 1 or -1: to divide by it is to multiply by it"
SIGN_ALONE = "only the sign is used, and the size is above 0"
SQUARE = "inwards is square to pull, so both terms have one sign whatever their sizes"

EQUAL: dict[str, dict[str, str]] = {
    "platewheel.parts.rating.throat": {
        "root = normal + 6 / self.turn_sign * about / self.size_mm**2": ONE,
        "root = normal + 6 // self.turn_sign * about / self.size_mm**2": ONE,
        "inwards = (notch - face) * size": SIGN_ALONE,
        "float(np.sign(inwards[0] / pull[1] - inwards[1] * pull[0])),": SQUARE,
        "float(np.sign(inwards[0] * pull[1] - inwards[1] / pull[0])),": SQUARE,
        "float(np.sign(inwards[0] // pull[1] - inwards[1] * pull[0])),": SQUARE,
        "float(np.sign(inwards[0] * pull[1] - inwards[1] // pull[0])),": SQUARE,
    },
}
