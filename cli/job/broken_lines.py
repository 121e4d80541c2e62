"""A job file that is no TOML, read line by line: what each broken line should be, and the rest.

A line is read as TOML by itself; where that fails, as what a person may have meant by it. Nothing
is taken in silence: each such line is a fault, and its reading serves to find the others.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from pydantic.fields import FieldInfo

from platewheel.cli.job.stray_keys import stray_key, stray_section
from platewheel.cli.job.toml_lines import HEAD, Statement, parsed, statements
from platewheel.parts.base.faults import Fault
from platewheel.parts.base.meant import meant
from platewheel.parts.base.plain_values import HIDES, hidden_mark
from platewheel.parts.base.spec_model import (
    Spec,
    advised,
    allowed,
    toml_value,
    unit_of,
)
from platewheel.parts.base.written_number import normal, unquoted

MOST_TOLD = 60  # broken lines; a file with more is no job file
MOST_LONG = 4000  # letters of a line that is tried as what it may mean
TAB = "\t"
CONTROLS = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")  # that TOML has in no line
GAP = re.compile(r"\s{30}")
TOML = "key = value, [section] or # note"
NOTE = re.compile(r"^\s*(//|;|--|/\*|\*|%|<!--|rem\b)", re.IGNORECASE)
BEHIND = re.compile(r"\s+(//|;|--|/\*).*$")
HEADLIKE = re.compile(r"^\s*[\[({<]*\s*([A-Za-z][\w -]*?)\s*[\])}>]*\s*:?\s*(#.*)?$")
PAIR = re.compile(r"^\s*([^\W\d][\w .\"'-]*?)\s*(:=|==|=|:|->|→)\s*(.*)$")
APART = re.compile(r"^\s*([^\W\d][\w-]*)(\s+)(\S.*)$")
NEXT = re.compile(r"\s*[,;|]?\s+(?=[A-Za-z]\w*\s*=[^=])|[,;]\s*(?=[A-Za-z]\w*\s*=[^=])")


@dataclass
class Recovered:
    """The table that the lines come to, what is wrong with them, and whether all was understood."""

    table: dict[str, Any] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    vague: bool = False
    told: set[str] = field(default_factory=set)  # paths of keys that a fault names


@dataclass
class _Reader:
    file: str
    kinds: Mapping[str, type[Spec]]  # of sections
    repeated: Collection[str]
    out: Recovered
    path: str = ""
    rows: dict[str, Any] | None = None
    lines: dict[str, int] = field(default_factory=dict)

    def read(self, one: Statement) -> None:
        bare = CONTROLS.sub("", one.text)
        if bare != one.text:
            allowed = f"{HIDES}; {hidden_mark(one.text.replace(TAB, ' '))}"
            self.fault(one, one.text.strip(), allowed, "write the line anew by hand")
            self.read(Statement(one.number, bare))
            return
        if NOTE.match(one.text) and parsed(one.text) is None:
            self.fault(one, one.text.strip(), "notes after #", f"write # {_after_mark(one.text)}")
            return
        head = HEAD.match(one.text)
        if head and len(head[1]) == len(head[3]):
            self.head(one, head[2].strip().strip("\"'"), len(head[1]) == 2)
            return
        table = parsed(one.text)
        if table is not None:
            for key, value in table.items():
                self.put(one, key, value)
            return
        self.broken(one)

    def broken(self, one: Statement) -> None:
        if len(one.text) > MOST_LONG or GAP.search(one.text):  # nobody wrote that by hand
            self.out.vague = True
            self.fault(one, one.text.strip(), TOML, "take this line out")
            return
        parts = [part for part in NEXT.split(one.text) if part.strip()]
        if len(parts) > 1 and all("=" in part for part in parts) and '"' not in one.text:
            each = "; ".join(part.strip() for part in parts)
            self.fault(one, one.text.strip(), "one key = value a line", f"a line each: {each}")
            for part in parts:
                self.read(Statement(one.number, part.strip()))
            return
        like = HEADLIKE.match(one.text)
        name = like[1].lower().replace(" ", "_").replace("-", "_") if like else ""
        if like and (name in self.kinds or one.text.lstrip()[:1] in "[({<"):
            near = difflib.get_close_matches(name, self.kinds, n=1, cutoff=0.5)
            name = near[0] if near else name
            twice = name in self.repeated
            written = f"[[{name}]]" if twice else f"[{name}]"
            self.fault(one, one.text.strip(), "a section in brackets", f"write {written}")
            self.head(one, name, twice)
            return
        first = one.text.split("\n")[0]
        pair = PAIR.match(first) or APART.match(first)
        if pair:
            self.pair(one, _key(pair[1]), pair[3], pair[2] == "=")
        else:
            self.out.vague = True
            advice = "write # before a note, = between a key and its value"
            self.fault(one, one.text.strip(), TOML, advice)

    def pair(self, one: Statement, key: str, raw: str, equals: bool) -> None:
        """A key whose value, or what stands between, TOML does not read."""
        kind = self.kinds.get(self.path.split("[")[0])
        info = kind.model_fields.get(key) if kind else None
        path = f"{self.path}.{key}" if self.path else key
        self.out.told.add(path)
        value = BEHIND.sub("", _without_note(raw)).strip().rstrip(",;").strip()
        if kind and not info:
            self.out.vague = True
            name = self.path.split("[")[0]
            stray = stray_key(key, Written(value or "nothing"), name, self.kinds, self.repeated)
            self.out.faults.append(replace(stray, key=path, line=one.number))
            return
        if not kind and any(key in one.model_fields for one in self.kinds.values()):
            stray = stray_section(key, Written(value or "nothing"), self.kinds, self.repeated)
            self.out.faults.append(replace(stray, line=one.number))
            self.out.vague = True
            return
        takes = TOML if info is None else allowed(key, info)
        readings = _readings(key, info, value)
        if readings:
            advice = " or ".join(f"{key} = {toml_value(reading)}" for reading in readings)
            self.put(one, key, readings[0], quiet=True)
            found = Written(value if equals else one.text.strip())
            advice = f"write {advice}"
        elif info is None:
            self.out.vague = True
            found, advice = Written(one.text.strip()), "text in quotes, numbers without"
            path = path if self.path else self.file
        else:
            self.out.vague = True
            found = Written(value or "nothing")
            advice = advised(key, info, found)
            advice += "" if value else ", or # in front of the line"
        self.out.faults.append(Fault(path, found, takes, advice, one.number))

    def head(self, one: Statement, name: str, twice: bool) -> None:
        table = self.out.table
        repeated = twice or name in self.repeated
        self.lines.setdefault(name, one.number)
        if twice:
            rows = table.setdefault(name, [])
            if isinstance(rows, list):
                self.path = f"{name}[{len(rows)}]"
                rows.append({})
                self.rows = rows[-1]
                return
        elif name not in table and not repeated:
            self.path, self.rows = name, table.setdefault(name, {})
            return
        if repeated and not twice:
            self.fault(one, f"[{name}]", f"[[{name}]], once for each", f"write [[{name}]]")
            self.head(one, name, True) if isinstance(table.get(name, []), list) else None
            return
        first = self.lines[name]
        self.fault(one, f"[{name}] again", f"[{name}] once", f"put these keys below line {first}")
        self.path = name
        self.rows = table[name] if isinstance(table[name], dict) else {}

    def put(self, one: Statement, key: str, value: Any, quiet: bool = False) -> None:
        """A key's value into its section."""
        home = self.out.table if self.rows is None else self.rows
        path = f"{self.path}.{key}" if self.path else key
        if key in home and not quiet and not isinstance(value, dict):
            first = self.lines.get(path, one.number)
            advice = f"take out this line or line {first}"
            self.out.faults.append(Fault(path, value, "each key once", advice, one.number))
            return
        self.lines.setdefault(path, one.number)
        home.setdefault(key, value)

    def fault(self, one: Statement, found: str, takes: str, advice: str) -> None:
        self.out.faults.append(Fault(self.file, Written(found), takes, advice, one.number))


class Written(str):
    """Text as it stands in a file, told without quotes of ours."""

    def __repr__(self) -> str:
        return str(self)


def recovered(
    text: str, file: str, kinds: Mapping[str, type[Spec]], repeated: Collection[str]
) -> Recovered:
    """What the lines of a file's text come to, and every fault of them; sections are of `kinds`,
    some `repeated` in double brackets."""
    out = Recovered()
    reader = _Reader(file, kinds, repeated, out)
    for one in statements(text):
        reader.read(one)
        if len(out.faults) > MOST_TOLD:
            out.vague = True
            more = "the lines below were not read"
            out.faults.append(Fault(file, Written(more), TOML, "mend these", one.number))
            break
    return out


def _readings(key: str, info: FieldInfo | None, value: str) -> tuple[Any, ...]:
    """What the text behind a key may mean: TOML where it is, else as a person writes."""
    if not value:
        return ()
    again = parsed(f"{key} = {value}")
    if again is not None:
        plain = again[key]
        return (info is not None and meant(info, plain, unit_of(key))) or (plain,)
    if info is not None and (found := meant(info, value, unit_of(key))):
        return found
    quoted = _requoted(value)
    if not quoted and info is not None and info.annotation in (str, str | None):
        quoted = toml_value(unquoted(normal(value)))
    again = parsed(f"{key} = {quoted}") if quoted else None
    return () if again is None else (again[key],)


def _key(written: str) -> str:
    """`Gauge mm` as `gauge_mm`."""
    return re.sub(r"[ .-]+", "_", normal(written).strip("\"' ")).lower()


def _after_mark(text: str) -> str:
    return NOTE.sub("", text).strip(" */->")


def _without_note(raw: str) -> str:
    """A value without the note behind it; # within quotes stays."""
    quote = ""
    for at, mark in enumerate(raw):
        if quote:
            quote = "" if mark == quote else quote
        elif mark in "\"'":
            quote = mark
        elif mark == "#":
            return raw[:at]
    return raw


def _requoted(value: str) -> str:
    """Text in curly quotes, in one quote only, or with backslashes, as TOML wants it."""
    plain = normal(value)
    curly = value[:1] in "“”„‘’«»`" or plain != value
    if curly and re.fullmatch(r"[\"'`«].*[\"'`»]", plain):
        return toml_value(plain[1:-1])
    if re.fullmatch(r"\"[^\"]*\\[^\"]*\"", value) and "'" not in value:
        return f"'{value[1:-1]}'"
    if re.fullmatch(r"[\"'][^\"']+", value) or re.fullmatch(r"[^\"'\d][^\"']*[\"']", value):
        return toml_value(value.strip("\"'"))
    return ""
