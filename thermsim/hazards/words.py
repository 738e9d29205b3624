"""The printed page: what is beyond its limit first, in plain words and hatched bars."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from thermsim.hazards.check import BEYOND, CANNOT_TELL, NEAR, WITHIN, Check, figure
from thermsim.hazards.flue import DRAUGHT
from thermsim.hazards.hot_surfaces import TOUCH
from thermsim.hazards.relief import VALVE

WIDE, INDENT, BAR = 98, 4, 40
HEADS = {BEYOND: "Beyond the limit", NEAR: "Near the limit",
         CANNOT_TELL: "Cannot tell: something is missing", WITHIN: "Within the limit"}
CODES = ("These are calculations for thinking before building, no approval. Local codes and a "
         "licensed inspection decide whether it may be built and fired; a carbon monoxide alarm "
         "belongs wherever there is a roof over fire.")
FULL, EMPTY = "/", "."


def page_lines(checks: Sequence[Check], title: str) -> list[str]:
    """The whole page; a missing or shut-off safety valve is its first line."""
    lines = []
    valve = next((one for one in checks if one.name == VALVE and one.verdict != WITHIN), None)
    if valve is not None:
        lines += [*wrapped(f"SAFETY VALVE: {valve.says}.", 0), ""]
    lines += [title, counted(checks), *burns_apart(checks), ""]
    for verdict, head in HEADS.items():
        some = [one for one in checks if one.verdict == verdict]
        if some:
            lines += [head, *(line for one in some for line in told(one)), ""]
    return [*lines, *wrapped(CODES, 0)]


def counted(checks: Sequence[Check]) -> str:
    """How many of each."""
    numbers = [(sum(one.verdict == verdict for one in checks), verdict) for verdict in HEADS]
    return f"{len(checks)} checks: {', '.join(f'{n} {verdict}' for n, verdict in numbers)}."


def burns_apart(checks: Sequence[Check]) -> list[str]:
    """Which of those beyond their limit only burn who touches them; nothing where none does.

    Nearly every stove has some of these: they are not to hide what else is beyond its limit.
    """
    beyond = [one for one in checks if one.verdict == BEYOND]
    touch = sum(one.name.startswith(TOUCH) for one in beyond)
    if not touch:
        return []
    other = list(dict.fromkeys(one.part for one in beyond if not one.name.startswith(TOUCH)))
    rest = (f"{len(beyond) - touch} of other things ({', '.join(other)})" if other
            else "none of other things")
    return wrapped(f"Of those beyond: {rest}; {touch} of outsides that burn who touches them.", 0)


def told(check: Check) -> list[str]:
    """A check: what, found, limit, margin, source, and what is missing."""
    lines = wrapped(f"- {check.part}: {_stopped(check.says)}", 2, hang=4)
    if check.name == DRAUGHT and isinstance(check.found, float) and isinstance(check.limit, float):
        lines += draught_bar(check.found, check.limit)
    facts = [f"found {shown(check.found, check.unit)}" if check.found is not None else "",
             f"limit {shown(check.limit, check.unit)}" if check.limit is not None else "",
             check.margin if check.used is not None else "",
             f"missing: {', '.join(check.missing)}" if check.missing else "",
             f"source: {check.source}" if check.source else ""]
    return lines + wrapped("; ".join(fact for fact in facts if fact), INDENT)


def shown(value: float | str | None, unit: str) -> str:
    """A value with its unit."""
    if isinstance(value, str) or value is None:
        return str(value)
    return f"{figure(value)} {unit}".strip()


def draught_bar(there: float, needed: float) -> list[str]:
    """One bar: what is there, hatched, with a mark where it is enough."""
    longest = max(there, needed, 1e-9)
    filled, mark = (round(BAR * part / longest) for part in (there, needed))
    cells = [FULL if k < filled else EMPTY for k in range(BAR + 1)]
    cells[mark] = "|"
    return [f"    [{''.join(cells)}]  / there, | needed"]


def wrapped(text: str, indent: int, hang: int | None = None) -> list[str]:
    """Lines of at most the page's width."""
    return textwrap.wrap(text, WIDE, initial_indent=" " * indent, break_long_words=False,
                         subsequent_indent=" " * (indent if hang is None else hang))


def _stopped(text: str) -> str:
    return text if text.endswith((".", "!", "?")) else f"{text}."
