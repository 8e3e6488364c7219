"""Which recipe a paper was made from, whether it still holds, and what has changed since."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, permutations

from cards.batch.kit import Kit
from cards.batch.papers import Paper
from cards.batch.run import Run
from cards.batch.stages import run_text
from cards.card.changes import Change, changes, own_warnings
from cards.diagnostics.diagnostic import Diagnostic, Severity
from cards.source.files import SIDE_NAME
from cards.source.history import Version, versions
from cards.source.read import card_digest
from cards.source.workspace import Workspace, read_text, side_files


@dataclass(frozen=True, slots=True)
class Trace:
    """What is known of one paper."""

    code: str
    recipe: str = ""
    """Path of its recipe; empty where none is known."""
    title: str = ""
    state: str = "unknown"
    """``current``, ``changed``, ``gone`` (its recipe is no more) or ``unknown``."""
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
    """Look for a paper's recipe: among today's files, in what the paper carries, in the past."""
    today = list(_today(workspace))
    spoken = workspace.languages()
    exact = [(v, code) for v in today for code in _codes(v, spoken) if code.startswith(paper.code)]
    named = {code for _, code in exact}
    if len(named) > 1:
        return Trace(paper.code, others=tuple(sorted(named)))
    if exact:
        version, code = exact[0]
        run = _run(version, kit)
        recall = _missing_warnings(paper, run)
        return Trace(code, version.path, _title(run), "current", _version(run), _version(run),
                     (), True, recall)  # fmt: skip
    old, code = _printed_text(paper, workspace)
    path = old.path if old else paper.path
    # an address may have folders of its own before the programme's
    current = next((v for v in today if f"/{path}".endswith(f"/{v.path}")), None)
    if old is None and current is None:
        return Trace(paper.code, paper.path, others=_nearest(paper.code, today, spoken))
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
        "changed" if current else "gone",
        f"{_version(before)}, {old.day}".strip(", ") if before and old else "",
        _version(now) if now else "",
        found,
        bool(before and now and before.card and now.card),
        (*_new_warnings(found), *_faults_now(before), *_missing_warnings(paper, now)),
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


def _nearest(code: str, today: Sequence[Version], spoken: Sequence[str]) -> tuple[str, ...]:
    """Codes of today that one slip of the hand would make of it."""
    if len(code) < 10:
        return ()
    near = (c for v in today for c in _codes(v, spoken) if _slips(code, c) <= 2)
    return tuple(dict.fromkeys(near))


def _slips(one: str, other: str) -> int:
    return sum(a != b for a, b in zip(one, other, strict=False)) + abs(len(one) - len(other))
