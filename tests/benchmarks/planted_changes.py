"""Bands of two firings told apart, counted over planted changes: run by hand, a quarter of an hour.

    python tests/benchmarks/planted_changes.py FILE.csv [repeats]

Writes of every part how often what it truly did lay within what was told, over all events and
spots, and of boiling alone; apart for firings whose fit met its readings and those told not to. 19
of 20 are to be expected where the model is right but for what is doubted; here it is.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

import pandas as pd

HERE = Path(__file__).resolve()
sys.path.insert(0, str(HERE.parents[1]))

from planted_change import plant  # noqa: E402

from thermsim.readings.firing_log import load_log  # noqa: E402
from thermsim.two_firings.apart import DRAWS  # noqa: E402
from thermsim.two_firings.words import ODD  # noqa: E402

REPEATS, SMALL = 6, 0.02
"""firings planted; share of what was read under which a part is nothing to be counted"""


def main() -> None:
    """Plant, take apart, count."""
    place = Path(sys.argv[1])
    repeats = int(sys.argv[2]) if len(sys.argv) > 2 else REPEATS
    log = load_log(HERE.parents[2] / "scenarios" / "firing_log.csv")
    rows = []
    for seed in range(1, repeats + 1):
        begun = time.perf_counter()
        made = plant(log, seed, 2, DRAWS)
        met = made.found.found.chance >= ODD
        rows += [{"seed": seed, "met": met, **row} for row in made.rows()]
        print(f"{seed}: {made.found.fired} firings, {time.perf_counter() - begun:.0f} s, change "
              f"{made.found.times.value:.2f} +- {made.found.times.band:.2f} of what is expected",
              flush=True)
        _write(pd.DataFrame(rows), place)


def _write(table: pd.DataFrame, place: Path) -> None:
    """Counts by part, of all that is not nothing."""
    table["size"] = table[["true", "found"]].abs().max(axis=1)
    table = table[(table["size"] > SMALL * table["read"].abs()) & (table["band"] > 0.0)]
    table = table.assign(
        held=(table["true"] - table["found"]).abs() <= table["band"],
        in_errors=2.0 * (table["true"] - table["found"]).abs() / table["band"])
    made = []
    for what, some in (("all", table), ("boiling", table[table["what"] == "boiling"])):
        for (met, part), own in some.groupby(["met", "part"], sort=False):
            made.append({"what": what, "fit_meets_readings": met, "part": part,
                         "repeats": own["seed"].nunique(),
                         "told": len(own), "held": int(own["held"].sum()),
                         "held_fraction": own["held"].mean(),
                         "away_rms_in_standard_uncertainties": (own["in_errors"]**2).mean()**0.5,
                         "band_median": own["band"].median() if what != "all" else None,
                         "away_median": ((own["true"] - own["found"]).abs().median()
                                         if what != "all" else None)})
    pd.DataFrame(made).to_csv(place, index=False, float_format="%.4g")


if __name__ == "__main__":
    main()
