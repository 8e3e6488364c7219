"""A sound file as lines, with the nodes that stand on them: what is content, what is a comment."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import yaml

from cards.source.nodes import LOADER

_BLOCK_HEADER = re.compile(r"[|>][-+0-9]*")


@dataclass(frozen=True, slots=True)
class Listing:
    """A file's lines without their ends, its root node, and the lines that belong to one value."""

    lines: tuple[str, ...]
    root: yaml.MappingNode
    held: frozenset[int]

    def is_comment(self, line: int) -> bool:
        """Whether a line, counted from 0, holds a comment and nothing else."""
        return line not in self.held and self.lines[line].lstrip().startswith("#")

    def is_gap(self, line: int) -> bool:
        """Whether a line is blank or a comment, and no part of a longer text."""
        return self.is_comment(line) or (line not in self.held and not self.lines[line].strip())


@dataclass(frozen=True, slots=True)
class BlockText:
    """The text below a | or >: lines ``first`` up to ``stop``, each indented by ``base`` or more.

    ``header`` is the sign with its digits; ``digit`` is true where it gives the indentation.
    """

    header: str
    first: int
    stop: int
    base: int
    digit: bool


def list_lines(text: str) -> Listing:
    """The listing of a text in which ``read_nodes`` found no fault."""
    root = yaml.compose(text, Loader=LOADER)
    assert isinstance(root, yaml.MappingNode)
    lines = tuple(text.splitlines())
    held: set[int] = set()
    for node, column in _walk(root, 0):
        if is_block_text(node):
            found = block_text(lines, node, column)
            held.update(range(found.first, found.stop))
        elif not is_block(node):
            held.update(range(node.start_mark.line, node.end_mark.line + 1))
    return Listing(lines, root, frozenset(held))


def is_block_text(node: yaml.Node) -> bool:
    """Whether a node is a text below a | or >."""
    return isinstance(node, yaml.ScalarNode) and node.style in ("|", ">")


def is_block(node: yaml.Node) -> bool:
    """Whether a node is a list or a mapping on lines of its own, not in brackets."""
    return isinstance(node, yaml.CollectionNode) and not node.flow_style


def block_text(lines: Sequence[str], node: yaml.Node, column: int) -> BlockText:
    """Where the text of a block scalar stands, whose key or dash stands at ``column``."""
    at = node.start_mark.line
    found = _BLOCK_HEADER.match(lines[at], node.start_mark.column)
    header = found[0] if found else ""
    first = stop = at + 1
    digit = re.search("[1-9]", header)
    if digit:
        base = column + int(digit[0])
    else:
        base = column + 1
        for n in range(first, len(lines)):
            base = max(base, indentation(lines[n]))
            if lines[n].strip(" "):
                break
    line = first
    while line < len(lines):
        row = lines[line]
        if row[:base].strip(" "):
            break
        line += 1
        # blanks beyond the indentation are text; a line of fewer may only part two others
        if len(row) > base or "+" in header:
            stop = line
    return BlockText(header, first, stop, base, digit is not None)


def indentation(row: str) -> int:
    """How many blanks a line begins with."""
    return len(row) - len(row.lstrip(" "))


def comments(listing: Listing) -> tuple[str, ...]:
    """The text of every comment, from its # on, in the order they stand."""
    spans: dict[int, list[tuple[int, int]]] = {}
    for node, column in _walk(listing.root, 0):
        start, end = node.start_mark, node.end_mark
        if is_block_text(node):
            # a comment may stand on the line of the sign itself, before the text begins
            found = block_text(listing.lines, node, column)
            for line in range(found.first, found.stop):
                spans.setdefault(line, []).append((0, len(listing.lines[line])))
        elif isinstance(node, yaml.ScalarNode):
            for line in range(start.line, end.line + 1):
                left = start.column if line == start.line else 0
                right = end.column if line == end.line else len(listing.lines[line])
                spans.setdefault(line, []).append((left, right))
    found_in = (_comment_in(row, spans.get(line, [])) for line, row in enumerate(listing.lines))
    return tuple(text for text in found_in if text)


def _comment_in(row: str, spans: Sequence[tuple[int, int]]) -> str:
    """What follows the first # outside the spans, which stand in order."""
    at = 0
    for left, right in (*spans, (len(row), len(row))):
        found = row.find("#", at, left)
        if found >= 0:
            return row[found:].rstrip()
        at = right
    return ""


def _walk(node: yaml.Node, column: int) -> Iterator[tuple[yaml.Node, int]]:
    """Every node, keys too, with the column of the line or dash it belongs to."""
    yield node, column
    inner = node.start_mark.column if is_block(node) else column
    if isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            yield from _walk(key, inner)
            yield from _walk(value, inner)
    elif isinstance(node, yaml.SequenceNode):
        for item in node.value:
            yield from _walk(item, inner)
