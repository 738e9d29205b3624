"""YAML text to nodes that remember where they stand.

Every scalar stays the text that the person wrote: YAML's own guesses would read `12:30` as 750,
`off` as False, `017` as 15 and keep the last of two equal keys without a word. What a text means
is decided by the field it is written for.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import yaml

from thermsim.errors import Problem, ScenarioError

DEEPEST = 30
"""blocks inside blocks; a scenario needs about six"""
MOST_NODES = 20_000
"""values in a file, those repeated by anchors counted each time"""

_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True)
class Mark:
    """A place in a file; line and column count from 1, None where there is none."""

    file: str
    line: int | None = None
    column: int | None = None

    def problem(self, path: str, found: str, allowed: str = "") -> Problem:
        """A problem at this place."""
        return Problem(self.file, self.line, self.column, path, found, allowed)


@dataclass
class Scalar:
    """A value as it was written."""

    text: str
    mark: Mark


@dataclass
class Entry:
    """A key with what stands under it; `mark` is the key's place."""

    key: str
    mark: Mark
    node: Node


@dataclass
class Table:
    """Keys and values of one block."""

    mark: Mark
    entries: dict[str, Entry] = field(default_factory=dict)


@dataclass
class Items:
    """A list."""

    mark: Mark
    items: list[Node] = field(default_factory=list)


Node = Scalar | Table | Items


def node_size(node: Node) -> int:
    """How many values a node holds."""
    if isinstance(node, Table):
        return 1 + sum(node_size(entry.node) for entry in node.entries.values())
    if isinstance(node, Items):
        return 1 + sum(node_size(item) for item in node.items)
    return 1


def read_yaml(text: str, file: str) -> tuple[Node | None, list[Problem]]:
    """The node of a text (None if it is empty) and the problems that do not stop the reading.

    Raises ScenarioError where the text is not YAML at all.
    """
    builder = _Builder(text, file)
    try:
        return builder.document(), builder.problems
    except _Stop as stop:
        raise ScenarioError([*builder.problems, stop.problem]) from None


def read_table(text: str, file: str) -> tuple[Table, list[Problem]]:
    """As `read_yaml`, for a text whose outermost level must be 'key: value' lines."""
    node, problems = read_yaml(text, file)
    start = Mark(file, 1, 1)
    if node is None or (isinstance(node, Scalar) and not node.text.strip()):
        raise ScenarioError(
            [*problems, start.problem("", "the file is empty", "begin with: thermsim: 1")]
        )
    if not isinstance(node, Table):
        found = node.mark.problem("", "no block of 'key: value' lines", "begin with: thermsim: 1")
        raise ScenarioError([*problems, found])
    return node, problems


class _Stop(Exception):
    """Reading cannot go on."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        super().__init__(str(problem))


class _Builder:
    """Builds nodes from the parser's events, within fixed limits of depth and size."""

    def __init__(self, text: str, file: str) -> None:
        self.text = text
        self.file = file
        self.problems: list[Problem] = []
        self.anchors: dict[str, Node] = {}
        self.count = 0
        self.events = self._events()

    def document(self) -> Node | None:
        made: Node | None = None
        for event in self.events:
            if isinstance(event, yaml.DocumentStartEvent):
                if made is not None:
                    raise _Stop(self._mark(event).problem(
                        "", "a second document begins", "write one scenario a file"))  # fmt: skip
                made = self._node(next(self.events), 0)
        return made

    def _events(self) -> Iterator[Any]:
        try:
            yield from yaml.parse(self.text, Loader=_LOADER)
        except yaml.YAMLError as error:
            raise _Stop(self._say(error)) from None
        except (UnicodeError, RecursionError):
            raise _Stop(Mark(self.file, 1, 1).problem("", "this is not readable text")) from None

    def _mark(self, event: Any) -> Mark:
        return Mark(self.file, event.start_mark.line + 1, event.start_mark.column + 1)

    def _node(self, event: Any, depth: int) -> Node:
        mark = self._mark(event)
        self.count += 1
        if self.count > MOST_NODES:
            raise _Stop(mark.problem("", "too many values for a scenario"))
        if depth > DEEPEST:
            raise _Stop(mark.problem("", "blocks inside blocks without end"))
        if isinstance(event, yaml.AliasEvent):
            return self._repeat(event, mark)
        if event.tag is not None and event.tag != "!":
            self.problems.append(mark.problem("", f"the tag '{event.tag}'", "tags are not used"))
        made: Node
        if isinstance(event, yaml.ScalarEvent):
            made = Scalar(event.value, mark)
        elif isinstance(event, yaml.SequenceStartEvent):
            made = Items(mark)
            while not isinstance(inner := next(self.events), yaml.SequenceEndEvent):
                made.items.append(self._node(inner, depth + 1))
        else:
            made = self._table(mark, depth)
        if event.anchor:
            self.anchors[event.anchor] = made
        return made

    def _table(self, mark: Mark, depth: int) -> Table:
        table = Table(mark)
        while not isinstance(inner := next(self.events), yaml.MappingEndEvent):
            key = self._node(inner, depth + 1)
            value = self._node(next(self.events), depth + 1)
            where = self._mark(inner)
            if not isinstance(key, Scalar):
                self.problems.append(where.problem("", "a block or list as a key", "write a word"))
            elif key.text in table.entries:
                first = table.entries[key.text].mark
                self.problems.append(where.problem(
                    "", f"'{key.text}' is written twice in one block",
                    f"keep one; the first is on line {first.line}"))  # fmt: skip
            else:
                table.entries[key.text] = Entry(key.text, where, value)
        return table

    def _repeat(self, event: Any, mark: Mark) -> Node:
        node = self.anchors.get(event.anchor)
        if node is None:
            known = ", ".join(self.anchors) or "none so far"
            raise _Stop(mark.problem(
                "", f"'*{event.anchor}' repeats what no '&{event.anchor}' names",
                f"named here: {known}"))  # fmt: skip
        self.count += node_size(node)
        if self.count > MOST_NODES:
            raise _Stop(mark.problem("", "too many values for a scenario"))
        return copy.deepcopy(node)

    def _say(self, error: yaml.YAMLError) -> Problem:
        """The parser's complaint in plain words."""
        mark = getattr(error, "problem_mark", None)
        if mark is None:
            return self._say_unreadable(error)
        place = Mark(self.file, mark.line + 1, mark.column + 1)
        lines = self.text.splitlines()
        line = lines[mark.line] if mark.line < len(lines) else ""
        if "\t" in line[: len(line) - len(line.lstrip())]:
            return Mark(self.file, mark.line + 1, 1).problem(
                "", "a tab in the indentation", "indent with spaces")  # fmt: skip
        words = str(getattr(error, "problem", "") or "")
        if "mapping values" in words:
            return place.problem(
                "",
                "not YAML: a ':' where no key can stand",
                "indent the keys of a block alike; put quotes round a text that holds ': '",
            )
        if "end of stream" in words or "end of the stream" in words:
            return place.problem("", "not YAML: a quote is opened and not closed", "close it")
        if "cannot start any token" in words:
            sign = line[mark.column : mark.column + 1]
            return place.problem(
                "", f"not YAML: a value cannot begin with '{sign}'", "put quotes round it"
            )
        if "expected" in words and "flow" in str(getattr(error, "context", "")):
            return place.problem("", "not YAML: a bracket is opened and not closed", "close it")
        return place.problem(
            "", "not YAML: this line does not fit the block above it",
            "write 'key: value' lines and indent the keys of a block alike")  # fmt: skip

    def _say_unreadable(self, error: yaml.YAMLError) -> Problem:
        position = getattr(error, "position", None)
        line = None
        if isinstance(position, int):
            line = self.text[:position].count("\n") + 1
        return Mark(self.file, line or 1, 1).problem(
            "", "a character that is no text (not YAML)", "save the file as plain UTF-8 text"
        )
