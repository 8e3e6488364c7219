"""What a build works with besides recipes: programme, words, layout, fonts, foods, needs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeVar

from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error, has_errors
from cards.diagnostics.nearest import did_you_mean
from cards.foods.own import own_table
from cards.foods.table import FoodTable, shipped_table
from cards.foods.units import Measures
from cards.layout.layoutfile import Layout, load_layout
from cards.nutrition.needs import Profile, profile, profile_keys
from cards.nutrition.own_needs import read_needs
from cards.source.grounds import Shelf
from cards.source.nodes import read_nodes
from cards.source.programme import Programme, read_programme
from cards.source.workspace import MOST_TABLE_BYTES, Workspace, read_text, shelf_of
from cards.text.faces import FontBook, FontMissing, FontOutside
from cards.words.language import Language, load_language, sections_of
from cards.words.state import SOURCE, stale_texts

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Kit:
    """Everything a card needs that is not in its recipe."""

    programme: Programme
    languages: tuple[Language, ...]
    layout: Layout
    book: FontBook
    table: FoodTable
    measures: Measures
    needs: Profile
    sources: dict[str, str]
    """Texts of the files read, for the source lines of messages."""
    shelf: Shelf
    """The folder's files, for what a page rests on."""
    own_foods: str = ""
    """The programme's own food table among ``sources``; empty where there is none."""


def open_kit(
    workspace: Workspace,
    layout_name: str = "",
    languages: tuple[str, ...] = (),
    words: bool = True,
) -> Result[Kit]:
    """Read programme, words, layout, fonts, own foods and needs. An error stops the build.

    ``layout_name`` and ``languages`` stand in place of the programme's own where they are given.
    Without ``words`` the kit has no languages: for whoever mends what is missing in them.
    """
    opening = _Opening(workspace)
    programme = opening.programme()
    if programme is None:
        return Result(None, tuple(opening.faults))
    programme = replace(programme, chosen=languages, known=workspace.languages())
    said = [opening.language(code) for code in programme.printed if words]
    layout = opening.layout(layout_name or programme.layout)
    book = opening.fonts()
    table = opening.foods()
    needs = opening.needs(programme)
    faults = tuple(opening.faults)
    if has_errors(faults) or layout is None or book is None or table is None or needs is None:
        return Result(None, faults)
    kit = Kit(
        programme=programme,
        languages=tuple(lang for lang in said if lang is not None),
        layout=layout.drawn(len(programme.printed)),
        book=book,
        table=table,
        measures=Measures(programme.measures_ml),
        needs=needs,
        sources=opening.sources,
        shelf=shelf_of(workspace),
        own_foods=opening.own_foods,
    )
    return Result(kit, faults)


def kit_in(
    workspace: Workspace, kit: Kit, languages: tuple[str, ...], layout_name: str = ""
) -> Result[Kit]:
    """The same kit for cards in other languages, or on another layout."""
    opening = _Opening(workspace)
    opened = [opening.language(code) for code in languages]
    layout = opening.layout(layout_name or kit.programme.layout)
    faults = tuple(opening.faults)
    if has_errors(faults) or layout is None:
        return Result(None, faults)
    other = replace(
        kit,
        programme=replace(kit.programme, languages=languages),
        languages=tuple(lang for lang in opened if lang is not None),
        layout=layout.drawn(len(languages)),
        sources={**kit.sources, **opening.sources},
    )
    return Result(other, faults)


class _Opening:
    """Reads one file after another and keeps what was wrong with each."""

    def __init__(self, workspace: Workspace) -> None:
        self.workspace = workspace
        self.sources: dict[str, str] = {}
        self.faults: list[Diagnostic] = []
        self.own_foods = ""

    def read(
        self, path: Path, make: Callable[[str, str], Result[T]], most: int | None = None
    ) -> T | None:
        """A file's text through ``make``; None with the faults kept where it fails."""
        name = self.workspace.name(path)
        text = read_text(path, name, most) if most else read_text(path, name)
        self.faults += text.diagnostics
        if text.value is None:
            return None
        self.sources[name] = text.value
        result = make(text.value, name)
        self.faults += result.diagnostics
        return result.value

    def missing(self, kind: str, message: str, hint: str) -> None:
        """One message about a file the programme asks for."""
        at = self.workspace.programme_file()
        place = Place(self.workspace.name(at) if at else "programme.yaml")
        self.faults.append(error(place, kind, message, hint))

    def programme(self) -> Programme | None:
        path = self.workspace.programme_file()
        return self.read(path, read_programme) if path else Programme()

    def language(self, code: str) -> Language | None:
        path = self.workspace.template("words", f"{code}.yaml")
        if path is None:
            self.missing(
                "language-unknown",
                f'there are no words for the language "{code}"',
                f"write templates/words/{code}.yaml, or "
                f"choose from {', '.join(self.workspace.languages())}",
            )
            return None
        stale = self.stale(code)
        return self.read(path, lambda text, name: load_language(text, name, code, stale))

    def stale(self, code: str) -> dict[str, str]:
        """Texts of a words file that were made from another English; none where it is unknown."""
        made = self.workspace.made_from(code)
        source = self.workspace.template("words", f"{SOURCE}.yaml")
        if made is None or source is None:
            return {}
        made_from = self.read(made, read_nodes)
        # what is wrong with the English is told where it is printed
        name = self.workspace.name(source)
        text = read_text(source, name).value
        english = read_nodes(text, name).value if text else None
        if made_from is None or text is None or english is None:
            return {}
        self.sources[name] = text
        return stale_texts(made_from.value, sections_of(english))

    def layout(self, layout: str) -> Layout | None:
        known_names = self.workspace.layouts()
        path = self.workspace.template("layouts", f"{layout}.yaml")
        if path is None or layout not in known_names:
            known = ", ".join(known_names)
            self.missing("layout-unknown", f'there is no layout "{layout}"', f"choose from {known}")
            return None
        return self.read(path, load_layout)

    def fonts(self) -> FontBook | None:
        path = self.workspace.font_list()
        if path is None:
            self.missing("file-missing", "there is no list of fonts", "install the program anew")
            return None
        folder = path.parent
        return self.read(path, lambda text, name: _font_book(text, name, folder))

    def foods(self) -> FoodTable | None:
        path = self.workspace.own_foods()
        if path is None:
            return shipped_table()
        self.own_foods = self.workspace.name(path)
        return self.read(
            path, lambda text, name: own_table(text, name, shipped_table()), MOST_TABLE_BYTES
        )

    def needs(self, programme: Programme) -> Profile | None:
        path = self.workspace.own_needs()
        own = self.read(path, read_needs) if path else {}
        if own is None:
            return None
        if programme.needs in own:
            return own[programme.needs]
        if programme.needs in profile_keys():
            return profile(programme.needs)
        known = (*profile_keys(), *own)
        self.missing(
            "needs-unknown",
            f'there is no set of needs "{programme.needs}"',
            did_you_mean(programme.needs, known, f"choose from: {', '.join(known)}"),
        )
        return None


def _font_book(text: str, name: str, folder: Path) -> Result[FontBook]:
    nodes = read_nodes(text, name)
    if nodes.value is None:
        return Result(None, nodes.diagnostics)
    try:
        return Result(FontBook(nodes.value.value, folder), nodes.diagnostics)
    except FontOutside as trouble:
        fault = error(
            Place(name), "path-outside", str(trouble), "put the file beside fonts.yaml, and name it"
        )
        return Result(None, (fault,))
    except (FontMissing, OSError, KeyError, TypeError, AttributeError, ValueError) as trouble:
        told = isinstance(trouble, FontMissing | OSError | ValueError)
        fault = error(
            Place(name),
            "font-list",
            "the list of fonts cannot be used: "
            + (str(trouble) if told else "something in it is missing or of the wrong shape"),
            "name families with regular and bold, and scripts with families",
        )
        return Result(None, (fault,))
