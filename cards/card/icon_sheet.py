"""compose_icon_sheet: every icon once, with its text and name, in groups."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from cards.card.digits import in_digits
from cards.card.icon_words import icon_text, sheet_phrase, shown
from cards.card.model import CardMeta, IconUse, Said, Text
from cards.card.origin import Origin, PageFoot, draft_codes, page_foot, sheet_meta
from cards.data import load
from cards.diagnostics.diagnostic import Place
from cards.source.programme import Programme
from cards.words.language import Language
from cards.words.numbers import number


@dataclass(frozen=True, slots=True)
class IconEntry:
    """One icon, in as many fills as its group shows, with what it says."""

    name: str
    icons: tuple[IconUse, ...]
    said: Said


@dataclass(frozen=True, slots=True)
class IconGroup:
    """Icons that belong together. ``levels`` are the fills they are shown at; empty for most."""

    heading: Said
    levels: tuple[Fraction, ...]
    heads: tuple[Text, ...]
    """What stands over the columns of the fills."""
    entries: tuple[IconEntry, ...]


@dataclass(frozen=True, slots=True)
class IconSheet:
    """All icons."""

    meta: CardMeta
    foot: PageFoot
    title: Said
    how: Said
    groups: tuple[IconGroup, ...]


def compose_icon_sheet(
    programme: Programme, languages: Sequence[Language], origin: Origin
) -> IconSheet:
    """Every icon of ``icons.yaml`` in its groups, in every language of the programme."""
    listing = load.mapping("icons.yaml")
    every = tuple(Fraction(level) for level in listing["levels"])
    groups: list[IconGroup] = []
    for group, names in listing["groups"].items():
        levels = every if group in listing["filled"] else ()
        entries = tuple(_entry(name, levels, languages) for name in names)
        heads = tuple(Text(languages[0].code, number(level), Place("")) for level in levels)
        heading = sheet_phrase(languages, f"group-{group}")
        groups.append(IconGroup(heading, levels, heads, entries))
    sheet = IconSheet(
        meta=sheet_meta(programme, languages, "icons-title", origin),
        foot=page_foot(origin, programme, languages, draft_codes(languages)),
        title=sheet_phrase(languages, "icons-title"),
        how=sheet_phrase(languages, "icons-how"),
        groups=tuple(groups),
    )
    return in_digits(sheet, languages)


def _entry(name: str, levels: tuple[Fraction, ...], languages: Sequence[Language]) -> IconEntry:
    text = icon_text(languages, name)
    icons = tuple(IconUse(name, (("fill", float(level)),), alt=text[0].text) for level in levels)
    return IconEntry(name, icons or (shown(name, text[0].text),), text)
