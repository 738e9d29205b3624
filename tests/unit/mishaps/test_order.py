"""Which moment of a mishap is worst, which mishap comes first, and how it is told."""

from __future__ import annotations

from math import inf
from typing import Any

import pytest

from thermsim.mishaps.catalogue import Candidate, Mishap
from thermsim.mishaps.harms import HARMS, Limits
from thermsim.mishaps.moments import Moment
from thermsim.mishaps.table import mishaps_table, record_of
from thermsim.mishaps.words import harm_lines, headline, tell
from thermsim.mishaps.worst import Came, Judged, Outlook, Tried, _as_soon


def tried(words: str = "at some moment", smoke_g: float = 0.0, reason: str = "",
          anyway: str = "", already: str = "", **times: float) -> Tried:
    moment = Moment(words, 600.0)
    harms = tuple(Came(harm, times.get(harm), "drum" if harm in times else "", harm in already,
                       harm in anyway.split()) for harm in HARMS)
    return Tried(Candidate(moment, ()), moment, harms, smoke_g, 12.0, 3.5, 3600.0, "boiled", reason)


def judged(key: str, *some: Tried, why_not: str = "") -> Judged:
    return Judged(Mishap(key, f"The {key}", ("stand clear",), (), why_not), some)


def test_the_gravest_harm_decides_which_moment_is_worst() -> None:
    smoky = tried("a", smoke=1.0, low_water=50.0)
    pressed = tried("b", over_pressure=900.0)
    sooner = tried("c", over_pressure=800.0)
    assert judged("x", smoky, pressed, sooner).worst is sooner


def test_of_like_times_more_smoke_is_worse() -> None:
    little, much = tried("a", smoke=0.31, smoke_g=5.0), tried("b", smoke=0.30, smoke_g=50.0)
    assert judged("x", little, much).worst is much


def test_what_comes_without_the_mishap_does_not_count() -> None:
    one = tried(anyway="low_water", low_water=10.0, smoke=99.0)
    assert one.first is not None
    assert one.first.harm == "smoke"
    assert judged("x", one).least == 99.0


def test_an_outside_or_a_fire_gone_out_does_not_order() -> None:
    assert judged("x", tried(surface=1.0, fire_out=2.0)).least == inf


@pytest.mark.parametrize(("after", "without", "same"), [
    (100.0, 100.0, True), (97.0, 100.0, True), (90.0, 100.0, False), (100.0, None, False),
    (None, 50.0, False), (300.0, 100.0, True)])
def test_as_soon_without_it(after: float | None, without: float | None, same: bool) -> None:
    """Within 2 s and 2 %."""
    assert _as_soon(after, {"after_s": without}) is same


def outlook() -> Outlook:
    some = [judged("valve", tried("at the strongest fire", over_pressure=58.0, low_water=900.0)),
            judged("gust", tried(smoke=0.4, smoke_g=7757.0, anyway="low_water", low_water=70.0),
                   tried("later", smoke=0.9)),
            judged("engine", why_not="there is no engine"),
            judged("hung", tried(already="wall_too_hot")),
            judged("broken", tried("at odds", reason="it would not solve"))]
    some.sort(key=lambda one: one.least)
    return Outlook("An invented shed", tuple(some), Limits(0.3, 1e4), 3600.0, "boiled", 9)


def test_least_time_first_in_words() -> None:
    lines = tell(outlook())
    heads = [line for line in lines if line.startswith("  ")][:5]
    assert heads[0] == "  1. The gust, at some moment: smoke where people stand after 0.4 s."
    assert heads[1] == "  2. The valve, at the strongest fire: over-pressure after 58 s."
    assert any("The engine: not looked at, there is no engine" in line for line in lines)
    assert sum("common practice, no source" in line for line in lines) == 4
    assert "licensed inspection" in lines[-1]
    assert any("tried too: later" in line for line in lines)


def test_what_did_not_happen_says_so() -> None:
    told = harm_lines(outlook().mishaps[0].worst or tried())
    assert told[0] == "smoke where people stand after 0.4 s; 7.8 kg of it in 12 s"
    assert told[1] == "low water after 1 min 10 s: as soon without it"
    assert told[-1].startswith("not within 60 min: over-pressure, drum plate too hot, drum dry")


def test_nothing_new_tells_what_comes_anyway() -> None:
    one = judged("feed", tried(anyway="low_water dry", low_water=800.0, dry=3000.0))
    assert headline(one) == ("The feed, at some moment: nothing new within 60 min; without it as "
                             "well low water after 13 min 20 s.")


def test_table_and_record_hold_everything() -> None:
    found = outlook()
    table = mishaps_table(found)
    assert table["mishap"].tolist() == ["gust", "gust", "valve", "hung", "broken"]
    assert table["worst"].tolist() == ["yes", "no", "yes", "yes", "yes"]
    gust = table.iloc[0]
    assert (gust["smoke_after_s"], gust["low_water_note"], gust["dry_note"]) == (
        0.4, "as soon without it", "not within")
    assert table.iloc[3]["wall_too_hot_note"] == "already before"
    record: dict[str, Any] = record_of(found)
    assert [one["mishap"] for one in record["mishaps"]] == ["gust", "valve", "engine", "hung",
                                                            "broken"]
    assert record["mishaps"][0]["tried"][0]["first_after_s"] == 0.4
    assert record["mishaps"][2]["why_not"] == "there is no engine"
    assert found.failed
