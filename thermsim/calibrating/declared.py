"""What a person may write in a calibration file, as plain records for the scenario's loader."""

from __future__ import annotations

from thermsim.calibrating.losses import LOSSES
from thermsim.parts.declare import Block, Field

NO_SOURCE = "nothing, unless written"
NOTHING_HELD = "nothing"
"""as a prior; 'none' would take the line out"""
GUESS = Block(
    "guess",
    "One thing of the scenario that is not known well, and is to be found from the readings.",
    (
        Field("field", "list", "what is guessed, as in --change: drum.gap; several names take the "
              "same value together", required=True),
        Field("from", "text", "the least that it may be, with its unit", required=True),
        Field("to", "text", "the most that it may be", required=True),
        Field("prior", "text", "what is held of it before the readings, as 25 mm +- 4 mm, or "
              "nothing; if not given, the doubt that the scenario tells of it"),
        Field("firings", "list", "to which firings it belongs, by their files of readings: wood of "
              "its own; if not given, to all"),
    ),
)
FIRING = Block(
    "readings",
    "Readings of one firing.",
    (
        Field("file", "text", "the file of readings, beside this one", required=True),
        Field("scenario", "text", "the scenario of this firing, if it is not the one above: its "
              "own day, wood and feeding"),
        Field("changes", "list", "changes put over the scenario in this firing"),
    ),
)
CALIBRATION = Block(
    "calibration",
    "Guesses of a scenario, to be found from readings at the stove.",
    (
        Field("thermsim", "count", "version of the file format", required=True, low="1",
              high="1", why="the only version so far"),
        Field("title", "text", "what this is", default="untitled",
              source="no title unless written"),
        Field("scenario", "text", "the scenario, a YAML file beside this one", required=True),
        Field("readings", "list", "readings, a file for each firing", default=[], block=FIRING,
              source="those of the log"),
        Field("log", "text", "a firing log (CSV) beside this file, all of whose firings with "
              "readings count, each with its own plant, day, wood and feeding"),
        Field("guesses", "list", "what is not known well", required=True, block=GUESS),
        Field("loss", "choice", "how much large misses count: squared (linear), or less",
              default="linear", choices=tuple(LOSSES), source=NO_SOURCE),
        Field("starts", "count", "from how many places the fit begins; the best two of them are "
              "followed", default=5, low="1", high="1000", why="a number of firings",
              source=NO_SOURCE),
        Field("hold_out", "list", "what is kept out of the fit, to test it by: spots, or whole "
              "firings by their files of readings"),
    ),
)
