"""What a printed page is of: the one place that says its id, version, digest and code."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from cards.card.drafts import draft_marks
from cards.card.icon_words import whose
from cards.card.model import CardMeta, Said, Text
from cards.diagnostics.diagnostic import Place
from cards.diagnostics.hidden import is_hidden
from cards.source.programme import Programme
from cards.words.digits import LATIN
from cards.words.language import Language


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a page comes from, whatever it is: a card, a paper of a day, a chart, a test."""

    name: str
    """What the file, or the page without one, is called."""
    version: str
    """Its version, or its day; empty where it has neither."""
    digest: str
    """Ten hex digits over all files that it rests on."""
    address: str
    """Where the file it leads to is found."""
    page: str = ""
    """Which page it is, where the file is not its own: a page about icons, a chart."""

    def words(self, language: Language) -> str:
        """Name, version and digest, as a page bears them."""
        return language.enumerated(part for part in self.parts if part)

    @property
    def parts(self) -> tuple[str, str, str]:
        """Name, version and digest, the name as a page may show it."""
        return shown_name(self.name), self.version, self.digest

    @property
    def code(self) -> str:
        """What the QR code says: the file's address with the digest, and which page it is."""
        return f"{self.address}?d={self.digest}" + (f"&p={self.page}" if self.page else "")


@dataclass(frozen=True, slots=True)
class PageFoot:
    """What stands at the foot of every page of A4, beside its QR code."""

    whose: Said
    trace: Said
    """Name, version and digest."""
    drafts: Said
    """In each language whose words nobody has read over: that it is so."""
    qr: str
    digits: str = LATIN
    """In which the pages are counted."""


def page_foot(
    origin: Origin,
    programme: Programme,
    languages: Sequence[Language],
    drafts: Iterable[str] = (),
) -> PageFoot:
    """The foot of a page in these languages. ``drafts`` are codes of those that are a draft."""
    first, unread = languages[0], set(drafts)
    return PageFoot(
        whose(programme, languages),
        (Text(first.code, origin.words(first), Place(programme.at.file)),),
        draft_marks(lang for lang in languages if lang.code in unread),
        origin.code,
        first.digits,
    )


def sheet_meta(
    programme: Programme, languages: Sequence[Language], title: str, origin: Origin
) -> CardMeta:
    """What the file of a page about icons says of itself; ``title`` names its phrase."""
    return CardMeta(
        title=" / ".join(lang.sheet(title) for lang in languages),
        author=programme.said(programme.name),
        language=languages[0].code,
        subject="",
        revised="",
        path=programme.at.file,
        keywords=", ".join(origin.parts),
        code=origin.code,
    )


def page_origin(page: str, version: str, digest: str, programme: Programme) -> Origin:
    """What a page without a file of its own is of; its code leads to the programme's file."""
    return Origin(page, version, digest, programme.address(programme.at.file), page)


def draft_codes(languages: Iterable[Language]) -> tuple[str, ...]:
    """Languages whose words file nobody has read over as it stands."""
    return tuple(lang.code for lang in languages if lang.state.is_draft)


def shown_name(name: str) -> str:
    """A file's name as a foot shows it: of one piece, short, nothing hidden."""
    plain = " ".join("".join("?" if c == "*" or is_hidden(c) else c for c in name).split())
    return plain if len(plain) <= 40 else f"{plain[:37]}..."
