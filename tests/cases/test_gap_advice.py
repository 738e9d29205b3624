"""The published advice for the gap round a vessel, run in this model, and why ours is another.

Figures and reading in README.md of this folder. The channel: an upright vessel of 240 mm over a
small firebox, unbaffled, 100 mm long, open at its top, so that it draws by its own height alone.
A given fire releases its heat whether it has air or not: what a gap allows shows in the air ratio.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest

PAGE = Path(__file__).parent / "README.md"
CHANNEL = """
thermsim: 1
title: vessel in a short open channel, invented
day:
  air: 20 C
  pressure: 1013.25 hPa
  humidity: 0 %
  wind: 0 m/s
wood:
  kind: reference wood
  thickness: 20 mm
  moisture: 10 %
fire:
  kind: given
  heat:
    - at: 0 s
      heat: {kW} kW
    - at: 3 h
      heat: {kW} kW
firebox:
  width: 200 mm
  depth: 200 mm
  height: 150 mm
  grate: 130 mm
  top_covered: 1
  wall: {wall}
openings:
  door:
    width: 120 mm
    height: 120 mm
    sill: 10 mm
    below_grate: yes
gas_path:
  - name: channel
    kind: round the drum
    rise: 100 mm
{above}
drum:
  diameter: 240 mm
  length: 100 mm
  lies: no
  back: outside
  plate: 1 mm
  water: 3.9 l
  vent: 100 mm
  gap: {gap} mm
  casing: {wall}
firing:
  - at: 0 s
    do: light the fire
outputs:
  until: 20 min
"""
BARE = "[{material: mild steel, thickness: 1 mm}]"
LAGGED = "[{material: mild steel, thickness: 1 mm}, {material: blanket, thickness: 10 mm}]"
STACK = """  - name: stack
    kind: chimney
    diameter: 130 mm
    length: 2.4 m
"""
ENOUGH_AIR = 1.5
"""air ratio under which a wood fire smokes; common practice, no source"""
NO_BAFFLES = "drum.baffle_spacing = 450 mm"
Fired = Callable[..., Any]


@cache
def channel(gap: float, kW: float = 4.5, wall: str = BARE, above: str = "") -> dict[str, Any]:
    """Answers of twenty minutes with the channel."""
    from thermsim.network.checks import CHECKS
    from thermsim.scenario.load import load_text
    from thermsim.simulation import simulate

    text = CHANNEL.format(gap=gap, kW=kW, wall=wall, above=above)
    return dict(simulate(load_text(text, (), checks=CHECKS)).summary)


def shares(gaps: tuple[float, ...], **given: Any) -> list[float]:
    """Share of the fire's heat that gets into the water, by gap."""
    return [channel(gap, **given)["water_heat_share"] for gap in gaps]


def narrowest(gaps: tuple[float, ...], **given: Any) -> float:
    """Narrowest of some gaps [mm] that lets the fire have air enough."""
    return next(gap for gap in gaps if (channel(gap, **given)["air_ratio_mean"] or 0) > ENOUGH_AIR)


def test_a_wider_channel_takes_less(reference_table: Callable[[str], list[dict[str, str]]]) -> None:
    """Direction and size of Baldwin's 46 % at 8 mm and 26 % at 10 mm (from memory).

    With a lagged wall 36 and 28 %: the fall is there, less steep. 6 mm gives 49 %, where later
    tests (D15, second-hand) have 48 to 50 %.
    """
    assert {"D15", "D20"} <= {row["id"] for row in reference_table("stoves")}
    by_gap = shares((6, 8, 10, 12), wall=LAGGED)
    assert by_gap == sorted(by_gap, reverse=True)
    assert by_gap[0] == pytest.approx(0.49, abs=0.05)
    assert by_gap[2] / by_gap[1] < 0.8


def test_a_bare_stove_as_small_as_published_ones(
    reference_table: Callable[[str], list[dict[str, str]]]
) -> None:
    """Two stoves of the Water Boiling Test have 19 and 28 %; bare, at 8 to 10 mm, 27 to 21 %."""
    row = next(row for row in reference_table("stoves") if row["id"] == "T04")
    assert row["value"] == "36 min/19 %; 20 min/28 %"
    assert 0.19 < shares((10,))[0] < 0.28
    assert 0.19 < shares((8,))[0] < 0.30


def test_a_stronger_fire_needs_a_wider_gap() -> None:
    """A third wider for twice the fire: an open channel has 0.1 Pa to spend."""
    gaps = (5, 6, 7, 8, 9, 10, 12)
    assert narrowest(gaps) == 6
    assert narrowest(gaps, kW=9.0) in (8, 9)
    assert channel(8)["draught_peak_Pa"] < 0.3


def test_draught_narrows_it() -> None:
    """A chimney on the channel draws through 5 mm over three times what the open one can.

    At 3 mm it never gets warm enough to draw.
    """
    stack = channel(5, above=STACK)
    assert stack["air_ratio_mean"] > 3.0 * channel(5)["air_ratio_mean"]
    assert channel(3, above=STACK)["air_ratio_mean"] is None


def boil(fired: Fired, gap: float, *changes: str) -> float:
    """Time to boil [s] of the cold start at a gap."""
    found = fired("cold_start", f"drum.gap = {gap} mm", *changes).summary["time_to_boil_s"]
    return float("inf") if found is None else float(found)


def test_baffles_are_why_our_gap_is_wide(fired: Fired) -> None:
    """Our own plant without its baffles has its best gap where the advice has it, at 8 mm.

    Fire, drum and chimney stay; 0.45 m of a section of pi D gap in place of 1.7 m of 2 x gap x
    spacing. Laminar flow in slots, m ~ A gap^2/L, needs 2.5 times the gap for that, turns not
    counted.
    """
    with_baffles = {gap: boil(fired, gap) for gap in (15, 30, 60)}
    without = {gap: boil(fired, gap, NO_BAFFLES) for gap in (6, 8, 12)}
    assert min(with_baffles, key=with_baffles.__getitem__) == 30
    assert min(without, key=without.__getitem__) == 8
    assert without[8] < with_baffles[30]


def page_row(name: str) -> list[float]:
    """Numbers of a row of the page's tables of gaps; 'never' is infinite."""
    lines = (PAGE.read_text(encoding="utf-8")).splitlines()
    cells = next(line for line in lines if line.startswith(f"| {name} |")).split("|")[2:-1]
    return [float(cell.strip().replace("never", "inf")) for cell in cells]


@pytest.mark.slow
@pytest.mark.parametrize(("name", "key", "scale", "given"), [
    ("1 mm of steel, %", "water_heat_share", 100.0, {}),
    ("with 10 mm of blanket, %", "water_heat_share", 100.0, {"wall": LAGGED}),
    ("air ratio, with the blanket", "air_ratio_mean", 1.0, {"wall": LAGGED}),
    ("air ratio at 9 kW, steel", "air_ratio_mean", 1.0, {"kW": 9.0}),
])
def test_the_page_of_the_channel(name: str, key: str, scale: float, given: dict[str, Any]) -> None:
    """The page's table of the short channel."""
    found = [scale * channel(gap, **given)[key] for gap in (5, 6, 7, 8, 9, 10, 12, 15)]
    assert page_row(name) == pytest.approx(found, abs=0.006 * scale if scale > 1 else 0.06)


@pytest.mark.slow
@pytest.mark.parametrize(("name", "changes"), [("baffled, as shipped", ()),
                                               ("without baffles", (NO_BAFFLES,))])
def test_the_page_of_the_raiser(fired: Fired, name: str, changes: tuple[str, ...]) -> None:
    """The page's minutes to boil by gap."""
    found = [boil(fired, gap, *changes) / 60.0 for gap in (6, 8, 10, 12, 15, 22, 31, 45, 65)]
    assert page_row(name) == pytest.approx(found, rel=0.01)
