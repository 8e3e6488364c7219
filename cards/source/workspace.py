"""The folder a command runs in: its files and their texts. The only reader of files."""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import cards
from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error
from cards.source.files import MAX_CHARACTERS, SIDE_NAME

if TYPE_CHECKING:
    from cards.source.grounds import Shelf

NEEDS = "needs.yaml"
"""A programme's own sets of daily needs."""

OWN_FOODS = "foods.csv"
"""A programme's own food table."""

MADE_FROM = "made-from"
"""Folder beside the words files: what each phrase was translated from."""

MOST_TABLE_BYTES = 8_000_000
"""A programme's own food table may be this large: twenty times our own."""

_ENDINGS = (".yaml", ".yml")
_OPENED = (
    ("templates", ("words",)),
    ("templates", ("words", MADE_FROM)),
    ("templates", ("layouts",)),
    ("templates", ("pages",)),
    ("fonts", ()),
)
"""Folders that a build is opened from."""
_PROGRAM = (".py", ".yaml", ".csv")
PROGRAMME = "programme.yaml"
"""The one YAML file beside the recipes that is no recipe."""


@dataclass(frozen=True, slots=True)
class Workspace:
    """A programme's folder. ``recipes`` may be the root itself when it holds only recipe files."""

    root: Path
    recipes: Path
    out: Path

    def name(self, path: Path) -> str:
        """The path as messages and QR codes show it: below the root, with forward slashes.

        A file from elsewhere goes by its bare name, so that no card tells of a
        person's folders.
        """
        absolute = Path(os.path.normpath(path.absolute()))
        below = absolute.is_relative_to(self.root)
        name = absolute.relative_to(self.root).as_posix() if below else path.name
        # a name that is no UTF-8 is shown as far as it can be
        return os.fsencode(name).decode("utf-8", errors="replace")

    def recipe_files(self) -> tuple[Path, ...]:
        """All recipe files, sorted by name.

        In ``recipes/`` every YAML file is meant to be one; in any other folder
        only a file that says so, since YAML files of other trades lie about.
        """
        own = self.recipes != self.root
        return tuple(
            sorted(
                p
                for p in self.recipes.glob("*")
                if p.suffix in _ENDINGS
                and p.name not in (PROGRAMME, NEEDS)
                and not self.is_side(p)
                and (own or (p.is_file() and _says_recipe(p)))
            )
        )

    def is_side(self, path: Path) -> bool:
        """True for a side file: the words of the recipe beside it in one more language."""
        return self.recipe_of(path) != path

    def recipe_of(self, path: Path) -> Path:
        """The recipe that a side file belongs to; any other file is its own."""
        name = SIDE_NAME.fullmatch(path.name)
        found = [path.with_name(f"{name['stem']}{end}") for end in _ENDINGS] if name else []
        return next((recipe for recipe in found if _is_there(recipe)), path)

    def sides_of(self, recipe: Path, languages: Iterable[str]) -> tuple[Path, ...]:
        """The recipe's side files in these languages."""
        found = (
            recipe.with_name(f"{recipe.stem}.{code}{ending}")
            for code in languages
            for ending in _ENDINGS
        )
        return tuple(path for path in found if _is_there(path))

    def programme_file(self) -> Path | None:
        """The programme file, beside the recipes or in the root; None when there is none."""
        for folder in (self.recipes, self.root):
            if _is_there(folder / PROGRAMME):
                return folder / PROGRAMME
        return None

    def own_foods(self) -> Path | None:
        """The programme's own foods.csv, beside the recipes; None when there is none."""
        path = self.recipes / OWN_FOODS
        return path if _is_there(path) else None

    def own_needs(self) -> Path | None:
        """The programme's own needs.yaml, beside the recipes; None when there is none."""
        path = self.recipes / NEEDS
        return path if _is_there(path) else None

    def template(self, *parts: str) -> Path | None:
        """A template file: the folder's own before the shipped one."""
        return _first((self.root / "templates").joinpath(*parts), *_shipped("templates", parts))

    def made_from(self, code: str) -> Path | None:
        """What the texts of a words file were translated from; it lies with that very file."""
        words = self.template("words", f"{code}.yaml")
        return _first(words.parent / MADE_FROM / words.name) if words else None

    def layouts(self) -> tuple[str, ...]:
        """Names of all layouts, the folder's own and the shipped ones."""
        return self._templates("layouts")

    def languages(self) -> tuple[str, ...]:
        """Codes of all languages that there are words for, the folder's own and the shipped."""
        return self._templates("words")

    def _templates(self, kind: str) -> tuple[str, ...]:
        folders = (self.root / "templates" / kind, *_shipped("templates", (kind,)))
        return tuple(sorted({p.stem for folder in folders for p in folder.glob("*.yaml")}))

    def font_list(self) -> Path | None:
        """fonts.yaml: the folder's own before the shipped one."""
        return _first(self.root / "fonts" / "fonts.yaml", *_shipped("fonts", ("fonts.yaml",)))


def _says_recipe(path: Path) -> bool:
    try:
        with path.open("rb") as stream:
            return re.search(rb"(?m)^recipe\s*:", stream.read(4096)) is not None
    except OSError:
        return True  # reading it later says why it cannot be read


def open_workspace(folder: Path) -> Workspace:
    """The workspace of a folder: ``recipes/`` below it, or the folder itself."""
    root = Path(os.path.normpath(folder.absolute()))
    recipes = root / "recipes"
    return Workspace(root, recipes if recipes.is_dir() else root, root / "out")


def _shipped(kind: str, parts: Iterable[str]) -> tuple[Path, Path]:
    """Where the program's own copy lies: in the wheel, or beside the package in a checkout."""
    package = Path(cards.__file__).parent
    return (
        (package / "shipped" / kind).joinpath(*parts),
        (package.parent / kind).joinpath(*parts),
    )


def _first(*candidates: Path) -> Path | None:
    return next((path for path in candidates if _is_there(path)), None)


def is_folder(path: Path) -> bool:
    """Whether there is a folder of this name; a name no disk can hold is none."""
    try:
        return path.is_dir()
    except OSError:
        return False


def _is_there(path: Path) -> bool:
    """Whether anything goes by this name; what is no file is told of when it is read."""
    return os.path.lexists(path)


def read_text(
    path: Path, name: str, most: int = 4 * MAX_CHARACTERS, keep_mark: bool = False
) -> Result[str]:
    """A file's text, or one diagnostic that says why there is none. ``most`` is in bytes.

    The byte order mark that some editors set at the head goes, unless ``keep_mark``.
    """
    place = Place(name)

    def fail(kind: str, message: str, hint: str) -> Result[str]:
        trouble: Diagnostic = error(place, kind, message, hint)
        return Result(None, (trouble,))

    try:
        if path.is_dir():
            return fail(
                "file-missing",
                "this is a folder, not a file",
                "put a file of this name in its place",
            )
        if path.exists() and not path.is_file():
            return fail(
                "file-unreadable", "this is not a plain file", "put a text file in its place"
            )
        size = path.stat().st_size
        if size > most:
            return fail(
                "file-too-large",
                f"this file has {size / 1e6:.1f} MB",
                f"a recipe file holds at most {MAX_CHARACTERS:,} characters; is it the right file?",
            )
        with path.open("rb") as stream:
            raw = stream.read(most + 1)  # it may have grown
    except FileNotFoundError:
        return fail("file-missing", "there is no such file", "check the name and the folder")
    except OSError as trouble:
        return fail(
            "file-unreadable",
            f"this file cannot be read: {trouble.strerror}",
            "check who may read it",
        )
    try:
        return Result(raw.decode("utf-8" if keep_mark else "utf-8-sig"))
    except UnicodeDecodeError as trouble:
        line = raw.count(b"\n", 0, trouble.start) + 1
        return fail(
            "file-not-text",
            f"this is not UTF-8 text (line {line})",
            "save it as plain text in UTF-8",
        )


def read_whole(path: Path) -> bytes | None:
    """The bytes of a file of our own making; None where there are none."""
    try:
        return path.read_bytes()
    except OSError:
        return None


def digest(paths: Iterable[Path], most: int = 4 * MAX_CHARACTERS) -> str | None:
    """SHA-256 of the files' names and bytes, one after the other.

    None where one cannot be read or has more than ``most`` bytes.
    """
    whole = hashlib.sha256()
    for path in paths:
        try:
            if not path.is_file() or path.stat().st_size > most:
                return None
            raw = path.read_bytes()
        except OSError:
            return None
        whole.update(os.fsencode(path.name) + f":{len(raw)}:".encode() + raw)
    return whole.hexdigest()


def side_files(
    paths: Sequence[Path], languages: Collection[str] | None = None
) -> dict[Path, tuple[Path, ...]]:
    """For each recipe the files beside it that belong to it: dal.bn.yaml for dal.yaml.

    With ``languages`` only those with its words in one of them.
    """
    ends: tuple[str, ...] = _ENDINGS
    if languages is not None:
        ends = tuple(f".{code}{ending}" for code in languages for ending in _ENDINGS)
    beside: dict[tuple[Path, str], list[Path]] = {}
    for folder in {path.parent for path in paths}:
        # each folder is listed once: a listing for every recipe would take the square of them
        for path in sorted(folder.glob("*.*.*")):
            # on some disks large and small letters are the same name
            if path.name.casefold().endswith(ends):
                beside.setdefault((folder, path.name.split(".")[0]), []).append(path)
    return {
        path: tuple(
            side
            for side in beside.get((path.parent, path.name.split(".")[0]), ())
            if side.name.startswith(f"{path.stem}.") and side != path
        )
        for path in paths
    }


def files_opened(workspace: Workspace) -> tuple[Path, ...]:
    """Every file that a build's programme, words, layout, font list, foods and needs may be read
    from, the folder's own and the shipped ones, whether this build reads it or not."""
    found = [
        workspace.root / PROGRAMME,
        *(workspace.recipes / name for name in (PROGRAMME, OWN_FOODS, NEEDS)),
    ]
    for kind, below in _OPENED:
        for folder in (workspace.root / kind, *_shipped(kind, ())):
            found += _listed(folder.joinpath(*below))
    return tuple(dict.fromkeys(path for path in found if path.is_file()))


def _listed(folder: Path) -> list[Path]:
    try:
        return sorted(folder.iterdir())
    except OSError:
        return []


def package_files() -> tuple[Path, ...]:
    """The program itself: its code and its data, sorted."""
    package = Path(cards.__file__).parent
    return tuple(sorted(p for p in package.rglob("*") if p.suffix in _PROGRAM))


def shelf_of(workspace: Workspace) -> Shelf:
    """The folder as it stands on the disk; words that it has not are the shipped ones."""
    from cards.source.grounds import Shelf  # late: it brings the readers of recipes

    root, recipes = workspace.root, workspace.recipes

    @cache
    def read(path: str) -> str | None:
        parts = path.split("/")
        found = workspace.template(*parts[1:]) if parts[0] == "templates" else root / path
        return read_text(found, path, MOST_TABLE_BYTES).value if found else None

    @cache
    def shipped(path: str) -> str | None:
        _, *parts = path.split("/")
        found = _first(*_shipped("templates", parts))
        return read_text(found, path).value if found else None

    def files() -> tuple[str, ...]:
        # where the folder itself holds the recipes, other things may lie deep below it
        ways = ("*", "*/*") if recipes == root else ("**/*",)
        found = {p for way in ways for p in recipes.glob(way) if p.suffix in _ENDINGS}
        return tuple(sorted(workspace.name(p) for p in found))

    return Shelf(read, files, shipped, "" if recipes == root else f"{workspace.name(recipes)}/")
