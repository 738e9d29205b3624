"""Nodes back to YAML text: block style, scalars without quotes where YAML allows it."""

from __future__ import annotations

import re

from thermsim.scenario.source import Items, Node, Scalar, Table

_PLAIN = re.compile(r"[^\W_][^\n]*|[-+.][0-9][^\n]*|_[^\n]*")
_INDENT = "  "


def write_yaml(table: Table) -> str:
    """The text of a table; reading it gives the same keys and texts."""
    return "".join(f"{line}\n" for line in _table_lines(table, ""))


def _table_lines(table: Table, indent: str) -> list[str]:
    lines = []
    for key, entry in table.entries.items():
        head = f"{indent}{quote(key)}:"
        node = entry.node
        if isinstance(node, Scalar):
            lines.append(f"{head} {quote(node.text)}")
        elif isinstance(node, Items) and node.items:
            lines += [head, *_item_lines(node, indent + _INDENT)]
        elif isinstance(node, Table) and node.entries:
            lines += [head, *_table_lines(node, indent + _INDENT)]
        else:
            lines.append(f"{head} {_empty(node)}")
    return lines


def _item_lines(items: Items, indent: str) -> list[str]:
    lines = []
    for node in items.items:
        if isinstance(node, Scalar):
            lines.append(f"{indent}- {quote(node.text)}")
            continue
        inner = indent + _INDENT
        if isinstance(node, Table) and node.entries:
            block = _table_lines(node, inner)
        elif isinstance(node, Items) and node.items:
            block = _item_lines(node, inner)
        else:
            block = [inner + _empty(node)]
        lines += [f"{indent}- {block[0][len(inner) :]}", *block[1:]]
    return lines


def _empty(node: Node) -> str:
    return "[]" if isinstance(node, Items) else "{}"


def quote(text: str) -> str:
    """A scalar as YAML text, plain where that reads back as the same text.

    >>> quote("300 mm"), quote("at: once"), quote("")
    ('300 mm', '"at: once"', '""')
    """
    if (
        _PLAIN.fullmatch(text)
        and text.isprintable()
        and text == text.strip()
        and ": " not in text
        and " #" not in text
        and not text.endswith(":")
        and "\ufeff" not in text
    ):
        return text
    return '"' + "".join(_escape(sign) for sign in text) + '"'


def _escape(sign: str) -> str:
    if sign in '"\\':
        return "\\" + sign
    if sign.isprintable() and sign != "\ufeff":
        return sign
    code = ord(sign)
    if code < 0x100:
        return f"\\x{code:02x}"
    return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"
