"""Times by stopwatch and by clock."""

from __future__ import annotations

import pytest

from thermsim.errors import QuantityError
from thermsim.readings.times import Zero, clock_time, moment, span

FIVE_PAST_TWO = 14 * 3600.0 + 300.0


@pytest.mark.parametrize(("text", "zero", "seconds"), [
    ("12 min 30 s", Zero(), 750.0),
    ("0.5 h", Zero(), 1800.0),
    ("14:17", Zero(clock=FIVE_PAST_TWO), 720.0),
    ("14:17:20", Zero(clock=FIVE_PAST_TWO), 740.0),
    ("0:10", Zero(clock=23 * 3600.0 + 3300.0), 900.0),
    ("5 min", Zero(stopwatch=60.0), 240.0),
    ("5 min", Zero(offset=-20.0), 280.0),
])
def test_moments(text: str, zero: Zero, seconds: float) -> None:
    assert moment(text, zero) == seconds


@pytest.mark.parametrize(("text", "zero", "found"), [
    ("14:17", Zero(), "nothing says when it was lit"),
    ("24:10", Zero(clock=0.0), "is no time of a day"),
    ("14:00", Zero(clock=FIVE_PAST_TWO), "is before lighting"),
    ("12", Zero(), "has no unit"),
    ("-5 s", Zero(), "is before lighting"),
    ("5 min +- 10 s", Zero(), "carries a doubt"),
])
def test_refused(text: str, zero: Zero, found: str) -> None:
    with pytest.raises(QuantityError, match=found):
        moment(text, zero)


def test_spans() -> None:
    assert span("20 min to 25 min", Zero()) == (1200.0, 1500.0)
    assert span("20 to 25 min", Zero()) == (1200.0, 1500.0)
    assert span("20 min", Zero()) == (None, 1200.0)
    with pytest.raises(QuantityError, match="does not end after"):
        span("25 min to 20 min", Zero())


def test_no_clock() -> None:
    assert clock_time("7:61") is None
    assert clock_time("23:59:59") == 86399.0
