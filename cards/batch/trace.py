"""What a paper was made from, whether it still holds, and what has changed since."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain, combinations, permutations

from cards.batch.kit import Kit
from cards.batch.page_changes import Changed, page_changes
from cards.batch.papers import Paper
from cards.batch.run import Run
from cards.batch.stages import run_text
from cards.batch.trace_pages import Found, page_about, page_before, page_codes, pages_today
from cards.card.changes import Change, changes, own_warnings
from cards.diagnostics.diagnostic import Diagnostic, Severity
from cards.source.files import SIDE_NAME
from cards.source.grounds import DAY, SESSION, Grounds, Shelf, kind_of
from cards.source.history import Version, versions
from cards.source.read import card_digest
from cards.source.workspace import Workspace, read_text, side_files


@dataclass(frozen=True, slots=True)
class Trace:
    """What is known of one paper."""

    code: str
    recipe: str = ""
    """Path of its recipe, or of the file of another page; empty where none is known."""
    title: str = ""
    page: str = "card"
    """``card``, or which other page it is: session, day, icons and so on."""
    state: str = "unknown"
    """``current``, ``changed``, ``gone`` (its file is no more) or ``unknown``."""
    printed_from: str = ""
    """The version on the paper: its number and day."""
    now: str = ""
    """The version of today."""
    changed: tuple[Change, ...] = ()
    compared: bool = False
    """Whether the text that was printed could be found, to compare it."""
    recall: tuple[str, ...] = ()
    """Why copies should be called back; empty where there is no reason."""
    others: tuple[str, ...] = ()
    """Codes that begin alike, or are nearest to the one asked for."""


def trace(paper: Paper, workspace: Workspace, kit: Kit) -> Trace:
    """Look for what a paper is of: among today's files, in what it carries, in the past."""
    today = list(_today(workspace))
    spoken = workspace.languages()
    exact = [(v, code) for v in today for code in _codes(v, spoken) if code.startswith(paper.code)]
    pages = [] if exact and len(paper.code) == _WHOLE else pages_today(paper, kit.shelf, spoken)
    named = {code for _, code in exact} | {page.code for page in pages}
    if len(named) > 1:
        return Trace(paper.code, others=tuple(sorted(named)))
    if pages:
        return _page(pages[0], pages[0].grounds, kit)
    if exact:
        version, code = exact[0]
        run = _run(version, kit)
        recall = _missing_warnings(paper, run)
        return Trace(code, version.path, _title(run), "card", "current", _version(run),
                     _version(run), (), True, recall)  # fmt: skip
    if not paper.page and not _is_page(paper, kit.shelf):
        found = _card_before(paper, today, workspace, kit)
        if found is not None:
            return found
    before, now = page_before(paper, kit.shelf, workspace, spoken)
    if before is not None or now is not None:
        return _page(before or Found(now, ""), now, kit, paper)  # type: ignore[arg-type]
    return Trace(paper.code, paper.path, others=_nearest(paper.code, today, kit.shelf, spoken))


_WHOLE = 10
"""Characters of a whole code."""


def _is_page(paper: Paper, shelf: Shelf) -> bool:
    """Whether the paper's address leads to a file of another kind than a recipe."""
    found = (path for path in shelf.files() if paper.path and f"/{paper.path}".endswith(f"/{path}"))
    return any(kind_of(shelf.read(path) or "") in (SESSION, DAY) for path in found)


def _card_before(
    paper: Paper, today: Sequence[Version], workspace: Workspace, kit: Kit
) -> Trace | None:
    """A card that is no longer as it was printed; None where nothing is known of it."""
    old, code = _printed_text(paper, workspace)
    path = old.path if old else paper.path
    # an address may have folders of its own before the programme's
    current = next((v for v in today if f"/{path}".endswith(f"/{v.path}")), None)
    if old is None and current is None:
        return None
    before = _run(old, kit) if old else None
    now = _run(current, kit) if current else None
    found: tuple[Change, ...] = ()
    if before and now and before.card and now.card:
        found = changes(before.card, now.card)
    shown = now or before
    return Trace(
        code or paper.code,
        path,
        _title(shown) if shown else "",
        "card",
        "changed" if current else "gone",
        f"{_version(before)}, {old.day}".strip(", ") if before and old else "",
        _version(now) if now else "",
        found,
        bool(before and now and before.card and now.card),
        (*_new_warnings(found), *_faults_now(before), *_missing_warnings(paper, now)),
    )


def _page(found: Found, now: Grounds | None, kit: Kit, paper: Paper | None = None) -> Trace:
    """Another page than a card. Without ``paper`` it is as it would be made today."""
    grounds = now or found.grounds
    about = page_about(grounds, kit.programme)
    if paper is None:
        return Trace(found.code, about.path, about.title, grounds.page, "current", about.version,
                     about.version, (), True)  # fmt: skip
    compared = now is not None and found.grounds is not now
    changed = page_changes(found.grounds, now, kit) if now and compared else Changed((), ())
    printed = page_about(found.grounds, kit.programme).version if found.grounds is not now else ""
    return Trace(
        found.code or paper.code,
        about.path,
        about.title,
        grounds.page,
        "changed" if now else "gone",
        ", ".join(part for part in (printed, found.day) if part),
        about.version if now else "",
        changed.changes,
        compared,
        changed.recall,
    )


def _today(workspace: Workspace) -> Iterator[Version]:
    files = workspace.recipe_files()
    beside = side_files(files)
    for path in files:
        texts = {workspace.name(p): read_text(p, p.name).value for p in (path, *beside[path])}
        kept = {name: text for name, text in texts.items() if text is not None}
        name = workspace.name(path)
        if name in kept:
            yield Version(name, "", kept.pop(name), kept)


def _codes(version: Version, languages: Sequence[str]) -> tuple[str, ...]:
    """Every digest that a card of this version may bear.

    A card is in one language or two, in either order; its digest covers their side files, and
    which of the two were a draft.
    """
    found: dict[str, None] = {}
    for printed in (*permutations(languages, 1), *permutations(languages, 2)):
        sides = [
            text for code in printed for name, text in version.sides.items() if _speaks(name, code)
        ]
        for count in range(len(printed) + 1):
            for drafts in combinations(printed, count):
                found[card_digest(version.text, sides, drafts)] = None
    return tuple(found)


def _speaks(side: str, code: str) -> bool:
    name = SIDE_NAME.fullmatch(side.rpartition("/")[2])
    return name is not None and name["language"] == code


def _printed_text(paper: Paper, workspace: Workspace) -> tuple[Version | None, str]:
    """The version printed, with its whole code: from the paper itself, or from the past."""
    for version in (*_carried(paper.sources), *versions(workspace, paper.path)):
        codes = _codes(version, workspace.languages())
        code = next((code for code in codes if code.startswith(paper.code)), "")
        if code:
            return version, code
    if paper.path:  # the file may have had another name then
        return _printed_text(Paper(paper.code), workspace)
    return None, ""


def _carried(sources: Mapping[str, str]) -> Iterator[Version]:
    for path, text in sources.items():
        name = path.rpartition("/")[2]
        if not SIDE_NAME.fullmatch(name):
            stem = path.rpartition(".")[0]
            sides = {p: t for p, t in sources.items() if p != path and p.startswith(f"{stem}.")}
            yield Version(path, "", text, sides)


def _run(version: Version, kit: Kit) -> Run:
    """The version as it would be made today, in the programme's languages."""
    wanted = [
        name
        for language in kit.programme.printed
        for name in version.sides
        if _speaks(name, language)
    ]
    return run_text(version.text, version.path, kit, {name: version.sides[name] for name in wanted})


def _title(run: Run) -> str:
    return " / ".join(run.recipe.title.values()) if run.recipe else ""


def _version(run: Run | None) -> str:
    if run is None or run.recipe is None:
        return ""
    recipe = run.recipe
    return f"version {recipe.version}" + (f", {recipe.revised}" if recipe.revised else "")


def _new_warnings(found: Sequence[Change]) -> tuple[str, ...]:
    return tuple(
        f"a warning was added since: {change.now}"
        for change in found
        if change.block == "warnings" and change.now
    )


def _faults_now(run: Run | None) -> tuple[str, ...]:
    """What today's rules find wrong with what was printed."""
    faults: Sequence[Diagnostic] = run.diagnostics if run else ()
    return tuple(
        f"by today's rules: {fault.message}"
        for fault in faults
        if fault.severity is Severity.ERROR and fault.source
    )


def _missing_warnings(paper: Paper, now: Run | None) -> tuple[str, ...]:
    """Warnings of today that are not among the words of the paper."""
    if not paper.words or now is None or now.card is None:
        return ()
    printed = "".join(paper.words.split())
    return tuple(
        f"a warning is not on this paper: {said[0]}"
        for said in own_warnings(now.card).values()
        if not any("".join(text.split()) in printed for text in said)
    )


def _nearest(
    code: str, today: Sequence[Version], shelf: Shelf, spoken: Sequence[str]
) -> tuple[str, ...]:
    """Codes of today that one slip of the hand would make of it."""
    if len(code) < _WHOLE:
        return ()
    known = chain((c for v in today for c in _codes(v, spoken)), page_codes(shelf, spoken))
    near = (c for c in known if _slips(code, c) <= 2)
    return tuple(dict.fromkeys(near))


def _slips(one: str, other: str) -> int:
    return sum(a != b for a, b in zip(one, other, strict=False)) + abs(len(one) - len(other))
