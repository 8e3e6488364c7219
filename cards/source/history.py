"""Earlier versions of recipe files, as far as a git repository beside them remembers any."""

from __future__ import annotations

import subprocess
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import PurePosixPath

from cards.source.files import SIDE_NAME
from cards.source.grounds import ENDINGS, Shelf
from cards.source.workspace import Workspace

MOST_COMMITS = 500
"""So many commits are looked through, the newest first."""

_SECONDS = 60
_MARK = "\x1e"


@dataclass(frozen=True, slots=True)
class Version:
    """A recipe with its side files as one commit left them."""

    path: str
    """Of the recipe, below the programme's folder."""
    day: str
    """Day of the commit, by its author's calendar."""
    text: str
    sides: dict[str, str]
    """Texts of the side files by path."""


def versions(workspace: Workspace, only: str = "") -> Iterator[Version]:
    """Versions of all recipes, or of the one at path ``only``, newest first.

    Nothing where the folder is in no repository, or there is no git.
    """
    folder = workspace.name(workspace.recipes)
    where = "." if workspace.recipes == workspace.root else folder
    log = _git(
        workspace,
        ["log", f"--max-count={MOST_COMMITS}", f"--format={_MARK}%H %as", "--name-only"],
        ["--relative", "--no-renames", "--", where],
    )
    for part in log.split(_MARK)[1:]:
        head, *names = part.splitlines()
        commit, day = head.split()
        changed = {_recipe_of(name) for name in names if name}
        wanted = {stem for stem in changed if not only or stem == _recipe_of(only)}
        if wanted:
            yield from _at(workspace, commit, day, where, wanted)


def shelves(workspace: Workspace, now: Shelf) -> Iterator[tuple[str, Shelf]]:
    """The folder as each commit left it, with the commit's day, newest first.

    Words that it had not are the program's own. Nothing where there is no repository, or no git.
    """
    folder = "." if workspace.recipes == workspace.root else workspace.name(workspace.recipes)
    where = [folder, "templates/words"] if folder != "." else ["."]
    words = ["log", f"--max-count={MOST_COMMITS}", "--format=%H %as"]

    @cache
    def blob(name: str) -> str:
        return _git(workspace, ["cat-file", "blob", name], [])

    for line in _git(workspace, words, ["--", *where]).splitlines():
        commit, day = line.split()
        tree: dict[str, str] = {}
        listing = _git(workspace, ["ls-tree", "-r", "-z", commit], ["--", *where])
        for entry in listing.split("\0"):
            about, _, path = entry.partition("\t")
            if path.endswith((".yaml", ".yml", "foods.csv")):
                tree[path] = about.split()[2]
        yield day, _as_committed(tree, blob, now)


def _as_committed(tree: Mapping[str, str], blob: Callable[[str], str], now: Shelf) -> Shelf:
    def read(path: str) -> str | None:
        if path in tree:
            return blob(tree[path])
        return now.shipped(path) if path.startswith("templates/") else None

    files = tuple(sorted(p for p in tree if p.startswith(now.recipes) and p.endswith(ENDINGS)))
    return replace(now, read=read, files=lambda: files)


def _recipe_of(path: str) -> str:
    """The recipe's path without its ending: what it and its side files share."""
    pure = PurePosixPath(path)
    side = SIDE_NAME.fullmatch(pure.name)
    return str(pure.with_name(side["stem"] if side else pure.stem))


def _at(
    workspace: Workspace, commit: str, day: str, where: str, wanted: set[str]
) -> Iterator[Version]:
    listing = _git(workspace, ["ls-tree", "-r", "-z", "--name-only", commit], ["--", where])
    named = [n for n in listing.split("\0") if n and n.endswith((".yaml", ".yml"))]
    mine = [n for n in named if _recipe_of(n) in wanted]
    texts = {name: _git(workspace, ["show", f"{commit}:./{name}"], []) for name in mine}
    for name, text in texts.items():
        if not SIDE_NAME.fullmatch(PurePosixPath(name).name):
            stem = _recipe_of(name)
            sides = {n: t for n, t in texts.items() if n != name and _recipe_of(n) == stem}
            yield Version(name, day, text, sides)


def _git(workspace: Workspace, words: Sequence[str], more: Sequence[str]) -> str:
    call = ["git", "-c", "core.quotepath=off", *words, *more]
    try:
        done = subprocess.run(
            call, cwd=workspace.root, capture_output=True, timeout=_SECONDS, check=False
        )
    except (OSError, subprocess.TimeoutExpired):
        return ""
    # the byte order mark goes, as it does when a file is read
    return (
        done.stdout.decode("utf-8", "replace").removeprefix("\ufeff") if not done.returncode else ""
    )
