"""What a build works with besides recipes: programme, words, layout, fonts, foods."""

from __future__ import annotations

from dataclasses import dataclass

from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error, has_errors
from cards.foods.table import FoodTable, shipped_table
from cards.foods.units import Measures
from cards.layout.layoutfile import Layout, load_layout
from cards.source.nodes import read_nodes
from cards.source.programme import Programme, read_programme
from cards.source.workspace import Workspace, read_text
from cards.text.faces import FontBook, FontMissing
from cards.words.language import Language, load_language


@dataclass(frozen=True, slots=True)
class Kit:
    """Everything a card needs that is not in its recipe."""

    programme: Programme
    languages: tuple[Language, ...]
    layout: Layout
    book: FontBook
    table: FoodTable
    measures: Measures
    sources: dict[str, str]
    """Texts of the files read, for the source lines of messages."""


def open_kit(workspace: Workspace) -> Result[Kit]:
    """Read programme, words, layout and fonts. Any error here stops the whole build."""
    faults: list[Diagnostic] = []
    sources: dict[str, str] = {}
    programme = _programme(workspace, sources, faults)
    if programme is None:
        return Result(None, tuple(faults))
    languages = [_language(workspace, code, sources, faults) for code in programme.languages]
    layout = _layout(workspace, programme.layout, sources, faults)
    book = _fonts(workspace, sources, faults)
    if has_errors(faults) or layout is None or book is None:
        return Result(None, tuple(faults))
    kit = Kit(
        programme=programme,
        languages=tuple(lang for lang in languages if lang is not None),
        layout=layout,
        book=book,
        table=shipped_table(),
        measures=Measures(programme.measures_ml),
        sources=sources,
    )
    return Result(kit, tuple(faults))


def _programme(
    workspace: Workspace, sources: dict[str, str], faults: list[Diagnostic]
) -> Programme | None:
    path = workspace.programme_file()
    if path is None:
        return Programme()
    name = workspace.name(path)
    text = read_text(path, name)
    faults += text.diagnostics
    if text.value is None:
        return None
    sources[name] = text.value
    result = read_programme(text.value, name)
    faults += result.diagnostics
    return result.value


def _language(
    workspace: Workspace, code: str, sources: dict[str, str], faults: list[Diagnostic]
) -> Language | None:
    path = workspace.template("words", f"{code}.yaml")
    if path is None:
        faults.append(
            error(
                Place("programme.yaml"),
                "language-unknown",
                f'there are no words for the language "{code}"',
                f"write templates/words/{code}.yaml, or choose en or hi",
            )
        )
        return None
    name = workspace.name(path)
    text = read_text(path, name)
    faults += text.diagnostics
    if text.value is None:
        return None
    sources[name] = text.value
    result = load_language(text.value, name, code)
    faults += result.diagnostics
    return result.value


def _layout(
    workspace: Workspace, layout: str, sources: dict[str, str], faults: list[Diagnostic]
) -> Layout | None:
    path = workspace.template("layouts", f"{layout}.yaml")
    if path is None:
        faults.append(
            error(
                Place("programme.yaml"),
                "layout-unknown",
                f'there is no layout "{layout}"',
                "choose hand-card",
            )
        )
        return None
    name = workspace.name(path)
    text = read_text(path, name)
    faults += text.diagnostics
    if text.value is None:
        return None
    sources[name] = text.value
    result = load_layout(text.value, name)
    faults += result.diagnostics
    return result.value


def _fonts(
    workspace: Workspace, sources: dict[str, str], faults: list[Diagnostic]
) -> FontBook | None:
    path = workspace.font_list()
    if path is None:
        faults.append(
            error(
                Place("fonts/fonts.yaml"),
                "file-missing",
                "there is no list of fonts",
                "install the program anew",
            )
        )
        return None
    text = read_text(path, workspace.name(path))
    faults += text.diagnostics
    if text.value is None:
        return None
    nodes = read_nodes(text.value, workspace.name(path))
    faults += nodes.diagnostics
    if nodes.value is None:
        return None
    try:
        return FontBook(nodes.value.value, path.parent)
    except (FontMissing, KeyError, TypeError, AttributeError) as trouble:
        faults.append(
            error(
                Place(workspace.name(path)),
                "font-list",
                f"the list of fonts cannot be used: {trouble}",
                "name families with regular and bold, and scripts with families",
            )
        )
        return None
