"""Heat of firings with dished ends, lying and standing: metal crosses the water line of an end."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

HEAT = 1e-3


@pytest.mark.parametrize("changes", [
    (), ("drum.front = outside", "drum.back = outside"),
    ("drum.lies = no",), ("drum.lies = no", "drum.water = 1 l", "drum.back = outside"),
], ids=str)
def test_the_account_closes(fired: Callable[..., Any], changes: tuple[str, ...]) -> None:
    result = fired("given_fire", "drum.ends = dished", *changes)
    assert 0.0 < result.summary["ledger_error"] <= HEAT
    assert result.summary["solver"]["fallbacks"] == []


def test_dry_and_full_again(fired: Callable[..., Any]) -> None:
    """A standing drum boils dry through shell and lower end."""
    result = fired("given_fire", "drum.ends = dished", "drum.lies = no", "drum.water = 1 l",
                   "outputs.until = 90 min")
    assert result.summary["dry_s"] is not None
    assert result.summary["ledger_error"] <= HEAT


def test_more_end_takes_up_more_heat(fired: Callable[..., Any]) -> None:
    """1.26 times the flat area looks into fire and gas (DIN 28011: 0.99 D^2)."""
    flat, dished = (fired("given_fire", f"drum.ends = {ends}").summary["water_heat_share"]
                    for ends in ("flat", "dished"))
    assert 1.0 < dished / flat < 1.26
