"""What a person may write in a batch file, as plain records; read by the scenario's own loader."""

from __future__ import annotations

from thermsim.parts.declare import Block, Field

GRID, IN_STEP, SAMPLE = "grid", "in step", "sample"
EVEN, BY_RATIO = "even", "by ratio"
LATIN, SOBOL = "latin hypercube", "sobol"
NO_SOURCE = "nothing, unless written"

AXIS = Block(
    "axis",
    "One thing that is varied.",
    (
        Field("field", "list", "what is varied, as in --change: drum.gap; several names take the "
              "same value together", required=True),
        Field("values", "list", "the values, each as it would stand in the scenario"),
        Field("from", "text", "first value of a range, with its unit"),
        Field("to", "text", "last value of a range, in the same unit"),
        Field("count", "count", "how many values, both ends among them", low="2", high="10000",
              why="a range has two ends"),
        Field("step", "text", "or the distance between values, in the same unit"),
        Field("spacing", "choice", "equal distances or equal ratios", default=EVEN,
              choices=(EVEN, BY_RATIO), source=NO_SOURCE),
    ),
)
CASE = Block(
    "case",
    "A firing with a name and changes of its own.",
    (
        Field("name", "text", "its name in tables and figures", required=True),
        Field("changes", "list", "changes, as in --change: drum.gap = 25 mm"),
    ),
)
DRAW = Block(
    "sample",
    "How many designs are drawn within the axes, and how.",
    (
        Field("count", "count", "number of designs", required=True, low="1", high="1000000",
              why="a number of firings"),
        Field("how", "choice", "the way they fill the space", default=LATIN,
              choices=(LATIN, SOBOL), source=NO_SOURCE),
        Field("seed", "count", "start of the random numbers: the same seed draws the same designs",
              default=1, low="0", high="1000000000", why="a whole number", source=NO_SOURCE),
    ),
)
BATCH = Block(
    "batch",
    "Many firings of one plant: what is varied, and which answers are kept.",
    (
        Field("thermsim", "count", "version of the file format", required=True, low="1",
              high="1", why="the only version so far"),
        Field("title", "text", "what this is", default="untitled",
              source="no title unless written"),
        Field("base", "text", "the scenario that is varied, a YAML file beside this one",
              required=True),
        Field("changes", "list", "changes put over the base in every firing"),
        Field("axes", "list", "what is varied", default=[], block=AXIS, source=NO_SOURCE),
        Field("combine", "choice", "every value with every other, all axes in step, or a sample "
              "drawn within them", default=GRID, choices=(GRID, IN_STEP, SAMPLE),
              source=NO_SOURCE),
        Field("sample", "block", DRAW.says, block=DRAW, absent="none"),
        Field("cases", "list", "firings with names and changes of their own", default=[],
              block=CASE, source=NO_SOURCE),
        Field("answers", "list", "answers kept in the table, in this order; all if not given"),
    ),
)
