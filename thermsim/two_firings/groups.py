"""Inputs of a firing by group: day, wood, feeding, plant; and one plant fired as another was."""

from __future__ import annotations

import copy
from dataclasses import dataclass

from thermsim.comparing.inputs import changed_inputs
from thermsim.comparing.rows import Row
from thermsim.comparing.things import RUN, Thing
from thermsim.scenario.address import find_item, split_path
from thermsim.scenario.loaded import Scenario
from thermsim.scenario.source import Entry, Items, Node, Scalar, Table
from thermsim.scenario.write import write_yaml

DAY, WOOD, FEEDING, PLANT = "day", "wood", "feeding", "plant"
CIRCUMSTANCES = (DAY, WOOD, FEEDING)
FED = ("firing", "fire.kind", "fire.heat", "fire.kindling", "fire.kindling_time", "fire.packing",
       "drum.water", "drum.water_temperature")
"""what is put in and done while firing"""
OUTPUTS = "outputs"


def group_of(path: str) -> str:
    """To which group an input belongs.

    >>> group_of("day.air"), group_of("firing.3.at"), group_of("openings.feed.open"), \
    group_of("drum.gap")
    ('day', 'feeding', 'feeding', 'plant')
    """
    steps = split_path(path.partition(",")[0])
    if steps[0] in (DAY, WOOD):
        return steps[0]
    if any(path == one or path.startswith((f"{one}.", f"{one},")) for one in FED) or (
            steps[0] == "openings" and steps[-1] == "open"):
        return FEEDING
    return PLANT


@dataclass(frozen=True)
class Mixed:
    """One plant on some day, with some wood, fed in some way: of each group the firing, 0 or 1."""

    plant: int
    day: int
    wood: int
    feeding: int

    def of(self, group: str) -> int:
        """Whose group it is."""
        return int(getattr(self, group))


def differing(first: Scenario, second: Scenario) -> dict[str, list[Row]]:
    """Inputs that differ, by group; how long and how often is computed is none of them."""
    things = [Thing(name, name, RUN, scenario_text=one.text)
              for name, one in (("first", first), ("second", second))]
    made: dict[str, list[Row]] = {group: [] for group in (PLANT, *CIRCUMSTANCES)}
    for row in changed_inputs(things).rows:
        if split_path(row.name)[0] not in (OUTPUTS, "title"):
            made[group_of(row.name)].append(row)
    return made


def mixed_text(firings: tuple[Scenario, Scenario], mixed: Mixed) -> str:
    """The text of a plant fired on the day, with the wood and the feeding of another firing.

    It is computed as long as the longer of the two, with rows as often as the more frequent.
    """
    table = copy.deepcopy(firings[mixed.plant].written)
    for group in (DAY, WOOD):
        if mixed.of(group) != mixed.plant:
            _take(table, firings[mixed.of(group)].written, [group])
    if mixed.feeding != mixed.plant:
        source = firings[mixed.feeding].written
        for path in FED:
            _take(table, source, split_path(path))
        openings = table.entries.get("openings")
        for name in openings.node.entries if openings and isinstance(openings.node, Table) else ():
            _take(table, source, ["openings", name, "open"])
    outputs = [one.tree.outputs for one in firings]
    _put(table, ["outputs", "until"], f"{max(float(one.until) for one in outputs)!r} s")
    _put(table, ["outputs", "every"], f"{min(float(one.every) for one in outputs)!r} s")
    return write_yaml(table)


def _at(node: Node | None, steps: list[str]) -> Node | None:
    """What stands at a path; None where nothing does."""
    for step in steps:
        if isinstance(node, Table):
            entry = node.entries.get(step)
            node = entry.node if entry is not None else None
        elif isinstance(node, Items):
            index = find_item(node.items, step)
            node = node.items[index] if index is not None else None
        else:
            return None
    return node


def _take(table: Table, source: Table, steps: list[str]) -> None:
    """Let the table say at a path what the source says there, be it nothing."""
    owner = _at(table, steps[:-1])
    given = _at(source, steps)
    if given is not None and owner is None:
        owner = _made(table, steps[:-1])
    if not isinstance(owner, Table):
        return
    owner.entries.pop(steps[-1], None)
    if given is not None:
        owner.entries[steps[-1]] = Entry(steps[-1], given.mark, copy.deepcopy(given))


def _made(table: Table, steps: list[str]) -> Table:
    """The block at a path, made where it is missing."""
    here = table
    for step in steps:
        entry = here.entries.get(step)
        if entry is None or not isinstance(entry.node, Table):
            entry = here.entries[step] = Entry(step, here.mark, Table(here.mark))
        assert isinstance(entry.node, Table)
        here = entry.node
    return here


def _put(table: Table, steps: list[str], text: str) -> None:
    here = _made(table, steps[:-1])
    here.entries[steps[-1]] = Entry(steps[-1], here.mark, Scalar(text, here.mark))
