"""Trade sizes against a reference library's tables and published weights; what is refused."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from fluids.piping import nearest_pipe, t_from_gauge
from shipped import FOLDER

from thermsim.errors import QuantityError, ScenarioError
from thermsim.loading import load_scenario
from thermsim.network.sizes import drum_volume
from thermsim.trade_sizes import ASME_B36_10, EN_10255, GAUGES, INCHES_OF_DN
from thermsim.trade_words import FILL, INSIDE, OUTSIDE, WALL, read_trade

OUNCES = {3: 160, 4: 150, 5: 140, 6: 130, 7: 120, 8: 110, 9: 100, 10: 90, 11: 80, 12: 70, 13: 60,
          14: 50, 15: 45, 16: 40, 17: 36, 18: 32, 19: 28, 20: 24, 21: 22, 22: 20, 23: 18, 24: 16,
          25: 14, 26: 12, 27: 11, 28: 10, 29: 9, 30: 8}  # fmt: skip
"""weight of a square foot of sheet by gauge [oz], Act of Congress of 3 March 1893"""
POUNDS_AN_INCH = 41.82
"""weight of a square foot an inch thick, Manufacturers' Standard Gauge"""


@pytest.mark.parametrize("size", ASME_B36_10)
@pytest.mark.parametrize("schedule", ["40", "80"])
def test_pipe_against_a_reference_library(size: str, schedule: str) -> None:
    inches = sum(Fraction(part) for part in size.split(" "))
    _, _, outside, wall = nearest_pipe(NPS=float(inches), schedule=schedule)
    entry = ASME_B36_10[size]
    assert float(entry.outside) == pytest.approx(1000.0 * outside, abs=0.11)
    assert float(entry.walls[schedule]) == pytest.approx(1000.0 * wall, abs=0.011)


@pytest.mark.parametrize("name", ["SWG", "BWG"])
def test_wire_gauges_against_a_reference_library(name: str) -> None:
    """All are given to 0.0001 in (2.5 um), in the library rounded to a micron. Its 28 SWG, 0.0149
    in, is not that of the Order in Council, 0.0148."""
    library = {"SWG": "BSWG", "BWG": "BWG"}[name]
    for number, thickness in GAUGES[name].items():
        if (name, number) != ("SWG", 28):
            assert float(thickness) == pytest.approx(
                t_from_gauge(number, SI=True, schedule=library), abs=0.6e-6), number


def test_sheet_gauge_is_its_weight() -> None:
    assert set(GAUGES["MSG"]) == set(OUNCES)
    for number, thickness in GAUGES["MSG"].items():
        inches = OUNCES[number] / 16.0 / POUNDS_AN_INCH
        assert float(thickness) / 0.0254 == pytest.approx(inches, abs=6e-5), number


def test_threaded_pipe_rises() -> None:
    """Every size is wider than the one before and its walls no thinner; heavy over medium. Up to
    DN 50 a size is close to the ASME one of the same thread."""
    outsides = [float(size.outside) for size in EN_10255.values()]
    assert outsides == sorted(set(outsides))
    for size in EN_10255.values():
        assert float(size.walls["medium"]) < float(size.walls["heavy"])
    for series in ("medium", "heavy"):
        walls = [float(size.walls[series]) for size in EN_10255.values()]
        assert walls == sorted(walls)
    for inches, number in INCHES_OF_DN.items():
        assert float(EN_10255[number].outside) == pytest.approx(
            float(ASME_B36_10[inches].outside), rel=0.05)


@pytest.mark.parametrize(("text", "measures", "mm"), [
    ("16 SWG", WALL, 1.6256), ("16 MSG", WALL, 1.51892), ("16 BWG", WALL, 1.651),
    ("DN 15 medium", INSIDE, 21.3 - 5.2), ("1/2 in pipe heavy", INSIDE, 21.3 - 6.4),
    ("1/2 in pipe medium", WALL, 2.6), ("1 1/4 inch pipe medium", OUTSIDE, 42.4),
    ("DN 150", OUTSIDE, 165.1), ("NPS 10", OUTSIDE, 273.0),
    ("NPS 1/2 schedule 40", INSIDE, 21.3 - 2 * 2.77), ("nps 2 sch 80", WALL, 5.54),
    ("girth 942 mm", OUTSIDE, 942.0 / math.pi),
])
def test_read(text: str, measures: str, mm: float) -> None:
    quantity = read_trade(text, measures)
    assert quantity is not None
    assert 1000.0 * quantity.value == pytest.approx(mm, rel=1e-12)


def test_girth_carries_its_doubt() -> None:
    quantity = read_trade("girth 942 mm +- 3 mm", OUTSIDE)
    assert quantity is not None
    assert quantity.high - quantity.low == pytest.approx(0.006 / math.pi)


@pytest.mark.parametrize(("text", "measures", "words"), [
    ("16 gauge", WALL, "16 MSG (1.52 mm"), ("16 ga", WALL, "16 SWG (1.63 mm"),
    ("DN 150", INSIDE, "DN 150 medium (medium 155.1 mm inside"), ("DN 130", OUTSIDE, "DN 6, 8"),
    ("girth 400 mm", INSIDE, "less two walls"), ("girth 400 mm", WALL, "outside diameter"),
    ("16 SWG", INSIDE, "is a thickness"), ("31 MSG", WALL, "3 to 30 MSG"),
    ("1/2 in pipe", INSIDE, "1/2 in pipe medium"), ("NPS 2 sch 20", INSIDE, "NPS 2 schedule 40"),
    ("DN 20 medium", FILL, "a length is wanted"), ("girth 5 kg", OUTSIDE, "is a mass"),
])
def test_what_may_mean_two_things_is_refused(text: str, measures: str, words: str) -> None:
    with pytest.raises(QuantityError) as raised:
        read_trade(text, measures)
    assert words in str(raised.value)


@pytest.mark.parametrize("text", ["250 mm", "1/2 in", "2 ft 6 in", "20 to 30 mm", "about 3 in"])
def test_ordinary_lengths_are_left_alone(text: str) -> None:
    for measures in (OUTSIDE, INSIDE, WALL, FILL):
        assert read_trade(text, measures) is None


def test_a_drum_told_by_girth_gauge_and_litres() -> None:
    """942 mm round: 299.85 mm; 8 SWG 4.064 mm; 30 l in it, by hand
    0.030/(pi/4 x 0.29172^2) + 2 x 0.004064 = 456.97 mm."""
    changes = ("drum.diameter = girth 942 mm", "drum.plate = 8 SWG", "drum.length = 30 l to fill")
    scenario = load_scenario(FOLDER / "cold_start.yaml", changes)
    drum = scenario.tree.drum
    assert drum.diameter == pytest.approx(0.942 / math.pi)
    assert drum.length == pytest.approx(0.030 / (math.pi / 4 * 0.291721**2) + 0.008128, rel=1e-5)
    assert drum_volume(drum) == pytest.approx(0.030)
    fact = scenario.fact("drum.length")
    assert fact is not None
    assert fact.text == "30 l to fill"
    assert load_scenario(FOLDER / "cold_start.yaml", changes).hash == scenario.hash


def test_litres_that_make_no_drum() -> None:
    for text, words in (("3000 l to fill", "above 4 m"), ("1 l to fill", "below 80 mm"),
                        ("20 mm to fill", "a volume")):
        with pytest.raises(ScenarioError, match=words):
            load_scenario(FOLDER / "cold_start.yaml", (f"drum.length = {text}",))
