"""Units as a gettext PO file and back: the form that translators' programs and websites read."""

from __future__ import annotations

import io
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from babel import Locale, UnknownLocaleError
from babel.messages.catalog import Catalog
from babel.messages.pofile import PoFileError, normalize, read_po, write_po
from babel.plural import to_gettext

from cards.diagnostics.diagnostic import Place, Result, error
from cards.words.units import Forms, Unit, plural_forms

PROJECT = "recipe-cards"


@dataclass(frozen=True, slots=True)
class Said:
    """One entry of a PO file. ``forms`` is empty where it is not translated, or only fuzzily."""

    context: str
    source: str
    forms: tuple[str, ...]
    fuzzy: bool
    at: Place


@dataclass(frozen=True, slots=True)
class PoFile:
    """A PO file's language and entries, in their order."""

    language: str
    entries: tuple[Said, ...]


def write(units: Iterable[Unit], code: str) -> str:
    """The text of a PO file for a language that plurals are known of.

    What is translated already is filled in; what was made from another text is fuzzy.
    """
    categories = plural_forms(code)
    catalog = Catalog(locale=code)
    # the library's own count of forms is gettext's tradition, not CLDR
    catalog.mime_headers = [("Plural-Forms", _plural_header(code))]
    for unit in units:
        last = unit.text
        source = (unit.source.get("one", last), last) if unit.plural else last
        forms = tuple(_form(unit.target, category) for category in categories)
        message = catalog.add(
            source,
            forms if unit.plural else _form(unit.target, "other"),
            locations=[(unit.at.file, unit.at.line)],
            flags=("fuzzy",) if unit.was else (),
            auto_comments=_remarks(unit),
            previous_id=unit.was,
            context=unit.context,
        )
        # a percent sign and double braces are no Python here
        message.flags -= {"python-format", "python-brace-format"}
    made = io.BytesIO()
    write_po(made, catalog, width=0, omit_header=True, include_previous=True)
    return _header(code) + made.getvalue().decode("utf-8").rstrip("\n") + "\n"


def _form(target: Forms, category: str) -> str:
    return target.get(category) or target.get("other", "")


def _remarks(unit: Unit) -> list[str]:
    """What a translator is told of a text."""
    told = [unit.what + (f", with the picture {unit.picture}" if unit.picture else "")]
    how = "measured in its place" if unit.measured else "reckoned from other languages"
    told.append(f"at most {unit.limit} letters, {how}")
    if unit.variables:
        names = ", ".join(f"{{{{ {name} }}}}" for name in unit.variables)
        told.append(f"values that may be filled in: {names}")
    return told


def _plural_header(code: str) -> str:
    return to_gettext(Locale.parse(code).plural_form)


def _header(code: str) -> str:
    """The head of the file. The library's would hold the time of day."""
    lines = {
        "Project-Id-Version": PROJECT,
        "Language": code,
        "MIME-Version": "1.0",
        "Content-Type": "text/plain; charset=UTF-8",
        "Content-Transfer-Encoding": "8bit",
        "Plural-Forms": _plural_header(code),
    }
    told = "".join(f"{key}: {value}\n" for key, value in lines.items())
    name = Locale.parse(code).get_display_name("en")
    return (
        f"# {name} words of the recipe cards.\n"
        "# Write each translation after msgstr. Keep {{ names in braces }} and *stars*, and all\n"
        "# numbers. An entry marked fuzzy has to be translated anew; take the mark out then.\n"
        f'msgid ""\nmsgstr {normalize(told, width=0)}\n\n'
    )


_TEXT = r'"(?:[^"\\]|\\[nrt"\\])*"'
_LINE = re.compile(
    rf"(?:#.*|(?:msgctxt|msgid|msgid_plural|msgstr|msgstr\[[0-5]\]) +{_TEXT}|{_TEXT}|)"
)

_ENDED = r"msgstr(\[\d\])?"
_BEFORE = {
    "msgctxt": _ENDED,
    "msgid": f"msgctxt|{_ENDED}",
    "msgid_plural": "msgid",
    "msgstr": "msgid",
    "msgstr[0]": "msgid_plural",
    **{f"msgstr[{n}]": rf"msgstr\[{n - 1}\]" for n in range(1, 6)},
}
"""What each line of an entry stands after; the library is not as strict, and would guess."""


def read(text: str, file: str) -> Result[PoFile]:
    """A PO file's text as entries. Errors: ``po-broken`` and ``po-language``, one with its line."""
    rows = text.removeprefix("\ufeff").split("\n")
    contexts: dict[str, int] = {}
    before, context, begun = "msgstr", "", 0
    for number, row in enumerate(rows, 1):
        plain = row.strip()
        if not _LINE.fullmatch(plain):
            return _broken(file, number, "this line is none of a PO file")
        word, _, inner = plain.partition(" ")
        if word.startswith("msg"):
            if not re.fullmatch(_BEFORE[word], before):
                return _broken(file, number, f"{word} does not go after {before}")
            if before == "msgctxt" and contexts.setdefault(context, begun) != begun:
                first = contexts[context]
                return _broken(file, begun, f"this entry stands on line {first} already")
            before = word
            if word == "msgctxt":
                context, begun = inner.strip()[1:-1], number
        elif before == "msgctxt" and plain.startswith('"'):  # a long name runs on
            context += plain[1:-1]
    if not re.fullmatch(_ENDED, before):
        return _broken(file, len(rows), f"nothing goes after {before}")
    code, at = _headed(rows, file, "Language", r"([A-Za-z_@-]*)")
    code = re.split("[_@-]", code)[0]  # bn_BD is Bengali too
    if not is_known(code):
        what = f'"{code}" is not the code of a language that plurals are known of'
        hint = 'the head of the file has a line "Language: bn\\n"; export the file anew'
        if not at.line:
            what = "the head of this file does not say its language"
        return Result(None, (error(at, "po-language", what, hint),))
    count, at = _headed(rows, file, "Plural-Forms", r"nplurals\s*=\s*([0-9]+)\s*;.*")
    forms = plural_forms(code)
    if "msgid_plural" in text and count != str(len(forms)):
        told = f"{len(forms)} plural forms in Unicode CLDR ({', '.join(forms)})"
        what = f"{code} has {told}, and this file is made for {count or 'none'}"
        hint = f'write "Plural-Forms: {_plural_header(code)}\\n", or export the file anew'
        return Result(None, (error(at, "po-plurals", what, hint),))
    try:
        found = read_po(io.StringIO(text), locale=code, ignore_obsolete=True, abort_invalid=True)
    except PoFileError as trouble:
        return _broken(file, trouble.lineno + 1, str(trouble).rpartition(" on ")[0])
    except (ValueError, LookupError, AttributeError, TypeError):
        return _broken(file, 0, "its entries cannot be told apart")
    entries: list[Said] = []
    for message in found:
        if not message.id:
            continue
        given = message.string or ""
        texts = (given,) if isinstance(given, str) else tuple(map(str, given))
        entries.append(
            Said(
                message.context or "",
                message.id if isinstance(message.id, str) else message.id[-1],
                () if message.fuzzy or not any(texts) else texts,
                message.fuzzy,
                Place(file, message.lineno or 0, 1),
            )
        )
    return Result(PoFile(code, tuple(entries)))


def _headed(rows: Sequence[str], file: str, key: str, pattern: str) -> tuple[str, Place]:
    """What a line of the head says, with its place; nothing where there is no such line."""
    head = ""
    for row in rows:
        plain = row.strip()
        if plain.startswith("msgid") and plain != 'msgid ""':
            break
        if plain.startswith(('"', 'msgstr "')):  # long lines of the head run on, too
            head += plain.removeprefix("msgstr ")[1:-1]
        elif head and not plain.startswith("#"):
            break
    found = re.search(rf"(?:^|\\n){key}:\s*{pattern}\s*(?:\\n|$)", head)
    if not found:
        return "", Place(file)
    line = next((n for n, row in enumerate(rows, 1) if f"{key}:" in row), 1)
    return found[1], Place(file, line, 1)


def is_known(code: str) -> bool:
    """Whether a text is the code of a language that plurals are known of."""
    try:
        return re.fullmatch("[a-z]{2,3}", code) is not None and Locale.parse(code) is not None
    except (UnknownLocaleError, ValueError):
        return False


def _broken(file: str, line: int, what: str) -> Result[PoFile]:
    trouble = error(
        Place(file, line, 1 if line else 0),
        "po-broken",
        f"this PO file cannot be read: {what}",
        "mend that line, or open and save the file in a program for PO files",
    )
    return Result(None, (trouble,))
