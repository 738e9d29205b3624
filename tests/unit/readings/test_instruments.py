"""Uncertainties where a file does not say, and those it says."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from thermsim.readings.finishes import FINISHES, emissivity_of
from thermsim.readings.instruments import standard
from thermsim.readings.reading import Reading, total

One = Callable[[str], Reading]
ROOT_3 = math.sqrt(3.0)


def test_thermocouple_by_its_standard() -> None:
    """IEC 60584-1 class 2, type K: 2.5 K to 333 C, 0.0075 t above; limits over root three."""
    assert standard("thermocouple", 100.0) * ROOT_3 == pytest.approx(2.5)
    assert standard("thermocouple", 1000.0) * ROOT_3 == pytest.approx(7.5)


@pytest.mark.parametrize(("line", "size"), [
    ("5 min,drum,pressure,2,bar(g),,pressure gauge 10 bar(g)", 0.25 / ROOT_3),
    ("5 min,drum,pressure,2,bar(g),,pressure gauge 0 to 4 bar(g)", 0.1 / ROOT_3),
    ("5 min,drum,pressure,2 +- 0.05,bar(g),", 0.05),
    ("5 min,drum,pressure,2,bar(g),,,,,,,,0.05", 0.05),
    ("5 min,drum,pressure,2,bar(g),,,,,,,,3 %", 0.06),
    ("5 min,drum,pressure,2,bar(g),,,,,,,,5 kPa", 0.05),
    ("5 min,water temperature,temperature,50,C,,,,,,,,2", None),
    ("5 min,water,temperature,122,F,,,,,,,,9", 5.0),
    ("5 min,water,temperature,50,C,,,,,,,,2", 2.0),
    ("5 min,water,temperature,50,C,,,,,,,,2 C", 2.0),
    ("5 min,water,temperature,50 +- 2,C,", 2.0),
    ("5 min,chimney foot,draught,10,mm,,water gauge 1:10", 0.05 * 9.80665 / ROOT_3),
    ("5 min,chimney foot,draught,10,Pa,,,,,,,,1", 1.0),
    ("5 to 6 min,bucket,mass,1000,g,", 50.0 / ROOT_3),
    ("5 min,drum,water level,45,%,,,,,,,,3 %", 3.0),
    ("31 min,drum,event,boiling,,,,,,,,,30 s", 30.0),
    ("5 min,stub,melted,150,C,", 3.0 / ROOT_3),
    ("5 min,stub,melted,500,C,", 5.0 / ROOT_3),
    # 0.1 m/s of air of 1.2 kg/m3 through 110 mm by 110 mm
    ("5 min,feed,smoke,in,,", 1.452 / ROOT_3),
])
def test_sizes(line: str, size: float | None, one: One) -> None:
    if size is None:
        from thermsim.errors import ScenarioError

        with pytest.raises(ScenarioError, match="resolves no spot"):
            one(line)
        return
    assert one(line).uncertainty == pytest.approx(size, rel=1e-6)


def test_bare_junction_in_gas_adds(one: One) -> None:
    reading = one("5 min,flue,temperature,312,C,")
    assert reading.parts["bare junction"] == pytest.approx(0.05 * 300.0 / ROOT_3)
    assert reading.uncertainty == pytest.approx(total(reading.parts))


def test_dipstick_by_the_segment(one: One) -> None:
    """Near half full the share grows by 4/(pi D) for each length: 242 mm inside, ends flat."""
    reading = one("5 min,drum,water level,121,mm,,,,,,,,3 mm")
    assert reading.uncertainty == pytest.approx(100.0 * 4.0 / math.pi / 242.0 * 3.0, rel=1e-3)


def test_finishes_lie_within_the_tables(
        reference_table: Callable[[str], list[dict[str, str]]]) -> None:
    """Ranges as printed by the makers of thermographs, rows I04 to I10."""
    rows = {row["id"]: row["quantity"] + " " + row["value"]
            for row in reference_table("infrared_words")}
    printed = {"oxidised": ("I04", 0.74, 0.88), "strongly oxidised": ("I04", 0.88, 0.98),
               "rusty": ("I05", 0.5, 0.85), "galvanised": ("I06", 0.07, 0.23),
               "old galvanised": ("I06", 0.28, 0.85), "polished copper": ("I08", 0.02, 0.05),
               "oxidised copper": ("I08", 0.4, 0.8), "black copper": ("I08", 0.78, 0.88),
               "matt black paint": ("I10", 0.96, 0.98), "fire brick": ("I10", 0.59, 0.75)}
    for name, (row, low, high) in printed.items():
        assert FINISHES[name] == (low, high)
        assert f"{low:g}" in rows[row]
        assert f"{high:g}" in rows[row]
    single = {"heavily rusted": ("I05", 0.96), "bright": ("I07", 0.09),
              "black paint": ("I10", 0.92), "fired clay": ("I10", 0.91),
              "red brick": ("I10", 0.93)}
    for name, (row, value) in single.items():
        assert FINISHES[name][0] < value < FINISHES[name][1]
        assert f"{value:g}" in rows[row]
    assert set(FINISHES) == {*printed, *single, "unknown"}
    assert emissivity_of("matt black paint").uncertainty == pytest.approx(0.01 / ROOT_3)
