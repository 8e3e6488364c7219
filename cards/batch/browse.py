"""A page to browse all cards made: no network, no program but a browser."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from urllib.parse import quote

from babel import Locale, UnknownLocaleError
from jinja2 import Environment, StrictUndefined

from cards.batch.due import PICTURE_WIDTH, PICTURES, SHEET_SUFFIX
from cards.batch.entry import Entry, OutFile
from cards.batch.kit import Kit
from cards.batch.manifest import out_file
from cards.batch.write import write_whole
from cards.diagnostics.diagnostic import Result, Severity
from cards.diagnostics.render import visible
from cards.nutrition.feeding import bands
from cards.source.workspace import Workspace, read_text, read_whole
from cards.text.bidi import reads_leftward
from cards.words.language import Language

PAGE = "index.html"

WORDS = ("browse-all", "browse-search", "browse-sheet")
"""Phrases that the page itself asks for."""


@dataclass(frozen=True, slots=True)
class Choice:
    """A list to choose from: values with what is shown for each."""

    name: str
    label: str
    options: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Shown:
    """One card on the page; what is chosen by is a list of values with blanks between."""

    pdf: str
    picture: str
    height: int
    sheet: str
    titles: tuple[tuple[str, str, str], ...]
    months: str
    cautions: str
    trace: str
    told: str
    ages: str
    groups: str
    languages: str
    states: str
    mend: str


def write_page(entries: Iterable[Entry], workspace: Workspace, kit: Kit) -> Result[OutFile]:
    """The page of all cards in the out folder whose recipe is still there, written if it is new."""
    path = workspace.template("pages", "index.html.j2")
    text = read_text(path, workspace.name(path)) if path else Result[str](None)
    if text.value is None:
        return Result(None, text.diagnostics)
    page = browse_page(list(_present(entries, workspace)), text.value, kit)
    data = page.encode("utf-8", "replace")
    target = workspace.out / PAGE
    if read_whole(target) != data:
        done = write_whole(target, data, workspace.name(target))
        if done.value is None:
            return Result(None, done.diagnostics)
    return Result(out_file(PAGE, workspace.out, data))


def browse_page(entries: Sequence[Entry], template: str, kit: Kit) -> str:
    """The page as HTML. ``template`` is its Jinja2 text; whatever is filled in is escaped."""
    words = kit.languages[0]
    cards = [_shown(entry, words) for entry in sorted(entries, key=lambda e: (e.recipe, e.target))]
    environment = Environment(
        autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    return environment.from_string(template).render(
        language=words.code,
        direction=direction(words.code),
        title=kit.programme.name.get(words.code) or words.phrase("browse-title"),
        place=kit.programme.place.get(words.code, ""),
        words={name: words.phrase(name) for name in WORDS},
        choices=[choice for choice in _choices(cards, words, kit) if len(choice.options) > 1],
        cards=cards,
    )


def direction(code: str) -> str:
    """``rtl`` or ``ltr``, for HTML."""
    return "rtl" if reads_leftward(code) else "ltr"


def _present(entries: Iterable[Entry], workspace: Workspace) -> Iterator[Entry]:
    for entry in entries:
        if entry.files and (workspace.root / entry.recipe).is_file():
            yield entry


def _shown(entry: Entry, words: Language) -> Shown:
    about = entry.about
    bad = sum(told.severity is Severity.WARNING for told in entry.diagnostics)
    ages = ", ".join(about.ages).replace("-", "–")
    trace = f"{words.phrase('version', version=about.version, date=about.revised)}, {about.digest}"
    picture = entry.named(".png", PICTURES)
    return Shown(
        pdf=quote(entry.named(".pdf")),
        picture=quote(picture),
        height=round(PICTURE_WIDTH * about.shape),
        sheet=quote(entry.named(SHEET_SUFFIX)),
        titles=tuple((code, direction(code), visible(text)) for code, text in about.titles),
        months=f"{ages} {words.phrase('months')}",
        cautions=" · ".join(said for _, said in about.cautions),
        trace=trace,
        told=words.phrase("browse-mend", count=bad) if bad else "",
        ages=" ".join(about.ages),
        groups=" ".join(about.groups),
        languages=" ".join(code for code, _ in about.titles),
        states=" ".join(about.states),
        mend="yes" if bad else "no",
    )


def _choices(cards: Sequence[Shown], words: Language, kit: Kit) -> Iterator[Choice]:
    """Lists to choose from, of what there is among the cards."""

    def met(field: str) -> list[str]:
        return sorted({value for card in cards for value in getattr(card, field).split()})

    ages = [band for band in bands() if band in met("ages")]
    months = words.phrase("months")
    yield Choice(
        "ages",
        words.phrase("browse-ages"),
        tuple((age, f"{age.replace('-', '–')} {months}") for age in ages),
    )
    yield Choice(
        "group",
        words.phrase("browse-group"),
        tuple((group, words.phrase(f"group-{group}")) for group in met("groups")),
    )
    yield Choice(
        "language",
        words.phrase("browse-language"),
        tuple((code, _name(code)) for code in met("languages")),
    )
    yield Choice(
        "state",
        words.phrase("browse-state"),
        tuple((state, words.phrase(f"state-{state}")) for state in met("states")),
    )
    yield Choice(
        "mend",
        words.phrase("browse-warnings"),
        tuple((value, words.phrase(f"browse-{value}")) for value in met("mend")),
    )


def _name(code: str) -> str:
    """A language by its own name, as CLDR has it."""
    try:
        return Locale.parse(code, sep="-").display_name or code
    except (UnknownLocaleError, ValueError):
        return code
