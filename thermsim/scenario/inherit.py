"""`starts_from: other.yaml`: a scenario that lists only what differs from another.

Blocks merge key by key. A list merges entry by entry if every entry that is given names one of
the other list; else it takes the other list's place. `none` takes a key away (the reader does
that, because a field may have `none` among its choices).
"""

from __future__ import annotations

import difflib
import os
from pathlib import Path

from thermsim.errors import Problem, ScenarioError, shown_path
from thermsim.scenario.address import item_text
from thermsim.scenario.source import Entry, Items, Mark, Node, Scalar, Table, read_table

STARTS_FROM = "starts_from"
VERSION_KEY = "thermsim"
FORMAT_VERSION = 1


def gather_file(path: str, problems: list[Problem]) -> Table:
    """The file with all it starts from, merged; raises ScenarioError where it cannot be read."""
    return gather_text(_read_file(path, Mark(path), ""), path, os.path.dirname(path), problems)


def gather_text(text: str, file: str, folder: str, problems: list[Problem]) -> Table:
    """As `gather_file` for a text in hand; `starts_from` is looked up from `folder`."""
    table, found = read_table(text, file)
    problems += found
    _check_version(table, problems)
    chain = [(file, table)]
    seen = [os.path.realpath(file)]
    while STARTS_FROM in table.entries:
        entry = table.entries.pop(STARTS_FROM)
        if not isinstance(entry.node, Scalar) or not entry.node.text.strip():
            problems.append(entry.mark.problem(STARTS_FROM, "no file name", "name one YAML file"))
            break
        mark = entry.node.mark
        parent = os.path.normpath(os.path.join(folder, entry.node.text.strip()))
        if os.path.realpath(parent) in seen:
            names = [shown_path(name) for name, _ in chain] + [shown_path(parent)]
            problems.append(mark.problem(
                STARTS_FROM, f"goes round in a circle: {' -> '.join(names)}",
                "start from a file that does not start from this one"))  # fmt: skip
            break
        try:
            table, found = read_table(_read_file(parent, mark, STARTS_FROM), parent)
        except ScenarioError as error:
            raise ScenarioError([*problems, *error.problems]) from None
        problems += found
        _check_version(table, problems)
        chain.append((parent, table))
        seen.append(os.path.realpath(parent))
        folder = os.path.dirname(parent)
    merged = chain[-1][1]
    for _, child in reversed(chain[:-1]):
        merged = _merge_tables(merged, child)
    return merged


def _read_file(path: str, mark: Mark, key: str) -> str:
    try:
        data = Path(path).read_bytes()
    except IsADirectoryError:
        found = mark.problem(key, f"{shown_path(path)} is a folder", "give the path of a YAML file")
        raise ScenarioError([found]) from None
    except PermissionError:
        found = mark.problem(key, f"{shown_path(path)} may not be read", "look at its permissions")
        raise ScenarioError([found]) from None
    except (OSError, ValueError):
        found = mark.problem(key, f"no such file: {shown_path(path)}", _nearest_file(path))
        raise ScenarioError([found]) from None
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        found = Mark(path, line, 1).problem(
            "", "a character that is not UTF-8", "save the file as UTF-8 text"
        )
        raise ScenarioError([found]) from None


def _nearest_file(path: str) -> str:
    try:
        names = sorted(name.name for name in Path(path).parent.iterdir()
                       if name.suffix in (".yaml", ".yml"))  # fmt: skip
    except (OSError, ValueError):
        return "give the path of a YAML file"
    near = difflib.get_close_matches(os.path.basename(path), names, 1)
    return f"did you mean '{near[0]}'?" if near else "give the path of a YAML file"


def _check_version(table: Table, problems: list[Problem]) -> None:
    """Every file says which format it is written in."""
    entry = table.entries.get(VERSION_KEY)
    if entry is None:
        return
    text = entry.node.text.strip() if isinstance(entry.node, Scalar) else "a block"
    if text == str(FORMAT_VERSION):
        return
    mark = entry.node.mark
    newer = text.isascii() and text.isdigit() and len(text) < 10 and int(text) > FORMAT_VERSION
    if newer:
        problems.append(mark.problem(
            VERSION_KEY, f"the file is of format {text}, newer than this program",
            f"this version reads format {FORMAT_VERSION}: update thermsim"))  # fmt: skip
    else:
        problems.append(mark.problem(
            VERSION_KEY, f"{text!r} is no format version", f"write {FORMAT_VERSION}"))  # fmt: skip


def merge(parent: Node, child: Node) -> Node:
    """The parent with what the child says put over it; neither is changed."""
    if isinstance(parent, Table) and isinstance(child, Table):
        return _merge_tables(parent, child)
    if isinstance(parent, Items) and isinstance(child, Items):
        return _merge_items(parent, child)
    return child


def _merge_tables(parent: Table, child: Table) -> Table:
    merged = Table(child.mark, dict(parent.entries))
    for key, entry in child.entries.items():
        older = parent.entries.get(key)
        node = merge(older.node, entry.node) if older else entry.node
        merged.entries[key] = Entry(key, entry.mark, node)
    return merged


def _merge_items(parent: Items, child: Items) -> Items:
    places = {item_text(item, "name"): index for index, item in enumerate(parent.items)}
    names = [item_text(item, "name") for item in child.items]
    if not names or any(name is None or name not in places for name in names):
        return child
    merged = list(parent.items)
    for name, item in zip(names, child.items, strict=True):
        merged[places[name]] = merge(merged[places[name]], item)
    return Items(child.mark, merged)
