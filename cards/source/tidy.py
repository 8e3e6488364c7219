"""tidy: a recipe file's text in house order, with every comment and the same meaning."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import yaml
from pydantic import BaseModel

from cards.diagnostics.diagnostic import Place, Result, error
from cards.source.listing import (
    Listing,
    block_text,
    comments,
    indentation,
    is_block,
    is_block_text,
    list_lines,
)
from cards.source.model import RecipeIn
from cards.source.nodes import read_nodes
from cards.source.order import key_ranks, model_below

Model = type[BaseModel] | None

_EDITOR_LINE = "# yaml-language-server:"
"""An editor looks for this at the head of the file and nowhere else."""


def tidy(text: str, file: str) -> Result[str]:
    """The text in house order. No value where it has faults, or where tidying would change it.

    Keys stand in the order of the models, unknown ones last; lists keep their
    order; two blanks a step. A comment on lines of its own goes with what stands
    below it, or, set deeper than that, with what stands above.
    """
    text = text.removeprefix("\ufeff")
    if not text.endswith(("\n", "\r")):
        # else a text below a | would gain a line end when the file does
        text += "\n"
    before = read_nodes(text, file)
    if before.value is None or before.failed:
        return Result(None, before.diagnostics)
    listing = list_lines(text)
    try:
        made = _Setter(listing).text()
    except _Unusual as trouble:
        return _unsafe(Place(file, trouble.line + 1, 1))
    after = read_nodes(made, file)
    if after.value is None or after.failed or after.value.value != before.value.value:
        return _unsafe(Place(file))
    if Counter(comments(list_lines(made))) != Counter(comments(listing)):
        return _unsafe(Place(file))
    return Result(made)


def _unsafe(place: Place) -> Result[str]:
    trouble = error(
        place,
        "tidy-unsafe",
        "this cannot be tidied without losing something; the file is left as it is",
        "write it as the README shows, or set it in order by hand",
    )
    return Result(None, (trouble,))


class _Unusual(Exception):
    """A way of writing that nobody uses in a recipe, on ``line`` counted from 0."""

    def __init__(self, line: int) -> None:
        super().__init__(line)
        self.line = line


@dataclass(slots=True)
class _Entry:
    """A key or a dash with all below it, and the comments above; lines count from its column."""

    key: str
    above: list[str]
    body: list[str]


@dataclass(frozen=True, slots=True)
class _Head:
    """A key with its colon, or a dash: its line and column, and the column ``after`` it."""

    text: str
    line: int
    column: int
    after: int


class _Setter:
    """Sets the lines of one listing anew. Lines are counted from 0, ``stop`` is the line after."""

    def __init__(self, listing: Listing) -> None:
        self.listing = listing
        self.lines = listing.lines

    def text(self) -> str:
        """The whole file."""
        root = self.listing.root
        start = root.start_mark.line
        if root.flow_style:
            return "\n".join(row.rstrip() for row in self.lines).strip("\n") + "\n"
        ends = (
            n for n in range(start, len(self.lines)) if re.match(r"\.\.\.(\s|$)", self.lines[n])
        )
        stop = next(ends, len(self.lines))
        top = start
        while top and self.listing.is_comment(top - 1):
            if self.lines[top - 1].startswith(_EDITOR_LINE):
                break
            top -= 1
        above, body = self.block(root, RecipeIn, top, stop)
        made = [*_remarks(self.lines[:top]), *above, *body, *_remarks(self.lines[stop:])]
        while not made[0]:
            made.pop(0)
        return "\n".join(made) + "\n"

    def block(
        self, node: yaml.CollectionNode, model: Model, top: int, stop: int
    ) -> tuple[list[str], list[str]]:
        """The comments above the first entry, from line ``top`` on, and the lines of all."""
        column = node.start_mark.column
        mapping = isinstance(node, yaml.MappingNode)
        pairs = node.value if mapping else [(None, item) for item in node.value]
        heads = [self.key(key, column) if key else self.dash(value, column) for key, value in pairs]
        entries: list[_Entry] = []
        for n, (key, value) in enumerate(pairs):
            above = _remarks(self.lines[top : heads[n].line])
            top = self.end(heads[n], heads[n + 1].line if n + 1 < len(heads) else stop, value)
            name = str(key.value) if key else ""
            below = model_below(model, name) if key else model
            hoisted, body = self.entry(heads[n], value, below, top)
            entries.append(_Entry(name, above + hoisted, body))
        ordered = _in_order(entries, model) if mapping else entries
        _pass_on_the_blank_line(entries[0], ordered[0])
        lines = [row for entry in ordered for row in (*entry.above, *entry.body)]
        foot = _remarks(self.lines[top:stop])
        while foot and not foot[-1]:
            foot.pop()
        first = len(ordered[0].above)
        return lines[:first], [*lines[first:], *foot]

    def dash(self, item: yaml.Node, column: int) -> _Head:
        """The dash at ``column`` before a list's item."""
        line: int = item.start_mark.line
        while self.listing.is_comment(line) or self.lines[line][column : column + 1] != "-":
            line -= 1
        return _Head("-", line, column, column + 1)

    def key(self, node: yaml.Node, column: int) -> _Head:
        """A key of the mapping at ``column``."""
        start, end = node.start_mark, node.end_mark
        row = self.lines[start.line]
        colon = re.compile(r"\s*:").match(row, end.column)
        if start.line != end.line or start.column != column or not colon:
            raise _Unusual(start.line)
        return _Head(row[column : end.column] + ":", start.line, column, colon.end())

    def end(self, head: _Head, until: int, value: yaml.Node) -> int:
        """Where an entry ends that ends before ``until``: comments set deeper are its own."""
        top = until
        while top - 1 > head.line and self.listing.is_gap(top - 1):
            top -= 1
        end = top
        if is_block_text(value):
            return end  # a comment below it, set deeper, would become text
        for n in range(top, until):
            if self.listing.is_comment(n):
                if indentation(self.lines[n]) <= head.column:
                    break
                end = n + 1
        return end

    def entry(
        self, head: _Head, node: yaml.Node, model: Model, stop: int
    ) -> tuple[list[str], list[str]]:
        """The comments to stand above an entry, and its own lines."""
        start = node.start_mark
        if is_block(node):
            assert isinstance(node, yaml.CollectionNode)
            remark = self.rest(head.line, head.after) if start.line > head.line else ""
            above, body = self.block(node, model, head.line + 1, stop)
            if head.text == "-" and not remark:
                return above, ["- " + body[0], *_indented(body[1:])]
            return [], [head.text + remark, *_indented(above + body)]
        if isinstance(node, yaml.ScalarNode) and not node.style and not node.value:
            made = [head.text]
        elif start.line == head.line:
            made = [head.text + " "]
        else:
            between = _remarks(self.lines[head.line + 1 : start.line])
            made = [head.text + self.rest(head.line, head.after)]
            made += [*_indented(row for row in between if row), "  "]
        if is_block_text(node):
            return [], [*made[:-1], *self.below_sign(made[-1], node, head.column)]
        value = self.value(node, model, head.column)
        made = [*made[:-1], made[-1] + value[0], *value[1:]]
        last = node.end_mark.line
        remark = self.rest(last, node.end_mark.column)
        made[-1] += remark
        below = _remarks(self.lines[last + 1 : stop])
        hash_at = len(self.lines[last].rstrip()) - len(remark.lstrip())
        under = [row for row in self.lines[last + 1 : stop] if row.strip()]
        if remark and all(indentation(row) == hash_at for row in under):
            # a remark that runs on below itself stays below itself
            width = len(made[-1]) - len(remark.lstrip())
            return [], [*made, *_indented(below, width)]
        return [], [*made, *_indented(below)]

    def rest(self, line: int, column: int) -> str:
        """The comment at the end of a line with the blanks before it, or nothing."""
        row = self.lines[line][column:].rstrip()
        remark = row.lstrip()
        if not remark:
            return ""
        if not remark.startswith("#"):
            raise _Unusual(line)
        return (row[: len(row) - len(remark)].replace("\t", "  ") or " ") + remark

    def below_sign(self, lead: str, node: yaml.Node, column: int) -> list[str]:
        """A text below a | or >, with the sign after ``lead``."""
        found = block_text(self.lines, node, column)
        at = node.start_mark
        sign = lead + found.header + self.rest(at.line, at.column + len(found.header))
        by = found.base - column if found.digit else 2
        rows = (self.lines[n][found.base :] for n in range(found.first, found.stop))
        return [sign, *_indented(rows, by)]

    def value(self, node: yaml.Node, model: Model, column: int) -> list[str]:
        """A text or a bracket as written; lines after the first are indented anew."""
        start, end = node.start_mark, node.end_mark
        if start.line == end.line:
            return [self.on_one_line(node, model)]
        rows = list(self.lines[start.line : end.line + 1])
        rows[-1] = rows[-1][: end.column]
        made = [_trimmed(rows[0][start.column :])]
        for row in rows[1:]:
            text = _trimmed(row.lstrip())
            by = 2
            if isinstance(node, yaml.CollectionNode):
                closing = text[:1] in ("]", "}")
                by = max(0 if closing else 2, indentation(row) - column)
            made.append(" " * by + text if text else "")
        return made

    def on_one_line(self, node: yaml.Node, model: Model) -> str:
        """A text or a bracket on one line; keys in brackets change places, the rest stays."""
        start: int = node.start_mark.column
        row = self.lines[node.start_mark.line]
        slots: list[tuple[int, int]] = []
        entries: list[_Entry] = []
        if isinstance(node, yaml.MappingNode):
            for key, value in node.value:
                left, middle = key.start_mark.column, value.start_mark.column
                right = max(key.end_mark.column, value.end_mark.column)
                inner = self.on_one_line(value, model_below(model, str(key.value)))
                slots.append((left, right))
                entries.append(_Entry(str(key.value), [], [row[left:middle] + inner]))
            entries = _in_order(entries, model)
        elif isinstance(node, yaml.SequenceNode):
            for item in node.value:
                slots.append((item.start_mark.column, item.end_mark.column))
                entries.append(_Entry("", [], [self.on_one_line(item, model)]))
        made = ""
        for (left, right), entry in zip(slots, entries, strict=True):
            made += row[start:left] + entry.body[0]
            start = right
        return made + row[start : node.end_mark.column]


def _in_order(entries: Iterable[_Entry], model: Model) -> list[_Entry]:
    ranks = key_ranks(model)
    return sorted(entries, key=lambda entry: ranks.get(entry.key, len(ranks)))


def _pass_on_the_blank_line(was_first: _Entry, is_first: _Entry) -> None:
    """Take the blank line above what now begins; what began before has one above in its place."""
    if was_first.above and not was_first.above[0]:
        was_first.above.pop(0)
    if is_first.above and not is_first.above[0]:
        is_first.above.pop(0)
        was_first.above.insert(0, "")


def _remarks(rows: Sequence[str]) -> list[str]:
    """Comments and blank lines from the margin on; of several blank lines one stays."""
    made: list[str] = []
    for row in rows:
        text = row.strip()
        if text or not made or made[-1]:
            made.append(text)
    return made


def _indented(rows: Iterable[str], by: int = 2) -> list[str]:
    return [" " * by + row if row else "" for row in rows]


def _trimmed(row: str) -> str:
    """A line without blanks at its end, but for one that a backslash makes part of the text."""
    made = row.rstrip()
    return made + " " if made.endswith("\\") and made != row else made
