"""`thermsim readings`: what was read at the stove, held against a firing of the model."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from thermsim.cli.check import add_change
from thermsim.cli.codes import BAD_INPUT, DONE, complain
from thermsim.cli.columns import columns
from thermsim.cli.folders import folder_trouble

EPILOG = """\
examples:
  thermsim readings first shed_readings.csv                 a saved run; words and tables
  thermsim readings first shed_readings.csv --out compared  tables and figures in compared/
  thermsim readings shed.yaml shed_readings.csv --out compared --change "drum.gap = 30 mm"
  thermsim readings first shed_readings.csv --lit 14:05     clock times, lit at five past two
  thermsim readings firing_log.csv                          every firing of a log, by its own file
  thermsim readings firing_log.csv 2026-09-12 --out held    one of them, by its date

The file of readings is CSV, a line a reading; lines that begin with # are comments:
  time,spot,quantity,reading,unit,note
  14:05,,event,lit,,                                clock times count from this line
  14:17,chimney_lower at 0.4 m,temperature,142,C,   infrared from outside unless inside is said
  13 min,casing at 100 mm top,temperature,88,C,     or since lighting
  14:19,feed,smoke,in,,                             a smoke match: in, out or unsure
  14:20,chimney foot,draught,1.1,mm,                inclined water gauge, mm of water
  31 min,drum,event,boiling,,                       also draught turned, smoke ended, shut ash_door
  40 to 45 min,bucket,mass,640,g,                   steam condensed over a time
  45 min,wood fed,mass,2.4,kg,                      all since lighting; ash, drum water level alike
  20 min,firebox side,melted,150,C,                 a crayon; not melted, browned, glowing alike
  50 min,firepower_W,value,11,kW,                   any column of series.csv
An empty reading is one not taken. Columns that may stand behind: instrument, emissivity_set,
emissivity (0.9 +- 0.03, or a finish as matt black paint), reflected, spot_size (25 mm, or 12:1 with
distance), distance, uncertainty (two readings of three lie within it). Where they are empty the
usual is taken: the instrument's own limits, 0.95 set, the scenario's emissivity, the day's air.
Misses are model less reading.

Exit codes: 0 compared, whatever came of it; 2 something cannot be read, all mistakes told at once;
3 the equations could not be solved; 130 interrupted.
"""


def add_to(commands: Any) -> None:
    """Declare the command."""
    made = commands.add_parser(
        "readings",
        help="hold what was read at the stove against a firing",
        description="Correct readings taken at the stove and hold them against a firing: what "
        "agrees, what is off and by how much, what to read again.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    made.add_argument("source", metavar="RUN_OR_SCENARIO",
                      help="folder of a run, or a scenario, which is then fired; or a firing log")
    made.add_argument("readings", metavar="READINGS", nargs="?",
                      help="the file of readings; of a log the firing, or nothing for all")
    made.add_argument("--out", metavar="DIR", help="folder for tables and figures")
    made.add_argument("--overwrite", action="store_true",
                      help="replace the results in a folder that is not empty")
    made.add_argument("--json", action="store_true", help="print everything as JSON")
    made.add_argument("--lit", metavar="CLOCK", help="when it was lit, as 14:05, where the file "
                      "does not say")
    made.add_argument("--offset", metavar="TIME", help="added to every time, as '20 s' for a watch "
                      "that is late or '-20 s'")
    add_change(made)
    made.set_defaults(act=act)


def act(chosen: argparse.Namespace) -> int:
    """Read, fire if need be, compare, keep, tell."""
    folder = Path(chosen.out) if chosen.out else None
    trouble = folder_trouble(folder, chosen.overwrite) if folder is not None else None
    trouble = trouble or _paths_trouble(chosen)
    if trouble:
        complain(trouble)
        return BAD_INPUT
    if _is_log(chosen.source) and chosen.readings is None:
        from thermsim.cli.readings_log import act_with_all

        _say_if_compiling()
        return act_with_all(chosen.source, folder, chosen.json)
    zero = _zero(chosen)
    from thermsim.readings.file import load_readings
    from thermsim.readings.firings import is_run, known_of, read_firing
    from thermsim.readings.held import hold
    from thermsim.readings.known import Known

    if is_run(chosen.source):
        result: Any = read_firing(chosen.source)
        code = DONE
        file = load_readings(chosen.readings, Known.of(result), zero)
    else:
        from thermsim.cli.run import code_of, compute

        scenario, readings = _named(chosen)
        _say_if_compiling()
        file = load_readings(readings, known_of(scenario), zero)
        result = compute(scenario, None)
        code = code_of(result.summary.get("outcome"))
    _tell(hold(file, result), folder, chosen.json)
    return code


def _is_log(source: str) -> bool:
    return Path(source).suffix == ".csv"


def _named(chosen: argparse.Namespace) -> tuple[Any, str]:
    """The scenario to be fired, and the file of readings: as named, or of a row of a log."""
    from thermsim.errors import ResultsError
    from thermsim.loading import load_scenario
    from thermsim.readings.firing_log import load_log

    if not _is_log(chosen.source):
        return load_scenario(chosen.source, tuple(chosen.change)), chosen.readings
    firing = load_log(chosen.source).find(chosen.readings)
    if firing.readings is None:
        raise ResultsError(f"{chosen.source}, line {firing.line}: {firing.name} has no file of "
                           "readings")
    return firing.scenario, firing.readings


def _say_if_compiling() -> None:
    from thermsim.kernel import compiled_before

    if not compiled_before():
        complain("Compiling the model for this machine, once: about a minute.")


def _paths_trouble(chosen: argparse.Namespace) -> str | None:
    """What is wrong with the paths and options, before anything is read."""
    log = _is_log(chosen.source)
    for path in (chosen.source,) if log or not chosen.readings else (chosen.source,
                                                                     chosen.readings):
        if not Path(path).exists():
            return f"{path}: no such file or folder"
    if Path(chosen.source).suffix == ".json":
        return f"{chosen.source}: name the folder of a run, or a scenario, then the readings"
    if not log and chosen.readings is None:
        return f"{chosen.source}: name the file of readings behind it"
    if not log and Path(chosen.readings).is_dir():
        return f"{chosen.readings}: is a folder; name the file of readings"
    if Path(chosen.source).is_dir() and chosen.change:
        return f"{chosen.source}: is a run that was fired already; --change needs its scenario"
    if log and (chosen.change or (chosen.readings is None and (chosen.lit or chosen.offset))):
        return f"{chosen.source}: changes and times of a log's firings stand in its own files"
    return None


def _zero(chosen: argparse.Namespace) -> Any:
    """When it was lit, by the arguments."""
    from thermsim.errors import ThermsimError
    from thermsim.readings.times import Zero, clock_time
    from thermsim.units import parse_quantity

    clock = clock_time(chosen.lit) if chosen.lit else None
    if chosen.lit and clock is None:
        raise ThermsimError(f"--lit: '{chosen.lit}' is no time of a day; as 14:05")
    offset = parse_quantity(chosen.offset, "time").value if chosen.offset else 0.0
    return Zero(clock=clock, offset=offset)


def _tell(held: Any, folder: Path | None, as_record: bool) -> None:
    """Words first, then tables; files if a folder is named."""
    from thermsim.readings.lines import group_lines, reading_lines
    from thermsim.readings.words import tell
    from thermsim.readings.written import as_json, save_held

    words = tell(held)
    if folder is not None:
        from thermsim.readings.pictured import save_readings_figures

        save_held(held, folder, words)
        save_readings_figures(held, folder)
    if as_record:
        print(as_json(held).rstrip("\n"))
        return
    print("\n".join(words))
    print("\nReadings, and the model's misses (model less reading)")
    print("\n".join(columns(reading_lines(held))))
    for title, groups in (("By spot", held.by_spot), ("Over time", held.over_time)):
        print(f"\n{title}")
        print("\n".join(columns(group_lines(groups))))
    if folder is not None:
        print(f"\n{folder}/ holds the tables (readings.csv, by_spot.csv, over_time.csv), "
              "readings.json, and the figures.")
