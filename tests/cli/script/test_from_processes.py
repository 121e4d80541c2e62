"""What other processes raise comes back whole: README sends scripts to them."""

from __future__ import annotations

import copy
import pickle

import pytest

from platewheel import Fault, GeometryError, NotFinished, SpecError
from platewheel.parts.gauges.gauge import GaugeError

FAULTS = [Fault("count", 0, "1 or more", "count = 1"), Fault("name", None, "text", '"lid"')]
RAISED = [
    SpecError(FAULTS),
    GaugeError("profile", "a flange", "another wheel", [{"wheel.flange_depth_mm": 15.0}]),
    NotFinished(["no room for 2 of disc", "add a plate"]),
    GeometryError("hub-tube: this wheel has none"),
]


@pytest.mark.parametrize("raised", RAISED, ids=lambda one: type(one).__name__)
def test_what_is_raised_comes_whole_through_pickle_and_copy(raised: Exception) -> None:
    for one in (pickle.loads(pickle.dumps(raised)), copy.copy(raised)):
        assert type(one) is type(raised)
        assert str(one) == str(raised)
        assert vars(one) == vars(raised)
