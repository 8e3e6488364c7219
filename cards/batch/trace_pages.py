"""Which session, plan, chart or page about icons a paper is: by its code, today or in git."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import chain, combinations, permutations

import cards
from cards.batch.papers import Paper
from cards.nutrition import feeding
from cards.source.day import read_day
from cards.source.grounds import (
    DAY,
    FEEDING_CHART,
    PAGES,
    SESSION,
    TEST,
    Grounds,
    Shelf,
    day_grounds,
    kind_of,
    page_grounds,
    recipe_names,
    session_grounds,
)
from cards.source.history import shelves
from cards.source.programme import Programme, read_programme
from cards.source.session import read_session
from cards.source.workspace import Workspace

MOST_PAIRED = 60
"""With more recipes than these, no test made for two of them is looked for. One made for three or
more, but not for all, is known by its PDF alone."""

NAMES = {
    SESSION: "papers of a training day",
    DAY: "a plan of meals",
    FEEDING_CHART: "the chart of feeding by age",
    "icons": "all pictures with their words",
    TEST: "the test of pictures",
    "first-lesson": "the first lesson",
}
"""What a page is called when it is spoken of."""


@dataclass(frozen=True, slots=True)
class Found:
    """A page with the digest that it bears, and the day it is from where git tells it."""

    grounds: Grounds
    code: str
    day: str = ""


def pages_today(paper: Paper, shelf: Shelf, spoken: Sequence[str]) -> list[Found]:
    """Pages that could be made today and bear the paper's code."""
    return list(_bearing(paper.code, _candidates(shelf, spoken)))


def page_codes(shelf: Shelf, spoken: Sequence[str]) -> Iterator[str]:
    """Every code that a page made today may bear."""
    for grounds in _candidates(shelf, spoken):
        yield from _digests(grounds)


def page_before(
    paper: Paper, shelf: Shelf, workspace: Workspace, spoken: Sequence[str]
) -> tuple[Found | None, Grounds | None]:
    """The page as it was printed, from what it carries or from git; and as it would be today.

    Either is None where it is not known. What a paper carries counts even where its words or
    tables have changed too, for it carries neither.
    """
    carried = _carried(paper, shelf, spoken)
    before = carried if carried is not None and carried.code else None
    if before is None:
        seen: set[str] = set()
        past = shelves(workspace, shelf)
        for day, older in chain([("", shelf.without_own_words())], past):
            found = _bearing(paper.code, _candidates(older, spoken, seen))
            before = next((replace(one, day=day) for one in found), None)
            if before is not None:
                break
    known = before or carried
    if known is not None:
        return known, _again(known.grounds, shelf)
    return None, _named(paper, shelf)


def _digests(grounds: Grounds) -> Iterator[str]:
    """With each choice of languages marked a draft: what was checked when is not kept."""
    for count in range(len(grounds.languages) + 1):
        for drafts in combinations(grounds.languages, count):
            yield grounds.digest(drafts)


def _bearing(code: str, candidates: Iterable[Grounds]) -> Iterator[Found]:
    for grounds in candidates:
        for digest in _digests(grounds):
            if digest.startswith(code):
                yield Found(grounds, digest)
                if digest == code:
                    return


def _candidates(
    shelf: Shelf, spoken: Sequence[str], seen: set[str] | None = None
) -> Iterator[Grounds]:
    """Every page that the folder gives, but for those that ``seen`` holds, which grows by them."""
    for grounds in chain(_of_files(shelf), _of_none(shelf, spoken)):
        key = grounds.digest(())
        if seen is None or key not in seen:
            if seen is not None:
                seen.add(key)
            yield grounds


def _of_files(shelf: Shelf) -> Iterator[Grounds]:
    programme = _programme(shelf)
    for path in shelf.files():
        text = shelf.read(path)
        if text is not None:
            yield from _of_file(path, text, shelf, programme)


def _of_file(path: str, text: str, shelf: Shelf, programme: Programme) -> Iterator[Grounds]:
    kind = kind_of(text)
    if kind == SESSION:
        session = read_session(text, path, programme).value
        if session is not None:
            yield session_grounds(session, text, shelf, programme.languages)
    elif kind == DAY:
        day = read_day(text, path, programme).value
        if day is not None:
            yield day_grounds(day, text, shelf, programme.languages)


def _programme(shelf: Shelf) -> Programme:
    found = [read_programme(part.text, part.path).value for part in shelf.programme()]
    return next((one for one in found if one is not None), Programme())


def _of_none(shelf: Shelf, spoken: Sequence[str]) -> Iterator[Grounds]:
    """Pages without a file, in every language or two; a test also for each recipe, two, or all."""
    recipes = [part for name in recipe_names(shelf) for part in shelf.recipe(name)]
    own = _programme(shelf).languages
    for codes in dict.fromkeys((own, *permutations(spoken, 1), *permutations(spoken, 2))):
        common = {page: page_grounds(page, shelf, codes) for page in PAGES}
        yield from common.values()
        chosen = [tuple(recipes), *combinations(recipes, 1)]
        if codes == own and len(recipes) <= MOST_PAIRED:
            chosen += combinations(recipes, 2)
        for tested in chosen if recipes else ():
            test = common[TEST]
            yield replace(test, parts=(*test.parts, *sorted(tested, key=lambda part: part.role)))


def _carried(paper: Paper, shelf: Shelf, spoken: Sequence[str]) -> Found | None:
    """The page that the paper's file carries the grounds of; without a code where words or
    tables, which it does not carry, are others than they were."""
    if not paper.sources:
        return None
    sources = paper.sources
    tables = (f"{shelf.recipes}foods.csv", f"{shelf.recipes}needs.yaml")

    def read(path: str) -> str | None:
        kept = path.startswith("templates/") or path in tables
        return shelf.read(path) if kept else sources.get(path)

    then = replace(shelf, read=read, files=lambda: tuple(sources))
    found = next(_bearing(paper.code, _candidates(then, spoken)), None)
    if found is not None:
        return found
    programme = _programme(then)
    ours = [g for path, text in sources.items() for g in _of_file(path, text, then, programme)]
    return Found(ours[0], "") if len(ours) == 1 else None


def _again(before: Grounds, shelf: Shelf) -> Grounds | None:
    """The same page as it would be made today; None where its file is gone."""
    if before.page in PAGES:
        roles = [part.role for part in before.parts if part.role.startswith("recipe ")]
        tested = [part for role in roles for part in shelf.recipe(role.removeprefix("recipe "))]
        return page_grounds(before.page, shelf, before.languages, tested)
    return _at(before.path, shelf)


def _at(path: str, shelf: Shelf) -> Grounds | None:
    text = shelf.read(path)
    programme = _programme(shelf)
    return next(_of_file(path, text, shelf, programme), None) if text is not None else None


def _named(paper: Paper, shelf: Shelf) -> Grounds | None:
    """What the paper's own address says it is, though its code is not known."""
    if paper.page in PAGES:
        return page_grounds(paper.page, shelf, _programme(shelf).languages)
    for path in shelf.files():
        # an address may have folders of its own before the programme's
        if paper.path and f"/{paper.path}".endswith(f"/{path}"):
            return _at(path, shelf)
    return None


@dataclass(frozen=True, slots=True)
class About:
    """What is said of a page: its file, what it is called, its version or day."""

    path: str
    title: str
    version: str


def page_about(grounds: Grounds, programme: Programme) -> About:
    """In words for whoever asks; the title as its file has it, where it has a file."""
    languages = " + ".join(grounds.languages)
    kind = f"{NAMES[grounds.page]} ({languages})"
    own = next((part for part in grounds.parts if part.role == grounds.page), None)
    if own is None:
        tested = [part.role.removeprefix("recipe ") for part in grounds.parts
                  if part.role.startswith("recipe ")]  # fmt: skip
        told = f", on the cards of {', '.join(tested)}" if tested else ""
        return About(grounds.path, f"{kind}{told}", _version(grounds.page))
    if grounds.page == SESSION:
        session = read_session(own.text, own.path, programme).value
        title = _both(session.title if session else {})
        version = f"{session.starts:%Y-%m-%d}" if session else ""
    else:
        day = read_day(own.text, own.path, programme).value
        title, version = _both(day.title if day else {}), day.revised if day else ""
    return About(grounds.path, f"{title}, {kind}" if title else kind, version)


def _version(page: str) -> str:
    return f"version {feeding.edition()[0] if page == FEEDING_CHART else cards.__version__}"


def _both(title: Mapping[str, str]) -> str:
    return " / ".join(title.values())
