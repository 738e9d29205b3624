"""Quantities as people write them, read into SI and written back.

The units are a small table of our own, in `dimensions` (why: a general library read '25 C' as
coulomb). Read here: '30 mm', '1 1/2 in', '1 h 30 min', '12 C', '3 bar(g)', and the doubt a
person may add: '30 mm +- 3 mm', '30 +- 3 mm', '30 mm +- 10 %', 'about 30 mm' (10 % either way),
'25 to 40 mm' (the middle is used).

A doubt in % is a part of the value, but for a share it counts in points of a hundred:
'15 % +- 3 %' is 12 to 18 %. A temperature takes no doubt in %: 10 % of what zero?
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from thermsim.dimensions import DIMENSIONS, Dimension, Unit
from thermsim.errors import QuantityError

ABOUT = Fraction(1, 10)
"""'about 30 mm' means 10 % either way"""
LONGEST = 120
"""characters; no quantity needs more"""
LARGEST = Fraction(10) ** 30
"""SI; beyond any real quantity"""

_DECIMAL = r"(?:[0-9]{1,40}(?:\.[0-9]{0,40})?|\.[0-9]{1,40})(?:[eE][+-]?[0-9]{1,3})?"
_NUMBER = re.compile(
    rf"(?P<sign>[+-]?)\s*(?:(?:(?P<whole>[0-9]{{1,9}})[ -])?"
    rf"(?P<top>[0-9]{{1,9}})/(?P<below>[0-9]{{1,9}})(?![0-9.])|(?P<decimal>{_DECIMAL}))"
)
_PAIR = re.compile(rf"(?P<number>[0-9]{{1,9}} [0-9]{{1,9}}/[0-9]{{1,9}}|[0-9]{{1,9}}/[0-9]{{1,9}}"
                   rf"|{_DECIMAL})\s*(?P<unit>[A-Za-z'\"]+)\s*")  # fmt: skip
_DOUBT = re.compile(r"\+/-|\+-|±")
_RANGE = re.compile(r"(?<=[0-9A-Za-z)%\"'])\s+to\s+(?=[-+.0-9])")
_COMPOUND = ("time", "length", "mass")
_VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
           "⅓": "1/3", "⅔": "2/3"}  # fmt: skip


@dataclass(frozen=True)
class Quantity:
    """A value in SI with the doubt it was written with (`low` = `value` = `high` without one)."""

    value: float
    low: float
    high: float
    text: str
    unit: str
    kind: str
    gauge: bool = False

    @property
    def doubtful(self) -> bool:
        """Written with a spread."""
        return self.low < self.high


def is_quantity(kind: str) -> bool:
    """Whether `parse_quantity` knows this kind of field."""
    return kind in DIMENSIONS


@lru_cache(maxsize=4096)
def parse_quantity(text: str, kind: str) -> Quantity:
    """Read a quantity of this kind as a person writes it; SI inside.

    Raises QuantityError, saying what was found and what is allowed.

    >>> parse_quantity("30 mm +- 3 mm", "length").high
    0.033
    >>> parse_quantity("77 F", "temperature").value
    298.15
    """
    dimension = DIMENSIONS[kind]
    written = text.strip()
    if len(written) > LONGEST:
        raise QuantityError(f"{written[:20]!r}... is too long", _wanted(dimension))
    plain = _tidy(written)
    if not plain:
        raise QuantityError("nothing is written", _wanted(dimension))
    low, value, high, unit = _read(plain, written, dimension)
    if max(abs(low), abs(high)) > LARGEST:
        raise QuantityError(f"{written!r} is beyond any real quantity", _wanted(dimension))
    if kind == "count" and not low == value == high == int(value):
        raise QuantityError(f"{written!r} is not a whole number", "write one, as 4")
    return Quantity(
        float(value), float(low), float(high), written, unit.name, kind, dimension.gauge
    )


@lru_cache(maxsize=4096)
def parse_spread(value: float, spread: str, kind: str) -> tuple[float, float]:
    """Low and high [SI] of a value [SI] with a doubt written as '+- 20 %' or '+- 3 mm'.

    >>> parse_spread(0.05, "+- 20 %", "length")
    (0.04, 0.06)
    """
    dimension = DIMENSIONS[kind]
    middle = Fraction(repr(value))
    plain = _tidy(spread)
    if _RANGE.search(plain):
        quantity = parse_quantity(spread, kind)
        return quantity.low, quantity.high
    doubt = _DOUBT.split(plain)[-1].strip()
    size = _half_width(middle, doubt, spread, dimension, dimension.units[dimension.si])
    return float(middle - size), float(middle + size)


def format_quantity(value: float, kind: str, like: str | None = None) -> str:
    """For people: four figures in a fitting unit, or in the unit of `like` ('in', '3 bar(g)').

    >>> format_quantity(0.035, "length")
    '35 mm'
    >>> format_quantity(298.15, "temperature", like="60 F")
    '77 F'
    """
    dimension = DIMENSIONS[kind]
    unit = _unit_of(like, dimension) if like else None
    if unit is None:
        size = abs(value)
        fitting = [name for least, name in dimension.steps if size >= least]
        unit = dimension.units[(fitting or [dimension.steps[0][1]])[-1]]
    number = value / float(unit.factor) - float(unit.offset)
    return f"{_figures(number)} {unit.name}".strip()


def to_text(quantity: Quantity) -> str:
    """Exact SI text of a quantity, doubt included, that reads back to the same floats."""
    unit = DIMENSIONS[quantity.kind].si
    value, low, high = (
        f"{int(v)}" if quantity.kind == "count" else repr(v)
        for v in (quantity.value, quantity.low, quantity.high)
    )
    if not quantity.doubtful:
        return f"{value} {unit}".strip()
    middle = (Fraction(low) + Fraction(high)) / 2
    if float(middle) == quantity.value:
        return f"{low} {unit}".strip() + f" to {high} {unit}".rstrip()
    half = max(Fraction(high) - Fraction(value), Fraction(value) - Fraction(low))
    return f"{value} {unit}".strip() + f" +- {float(half)!r} {unit}".rstrip()


def unit_names(kind: str) -> list[str]:
    """Every spelling of a unit that this kind takes ('' where a bare number will do)."""
    return list(DIMENSIONS[kind].units)


def units_shown(kind: str) -> str:
    """The usual units of a kind, for messages and descriptions."""
    return ", ".join(DIMENSIONS[kind].shown)


def _figures(number: float) -> str:
    """Four significant figures without an exponent where people would not write one."""
    if abs(number) >= 9999.5 and abs(number) < 1e15:
        return f"{number:.0f}"
    return f"{number + 0.0:.4g}"


def _tidy(text: str) -> str:
    """Plain spelling of the signs that a keyboard or a word processor may have put in."""
    for sign, plain in _VULGAR.items():
        text = re.sub(rf"(?<=[0-9])\s*{sign}", f" {plain}", text).replace(sign, plain)
    text = text.replace("″", '"').replace("º", "°").replace("¹", "^1")
    text = unicodedata.normalize("NFKC", text)
    for sign, plain in (("−", "-"), ("–", "-"), ("’", "'"), ("′", "'"), ("”", '"'),
                        ("µ", "μ"), ("°", "deg "), ("^", "")):  # fmt: skip
        text = text.replace(sign, plain)
    return " ".join(text.split())


def _tidy_unit(text: str) -> str:
    """One spelling of spaces, products and brackets inside a unit."""
    text = re.sub(r"[·*⋅×]", " ", text)
    text = re.sub(r"\s*/\s*", "/", text)
    text = re.sub(r"\s*\(\s*([ga])\s*\)", r"(\1)", text)
    text = re.sub(r"\(\s+", "(", re.sub(r"\s+\)", ")", text))
    return " ".join(text.split())


def _read(
    plain: str, written: str, dimension: Dimension
) -> tuple[Fraction, Fraction, Fraction, Unit]:
    """Low, middle, high [SI] and the unit written."""
    about = re.match(r"(?:about\s+|~\s*)", plain)
    body = plain[about.end() :] if about else plain
    doubt, ends = _DOUBT.split(body), _RANGE.split(body)
    if len(doubt) + len(ends) + bool(about) > 3:
        raise QuantityError(f"{written!r} gives its doubt twice", "write one, as 30 mm +- 3 mm")
    if len(ends) == 2:
        return _between(ends[0], ends[1], written, dimension)
    if len(doubt) == 2:
        left, right = doubt[0].strip(), doubt[1].strip()
        value, unit = _value(left, written, dimension, borrow=_unit_for(left, right, dimension))
        size = _half_width(value, right, written, dimension, unit)
        return value - size, value, value + size, unit
    value, unit = _value(body, written, dimension)
    if about:
        if dimension.scale:
            raise QuantityError(
                f"{written!r}: 'about' means 10 %, which says nothing of a temperature",
                "write the doubt, as 12 C +- 3 K",
            )
        size = abs(value) * ABOUT
        return value - size, value, value + size, unit
    return value, value, value, unit


def _between(
    first: str, last: str, written: str, dimension: Dimension
) -> tuple[Fraction, Fraction, Fraction, Unit]:
    high, unit = _value(last, written, dimension)
    low, _ = _value(first, written, dimension, borrow=unit)
    if low > high:
        raise QuantityError(f"{written!r} runs from more to less", "write the lesser end first")
    return low, (low + high) / 2, high, unit


def _unit_for(left: str, right: str, dimension: Dimension) -> Unit | None:
    """The unit that a bare '30' takes from its doubt in '30 +- 3 mm'."""
    match = _NUMBER.match(right)
    unit = dimension.units.get(_tidy_unit(right[match.end() :])) if match else None
    if unit is None or dimension.kind != "share" or not unit.name:
        return unit
    bare = _NUMBER.fullmatch(left)
    if bare and abs(_number(bare)) <= 1:
        raise QuantityError(
            f"'{left} +- {right}' may mean two things", "write 15 % +- 3 % or 0.15 +- 0.03"
        )
    return unit


def _half_width(
    value: Fraction, doubt: str, written: str, dimension: Dimension, unit: Unit
) -> Fraction:
    """Half the spread [SI] from the text behind '+-'."""
    match = _NUMBER.match(doubt)
    if not match:
        raise QuantityError(f"{written!r} gives no doubt behind '+-'", "as 30 mm +- 3 mm")
    name = _tidy_unit(doubt[match.end() :])
    number = _number(match)
    if number < 0:
        raise QuantityError(f"{written!r} has a doubt below zero", "as 30 mm +- 3 mm")
    if name == "%" and "%" not in dimension.units:
        if dimension.scale:
            raise QuantityError(
                f"{written!r}: a share of a temperature says nothing",
                "write the doubt in K, C or F, as 12 C +- 3 K",
            )
        return abs(value) * number / 100
    if not name:
        return number * unit.factor
    if dimension.scale and name in DIMENSIONS["temperature_difference"].units:
        return number * DIMENSIONS["temperature_difference"].units[name].factor
    if name in dimension.units:
        return number * dimension.units[name].factor
    size, _ = _value(doubt, written, dimension)
    return size


def _value(
    text: str, written: str, dimension: Dimension, borrow: Unit | None = None
) -> tuple[Fraction, Unit]:
    """One number with its unit, or several ('1 h 30 min'), in SI."""
    text = text.strip()
    match = _NUMBER.match(text)
    if not match:
        raise QuantityError(f"{written!r} is not a number with a unit", _wanted(dimension))
    rest = text[match.end() :]
    _refuse_odd_number(rest, written, dimension)
    name = _tidy_unit(rest)
    unit = borrow if borrow is not None and not name else dimension.units.get(name)
    if unit is not None:
        return (_number(match) + unit.offset) * unit.factor, unit
    pairs = _pairs(text, dimension)
    if pairs is not None:
        return pairs
    raise _wrong_unit(name, written, dimension)


def _pairs(text: str, dimension: Dimension) -> tuple[Fraction, Unit] | None:
    """'1 h 30 min' or '2 ft 6 in': each unit smaller than the one before it."""
    if dimension.kind not in _COMPOUND or not re.fullmatch(rf"(?:{_PAIR_PLAIN})+", text):
        return None
    total, last = Fraction(0), None
    for pair in _PAIR.finditer(text):
        unit = dimension.units.get(pair["unit"])
        match = _NUMBER.fullmatch(pair["number"])
        if unit is None or match is None or (last is not None and unit.factor >= last.factor):
            return None
        total += _number(match) * unit.factor
        last = unit
    return None if last is None else (total, last)


_PAIR_PLAIN = re.sub(r"\(\?P<\w+>", "(?:", _PAIR.pattern)


def _number(match: re.Match[str]) -> Fraction:
    """The exact number of a match, fractions included."""
    if match["decimal"]:
        number = Fraction(match["decimal"])
    elif int(match["below"]) == 0:
        raise QuantityError(f"'{match[0]}' divides by zero", "write a number, as 1/4 in")
    else:
        number = Fraction(int(match["top"]), int(match["below"])) + int(match["whole"] or 0)
    return -number if match["sign"] == "-" else number


def _refuse_odd_number(rest: str, written: str, dimension: Dimension) -> None:
    if re.match(r",[0-9]", rest):
        raise QuantityError(
            f"{written!r} has a comma in its number", "write a point, as 1.5, and no thousands sign"
        )
    if re.match(r":[0-9]", rest):
        raise QuantityError(
            f"{written!r} is a clock's notation", "write a time as 12 min 30 s or 12 h 30 min"
        )
    if re.match(r"\s*-\s*[0-9]", rest):
        raise QuantityError(f"{written!r} may be a range or a sum", "write a range as 25 to 40 mm")


def _unit_of(like: str, dimension: Dimension) -> Unit | None:
    """The unit named by 'in' or used in '3 in'; None if it is none of this dimension."""
    tidy = _tidy(like)
    named = dimension.units.get(_tidy_unit(tidy))
    if named is not None:
        return named
    try:
        return _read(tidy, like, dimension)[3]
    except QuantityError:
        return None


def _wanted(dimension: Dimension) -> str:
    return f"{dimension.says} is wanted: {', '.join(dimension.shown)}"


def _wrong_unit(name: str, written: str, dimension: Dimension) -> QuantityError:
    """Say which dimension it is, or that it is no unit at all."""
    if not name:
        return QuantityError(f"{written!r} has no unit", _wanted(dimension))
    if name in dimension.hints:
        return QuantityError(f"{written!r} is not clear as {dimension.says}", dimension.hints[name])
    for other in DIMENSIONS.values():
        if name in other.units:
            return QuantityError(f"{written!r} is {other.says}", _wanted(dimension))
    for known in dimension.units:
        if known and known.lower() == name.lower():
            return QuantityError(f"{name!r} is not a unit here", f"did you mean {known!r}?")
    return QuantityError(f"{name!r} in {written!r} is not a unit", _wanted(dimension))
