"""`thermsim readings LOG`: every firing of a log held against what was read in it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from thermsim.cli.codes import BAD_INPUT, DONE, complain
from thermsim.cli.columns import columns
from thermsim.scenario.loaded import Scenario

BY_FIRING = "by_firing.csv"


def act_with_all(path: str, folder: Path | None, as_record: bool) -> int:
    """Read the log, fire all, keep, tell."""
    from thermsim.batches.store import write_whole
    from thermsim.readings.by_firing import firing_rows, firings_table, hold_all
    from thermsim.readings.firing_log import load_log
    from thermsim.readings.written import DIGITS, record_of

    log = load_log(path)
    if not any(one.readings for one in log.firings):
        complain(f"{path}: no firing of it has a file of readings")
        return BAD_INPUT
    codes: list[int] = []
    made = list(hold_all(log, lambda scenario: _fired(scenario, codes)))
    if folder is not None:
        from thermsim.readings.pictured import save_readings_figures
        from thermsim.readings.words import tell
        from thermsim.readings.written import save_held

        folder.mkdir(parents=True, exist_ok=True)
        write_whole(folder / BY_FIRING, firings_table(made).to_csv(index=False,
                                                                   float_format=DIGITS))
        for one in made:
            own = folder / one.firing.name.replace(":", "")
            save_held(one.held, own, tell(one.held))
            save_readings_figures(one.held, own)
    if as_record:
        print(json.dumps([{"firing": one.firing.name, **record_of(one.held)} for one in made],
                         indent=1, ensure_ascii=False, allow_nan=False))
    else:
        print(f"Firings of {path}, each held against what was read in it; misses are model less "
              "reading, in their uncertainties:")
        print("\n".join(columns(firing_rows(made))))
        unread = [one.name for one in log.firings if one.readings is None]
        if unread:
            print(f"Without readings: {', '.join(unread)}.")
        if folder is not None:
            print(f"\n{folder}/ holds {BY_FIRING}, and a folder a firing with its tables and "
                  "figures.")
    return max(codes, default=DONE)


def _fired(scenario: Scenario, codes: list[int]) -> Any:
    from thermsim.cli.run import code_of, compute

    result = compute(scenario, None)
    codes.append(code_of(result.summary.get("outcome")))
    return result
