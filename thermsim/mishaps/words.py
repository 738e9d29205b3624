"""Mishaps in words: least time first, what comes when, what to do."""

from __future__ import annotations

from thermsim.mishaps.harms import COUNTED, HARMS
from thermsim.mishaps.moments import told_time
from thermsim.mishaps.worst import Came, Judged, Outlook, Tried
from thermsim.results.moments import spell

GRAMS_A_KILO = 1e3
PRACTICE = "What to do (common practice, no source; the inspector's word goes before it)"
CLOSING = (
    "Each mishap is the scenario's own firing with that one thing wrong, at the worst of the "
    "moments that were tried; two at once are not looked at, nor is a worse moment between them.",
    "Times are the model's: it has not been held against a mishap. Nothing here says that a plant "
    "may be fired. Local codes and a licensed inspection decide, and whoever fires stands by.",
)


def tell(outlook: Outlook) -> list[str]:
    """Everything, a line each."""
    lines = [outlook.title, "",
             f"Mishaps, least time first; looked on for {spell(outlook.watch_s)} after each, water "
             f"low under {100 * outlook.limits.low_share:.0f} % of the drum:", ""]
    lines += [f"  {number}. {headline(one)}" for number, one in enumerate(outlook.mishaps, 1)]
    for number, one in enumerate(outlook.mishaps, 1):
        lines += ["", f"{number}. {one.mishap.name}", *_told(one)]
    return [*lines, "", *CLOSING]


def headline(judged: Judged) -> str:
    """A mishap in one sentence: what comes first."""
    name, worst = judged.mishap.name, judged.worst
    if worst is None:
        return f"{name}: not looked at, {_reason(judged)}."
    first = worst.first
    if first is None:
        anyway = [one for one in worst.harms if one.anyway and one.harm in COUNTED]
        soonest = min(anyway, key=lambda one: one.after_s or 0.0, default=None)
        else_so = f"; without it as well {sentence(soonest)}" if soonest else ""
        nothing = f"nothing new within {spell(worst.watched_s)}{else_so}"
        return f"{name}, {worst.moment.words}: {nothing}."
    return f"{name}, {worst.moment.words}: {sentence(first)}."


def _reason(judged: Judged) -> str:
    failures = [one.reason for one in judged.tried if one.reason]
    return failures[0] if failures else judged.mishap.why_not


def sentence(came: Came) -> str:
    """A harm with its time and place: 'low water after 12 min 54 s, drum'."""
    where = f", {came.where.replace('_', ' ')}" if came.where and came.where != "drum" else ""
    return f"{HARMS[came.harm]} after {told_time(came.after_s or 0.0)}{where}"


def _told(judged: Judged) -> list[str]:
    worst = judged.worst
    if worst is None:
        return [f"   Not looked at: {_reason(judged)}."]
    lines = [f"   Worst {worst.moment.words}, {spell(worst.moment.time)} from the start"
             f"{_others(judged)}."]
    lines += [f"   - {line}" for line in harm_lines(worst)]
    if worst.reason:
        lines.append(f"   - could not be computed further: {worst.reason}")
    return [*lines, f"   {PRACTICE}:", *(f"   > {text}." for text in judged.mishap.calls_for)]


def _others(judged: Judged) -> str:
    others = [one.moment.words for one in judged.tried if one is not judged.worst]
    return f"; tried too: {', '.join(others)}" if others else ""


def harm_lines(one: Tried) -> list[str]:
    """What came, by time; then what did not, together."""
    new = sorted((came for came in one.harms if came.new is not None),
                 key=lambda came: came.new or 0.0)
    lines = [sentence(came) + _more(came, one) for came in new]
    lines += [f"{sentence(came)}: as soon without it" for came in one.harms if came.anyway]
    already = [HARMS[came.harm] for came in one.harms if came.after_s is None and came.already]
    if already:
        lines.append(f"already so before it: {', '.join(already)}")
    never = [HARMS[came.harm] for came in one.harms if came.after_s is None and not came.already]
    if never:
        lines.append(f"not within {spell(one.watched_s)}: {', '.join(never)}")
    return lines


def _more(came: Came, one: Tried) -> str:
    if came.harm == "smoke":
        return f"; {_mass(one.smoke_g)} of it in {told_time(one.smoke_s)}"
    if came.harm == "over_pressure":
        return f"; up to {one.peak_pressure_bar_gauge:.2g} bar(g) as far as it was computed"
    return ""


def _mass(grams: float) -> str:
    """A mass as a person says it.

    >>> _mass(8.68), _mass(316.2), _mass(7757.0)
    ('8.7 g', '320 g', '7.8 kg')
    """
    if grams >= GRAMS_A_KILO:
        return f"{grams / GRAMS_A_KILO:.2g} kg"
    return f"{float(f'{grams:.2g}'):g} g"
