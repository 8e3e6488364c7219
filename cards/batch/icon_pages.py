"""Pages about the icons: all of them, a test of understanding, a first lesson."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import cards
from cards.batch.kit import Kit
from cards.batch.stages import run_file
from cards.batch.write import write_whole
from cards.card.first_lesson import compose_first_lesson
from cards.card.icon_sheet import compose_icon_sheet
from cards.card.icon_test import compose_icon_test
from cards.card.origin import draft_codes, page_origin
from cards.diagnostics.diagnostic import Diagnostic, Result, has_errors
from cards.icons import catalogue
from cards.layout.a4 import settled
from cards.layout.icon_pages.icon_sheet_pages import place_icon_sheet
from cards.layout.icon_pages.icon_test_pages import place_icon_test
from cards.layout.icon_pages.lesson_pages import place_first_lesson
from cards.layout.pages import IconItem, Pages
from cards.pdf.paint import paint
from cards.source.grounds import ICONS, LESSON, TEST, Grounds, Part, page_grounds
from cards.source.workspace import Workspace

FILES = {"sheet": ICONS, "test": TEST, "lesson": LESSON}
"""What can be made, and what it and its file in ``out/`` are called."""


@dataclass(frozen=True, slots=True)
class Used:
    """Icons on the cards of some recipes, what the recipes' checks said, and their texts."""

    names: tuple[str, ...]
    diagnostics: tuple[Diagnostic, ...]
    texts: Mapping[str, str]
    recipes: tuple[Part, ...]
    """The recipes themselves."""


def used_icons(files: Sequence[Path], workspace: Workspace, kit: Kit) -> Used:
    """The icons that the recipes' cards print. A recipe that gives no card gives none."""
    names: set[str] = set()
    said: list[Diagnostic] = []
    texts: dict[str, str] = {}
    recipes: list[Part] = []
    for path in files:
        run = run_file(path, workspace, kit)
        said += run.diagnostics
        texts |= run.sources
        recipes.append(Part(f"recipe {path.stem}", run.name, run.text))
        if run.pages is not None:
            names |= names_on(run.pages)
    return Used(tuple(sorted(names)), tuple(said), texts, tuple(recipes))


def names_on(pages: Pages) -> set[str]:
    """Names of the icons on placed pages."""
    return {
        item.icon.name for page in pages.pages for item in page.items if isinstance(item, IconItem)
    }


def icon_pages(
    what: str, names: Sequence[str], kit: Kit, recipes: Sequence[Part] = ()
) -> Result[Pages]:
    """The pages of ``what``, a key of FILES; a test holds the icons ``names``, or all of them.

    ``recipes`` are those whose cards the icons of a test are from.
    """
    programme, languages = kit.programme, kit.languages
    grounds = icon_grounds(what, kit, recipes)
    digest = grounds.digest(draft_codes(languages))
    origin = page_origin(FILES[what], cards.__version__, digest, programme)

    def make() -> Pages:
        if what == "lesson":
            lesson = compose_first_lesson(programme, languages, origin)
            return place_first_lesson(lesson, kit.layout, kit.book)
        if what == "test":
            test = compose_icon_test(names or catalogue.names(), programme, languages, origin)
            return place_icon_test(test, kit.layout, kit.book)
        sheet = compose_icon_sheet(programme, languages, origin)
        return place_icon_sheet(sheet, kit.layout, kit.book)

    return settled(make, programme.at)


def icon_grounds(what: str, kit: Kit, recipes: Sequence[Part]) -> Grounds:
    """What the pages of ``what`` rest on."""
    codes = [lang.code for lang in kit.languages]
    return page_grounds(FILES[what], kit.shelf, codes, recipes)


def make_icon_pages(
    what: str, names: Sequence[str], workspace: Workspace, kit: Kit, recipes: Sequence[Part] = ()
) -> Result[Path]:
    """Write the file of ``what`` into the folder's ``out/``."""
    placed = icon_pages(what, names, kit, recipes)
    if placed.value is None or has_errors(placed.diagnostics):
        return Result(None, placed.diagnostics)
    data = paint(placed.value, icon_grounds(what, kit, recipes).carried)
    target = workspace.out / f"{FILES[what]}{kit.programme.suffix}.pdf"
    written = write_whole(target, data, workspace.name(target))
    return Result(written.value, (*placed.diagnostics, *written.diagnostics))
