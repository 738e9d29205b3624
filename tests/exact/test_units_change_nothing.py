"""The same plant written in inches, Fahrenheit, pounds and psi gives the same answers.

1 in = 25.4 mm, 1 lb = 0.45359237 kg exactly (NIST SP 811); every number here is exact in both.
"""

from __future__ import annotations

from typing import Any

import pytest

METRIC = """
thermsim: 1
title: one plant, two ways to write it
day:
  air: 10 C
  pressure: {pressure}
  humidity: 60 %
  wind: 0.9 m/s
wood:
  thickness: 25.4 mm
  length: 304.8 mm
  moisture: 20 %
fire:
  kind: sticks
  kindling: 0.150 kg
firebox:
  width: 254 mm
  depth: 304.8 mm
  height: 355.6 mm
  grate: 152.4 mm
  wall:
    - material: mild steel
      thickness: 3.175 mm
    - material: own wool
      thickness: 25.4 mm
materials:
  own wool:
    conductivity: 0.06 W/(m K)
    density: 100 kg/m3
    heat_capacity: 0.9 kJ/(kg K)
openings:
  ash_door:
    width: 101.6 mm
    height: 50.8 mm
    sill: 25.4 mm
    below_grate: yes
  feed:
    width: 101.6 mm
    height: 101.6 mm
    sill: 863.6 mm
    faces: up
    column: 355.6 mm
gas_path:
  - name: drum_pass
    kind: round the drum
  - name: chimney
    kind: chimney
    diameter: 127 mm
    length: 2540 mm
drum:
  diameter: 254 mm
  length: 457.2 mm
  plate: 6.35 mm
  water: 10 l
  water_temperature: 15 C
  gap: 25.4 mm
  baffle_spacing: 114.3 mm
  casing:
    - material: mild steel
      thickness: 1.5875 mm
    - material: blanket
      thickness: 25.4 mm
firing:
  - at: 0 s
    do: add 0.45359237 kg
  - at: 0 s
    do: light the fire
  - when: flue above 120 C
    do: shut ash_door
outputs:
  until: 20 min
  every: 10 s
"""
WORDS = (
    ("air: 10 C", "air: 50 F"), ("wind: 0.9 m/s", "wind: 3.24 km/h"),
    ("moisture: 20 %", "moisture: 0.2"), ("kindling: 0.150 kg", "kindling: 150 g"),
    ("25.4 mm", "1 in"), ("304.8 mm", "12 in"), ("254 mm", "10 in"), ("355.6 mm", "14 in"),
    ("152.4 mm", "6 in"), ("3.175 mm", "1/8 in"), ("101.6 mm", "4 in"), ("50.8 mm", "2 in"),
    ("863.6 mm", "34 in"), ("127 mm", "5 in"), ("2540 mm", "100 in"), ("457.2 mm", "18 in"),
    ("6.35 mm", "1/4 in"), ("114.3 mm", "4 1/2 in"), ("1.5875 mm", "1/16 in"),
    ("water: 10 l", "water: 0.01 m3"), ("water_temperature: 15 C", "water_temperature: 59 F"),
    ("0.06 W/(m K)", "60 mW/(m K)"), ("0.9 kJ/(kg K)", "900 J/(kg K)"),
    ("0.45359237 kg", "1 lb"), ("120 C", "248 F"), ("20 min", "1200 s"),
)
"""Metric and other writing, longest lengths replaced as whole words."""
LEAST = {"_C": 1.0, "_W": 1000.0, "_g_per_s": 0.1, "_kg_per_h": 1.0, "wetness_fraction": 1e-3}
"""ranges under which a column counts as nothing, by unit"""


def rewritten(text: str) -> str:
    """The text in the other units."""
    for metric, other in sorted(WORDS, key=lambda pair: -len(pair[0])):
        assert metric in text, metric
        text = text.replace(f" {metric}\n", f" {other}\n").replace(f"\n  {metric}", f"\n  {other}")
    return text


def answers(text: str) -> Any:
    """Scenario and result of a text, solved so tightly that rounding in the input does not show."""
    from thermsim.network.checks import CHECKS
    from thermsim.scenario.load import load_text
    from thermsim.simulation import simulate
    from thermsim.solver import Settings

    return simulate(load_text(text, checks=CHECKS), Settings(tighten=100.0))


@pytest.fixture(scope="module")
def both() -> tuple[Any, Any]:
    """Results of the metric text and of the other; 14.5 psi = 14.5 x 4.4482216152605 N/(1 in)^2."""
    pascals = 14.5 * 4.4482216152605 / 0.0254**2
    other = rewritten(METRIC.format(pressure="14.5 psi(a)"))
    assert other.count(" mm") == 0
    return answers(METRIC.format(pressure=f"{pascals / 100:.12f} hPa")), answers(other)


def test_inch_fahrenheit_pound_and_psi(both: tuple[Any, Any]) -> None:
    """Every column of the series and the answers, to 1e-4 of its range."""
    metric, other = both
    for column in metric.series:
        least = next((v for unit, v in LEAST.items() if column.endswith(unit)), 1e-6)
        scale = max(float(metric.series[column].abs().max()), least)
        apart = (other.series[column] - metric.series[column]).abs().max()
        assert not apart > 1e-4 * scale, f"{column}: {apart} of {scale}"
    for key in ("smoke_from_openings_g", "heat_released_J", "draught_established_s"):
        # moments hang on rules, which act to 0.1 s
        allowed = pytest.approx(metric.summary[key], abs=0.1 if key.endswith("_s") else 0.0,
                                rel=1e-5)
        assert other.summary[key] == allowed, key


def test_the_hash_is_that_of_the_content(both: tuple[Any, Any]) -> None:
    """Whatever units it is written in, charges and rules included."""
    metric, other = both
    assert other.scenario.hash == metric.scenario.hash
