"""Base of all specs: typed keys with ranges (pydantic), all faults of an input told at once."""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Iterator, Mapping
from typing import Any, ClassVar, Literal, Self, TypeVar, get_args, get_origin

from pydantic import BaseModel, ConfigDict, ValidationError
from pydantic.fields import FieldInfo

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.meant import meant, slips
from platewheel.parts.base.plain_number import plain_number
from platewheel.parts.base.written_number import readings

UNITS = {  # key suffix -> how the unit is said; longest suffix first
    "_minutes_per_m": "minutes per m",
    "_mm_per_min": "mm/min",
    "_kg_per_h": "kg/h",
    "_l_per_min": "l/min",
    "_minutes": "minutes",
    "_percent": "percent",
    "_mm_per_m": "mm per m",
    "_n_per_mm": "N/mm",
    "_kn_m2": "kN m2",
    "_per_km": "a km",
    "_km_h": "km/h",
    "_per_h": "a working hour",
    "_per_kg": "a kg",
    "_per_m2": "a m2",
    "_per_m3": "a m3",
    "_1_in": "(1 in this many)",
    "_deg": "degrees",
    "_mm": "mm",
    "_kg": "kg",
    "_m": "m",
    "_s": "s",
    "_t": "t",
    "_a": "A",
}
_FOREIGN_UNIT = re.compile(
    r"_(mm|cm|m|km|in|inch|inches|ft|feet|deg|rad|kg|t|lb|lbs|g|kmh|mph|km_h)$"
)


class Unknown(Exception):  # noqa: N818 - a signal inside this module, not an error
    """A rule asked for a value that is itself at fault."""


class Values:
    """The good values of an input, by key; asking for a bad one stops the rule that asked."""

    def __init__(self, values: Mapping[str, Any]) -> None:
        self._values = values

    def __getattr__(self, key: str) -> Any:
        try:
            return self._values[key]
        except KeyError:
            raise Unknown(key) from None


Rule = Callable[[Any], Iterator[Fault]]
S = TypeVar("S", bound=BaseModel)


class Spec(BaseModel):
    """Frozen record of checked values; unknown keys, NaN and infinities are refused.

    Raises: SpecError with every fault of the input.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, allow_inf_nan=False)
    rules: ClassVar[tuple[Rule, ...]] = ()  # what must hold between keys

    def __init__(self, **values: Any) -> None:
        faults = find_faults(type(self), values)
        if faults:  # maybe of a script's numbers alone
            values = {key: plain_number(value) for key, value in values.items()}
            faults = find_faults(type(self), values)
        if faults:
            raise SpecError(faults)
        super().__init__(**values)

    def model_copy(self, *, update: Mapping[str, Any] | None = None, deep: bool = False) -> Self:
        """The record with other values, judged by all rules like a new one; keys that were left
        out keep to their defaults, also where these hang on what is changed.

        Raises: SpecError with every fault.
        """
        if update is None:
            return super().model_copy(deep=deep)
        kept = {name: getattr(self, name) for name in self.model_fields_set}
        return type(self)(**kept | dict(update))

    def copy(self, **options: Any) -> Self:
        """As `model_copy`, under the name that it had once. Raises: SpecError with every fault."""
        return self.model_copy(**options)


def unchecked(record: S, values: Mapping[str, Any]) -> S:
    """A sound record with other values about which no rule is asked: a step inside a calculation
    (a plate without its tolerance, a load to be tried), never what someone builds."""
    return BaseModel.model_copy(record, update=values)


def find_faults(kind: type[Spec], table: Mapping[str, Any], rules: bool = True) -> list[Fault]:
    """Every fault of `table` as input for `kind`: key by key, then by the `rules` between keys."""
    faults: list[Fault] = []
    bad: set[str] = set()
    good: dict[str, Any] = {}
    try:
        # model_validate would run __init__; the core validator gives the bare record
        record = kind.__pydantic_validator__.validate_python(
            dict(table), self_instance=kind.__new__(kind)
        )
        good = {name: getattr(record, name) for name in kind.model_fields}
    except ValidationError as error:
        for one in error.errors(include_url=False):
            if one["type"] == "default_factory_not_called":
                continue  # a default that hangs on a key that is itself at fault
            key = str(one["loc"][0])
            if key not in bad:  # one line a key: unions would give several
                faults.append(_fault(kind, key, one, table))
            bad.add(key)
        good = {
            name: table.get(name, field.get_default(call_default_factory=True, validated_data={}))
            for name, field in kind.model_fields.items()
            if name not in bad
        }
    for rule in kind.rules if rules else ():
        try:
            faults += rule(Values(good))
        except Unknown:
            continue
    return faults


def _fault(kind: type[Spec], key: str, error: Any, table: Mapping[str, Any]) -> Fault:
    if error["type"] == "extra_forbidden":
        return unknown_key(key, table[key], list(kind.model_fields))
    field = kind.model_fields[key]
    value = table.get(key)
    return Fault(key, value, allowed(key, field), advised(key, field, value))


def advised(key: str, field: FieldInfo, value: Any) -> str:
    """What to write: what was meant, where it can be told, or else the example. `value` is what
    TOML read, or the text of a line that it could not read."""
    unit, usual = unit_of(key), example(field)
    found = meant(field, value, unit)
    advice = " or ".join(f"{key} = {toml_value(one)}" for one in found)
    if not found and isinstance(usual, int | float):
        given = [*readings(value, unit)] if isinstance(value, str) else [value]
        slipped = [(one, *slip) for one in given for slip in slips(key, field, one, unit, usual)]
        told = (f"{key} = {toml_value(n)}, if {one:g} {why}" for one, n, why in slipped)
        advice = "; ".join(told)
    advice = f"write {advice}" if advice else f"{key} = {toml_value(usual)}"
    if type(value) is str and any(type(one) in (int, float) for one in (*found, usual)):
        return f"the number alone, without quotes or unit: {advice}"
    return advice


def unknown_key(key: str, value: object, known: list[str]) -> Fault:
    """Fault for a key that does not exist, naming the nearest one or the right unit."""
    stem = _FOREIGN_UNIT.sub("", key)
    same = [name for name in known if name != key and _FOREIGN_UNIT.sub("", name) == stem]
    if same:
        unit = unit_of(same[0])
        return Fault(key, value, f"{same[0]}, in {unit}", f"{same[0]} = the value in {unit}")
    near = difflib.get_close_matches(key.lower(), known, n=1, cutoff=0.5)
    if near:
        listed = f"known keys only, as {near[0]}; `platewheel new --all` writes them"
        return Fault(key, value, listed, f"did you mean {near[0]}?")
    return Fault(key, value, "known keys only: " + ", ".join(known), "remove it")


def unit_of(key: str) -> str:
    """Unit that a key's suffix says, or an empty string."""
    return next((unit for suffix, unit in UNITS.items() if key.endswith(suffix)), "")


def allowed(key: str, field: FieldInfo) -> str:
    """What a key takes, in words, from its type and range."""
    if get_origin(field.annotation) is Literal:
        return " | ".join(f'"{choice}"' for choice in get_args(field.annotation))
    names = {float: "a number", int: "a whole number", bool: "true or false", str: "text"}
    words = [names.get(field.annotation, "")] if field.annotation in names else []
    if not words:
        words = [str((field.json_schema_extra or {}).get("takes", "a number"))]  # type: ignore[union-attr]
    signs = (("gt", "above"), ("ge", "from"), ("lt", "below"), ("le", "up to"))
    for sign, word in signs:
        for limit in field.metadata:
            if getattr(limit, sign, None) is not None:
                words.append(f"{word} {getattr(limit, sign):g}")
    for limit in field.metadata:
        if getattr(limit, "max_length", None) and field.annotation is str:
            words.append(f"of at most {limit.max_length} characters")
    if field.annotation is str and field.json_schema_extra:
        words.append(str(field.json_schema_extra.get("takes", "")))  # type: ignore[union-attr]
    return " ".join([*words, unit_of(key)]).strip()


def example(field: FieldInfo) -> Any:
    """A value to start from: the field's example, or else its default."""
    if field.examples:
        return field.examples[0]
    return field.get_default(call_default_factory=True, validated_data={})


def toml_value(value: Any) -> str:
    """A value as TOML writes it."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        import tomlkit

        return tomlkit.string(value).as_string()
    if isinstance(value, list | tuple):
        return "[" + ", ".join(toml_value(item) for item in value) + "]"
    return f"{value:.12g}"
