"""Words go out to a translator as one PO file, and come back into the files they belong to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from cards.batch.kit import Kit
from cards.batch.pieces import Piece, RecipeWords, open_all
from cards.batch.rooms import Rooms
from cards.batch.take_in import Taken, new_files
from cards.batch.write import write_all
from cards.diagnostics.blanks import single_blanks
from cards.diagnostics.diagnostic import (
    Diagnostic,
    Place,
    Result,
    error,
    first_of,
    has_errors,
    note,
)
from cards.source.workspace import Workspace, read_text
from cards.text.runs import split_scripts
from cards.words import po
from cards.words.language import Language, load_language
from cards.words.state import SOURCE
from cards.words.translation import Reader, check_translation
from cards.words.units import Unit, letters, plural_forms

MOST_PO_BYTES = 8_000_000
"""A PO file of a thousand recipes; more is some other file."""


@dataclass(frozen=True, slots=True)
class Exported:
    """The text of a PO file, with counts of what is in it."""

    text: str
    texts: int
    missing: int
    stale: int


def export(
    code: str, recipes: Sequence[Path], phrases: bool, workspace: Workspace, kit: Kit
) -> Result[Exported]:
    """What is to be said in the language ``code``. Errors: ``po-language``, those of reading."""
    if not po.is_known(code):
        trouble = error(
            Place("--to"),
            "po-language",
            f'"{code}" is not the code of a language that plurals are known of',
            "use a code of ISO 639, such as bn",
        )
        return Result(None, (trouble,))
    pieces = open_all(code, recipes, phrases and code != SOURCE, workspace, kit)
    if pieces.value is None:
        return Result(None, pieces.diagnostics)
    rooms = Rooms(code, workspace)
    units = [rooms.marked(unit) for piece in pieces.value for unit in piece.units]
    return Result(
        Exported(
            po.write(units, code),
            len(units),
            sum(not unit.target for unit in units),
            sum(bool(unit.was) for unit in units),
        )
    )


@dataclass(frozen=True, slots=True)
class Imported:
    """What came back: the language, the files written, and how many texts are new."""

    language: str
    files: tuple[Path, ...]
    changed: int
    missing: int
    text: str
    """The PO file's own text, for the source lines of messages."""


def take_back(path: Path, workspace: Workspace, kit: Kit) -> Result[Imported]:
    """Check a PO file and write its texts where they belong, all of them or none."""
    name = workspace.name(path)
    text = read_text(path, name, MOST_PO_BYTES)
    if text.value is None:
        return Result(None, text.diagnostics)
    nothing = Imported("", (), 0, 0, text.value)
    read = po.read(text.value, name)
    if read.value is None:
        return Result(nothing, read.diagnostics)
    done = _Desk(read.value, workspace, kit).done()
    if done.value is None:
        return Result(nothing, done.diagnostics)
    return Result(replace(done.value, text=text.value), done.diagnostics)


class _Desk:
    """Where the entries of one PO file are laid beside what they belong to."""

    def __init__(self, file: po.PoFile, workspace: Workspace, kit: Kit) -> None:
        self.file, self.workspace, self.kit = file, workspace, kit
        self.code = file.language
        self.languages: dict[str, Language | None] = {}
        self.rooms = Rooms(self.code, workspace)

    def done(self) -> Result[Imported]:
        groups: dict[str, list[po.Said]] = {}
        for entry in self.file.entries:
            groups.setdefault(entry.context.rpartition(": ")[0], []).append(entry)
        words = f"templates/words/{self.code}.yaml" if self.code != SOURCE else ""
        files = {self.workspace.name(path): path for path in self.workspace.recipe_files()}
        lost = [
            group[0] for name, group in groups.items() if name not in (*files, words) or not name
        ]
        if lost:
            return Result(None, first_of(map(_no_file, lost)))
        paths = [files[name] for name in groups if name != words]
        pieces = open_all(self.code, paths, words in groups, self.workspace, self.kit)
        if pieces.value is None:
            return Result(None, pieces.diagnostics)
        if not any(entry.forms for entry in self.file.entries):
            return Result(None, (_nothing(self.file),))
        faults: list[Diagnostic] = []
        taken: list[Taken] = []
        for piece in pieces.value:
            group = groups[piece.recipe.path if isinstance(piece, RecipeWords) else piece.name]
            taken.append(self.taken(piece, group, faults))
        if has_errors(faults):
            return Result(None, first_of(faults))
        files_made = new_files([one for one in taken if one.texts], self.kit)
        if files_made.value is None:
            return Result(None, (*faults, *files_made.diagnostics))
        written = write_all(files_made.value, self.workspace.name)
        if written.value is None:
            return Result(None, (*faults, *written.diagnostics))
        return Result(
            Imported(
                self.code,
                written.value,
                sum(len(one.changed) for one in taken),
                sum(one.missing for one in taken),
                "",
            ),
            first_of(faults),
        )

    def taken(self, piece: Piece, group: list[po.Said], faults: list[Diagnostic]) -> Taken:
        """The translations for one file; what is wrong with them is added to ``faults``."""
        by_key = {unit.context: unit for unit in piece.units}
        by_text = {unit.text: unit for unit in piece.units}
        texts: dict[str, dict[str, str]] = {}
        changed: list[str] = []
        entries: dict[str, po.Said] = {}
        new: list[tuple[Unit, str, Place]] = []
        for entry in group:
            unit = by_key.get(entry.context)
            if unit is None or unit.text != entry.source:
                unit = by_text.get(entry.source)
            if unit is None:
                if entry.forms:
                    faults.append(_gone(entry))
                continue
            entries[unit.key] = entry
            if not entry.forms:
                continue
            found = self.forms(unit, entry)
            if isinstance(found, Diagnostic):
                faults.append(found)
                continue
            texts[unit.key] = found
            if found != dict(unit.target) or unit.was:
                changed.append(unit.key)
                if found != dict(unit.target):
                    unit = self.rooms.marked(unit)
                    for text in dict.fromkeys(found.values()):
                        faults += self.checked(unit, text, entry.at)
                        new.append((unit, text, entry.at))
        left = [u for u in piece.units if u.key not in texts and not u.told and u.needed]
        if texts and changed and left:
            faults.append(_half(piece, left, entries.get(left[0].key)))
        if not has_errors(faults):
            faults += self.set_out(new)
        rest = sum(u.key not in texts and not u.told for u in piece.units)
        return Taken(piece, texts, tuple(changed), rest)

    def forms(self, unit: Unit, entry: po.Said) -> dict[str, str] | Diagnostic:
        """The texts of an entry by plural category; one text where all are the same."""
        given = [
            single_blanks(text) if not unit.variables else text.strip() for text in entry.forms
        ]
        counted = len(given) > 1 and unit.path[0] in ("units", "foods")
        categories = plural_forms(self.code) if counted else ("other",)
        if len(given) != len(categories) or not all(given):
            return error(
                entry.at,
                "translation-plural",
                f"this text needs {len(categories)} forms ({', '.join(categories)})",
                "write each of them, the same where they do not differ",
            )
        present = [unit.target.get(c) or unit.target.get("other", "") for c in categories]
        if given == present:
            return dict(unit.target)
        if len(set(given)) == 1:
            return {"other": given[0]}
        return dict(zip(categories, given, strict=True))

    def checked(self, unit: Unit, text: str, at: Place) -> Iterator[Diagnostic]:
        own, source = self.language(self.code), self.language(unit.code)
        reader = Reader(
            self.code,
            own.lists if own else None,
            source.lists if source else None,
            self.kit.programme.kitchen,
        )
        found = list(check_translation(unit, text, reader, at))
        yield from found
        if has_errors(found):
            return
        bare = text.replace("*", "")
        missing = dict.fromkeys(
            c
            for run in split_scripts(bare)
            for c in run.text
            if not c.isspace() and not self.kit.book.has(run.script, c)
        )
        if missing:
            shown = " ".join(f"{c} (U+{ord(c):04X})" for c in list(missing)[:6])
            yield error(
                at,
                "translation-glyph",
                f"no font here has {shown}",
                "use another letter, or add a font to fonts/fonts.yaml",
            )

    def set_out(self, new: Sequence[tuple[Unit, str, Place]]) -> Iterator[Diagnostic]:
        """The new texts set where they will be printed: each that is too long, or all at once."""
        told = [(unit, text, at) for unit, text, at in new if unit.measured]
        if not self.rooms.together([(unit, text) for unit, text, _ in told]):
            return
        single = False
        for unit, text, at in told:
            over, paper = self.rooms.too_long(unit, text)
            if over:
                single = True
                least = letters(text) - over
                cure = f"say it in {least} letters or fewer" if least else "use shorter words"
                yield error(
                    at,
                    "translation-too-long",
                    f"this {unit.what} is {over} letters too long for its place on {paper}",
                    cure,
                )
        if not single:
            unit, text, at = max(told, key=lambda one: letters(one[1]) - letters(one[0].text))
            paper = self.rooms.together([(unit, text) for unit, text, _ in told])
            yield error(
                at,
                "translation-too-long",
                f"each of these texts fits, but all at once are too long for {paper}",
                "say them in fewer words, this one first",
            )

    def language(self, code: str) -> Language | None:
        """A language's words, for its lists; None where it has none that hold."""
        if code not in self.languages:
            path = self.workspace.template("words", f"{code}.yaml")
            found = None
            if path is not None:
                text = read_text(path, path.name).value
                found = load_language(text, path.name, code).value if text else None
            self.languages[code] = found
        return self.languages[code]


def _no_file(entry: po.Said) -> Diagnostic:
    name = entry.context.rpartition(": ")[0]
    return error(
        entry.at,
        "po-stale",
        f'there is no file "{name}" here' if name else "this entry says no file",
        "take its entries out, or export the words anew",
    )


def _gone(entry: po.Said) -> Diagnostic:
    return error(
        entry.at,
        "po-stale",
        f'nothing says "{entry.source}" any more',
        "export the words anew: what was translated is filled in, what has changed is marked",
    )


def _nothing(file: po.PoFile) -> Diagnostic:
    at = file.entries[0].at if file.entries else Place("")
    fuzzy = sum(entry.fuzzy for entry in file.entries)
    told = f"; {fuzzy} are marked fuzzy" if fuzzy else ""
    return error(
        at,
        "translation-half",
        f"none of the {len(file.entries)} texts of this file is translated{told}",
        "write translations after msgstr, and take the mark fuzzy out of what is done",
    )


def _half(piece: Piece, left: Sequence[Unit], entry: po.Said | None) -> Diagnostic:
    needed = sum(unit.needed for unit in piece.units)
    return error(
        entry.at if entry else Place(piece.name),
        "translation-half",
        f"{len(left)} of {needed} texts of {piece.name} are not translated, "
        f'the first of them "{left[0].text}"',
        "translate the whole file, or none of it; what is marked fuzzy does not count",
    )


def note_missing(imported: Imported, name: str) -> Diagnostic | None:
    """A note of texts that may be left out and were, as names of foods."""
    if not imported.missing:
        return None
    return note(
        Place(name),
        "translation-missing",
        f"{imported.missing} texts are not translated yet",
        "see cards words status",
    )
