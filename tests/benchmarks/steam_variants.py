"""Random variants of the steam plant: valves, pressures, levels, feeds, engines, tubes.

Run by hand: `python tests/benchmarks/steam_variants.py [--count 300] [--seed 1] [--out FILE.csv]`.
Each starts from `scenarios/steam_to_engine.yaml`: valve bores, set pressure, water down to a dry
drum, every kind of feed or none, engines of 60 to 2000 turns a minute, up to three tubes in any
place, line bare or lagged or none. Variants that the loader refuses are drawn again. A plant that
bursts its safety valve's rating or runs dry is a result; a failed solve is a fault.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import yaml

sys.path.insert(0, str(Path(__file__).parent))
from variants import table, tell

from thermsim.errors import ScenarioError
from thermsim.scenario.loaded import Scenario
from thermsim.simulation import load_scenario

BASE = Path(__file__).parents[2] / "scenarios" / "steam_to_engine.yaml"
PLACES = ("firebox crown", "over the grate", "behind the drum", "stub", "chimney_lower",
          "chimney_upper")


def draw(random: np.random.Generator) -> dict[str, Any]:
    """One variant as what a file would say."""

    def between(low: float, high: float) -> float:
        return float(np.exp(random.uniform(np.log(low), np.log(high))))

    def one_of(*choices: Any) -> Any:
        return choices[int(random.integers(len(choices)))]

    drum: dict[str, Any] = {
        "water": f"{between(0.3, 19.0):.2f} l", "vent": f"{between(3, 25):.1f} mm",
        "ends": one_of("flat", "dished"), "lies": one_of(True, True, False),
        "stop_valve": {"bore": f"{between(2, 20):.1f} mm", "shape": one_of("globe", "ball")},
        "safety_valve": {"set": f"{between(0.3, 8.0):.2f} bar(g)",
                         "bore": f"{between(3, 20):.1f} mm", "lift": one_of("low", "high")},
    }
    if random.random() < 0.3:
        drum["wetness"] = f"{random.uniform(0.0, 15.0):.1f} %"
    exhaust = one_of("open air", "open air", "feed coil", "chimney")
    engine = {"bore": f"{between(15, 70):.0f} mm", "stroke": f"{between(15, 90):.0f} mm",
              "speed": f"{between(60, 2000):.0f} 1/min",
              "cut_off": f"{random.uniform(10, 90):.0f} %", "exhaust": exhaust}
    if random.random() < 0.3:
        engine["condensation"] = f"{random.uniform(0.0, 50.0):.0f} %"
    if exhaust == "chimney":
        engine["nozzle"] = f"{between(3, 25):.1f} mm"
    tubes = [_tube(f"tube_{i + 1}", one_of(*PLACES), one_of("drier", "superheater", "feed coil"),
                   between, one_of) for i in range(int(random.integers(0, 4)))]
    if exhaust == "feed coil":
        tubes.append(_tube("heater", "exhaust", "feed coil", between, one_of))
    made: dict[str, Any] = {"starts_from": str(BASE), "drum": drum, "engine": engine,
                            "tubes": tubes, "feed": _feed(between, one_of)}
    if random.random() < 0.7:
        made["steam_line"] = {"bore": f"{between(5, 30):.0f} mm",
                              "length": f"{between(0.2, 15):.1f} m",
                              "lagging": one_of("0 mm", "20 mm", "40 mm"),
                              "drain": one_of("0 %", "100 %")}
    else:
        made["steam_line"] = None
    made["firing"] = _firing(made, between, one_of)
    return made


def _tube(name: str, place: str, duty: str, between: Any, one_of: Any) -> dict[str, Any]:
    shape = one_of("straight", "looped", "helical")
    made = {"name": name, "in": place, "duty": duty, "shape": shape,
            "bore": f"{between(5, 20):.1f} mm", "lies": one_of("across", "across", "along"),
            "length": f"{between(0.08, 0.3 if shape == 'straight' else 4.0):.2f} m",
            "runs": one_of("with the gas", "against the gas")}
    if shape == "looped":
        made["bends"] = int(one_of(1, 2, 5, 9, 15))
    if shape == "helical":
        made["coil_diameter"] = f"{between(50, 220):.0f} mm"
    return made


def _feed(between: Any, one_of: Any) -> dict[str, Any] | None:
    kind = one_of("hand pump", "hand pump", "float tank", "mains", "engine pump", None)
    if kind is None:
        return None
    pump = {"bore": f"{between(6, 25):.0f} mm", "stroke": f"{between(15, 80):.0f} mm"}
    return {"pump": {
        "hand pump": {"kind": kind, **pump, "holds": "30 l"},
        "engine pump": {"kind": kind, **pump, "strokes_a_turn": float(one_of(0.05, 0.2, 1))},
        "float tank": {"kind": kind, "height": f"{between(0.5, 25):.1f} m", "mark": "120 mm",
                       "check_valve": one_of(True, False)},
        "mains": {"kind": kind, "pressure": f"{between(0.5, 6):.1f} bar(g)",
                  "flow_open": f"{between(1, 15):.1f} l/min", "mark": "120 mm"},
    }[kind]}


def _firing(made: dict[str, Any], between: Any, one_of: Any) -> list[dict[str, Any]]:
    share = between(0.1, 0.9)
    opens = float(made["drum"]["safety_valve"]["set"].split()[0]) * share
    firing: list[dict[str, Any]] = [
        {"at": "0 s", "do": "add 0.8 kg"}, {"at": "0 s", "do": "light the fire"},
        {"when": "flue above 80 C", "do": "shut ash_door"},
        {"when": "wood below 0.3 kg", "do": "add 0.6 kg", "again": True},
        {"when": "2 min after boiling", "do": "shut vent"},
        {"when": f"pressure above {opens:.3f} bar(g)", "do": ["open stop_valve",
                                                              "start the engine"]},
    ]
    if made["feed"] and made["feed"]["pump"]["kind"] == "hand pump":
        firing.append({"when": f"level below {between(3, 50):.0f} %", "do": "20 strokes of pump",
                       "again": True})
    if one_of(True, False):
        firing.append({"at": "55 min", "do": "stop the engine"})
    if one_of(True, False, False):
        firing.append({"at": "60 min", "do": "shut stop_valve"})
    return firing


def accepted(count: int, seed: int, folder: Path) -> Iterator[tuple[str, Scenario]]:
    """Variants that the loader accepts, as text and loaded."""
    random = np.random.default_rng(seed)
    found = refused = 0
    while found < count:
        text = yaml.safe_dump(draw(random), sort_keys=False)
        path = folder / f"variant_{found}.yaml"
        path.write_text(text, encoding="utf-8")
        try:
            scenario = load_scenario(path)
        except ScenarioError as error:
            refused += 1
            if refused > 50 * count:
                raise RuntimeError("the loader refuses nearly all variants") from error
            continue
        found += 1
        yield text, scenario


def main() -> None:
    """Command line."""
    parser = argparse.ArgumentParser(description=str(__doc__).splitlines()[0])
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--processes", type=int, default=2)
    parser.add_argument("--out", type=Path)
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        drawn = list(accepted(given.count, given.seed, Path(folder)))
        rows = table([scenario for _, scenario in drawn], [text for text, _ in drawn],
                     given.processes)
    tell(rows)
    if given.out:
        rows.to_csv(given.out)


if __name__ == "__main__":
    main()
