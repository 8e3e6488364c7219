"""What a page rests on: the texts of all files that a trainer can change, and their digest."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from cards.source.day import DayFile
from cards.source.read import digest_of
from cards.source.session import FEEDING, Session

FEEDING_CHART, ICONS, TEST, LESSON = "feeding-chart", "icons", "icon-test", "first-lesson"
PAGES = (FEEDING_CHART, ICONS, TEST, LESSON)
"""Pages that have no file of their own; they rest on the programme's and on words."""

SESSION, DAY = "session", "day"

PROGRAMME, FOODS, NEEDS = "programme", "foods", "needs"
ENDINGS = (".yaml", ".yml")

_KIND = re.compile(r"^(recipe|session|day)\s*:", re.MULTILINE)


def kind_of(text: str) -> str:
    """What a file says it is: recipe, session, day; empty where it says nothing."""
    found = _KIND.search(text)
    return found[1] if found else ""


@dataclass(frozen=True, slots=True)
class Part:
    """A file that a page rests on. ``role`` says as what: session, words hi, recipe NAME."""

    role: str
    path: str
    text: str


@dataclass(frozen=True, slots=True)
class Grounds:
    """All that a page of a kind rests on, in an order that is always the same."""

    page: str
    path: str
    """Of the file it leads to."""
    languages: tuple[str, ...]
    parts: tuple[Part, ...]

    def digest(self, drafts: Iterable[str]) -> str:
        """Ten hex digits over kind, languages, every part, and the languages marked a draft.

        Paths are not in it: a file that has only another folder is the same file.
        """
        return digest_of(
            " ".join((self.page, *self.languages)),
            *(f"{part.role} {_whole(part.text)}" for part in self.parts),
            *(f"draft: {code}" for code in self.languages if code in set(drafts)),
        )

    @property
    def carried(self) -> dict[str, str]:
        """Texts that its file carries, by path: all but words and tables, which are large."""
        left_out = (FOODS, NEEDS)
        return {
            part.path: part.text
            for part in self.parts
            if part.role not in left_out and not part.role.startswith("words ")
        }


@lru_cache(maxsize=4096)
def _whole(text: str) -> str:
    plain = text.replace("\r\n", "\n").replace("\r", "\n")
    return hashlib.sha256(plain.encode("utf-8", "surrogatepass")).hexdigest()


@dataclass(frozen=True)
class Shelf:
    """A programme's folder as it stands or stood, its files read when they are asked for."""

    read: Callable[[str], str | None] = field(compare=False)
    """The text at a path below the folder; None where there is no such file."""
    files: Callable[[], Sequence[str]] = field(compare=False)
    """Paths of all YAML files among the recipes and below them."""
    shipped: Callable[[str], str | None] = field(compare=False)
    """The program's own words, at the path that they have in a folder."""
    recipes: str = ""
    """Where recipes lie, with its slash: recipes/ or nothing."""

    def without_own_words(self) -> Shelf:
        """The same with the program's own words in place of the folder's."""

        def read(path: str) -> str | None:
            return self.shipped(path) if path.startswith("templates/") else self.read(path)

        return replace(self, read=read)

    def named(self, role: str, *paths: str) -> tuple[Part, ...]:
        """The first of some files that is there, as a part; nothing where none is."""
        found = ((path, self.read(path)) for path in paths)
        return next(((Part(role, path, text),) for path, text in found if text is not None), ())

    def programme(self) -> tuple[Part, ...]:
        """The programme's file."""
        return self.named(PROGRAMME, f"{self.recipes}programme.yaml", "programme.yaml")

    def common(self, codes: Iterable[str], *tables: str) -> tuple[Part, ...]:
        """The programme, tables of its own, and the words of languages."""
        found = [*self.programme()]
        for table, name in ((FOODS, "foods.csv"), (NEEDS, "needs.yaml")):
            found += self.named(table, f"{self.recipes}{name}") if table in tables else ()
        for code in codes:
            found += self.named(f"words {code}", f"templates/words/{code}.yaml")
        return tuple(found)

    def recipe(self, name: str) -> tuple[Part, ...]:
        """A recipe by its name."""
        stem = f"{self.recipes}{name}"
        return self.named(f"recipe {name}", *(stem + ending for ending in ENDINGS))

    def dish(self, name: str, codes: Iterable[str]) -> Iterator[Part]:
        """A recipe with its side files in some languages."""
        yield from self.recipe(name)
        for code in codes:
            stem = f"{self.recipes}{name}.{code}"
            yield from self.named(f"side {name} {code}", *(stem + ending for ending in ENDINGS))


def page_grounds(
    page: str, shelf: Shelf, codes: Sequence[str], recipes: Iterable[Part] = ()
) -> Grounds:
    """Of a page without a file of its own; a test rests on the ``recipes`` that it was made for."""
    tables = () if page in (ICONS, LESSON) else (FOODS,)
    parts = shelf.common(codes, *tables)
    path = next((part.path for part in parts if part.role == PROGRAMME), "programme.yaml")
    told = sorted(recipes, key=lambda part: part.role)
    return Grounds(page, path, tuple(codes), (*parts, *told))


def session_grounds(session: Session, text: str, shelf: Shelf, codes: Sequence[str]) -> Grounds:
    """Of a training day's papers: its file, and its dishes in all languages they go out in."""
    path = session.at.file
    spoken = dict.fromkeys(codes)
    given = [v.languages for v in session.villages] + [c.languages for c in session.charts]
    spoken |= dict.fromkeys(code for languages in given for code in languages)
    dishes = [name for name, _ in session.recipes]
    dishes += [chart.of for chart in session.charts if chart.of != FEEDING]
    parts = [Part(SESSION, path, text), *shelf.common(codes, FOODS)]
    for name in dict.fromkeys(dishes):
        parts += shelf.dish(name, spoken)
    return Grounds(SESSION, path, tuple(codes), tuple(parts))


def day_grounds(day: DayFile, text: str, shelf: Shelf, codes: Sequence[str]) -> Grounds:
    """Of a plan's chart: its file, and the dishes it names or, where it may choose, has on hand."""
    names = [planned.dish for meals in day.days for planned in meals.values()]
    if day.propose:
        names += [name for name, _ in day.dishes] or recipe_names(shelf)
    parts = [Part(DAY, day.path, text), *shelf.common(codes, FOODS, NEEDS)]
    for name in sorted(set(names)):
        parts += shelf.dish(name, codes)
    return Grounds(DAY, day.path, tuple(codes), tuple(parts))


def recipe_names(shelf: Shelf) -> list[str]:
    """Names of the recipes that lie among the recipes themselves, sorted."""
    stem = re.compile(rf"{re.escape(shelf.recipes)}([^/.][^/]*)\.ya?ml")
    found = {name[1] for name in map(stem.fullmatch, shelf.files()) if name}
    left_out = {"programme", "needs"}
    # a side file bears its recipe's name and a language
    sides = {name for name in found if name.rpartition(".")[0] in found}
    return sorted(found - left_out - sides)
