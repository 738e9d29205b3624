"""One written value to what its field means: a quantity, a choice, a flag, a text."""

from __future__ import annotations

import difflib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from thermsim.errors import QuantityError
from thermsim.network.sizes import drum_volume
from thermsim.parts.declare import Field
from thermsim.scenario.source import Items, Node, Scalar, Table
from thermsim.trade_words import EXAMPLES, read_trade
from thermsim.units import Quantity, is_quantity, parse_quantity, parse_spread, units_shown

UNKNOWN_WORD = "unknown"
NONE_WORD = "none"
YES = ("yes", "true", "on")
NO = ("no", "false", "off")
NESTED = ("block", "blocks", "list")
LINES = ("action",)
"""kinds that hold one text or a list of them"""


@dataclass(frozen=True)
class Leaf:
    """A value as read; `unknown` if the person wrote so and the default is to be used."""

    value: Any
    low: float | None = None
    high: float | None = None
    text: str = ""
    unit: str = ""
    unknown: bool = False
    holds: Quantity | None = None
    """of a length told by what the vessel holds: that volume"""


def is_leaf(spec: Field) -> bool:
    """Whether a field holds a value, not blocks."""
    return spec.kind not in NESTED or (
        spec.kind == "list" and spec.block is None and spec.variants is None
    )


def read_leaf(spec: Field, node: Node) -> Leaf:
    """Read what is written for a field; raises QuantityError (found, allowed)."""
    if spec.kind in LINES or spec.kind == "list":
        return _read_lines(spec, node)
    if not isinstance(node, Scalar):
        shape = "a list" if isinstance(node, Items) else "a block"
        raise QuantityError(f"{shape} stands here", f"a single value is wanted: {wanted(spec)}")
    text = node.text.strip()
    if not text or (text == "~" and not spec.choices):
        if is_quantity(spec.kind):
            parse_quantity("", spec.kind)
        raise QuantityError("nothing is written", wanted(spec))
    if text == UNKNOWN_WORD and UNKNOWN_WORD not in spec.choices:
        return _read_unknown(spec)
    if spec.kind == "choice":
        return _read_choice(spec, text)
    if spec.kind == "flag":
        if text.lower() in YES + NO:
            return Leaf(text.lower() in YES, text=text)
        raise QuantityError(f"{text!r} is neither yes nor no", "write yes or no")
    if is_quantity(spec.kind):
        return _read_quantity(spec, text)
    return Leaf(text, text=text)


def wanted(spec: Field) -> str:
    """What may be written for a field, in a few words."""
    if spec.choices:
        return f"one of: {', '.join(spec.choices)}"
    if spec.kind == "flag":
        return "yes or no"
    if is_quantity(spec.kind):
        return units_shown(spec.kind) + (f"; or {EXAMPLES[spec.trade]}" if spec.trade else "")
    return spec.says or "a text"


def nearest(word: str, known: Sequence[str]) -> str:
    """'did you mean ...' or the list of what there is."""
    lowered = {name.lower(): name for name in known}
    near = difflib.get_close_matches(word.lower(), list(lowered), 1, cutoff=0.6)
    if near:
        return f"did you mean '{lowered[near[0]]}'?"
    return f"one of: {', '.join(known)}" if known else "nothing is allowed here"


def clip(spec: Field, low: float, high: float) -> tuple[float, float]:
    """A spread cut off at the physical bounds of its field."""
    if spec.low is not None:
        low = max(low, parse_quantity(str(spec.low), spec.kind).value)
    if spec.high is not None:
        high = min(high, parse_quantity(str(spec.high), spec.kind).value)
    return low, high


def default_leaf(spec: Field, default: Any, spread: str | None) -> Leaf:
    """The leaf of a default written in the declaration, with its spread."""
    leaf = read_leaf(spec, default_node(default))
    if spread is None or not is_quantity(spec.kind) or leaf.low != leaf.high:
        return leaf
    low, high = clip(spec, *parse_spread(leaf.value, spread, spec.kind))
    return Leaf(leaf.value, low, high, leaf.text, leaf.unit)


def default_node(default: Any) -> Node:
    """Plain Python data of a declaration as if it had been written in a file."""
    from thermsim.scenario.source import Entry, Mark

    mark = Mark("")
    if isinstance(default, dict):
        return Table(mark, {str(key): Entry(str(key), mark, default_node(value))
                            for key, value in default.items()})  # fmt: skip
    if isinstance(default, list | tuple):
        return Items(mark, [default_node(item) for item in default])
    if isinstance(default, bool):
        return Scalar("yes" if default else "no", mark)
    return Scalar(str(default), mark)


def _read_unknown(spec: Field) -> Leaf:
    """'unknown' is an answer only where a default with a spread stands in for it."""
    if spec.spread is not None or spec.default_by is not None:
        return Leaf(None, text=UNKNOWN_WORD, unknown=True)
    if spec.default is not None:
        raise QuantityError(
            "cannot be unknown: its default has no spread that would stand for not knowing",
            f"leave the line out to take the default, {spec.default}",
        )
    if spec.required:
        raise QuantityError(
            "cannot be unknown: nothing can stand in for it", f"find out: {spec.says}"
        )
    raise QuantityError(
        "cannot be unknown: it has no default", "leave the line out or give a value"
    )


def _read_choice(spec: Field, text: str) -> Leaf:
    if text in spec.choices:
        return Leaf(text, text=text)
    raise QuantityError(f"{text!r} is not a choice here", nearest(text, spec.choices))


def _read_quantity(spec: Field, text: str) -> Leaf:
    trade = read_trade(text, spec.trade) if spec.trade else None
    if trade is not None and trade.kind == "volume":
        return Leaf(None, text=text, unit="mm", holds=trade)
    quantity = trade or parse_quantity(text, spec.kind)
    for bound, side in ((spec.low, -1), (spec.high, 1)):
        if bound is None:
            continue
        limit = parse_quantity(str(bound), spec.kind).value
        ends = (quantity.low, quantity.high) if " to " in text else ()
        if any(side * value > side * limit for value in (quantity.value, *ends)):
            raise QuantityError(f"{text!r} is {_beyond(side, str(bound))}", _allowed(spec))
    low, high = clip(spec, quantity.low, quantity.high)
    value = int(quantity.value) if spec.kind == "count" else quantity.value
    return Leaf(value, low, high, quantity.text, quantity.unit)


def length_that_holds(
    spec: Field, leaf: Leaf, values: Mapping[str, Any]
) -> tuple[float, float, float]:
    """Length [m] of a drum that holds the volume written, with its low and high; raises
    QuantityError if it lies outside the field's bounds.

    Volume goes straight with length, so two lengths decide it, whatever the ends are.
    """
    assert leaf.holds is not None
    if 2.0 * values["plate"] >= values["diameter"]:
        raise QuantityError(f"{leaf.text!r}: the plate leaves no hollow", "a thinner plate")
    one, two = (drum_volume({**values, spec.name: length}) for length in (1.0, 2.0))
    value, low, high = (1.0 + (volume - one) / (two - one)
                        for volume in (leaf.holds.value, leaf.holds.low, leaf.holds.high))
    for bound, side in ((spec.low, -1), (spec.high, 1)):
        if bound is not None and side * value > side * parse_quantity(bound, spec.kind).value:
            raise QuantityError(f"{leaf.text!r} makes it {1000.0 * value:.0f} mm long, "
                                f"{_beyond(side, str(bound))}", _allowed(spec))
    return value, *clip(spec, low, high)


def _beyond(side: int, bound: str) -> str:
    return f"above {bound}" if side > 0 else f"below {bound}"


def _allowed(spec: Field) -> str:
    """The bounds and their reason."""
    if spec.low is not None and spec.high is not None:
        words = f"{spec.low} to {spec.high} is allowed"
    elif spec.low is not None:
        words = f"{spec.low} or more is allowed"
    else:
        words = f"{spec.high} or less is allowed"
    return f"{words}: {spec.why}" if spec.why else words


def _read_lines(spec: Field, node: Node) -> Leaf:
    """One text or a list of texts, always as a list."""
    items = node.items if isinstance(node, Items) else [node]
    lines = []
    for item in items:
        if not isinstance(item, Scalar):
            raise QuantityError("a block stands here", f"a line of text is wanted: {wanted(spec)}")
        if not item.text.strip():
            raise QuantityError("nothing is written", wanted(spec))
        if spec.choices and item.text.strip() not in spec.choices:
            raise QuantityError(
                f"{item.text.strip()!r} is not a choice here",
                nearest(item.text.strip(), spec.choices),
            )
        lines.append(item.text.strip())
    if not lines:
        raise QuantityError("an empty list stands here", wanted(spec))
    return Leaf(lines, text="; ".join(lines))
