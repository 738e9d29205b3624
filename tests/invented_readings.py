"""Makes the invented readings in scenarios/: run by hand, `python tests/invented_readings.py`.

A plant a little other than the scenario says is fired; what instruments would have shown there is
computed, with their errors. The file holds what a builder would have written down.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from pathlib import Path

import numpy as np

from thermsim.loading import load_scenario
from thermsim.network.sizes import air_pressure
from thermsim.physics.infrared import share_on_strip, shown_temperature
from thermsim.readings.columns import NAMES
from thermsim.readings.file import MORE
from thermsim.readings.instruments import standard
from thermsim.readings.known import Known
from thermsim.readings.spots import column_of
from thermsim.readings.targets import target_size
from thermsim.simulation import simulate

FOLDER = Path(__file__).parents[1] / "scenarios"
TRUTH = ("wood.moisture = 24 %", "drum.gap = 28 mm", "drum.baffle_fit = 3 mm",
         "firebox.emissivity = 84 %", "drum.casing_emissivity = 77 %",
         "gas_path.chimney_lower.emissivity = 83 %", "gas_path.stub.emissivity = 83 %",
         "gas_path.chimney_upper.extra_loss = 0.4")
"""the plant as it 'is': wetter wood, a wider gap, looser baffles, another finish, a cowl"""
BARE_CASING = ("drum.casing.blanket = none", "wood.moisture = 30 %", "day.air = 16 C")
"""the first of three firings in scenarios/firing_log.csv, before the blanket came round the casing,
with wetter wood on a warmer day; the log tells wood and day with a doubt, and a little otherwise"""
ZERO_C, SET, PASCAL_A_MM = 273.15, 0.95, 9.80665
BARE = 0.015
"""how far a bare junction in the flue reads low, of the gas's warmth over the air"""
WATCH_S = 4.0
"""how far the watch was read from the moment of the reading [s]"""
WALKS = {
    "firebox side": (6, 13, 21, 29, 38, 46),
    "casing at 50 mm top": (7, 14, 22, 30, 39, 47),
    "casing at 400 mm top": (7.5, 14.5, 22.5, 30.5, 39.5, 47.5),
    "casing at 50 mm bottom": (15, 23, 40),
    "stub": (9, 16.5, 24, 32, 41),
    "chimney_lower at 0.3 m": (9.5, 17, 24.5, 32.5, 41.5),
}
"""where the infrared thermometer is pointed, minutes from lighting"""
DISTANCE = {"stub": "0.6 m", "chimney_lower at 0.3 m": "1 m"}
LOOKS = {"casing at 50 mm top": ("matt black paint", 0.97)}
"""painted patches: finish written down, emissivity as it is"""
SPOT_RATIO = 12.0
SLIP_S = 2400.0
"""the first reading of the stub after this is written with its last two figures turned about"""


class Shed:
    """A firing to be read, and the chance of its instruments."""

    def __init__(self, name: str, seed: int, changes: tuple[str, ...] = ()) -> None:
        scenario = load_scenario(FOLDER / f"{name}.yaml", (*TRUTH, *changes))
        self.result = simulate(scenario)
        self.known = Known.of(self.result)
        self.chance = np.random.default_rng(seed)
        self.air = float(scenario.tree.day.air) - ZERO_C
        self.end = float(self.result.series["time_s"].iloc[-1])

    def at(self, column: str, seconds: float) -> float:
        """A column at a moment."""
        series = self.result.series
        return float(np.interp(seconds, series["time_s"], series[column]))

    def error(self, size: float) -> float:
        """An error of a standard uncertainty."""
        return float(self.chance.normal(0.0, size))

    def when(self, event: str, note: str = "") -> float:
        """When an event first came."""
        rows = self.result.events
        found = rows[(rows["event"] == event) & rows["note"].str.contains(note)
                     | rows["where"].str.contains(event)]
        return float(found["time_s"].iloc[0])


def clock(seconds: float) -> str:
    """Minutes and seconds as written down, to five seconds."""
    whole = 5 * round(seconds / 5.0)
    return f"{whole // 60} min {whole % 60} s" if whole % 60 else f"{whole // 60} min"


def infrared(shed: Shed) -> Iterator[tuple[float, dict[str, str]]]:
    """The walks round the stove."""
    emissivities = {"firebox": 0.84, "casing": 0.77, "stub": 0.83, "chimney": 0.83}
    for spot, minutes in WALKS.items():
        column = column_of(spot, shed.known)
        finish, true = LOOKS.get(spot, ("", emissivities[spot.split("_")[0].split(" ")[0]]))
        metres = float(DISTANCE.get(spot, "0.4 m").split()[0])
        share = share_on_strip(target_size(column, shed.known) or 1.0, metres / SPOT_RATIO)
        for minute in minutes:
            if 60.0 * minute > shed.end:
                continue
            T = shed.at(column, 60.0 * minute + shed.error(WATCH_S))
            shown = float(shown_temperature(T + ZERO_C, true, shed.air + ZERO_C, SET,
                                            shed.air + ZERO_C, share)) - ZERO_C
            shown += shed.error(standard("infrared", shown))
            yield 60.0 * minute, {"spot": spot, "quantity": "temperature",
                                  "reading": f"{shown:.0f}", "unit": "C",
                                  "instrument": "infrared", "emissivity_set": "0.95",
                                  "emissivity": finish, "spot_size": "12:1",
                                  "distance": DISTANCE.get(spot, "0.4 m")}


def others(shed: Shed) -> Iterator[tuple[float, dict[str, str]]]:
    """Thermocouple, water gauge, smoke match, marks."""
    for spot, minutes in (("flue", (3, 8, 19, 27, 36, 44)), ("water", (10, 20))):
        for minute in minutes:
            T = shed.at(f"temperature_{spot}_C", 60.0 * minute + shed.error(WATCH_S))
            if spot == "flue":
                T -= BARE * (T - shed.air)
            T += shed.error(standard("thermocouple", T))
            yield 60.0 * minute, {"spot": spot, "quantity": "temperature", "reading": f"{T:.0f}",
                                  "unit": "C", "instrument": "thermocouple"}
    for minute in (5, 12, 26, 42):
        pull = shed.at("draught_at_chimney_foot_Pa", 60.0 * minute)
        along = 10.0 * pull / PASCAL_A_MM + shed.error(0.3)
        yield 60.0 * minute, {"spot": "chimney foot", "quantity": "draught",
                              "reading": f"{along:.1f}", "unit": "mm",
                              "instrument": "water gauge 1:10"}
    for minute, opening, told in ((1.5, "feed", ""), (5.5, "feed", ""), (20, "feed", ""),
                                  (20.5, "ash_door", "unsure")):
        way = "in" if shed.at(f"flow_{opening}_g_per_s", 60.0 * minute) > 0.0 else "out"
        yield 60.0 * minute, {"spot": opening, "quantity": "smoke", "reading": told or way}
    for minute, spot, limit, words in ((25, "firebox side", 75, "melted"),
                                       (25, "stub", 150, "melted"),
                                       (44, "chimney_upper at 1 m", 225, "browned")):
        column = column_of(spot, shed.known)
        T = max(shed.at(column, 60.0 * k) for k in range(minute + 1))
        yield 60.0 * minute, {"spot": spot, "quantity": words if limit <= T else f"not {words}",
                              "reading": f"{limit}", "unit": "C"}
    yield 29.5 * 60.0, {"spot": "firebox side", "quantity": "not glowing", "reading": "",
                        "note": "looked in the dark"}


def events_and_masses(shed: Shed) -> Iterator[tuple[float, dict[str, str]]]:
    """Stopwatch, bucket, scale, dipstick."""
    seen = {"shut ash_door": (shed.when("shut ash_door"), 2.0),
            "draught turned": (shed.when("flow turned", "inward"), 5.0),
            "boiling": (shed.when("boiling"), 12.0)}
    for event, (moment, doubt) in seen.items():
        yield moment + shed.error(doubt), {
            "spot": {"boiling": "drum", "draught turned": "feed"}.get(event, ""),
            "quantity": "event", "reading": event, "instrument": "stopwatch"}
    first, last = (60.0 * round((shed.end / 60.0) - k) for k in (9.0, 2.0))
    series = shed.result.series
    inside = series[(series["time_s"] >= first) & (series["time_s"] <= last)]
    caught = float(inside["steam_kg_per_h"].mean()) * (last - first) / 3.6
    yield last, {"time": f"{clock(first)} to {clock(last)}", "spot": "bucket", "quantity": "mass",
                 "reading": f"{0.97 * caught + shed.error(10.0):.0f}", "unit": "g"}
    words = shed.result.events["where"].str.extract(r"add ([\d.]+) kg")[0].dropna()
    fed = 1e3 * words.astype(float).sum() + shed.error(15.0)
    yield shed.end, {"spot": "wood fed", "quantity": "mass", "reading": f"{fed:.0f}", "unit": "g",
                     "note": "what is gone from the pile"}
    ash = 1e3 * shed.at("ash_kg", shed.end) + shed.error(3.0)
    yield shed.end, {"spot": "ash", "quantity": "mass", "reading": f"{ash:.0f}", "unit": "g",
                     "uncertainty": "5"}
    yield shed.end, {"spot": "gauge glass", "quantity": "water level", "unit": "%",
                     "reading": f"{100 * shed.at('water_level_fraction', shed.end):.0f}"}
    over = (shed.at("drum_pressure_Pa", shed.end) - air_pressure(shed.known.tree)) / 1e5
    yield shed.end, {"spot": "drum", "quantity": "pressure", "reading": f"{over:.2f}",
                     "unit": "bar(g)", "instrument": "pressure gauge 4 bar(g)"}


def written(title: str, shed: Shed, slip: bool) -> str:
    """The text of the file; slip: one reading written with its figures turned about."""
    rows = sorted([*infrared(shed), *others(shed), *events_and_masses(shed)],
                  key=lambda row: row[0])
    columns = [*NAMES, *(column.name for column in MORE)]
    text = io.StringIO()
    text.write(f"# {title}: invented, made by tests/invented_readings.py from a plant\n"
               "# a little other than the scenario says, with errors of the instruments.\n")
    if slip:
        text.write("# One reading is a slip on purpose: its last two figures are turned about.\n")
    writer = csv.DictWriter(text, columns, restval="", lineterminator="\n")
    writer.writeheader()
    turned = not slip
    for seconds, row in rows:
        if not turned and row["spot"] == "stub" and seconds > SLIP_S:
            figures = row["reading"]
            row["reading"] = figures[:-2] + figures[-1] + figures[-2]
            turned = True
        writer.writerow({"time": clock(seconds), **row})
    return text.getvalue()


FILES: tuple[tuple[str, str, str, int, bool, tuple[str, ...]], ...] = (
    ("shed_readings", "cold_start", "Readings of a first firing", 11, True, ()),
    ("shed_readings_second", "shed_second_firing", "Readings of a second firing", 23, False, ()),
    ("shed_readings_bare", "cold_start", "Readings of a firing with the casing bare", 37, False,
     BARE_CASING),
)
"""file, scenario, title, seed, whether it holds a slip, changes over TRUTH"""


def main() -> None:
    """Write all files."""
    for file, name, title, seed, slip, changes in FILES:
        text = written(title, Shed(name, seed, changes), slip)
        (FOLDER / f"{file}.csv").write_text(text, "utf-8")


if __name__ == "__main__":
    main()
