"""A scenario's firing written out again, with a mishap or without what it forbids."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest
from shipped import FOLDER

from thermsim.loading import load_scenario
from thermsim.mishaps.variants import (
    at,
    entries_of,
    entries_without_pours,
    firing_change,
    until_change,
)

COLD = FOLDER / "cold_start.yaml"
FIRING = ("firing = [{at: 0 s, do: light the fire}, {at: 1 min, do: [add 0.5 kg, pour 1 l]}, "
          "{at: 9 min, do: pour 2 l}, {when: water below 8 l, do: pour 3 l, again: yes}, "
          "{when: 10 min after boiling, do: stop}]")


@pytest.fixture(scope="module")
def tree() -> Any:
    return load_scenario(COLD, [FIRING]).tree


def test_what_is_written_out_means_the_same() -> None:
    plain = load_scenario(COLD)
    again = load_scenario(COLD, [firing_change(entries_of(plain.tree))])
    assert again.hash == plain.hash


def test_stop_is_left_out_and_times_stay(tree: Any) -> None:
    entries = entries_of(tree)
    assert [entry.get("at") for entry in entries] == ["0.0 s", "60.0 s", "540.0 s", None]
    assert entries[-1] == {"when": "water below 8 l", "do": ["pour 3 l"], "again": "yes"}


def test_no_pour_after_the_moment_but_all_before_it(tree: Any) -> None:
    log = [SimpleNamespace(time=t, name="water below 8 l: pour 3 l") for t in (100.0, 700.0)]
    entries = entries_without_pours(tree, log, 300.0)
    assert entries == [{"at": "0.0 s", "do": ["light the fire"]},
                       {"at": "60.0 s", "do": ["add 0.5 kg"]}, at(60.0, "pour 1 l"),
                       at(100.0, "pour 3 l")]


def test_changes_load(tree: Any) -> None:
    changed = load_scenario(COLD, [firing_change([*entries_of(tree), at(
        90.0, "gust of 20 Pa for 5 s", "jam ash_door")]), until_change(1234.5678)])
    assert changed.tree.outputs.until == pytest.approx(1234.568)
    assert changed.tree.firing[-1].do == ["gust of 20 Pa for 5 s", "jam ash_door"]
