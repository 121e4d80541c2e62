"""Numbers as people write them: `0,8`, `1 1/2 in`, `50 cm`, `1:20`, `5 %`; what they come to."""

from __future__ import annotations

import math
import re
import unicodedata

# unit as written -> what it measures, how many of its base
_LENGTHS = {"mm": 1, "millimetre": 1, "cm": 10, "dm": 100, "m": 1000, "metre": 1000, "km": 1e6}
_LENGTHS |= {"in": 25.4, "inch": 25.4, '"': 25.4, "''": 25.4, "ft": 304.8, "foot": 304.8}
_LENGTHS |= {"feet": 304.8, "'": 304.8, "yd": 914.4, "yard": 914.4, "um": 0.001, "meter": 1000}
# exactly, by the international yard and pound agreement of 1959
_MASSES = {"kg": 1, "kilo": 1, "g": 0.001, "t": 1000, "tonne": 1000, "ton": 1000}
_MASSES |= {"lb": 0.45359237, "pound": 0.45359237, "cwt": 50.80234544}
# kgf by the standard acceleration of 9.80665 m/s2 (ISO 80000-4)
_FORCES = {"n": 1, "kn": 1000, "dan": 10, "kgf": 9.80665, "kp": 9.80665, "lbf": 4.4482216152605}
_SPEEDS = {"km/h": 1, "kmh": 1, "kph": 1, "km per h": 1, "mph": 1.609344, "m/s": 3.6}
_ANGLES = {"deg": 1, "degree": 1, "°": 1, "rad": 180 / math.pi}
_TIMES = {"s": 1, "sec": 1, "second": 1, "min": 60, "minute": 60, "h": 3600, "hour": 3600}
_FEEDS = {"mm/min": 1, "cm/min": 10, "m/min": 1000, "mm/s": 60, "in/min": 25.4, "ipm": 25.4}
_SPRINGS = {"n/mm": 1, "kn/mm": 1000, "kn/m": 1, "n/m": 0.001}
_KINDS = (_LENGTHS, _MASSES, _FORCES, _SPEEDS, _ANGLES, _TIMES, _FEEDS, _SPRINGS)
_OWN = {"mm": "mm", "m": "m", "kg": "kg", "km/h": "km/h", "degrees": "deg", "s": "s", "N": "n"}
_OWN |= {"minutes": "min", "mm/min": "mm/min", "N/mm": "n/mm"}

_DIGITS = r"(?:\d[\d .,'_]*\d|\d)"
_PLAIN = re.compile(rf"(?P<sign>[+-]?)(?P<digits>{_DIGITS}[.,]?|[.,]\d+)(?P<power>[eE][+-]?\d+)?")
_FRACTION = re.compile(r"(?P<sign>[+-]?)(?:(?P<whole>\d+)[ -]+)?(?P<over>\d+) ?/ ?(?P<under>\d+)")
_RATIO = re.compile(r"1 ?(?:in|:|/) ?(?P<of>\d.*)", re.IGNORECASE)
_FEET = re.compile(r"(?P<feet>\d+) ?(?:'|ft\.?|feet|foot) ?(?P<rest>(?!\d{3})\d.*)", re.IGNORECASE)
_BEFORE = re.compile(r"^(?:~|ca\.? |about |approx\.? |circa |[øØ⌀€$£=] ?)+", re.IGNORECASE)
_COUNTED = re.compile(
    r"pcs?|off|[€$£]|eur|usd|gbp|euros?|dollars?|-+|[€$£]? ?(?:/|a|per) ?(?:kg|h)"
)
_MARKS = str.maketrans("−–‐‘’“”„″′\u00a0\u2009\u202f", '---\'\'""""\'   ')


def normal(text: str) -> str:
    """The text with plain minus, quotes, spaces and digits; `½` as ` 1/2`."""
    parts = (f" {unicodedata.normalize('NFKC', c)}" if c in "½¼¾⅛⅜⅝⅞" else c for c in text)
    plain = unicodedata.normalize("NFKC", "".join(parts).translate(_MARKS))
    return plain.replace("\u2044", "/").strip()


def readings(text: str, unit: str = "") -> tuple[float, ...]:
    """What a number with or without its unit comes to in `unit`, as the keys name it; several
    where it can be read in two ways (`1,250`), none where it is no number or of another kind."""
    return tuple(number for number in _readings(text, unit) if math.isfinite(number))


def _readings(text: str, unit: str) -> tuple[float, ...]:
    plain = _BEFORE.sub("", unquoted(normal(text)))
    ratio = _RATIO.fullmatch(plain)
    if ratio and unit in ("(1 in this many)", "percent", "mm per m"):
        found = _numbers(ratio["of"])
        if unit == "(1 in this many)":
            return found
        return tuple((100 if unit == "percent" else 1000) / n for n in found if n)
    feet = _FEET.fullmatch(plain)
    if feet and (inches := readings(feet["rest"].rstrip("\"' ") + " in", unit)):
        size = float(feet["feet"]) * (_factor("ft", unit) or 0.0)
        return tuple(round(n + size, 6) for n in inches)
    for pattern in (_FRACTION, _PLAIN):
        start = pattern.match(plain)
        if start:
            factor = _factor(plain[start.end() :], unit)
            if factor is not None:
                return tuple(round(n * factor, 6) for n in _numbers(start[0].strip()))
    return ()


def unquoted(text: str) -> str:
    """The text without quotes of its own, one or both; inch marks behind a number stay."""
    if len(text) > 1 and text[0] in "\"'`" and text[-1] in "\"'`":
        return text[1:-1].strip()
    if text[:1] in "\"'`":
        return text[1:].strip()
    return text[:-1].strip() if re.search(r"\w[\"'`]$", text) and not text[0].isdigit() else text


def _factor(unit: str, wanted: str) -> float | None:
    """Times which a number in `unit` is one in `wanted`; None where they do not measure alike."""
    name = unit.strip().rstrip(".;,").strip().lower().replace("inches", "inch")
    if not name:
        return 1.0
    if name == "%":
        return {"percent": 1.0, "": 0.01, "mm per m": 10.0}.get(wanted)
    if name == wanted:
        return 1.0
    if wanted.startswith("a ") or wanted == "":  # prices and counts
        return 1.0 if _COUNTED.fullmatch(name) else None
    own = _OWN.get(wanted, "")
    for kind in _KINDS:
        one = kind.get(name, kind.get(name.removesuffix("s")))
        if one is not None and own in kind:
            return one / kind[own]
    return None


def _numbers(text: str) -> tuple[float, ...]:
    """The ways to read digits with commas, points, spaces, or a fraction."""
    fraction = _FRACTION.fullmatch(text)
    if fraction:
        whole, over, under = (float(fraction[name] or 0) for name in ("whole", "over", "under"))
        if not under:
            return ()
        size = whole + over / under
        return (-size if fraction["sign"] == "-" else size,)
    plain = _PLAIN.fullmatch(text)
    if not plain:
        return ()
    digits = re.sub(r"(?<=\d)[ '_](?=\d{3}(?!\d))", "", plain["digits"])
    found = []
    for one in _decimal_points(digits):
        try:
            found.append(float(f"{plain['sign']}{one}{plain['power'] or ''}"))
        except ValueError:
            continue
    return tuple(n for n in dict.fromkeys(found) if math.isfinite(n))


def _decimal_points(digits: str) -> tuple[str, ...]:
    """The same with a point for decimals alone; both ways of `1,250`, thousands last."""
    marks = [c for c in digits if c in ".,"]
    if not marks:
        return (digits,)
    last = marks[-1]
    if len(set(marks)) == 2:
        other = "," if last == "." else "."
        return (digits.replace(other, "").replace(last, "."),) if marks.count(last) == 1 else ()
    if len(marks) > 1:  # 1.250.000
        return (digits.replace(last, ""),) if re.fullmatch(r"\d{1,3}([.,]\d{3})+", digits) else ()
    as_decimal = digits.replace(",", ".")
    if last == "," and re.fullmatch(r"[1-9]\d{0,2},\d{3}", digits):
        return as_decimal, digits.replace(",", "")
    return (as_decimal,)
