"""YAML by nodes: plain values with the place of each, nothing guessed.

Scalars stay text, so that ``no``, ``012`` and ``1:30`` mean what was typed.
Anchors, tags and second documents have no use in a recipe and are refused,
which also closes the door to files that unfold without end.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Any

import yaml

from cards.diagnostics.diagnostic import MOST, Diagnostic, Place, Result, error, first_of
from cards.source.files import MAX_CHARACTERS
from cards.source.slips import likely_slip

Path = tuple[str | int, ...]
Value = str | list["Value"] | dict[str, "Value"] | None

MAX_DEPTH = 12
"""The deepest place the format knows is six levels down."""

LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True, slots=True)
class Tree:
    """A file's content as plain values, and where each stands."""

    file: str
    value: dict[str, Value]
    places: dict[Path, Place]
    keys: dict[Path, Place]
    """Place of the key itself, for entries of mappings."""

    def place(self, path: Path) -> Place:
        """The place of a value, or of the nearest enclosing value that has one."""
        while path and path not in self.places:
            path = path[:-1]
        return self.places.get(path, Place(self.file))

    def key(self, path: Path) -> Place:
        """The place of a key, or of its value where there is no key."""
        return self.keys.get(path) or self.place(path)


def read_nodes(text: str, file: str) -> Result[Tree]:
    """Read YAML text into a ``Tree``. Diagnostics tell what is wrong and where."""
    whole = Place(file)
    if len(text) > MAX_CHARACTERS:
        size = f"{len(text):,} characters"
        return _fail(
            error(
                whole,
                "file-too-large",
                f"this file has {size}",
                f"a recipe file holds at most {MAX_CHARACTERS:,}; is it the right file?",
            )
        )
    broken = re.search("[\0\ud800-\udfff]", text)
    if broken:
        return _fail(
            error(
                Place(file, _line(text, broken.start()), 1),
                "file-not-text",
                "this is not a text file",
                "save the recipe as plain text in UTF-8",
            )
        )
    text = text.lstrip("\ufeff")  # a mark of some editors, there twice where files were joined
    refused = _refuse_constructs(text, file)
    if refused:
        last = _line(text, len(text))
        if refused.place.line > last:  # the reader may stop one line after the last
            refused = replace(refused, place=Place(file, last, 1))
        return _fail(refused)
    root = yaml.compose(text, Loader=LOADER)
    if root is None or (isinstance(root, yaml.ScalarNode) and not root.value):
        return _fail(
            error(
                whole,
                "file-empty",
                "this file is empty",
                'a recipe begins with "recipe: 1" and a title',
            )
        )
    if not isinstance(root, yaml.MappingNode):
        return _fail(
            error(
                _at(file, root.start_mark),
                "file-shape",
                "the file should be a list of keys such as title: and ingredients:",
                'begin with "recipe: 1" on the first line',
            )
        )
    tree = Tree(file, {}, {}, {})
    faults: list[Diagnostic] = []
    value = _convert(root, (), tree, faults)
    assert isinstance(value, dict)
    tree.value.update(value)
    return Result(tree, first_of(faults))


def _line(text: str, index: int) -> int:
    """The number of the line a character stands on, whichever way lines end."""
    return 1 + len(re.findall("\r\n?|[\n\x85\u2028\u2029]", text[:index]))


def _fail(diagnostic: Diagnostic) -> Result[Tree]:
    return Result(None, (diagnostic,))


def _at(file: str, mark: Any) -> Place:
    """A mark of either YAML reader, the C one or the Python one."""
    if mark is None:
        return Place(file)
    return Place(file, mark.line + 1, mark.column + 1)


def _refuse_constructs(text: str, file: str) -> Diagnostic | None:
    """Walk the events, which takes no recursion, and name the first thing that cannot stand."""
    depth = 0
    documents = 0
    try:
        for event in yaml.parse(text, Loader=LOADER):
            place = _at(file, event.start_mark)
            if isinstance(event, yaml.DocumentStartEvent):
                documents += 1
                if documents > 1:
                    return error(
                        place,
                        "file-shape",
                        "a second document begins here",
                        "keep one recipe in a file and take the --- line out",
                    )
            if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
                return error(
                    place,
                    "yaml-anchor",
                    "& and * have a meaning of their own here",
                    "put quotes around a text that begins with & or *",
                )
            if getattr(event, "tag", None):
                return error(
                    place, "yaml-tag", "a text cannot begin with ! here", "put quotes around it"
                )
            if isinstance(event, yaml.CollectionStartEvent):
                depth += 1
                if depth > MAX_DEPTH:
                    return error(
                        place,
                        "file-shape",
                        "this is nested too deeply",
                        "check the indentation of the lines above",
                    )
            elif isinstance(event, yaml.CollectionEndEvent):
                depth -= 1
    except yaml.reader.ReaderError:
        # the fault's own position counts bytes or characters, as the reader does
        found = yaml.reader.Reader.NON_PRINTABLE.search(text)
        return error(
            Place(file, _line(text, found.start()), 1) if found else Place(file),
            "file-not-text",
            "there is a character here that no text file should hold",
            "delete the invisible character or save the file anew as UTF-8 text",
        )
    except yaml.MarkedYAMLError as fault:
        return _yaml_fault(fault, text, file)
    return None


def _yaml_fault(fault: yaml.MarkedYAMLError, text: str, file: str) -> Diagnostic:
    """A YAML error in words a trainer can act on."""
    mark = fault.problem_mark or fault.context_mark
    place = _at(file, mark) if mark else Place(file)
    problem = fault.problem or "this cannot be read"
    rows = text.splitlines()
    ended = place.line > len(rows)
    row = rows[place.line - 1] if 0 < place.line <= len(rows) else ""
    above = rows[place.line - 2] if 1 < place.line <= len(rows) + 1 else ""
    if "\t" in row[: len(row) - len(row.lstrip())] or "'\\t'" in problem or "tab" in problem:
        return error(
            place,
            "yaml-tab",
            "a tab stands at the beginning of this line",
            "indent with spaces, two for each step",
        )
    slip = likely_slip(rows, place.line, file)
    if slip:
        return slip
    if "mapping values are not allowed" in problem:
        if row.count(":") > 1:
            return error(
                place,
                "yaml-colon",
                "a colon inside a text",
                'put quotes around the text, as in title: "Rice: soft"',
            )
        if above.count(":") > 1 or above.rstrip().endswith(('"', "'")) or ":" not in above:
            return error(
                place,
                "yaml-indent",
                "this line does not fit below the one above it",
                "line up keys of the same level under one another",
            )
        return error(
            place,
            "yaml-indent",
            "this line is indented further than the one above it",
            "line up keys of the same level under one another",
        )
    if "expected <block end>" in problem or "did not find expected key" in problem:
        return error(
            place,
            "yaml-indent",
            "this line does not line up with those around it",
            "indent with the same number of spaces as its neighbours; "
            "put quotes around a text that holds both quoted and plain words",
        )
    if "escape" in problem:
        return error(
            place,
            "yaml-syntax",
            "a backslash has a meaning of its own between double quotes",
            "take it out, or put single quotes around the text",
        )
    if "found unexpected end of stream" in problem or "quoted scalar" in (fault.context or ""):
        start = _at(file, fault.context_mark) if fault.context_mark else place
        return error(
            start,
            "yaml-quote",
            "a quotation mark is opened here and never closed",
            "add the closing quotation mark at the end of the text",
        )
    if "could not find expected ':'" in problem:
        context = _at(file, fault.context_mark) if fault.context_mark else place
        return error(
            context,
            "yaml-key",
            "a key without a colon",
            "write key: value, with a space after the colon",
        )
    if "expected ',' or" in problem or (ended and "flow" in (fault.context or "")):
        last = max(text.rfind("["), text.rfind("{"), 0)
        opened = Place(file, _line(text, last), last - text.rfind("\n", 0, last))
        within = fault.context_mark is not None and fault.context_mark.line < len(rows)
        return error(
            _at(file, fault.context_mark) if within else opened,
            "yaml-bracket",
            "a bracket is opened here and never closed",
            "close it, or put quotes around a text that begins with a bracket",
        )
    if "expected <document start>" in problem:
        return error(
            place,
            "file-shape",
            "something stands here after the end of the recipe",
            "take the line with ... or --- out, or what follows it",
        )
    if "undefined alias" in problem or "anchor" in (fault.context or ""):
        return error(
            place,
            "yaml-anchor",
            "& and * have a meaning of their own here",
            "put quotes around a text that begins with & or *",
        )
    return error(
        place,
        "yaml-syntax",
        f"this line cannot be read: {problem}",
        "put quotes around texts with : # & * ! % @ or brackets in them",
    )


_OPENS_AN_ENTRY = ("do", "food", "part", "finding")
"""Keys that stand first in an entry of a list; a second one has most likely lost its dash."""


def _convert(node: yaml.Node, path: Path, tree: Tree, faults: list[Diagnostic]) -> Value:
    tree.places[path] = _at(tree.file, node.start_mark)
    if isinstance(node, yaml.ScalarNode):
        if not node.style and node.value in ("", "~", "null"):
            return None
        return str(node.value)
    if isinstance(node, yaml.SequenceNode):
        return [_convert(child, (*path, i), tree, faults) for i, child in enumerate(node.value)]
    content: dict[str, Value] = {}
    lost_dash = False
    for key_node, value_node in node.value:
        place = _at(tree.file, key_node.start_mark)
        if not isinstance(key_node, yaml.ScalarNode):
            if len(faults) <= MOST:
                faults.append(error(place, "file-shape", "a key must be a plain word"))
            continue
        key = str(key_node.value)
        if key in content:
            first = tree.keys[(*path, key)]
            # the keys of an entry without a dash are all there twice: one slip, one message
            if len(faults) <= MOST and not lost_dash:
                lost_dash = key in _OPENS_AN_ENTRY
                faults.append(
                    error(
                        place,
                        "key-twice",
                        f'"{key}" stands here a second time; first on line {first.line}',
                        "begin a new entry of the list with a dash and a blank: - "
                        if key in _OPENS_AN_ENTRY
                        else "keep one of the two",
                    )
                )
            continue
        tree.keys[(*path, key)] = place
        content[key] = _convert(value_node, (*path, key), tree, faults)
    return content
