"""What the sheets about icons share: how an icon is shown, words in each language."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from cards.card.model import IconUse, Said, Text
from cards.data import load
from cards.diagnostics.diagnostic import Place
from cards.source.programme import Programme
from cards.words.language import Language


def shown(name: str, alt: str = "") -> IconUse:
    """An icon where no recipe says how full it is or how long it takes."""
    given: dict[str, Any] = load.mapping("icons.yaml")["shown"].get(name, {})
    params = tuple((key, float(value)) for key, value in given.items() if key != "label")
    return IconUse(name, params, given.get("label", ""), alt)


def said(languages: Sequence[Language], make: Callable[[Language], str]) -> Said:
    """The text ``make`` gives for each language, with its words file as its place."""
    return tuple(
        Text(lang.code, make(lang), Place(f"templates/words/{lang.code}.yaml"))
        for lang in languages
    )


def sheet_phrase(languages: Sequence[Language], name: str, **values: object) -> Said:
    """A phrase of the sheets in each language."""
    return said(languages, lambda lang: lang.sheet(name, **values))


def icon_text(languages: Sequence[Language], name: str) -> Said:
    """What a cook should understand from an icon, in each language."""
    return said(languages, lambda lang: lang.icon(name))


def whose(programme: Programme, languages: Sequence[Language]) -> Said:
    """The programme's name in the languages it has one in; one that is the same is told once."""
    names = {lang.code: programme.name.get(lang.code, "") for lang in languages}
    told = {name: code for code, name in reversed(names.items()) if name}
    return tuple(Text(code, name, programme.at) for name, code in reversed(told.items()))
