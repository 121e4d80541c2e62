"""A wheel, and the axle under it, that tell what a question read of them."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, ClassVar

from platewheel.parts.propose.choices import PLAY
from platewheel.parts.propose.play import back_to_back_mm
from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.spec import WheelSpec

_OWN = frozenset(WheelSpec.model_fields)


class _Watched(WheelSpec):
    """A wheel that takes a dimension over when it is first read, so that those read are known."""

    source: ClassVar[dict[str, Any]] = {}

    def __getattr__(self, name: str) -> Any:
        if name not in _OWN and name != PLAY:
            raise AttributeError(name)
        self.__dict__[name] = value = self.source[name]
        return value


class _WatchedAxle(AxleSpec):
    """The job's axle, set for the play of a watched wheel when its back-to-back is first read."""

    met: ClassVar[tuple[Setting, WheelSpec]]

    def __getattr__(self, name: str) -> Any:
        if name != "back_to_back_mm":
            raise AttributeError(name)
        setting, wheel = self.met
        value = back_to_back_mm(setting, wheel, getattr(wheel, PLAY))
        self.__dict__[name] = value
        return value


def met_by(setting: Setting, wheel: WheelSpec) -> Setting:
    """The setting with this wheel, its axle set for the play that goes with a watched one."""
    if not isinstance(wheel, _Watched):
        return replace(setting, wheel=wheel)
    axle = _WatchedAxle.__new__(_WatchedAxle)
    axle.__dict__.update(setting.axle.__dict__)
    del axle.__dict__["back_to_back_mm"]
    _WatchedAxle.met = setting, wheel
    return replace(setting, wheel=wheel, axle=axle)


def watched_wheel(source: dict[str, Any]) -> WheelSpec:
    """A wheel of these keys and this play; the keys read are in its `__dict__`. One at a time."""
    _Watched.source = source
    return _Watched.__new__(_Watched)  # unchecked, and a tenth of the time of model_construct
