"""The sections of a job file, each with the `Spec` of its keys: the one list of them."""

from __future__ import annotations

from typing import Final

from platewheel.cli.schema.job_head import JobHead
from platewheel.nesting.cutting.cut_speed import CutSpeed
from platewheel.nesting.drawings.disc import DiscDrawing
from platewheel.nesting.drawings.extra import Extra
from platewheel.nesting.drawings.layers import DrawingLayer
from platewheel.nesting.files.file_layers import FileLayer
from platewheel.nesting.stock.round_bar import Round
from platewheel.nesting.stock.stock import Bar, Cutting, Offcut, Pipe, Stock
from platewheel.nesting.templates.paper import Paper
from platewheel.parts.base.spec_model import Spec
from platewheel.parts.gauges.spec import GaugesSpec
from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.setting.costs import Costs
from platewheel.parts.setting.finish import FinishSpec
from platewheel.parts.setting.shop import ShopSpec
from platewheel.parts.setting.track import TrackSpec
from platewheel.parts.setting.use import UseSpec
from platewheel.parts.setting.wagon import WagonSpec
from platewheel.parts.setting.way import WaySpec
from platewheel.parts.wheel.spec import WheelSpec

SINGLE: Final[dict[str, type[Spec]]] = {
    "job": JobHead,
    "track": TrackSpec,
    "wagon": WagonSpec,
    "wheel": WheelSpec,
    "disc": DiscDrawing,
    "finish": FinishSpec,
    "use": UseSpec,
    "axle": AxleSpec,
    "shop": ShopSpec,
    "cutting": Cutting,
    "paper": Paper,
    "costs": Costs,
    "gauges": GaugesSpec,
}
REPEATED: Final[dict[str, type[Spec]]] = {
    "stock": Stock,
    "offcut": Offcut,
    "bar": Bar,
    "pipe": Pipe,
    "round": Round,
    "cut_speed": CutSpeed,
    "extra": Extra,
    "drawing_layer": DrawingLayer,
    "file_layer": FileLayer,
    "way": WaySpec,
}
KINDS: Final = SINGLE | REPEATED
# all keys have defaults
OPTIONAL: Final = ("finish", "use", "axle", "shop", "cutting", "paper", "costs", "gauges")
UNASKED: Final = ("disc",)  # nothing of it where it is left out
