"""edit: single texts of a file changed or added where they stand; all else keeps every byte."""

from __future__ import annotations

import copy
import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import yaml

from cards.diagnostics.diagnostic import Place, Result, error
from cards.source.listing import block_text, comments, is_block, is_block_text, list_lines
from cards.source.nodes import Path, read_nodes

Written = str | Mapping[str, str]
"""A text, or texts by key on one line in brackets."""


@dataclass(frozen=True, slots=True)
class Change:
    """A value for a path. A path that is not there yet is added, at its parent's end."""

    path: Path
    value: Written
    after: str = ""
    """At the top of the file: the key that a new one stands below."""


def edit(text: str, file: str, changes: Sequence[Change]) -> Result[str]:
    """The text with all changes made, its comments where they were.

    Errors: those of reading, and ``edit-unsafe`` where the file would say anything else.
    """
    mark = "\ufeff" if text.startswith("\ufeff") else ""
    plain = text[len(mark) :]
    before = read_nodes(plain, file)
    if before.value is None or before.failed:
        return Result(None, before.diagnostics)
    try:
        made = _Editor(plain).made(changes)
    except _Unusual:
        return _unsafe(file)
    wanted: Any = copy.deepcopy(before.value.value)
    for change in changes:
        _put(wanted, change)
    after = read_nodes(made, file)
    if after.value is None or after.failed or after.value.value != wanted:
        return _unsafe(file)
    if Counter(comments(list_lines(made))) != Counter(comments(list_lines(plain))):
        return _unsafe(file)
    return Result(mark + made)


def _unsafe(file: str) -> Result[str]:
    trouble = error(
        Place(file),
        "edit-unsafe",
        "this file cannot be changed without losing something; it is left as it is",
        "tidy it with cards tidy, or write the new words in by hand",
    )
    return Result(None, (trouble,))


def _put(whole: Any, change: Change) -> None:
    value = dict(change.value) if isinstance(change.value, Mapping) else change.value
    at = whole
    for step, following in zip(change.path[:-1], change.path[1:], strict=True):
        if isinstance(at, dict) and at.get(step) is None:
            at[step] = [] if isinstance(following, int) else {}
        at = at[step]
    if isinstance(at, list) and change.path[-1] == len(at):
        at.append(value)
    else:
        at[change.path[-1]] = value


class _Unusual(Exception):
    """A way of writing that nobody uses where words are translated."""


_PLAIN = re.compile(r"[^\W_](?:[^:#\t\n\\]|:(?! |$)|(?<! )#)*(?<![\s:])")


def scalar(text: str, flow: bool = False, quoted: bool = False) -> str:
    """A text as YAML writes it: plain where that reads back the same, else in double quotes."""
    sound = _PLAIN.fullmatch(text) and text.lower() != "null"
    if sound and not quoted and not (flow and re.search(r"[,\[\]{}?]", text)):
        return text
    inner = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{inner}"'


def written(value: Written, flow: bool = False) -> str:
    """A value on one line."""
    if isinstance(value, str):
        return scalar(value, flow)
    inner = ", ".join(f"{scalar(k, True)}: {scalar(v, True)}" for k, v in value.items())
    return f"{{{inner}}}"


def _single(
    changes: Iterable[Change], find: Callable[[Path], yaml.Node | None]
) -> Iterator[Change]:
    """The changes, one for each key where texts stand on lines of their own."""
    for change in changes:
        node = find(change.path)
        if isinstance(change.value, Mapping) and isinstance(node, yaml.MappingNode):
            keys = {key.value for key, _ in node.value}
            if is_block(node) and keys <= change.value.keys():
                yield from (Change((*change.path, k), v) for k, v in change.value.items())
                continue
        yield change


class _Editor:
    """Finds the places of one text; they are counted in characters from its start."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.listing = list_lines(text)
        self.ending = "\r\n" if "\r\n" in text else "\n"
        self.starts = [0]
        for row in text.splitlines(keepends=True):
            self.starts.append(self.starts[-1] + len(row))

    def made(self, changes: Iterable[Change]) -> str:
        edits: list[tuple[int, int, str]] = []
        groups: dict[Path, list[Change]] = {}
        for change in _single(changes, self.find):
            node = self.find(change.path)
            if node is not None:
                edits.append(self.replaced(node, change.value))
            else:
                groups.setdefault(change.path[:-1], []).append(change)
        for parent, added in groups.items():
            edits += self.inserted(parent, added)
        made, at = "", 0
        for start, stop, new in sorted(edits, key=lambda e: e[0]):
            made += self.text[at:start] + new
            at = stop
        return made + self.text[at:]

    def find(self, path: Path) -> yaml.Node | None:
        """The node of a path, None where there is none."""
        node: yaml.Node = self.listing.root
        for step in path:
            if isinstance(node, yaml.MappingNode):
                found = [v for k, v in node.value if k.value == step]
            elif isinstance(node, yaml.SequenceNode) and isinstance(step, int):
                found = node.value[step : step + 1]
            else:
                return None
            if not found:
                return None
            node = found[-1]
        return node

    def replaced(self, node: yaml.Node, value: Written) -> tuple[int, int, str]:
        """What takes the place of a text, or of texts in brackets on one line."""
        start, end = node.start_mark, node.end_mark
        if is_block(node) or is_block_text(node) or start.line != end.line:
            raise _Unusual
        row = self.text[self.starts[start.line] : self.starts[start.line] + start.column]
        flow = bool(re.search(r"[{\[]", row))
        if isinstance(value, str) and isinstance(node, yaml.ScalarNode):
            new = scalar(value, flow, quoted=node.style == '"')
        else:
            new = written(value, flow)
        lead = "" if row.endswith((" ", "{", "[")) else " "
        return self.offset(start), self.offset(end), lead + new

    def offset(self, mark: Any) -> int:
        return self.starts[int(mark.line)] + int(mark.column)

    def inserted(self, parent: Path, added: Sequence[Change]) -> list[tuple[int, int, str]]:
        node = self.find(parent)
        empty = isinstance(node, yaml.ScalarNode) and not node.value and not node.style
        if node is None:
            if len(parent) != 1:
                raise _Unusual
            rows = [f"{parent[0]}:", *("  " + row for c in added for row in _rows(c))]
            return [self.below(self.last_line(self.listing.root), rows)]
        if empty or (isinstance(node, yaml.SequenceNode) and not node.value):
            rows = ["  " + row for c in added for row in _rows(c)]
            if not empty:
                start, stop = self.offset(node.start_mark), self.offset(node.end_mark)
                return [(start, stop, self.ending + self.ending.join(rows))]
            return [self.below(node.start_mark.line, rows)]
        if not is_block(node):
            if not isinstance(node, yaml.MappingNode) or not node.value:
                raise _Unusual
            spot = self.offset(node.value[-1][1].end_mark)
            new = "".join(
                f", {scalar(str(c.path[-1]), True)}: {written(c.value, True)}" for c in added
            )
            return [(spot, spot, new)]
        edits: list[tuple[int, int, str]] = []
        margin = " " * node.start_mark.column
        for change in added:
            last = self.find((*parent, change.after)) if change.after else None
            edits.append(
                self.below(self.last_line(last or node), [margin + r for r in _rows(change)])
            )
        return edits

    def below(self, line: int, rows: Iterable[str]) -> tuple[int, int, str]:
        """Rows inserted below a line, counted from 0."""
        at = self.starts[min(line + 1, len(self.starts) - 1)]
        new = "".join(row + self.ending for row in rows)
        if at and self.text[at - 1] not in "\r\n":
            new = self.ending + new
        return at, at, new

    def last_line(self, node: yaml.Node, column: int = 0) -> int:
        """The last line of what a node holds."""
        if is_block_text(node):
            return block_text(self.listing.lines, node, column).stop - 1
        if not is_block(node) or not node.value:
            return int(node.end_mark.line)
        last = node.value[-1]
        inner = last[1] if isinstance(node, yaml.MappingNode) else last
        return max(self.last_line(inner, node.start_mark.column), int(inner.start_mark.line))


def _rows(change: Change) -> list[str]:
    """A new entry on lines of its own: a key with its value, or a dash with keys below."""
    name = change.path[-1]
    if isinstance(name, str):
        return [f"{scalar(name)}: {written(change.value)}"]
    if isinstance(change.value, str):
        return [f"- {scalar(change.value)}"]
    rows = [f"{scalar(k)}: {scalar(v)}" for k, v in change.value.items()]
    return [("- " if n == 0 else "  ") + row for n, row in enumerate(rows)]
