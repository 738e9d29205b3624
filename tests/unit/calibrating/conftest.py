"""A calibration written for a test, beside a short given fire that solves in a blink."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

SHORT = """\
starts_from: {base}
title: Twenty minutes of a given fire, invented
outputs:
  until: 20 min
  every: 10 s
"""
SECOND = """\
starts_from: short.yaml
title: The same on a colder day, invented
day:
  air: 2 C
"""
READINGS = """\
time,spot,quantity,reading,unit,note,instrument
6 min,water,temperature,{0},C,invented
12 min,water,temperature,{1},C,
18 min,water,temperature,{2},C,
8 min,flue,temperature,{3},C,
16 min,flue,temperature,{4},C,
14 min,firebox side,temperature,{5},C,,thermocouple
"""
CALIBRATION = """\
thermsim: 1
title: Trial, invented
scenario: short.yaml
readings:
  - file: readings.csv
guesses:
  - field: drum.water
    from: 6 l
    to: 16 l
    prior: 10 l +- 3 l
  - field: firebox.emissivity
    from: 40 %
    to: 100 %
starts: 1
"""
SPOTS = ("water", "water", "water", "flue", "flue", "firebox_sides_outside")
TIMES = (360.0, 720.0, 1080.0, 480.0, 960.0, 840.0)
TRUTH = ("drum.water = 8 l", "firebox.emissivity = 85 %")


def _read(folder: Path, name: str, scenario: str, truth: tuple[str, ...]) -> None:
    """A file of readings without error, from a firing of the truth."""
    from thermsim.loading import load_scenario
    from thermsim.simulation import simulate

    series = simulate(load_scenario(folder / scenario, truth)).series.set_index("time_s")
    read = [float(series.loc[time, f"temperature_{spot}_C"])
            for time, spot in zip(TIMES, SPOTS, strict=True)]
    (folder / name).write_text(READINGS.format(*read))


@pytest.fixture
def write_calibration(tmp_path: Path, scenarios: Path) -> Callable[..., Path]:
    """`write_calibration(text)`: with short.yaml, second.yaml and readings of TRUTH beside it.

    second: what the second firing is read from, if it is another truth.
    """
    (tmp_path / "short.yaml").write_text(SHORT.format(base=scenarios / "given_fire.yaml"))
    (tmp_path / "second.yaml").write_text(SECOND)
    _read(tmp_path, "readings.csv", "short.yaml", TRUTH)
    _read(tmp_path, "second.csv", "second.yaml", TRUTH)

    def write(text: str = CALIBRATION, second: tuple[str, ...] = ()) -> Path:
        place = tmp_path / "calibrate.yaml"
        place.write_text(text)
        if second:
            _read(tmp_path, "second.csv", "second.yaml", second)
        return place

    return write
