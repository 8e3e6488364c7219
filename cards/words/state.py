"""State: whose words these are, and whether somebody has read them over as they now stand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from enum import StrEnum
from typing import Any

from cards.data import load
from cards.diagnostics.diagnostic import Diagnostic, note
from cards.source.recipe import Recipe, Signature
from cards.source.signed import words_digest
from cards.words.own import spoken

SOURCE: str = load.mapping("languages.yaml")["source"]
"""The language the words files are translated from."""


class State(StrEnum):
    """What can be said of the words of one language."""

    OWN = "own"
    """Written by the author in her own language."""
    CHECKED = "checked"
    DRAFT = "draft"
    LAPSED = "changed since checked"
    """Signed once; the words, or what they were made from, have been changed since."""

    @property
    def is_draft(self) -> bool:
        """Whether a card with these words says so."""
        return self in (State.DRAFT, State.LAPSED)


def state_of(signature: Signature | None, digest: str, own: bool) -> State:
    """The state of words with this digest; ``own`` words need no signature."""
    if signature is None:
        return State.OWN if own else State.DRAFT
    if not signature.words:  # called a draft by the author herself
        return State.DRAFT
    return State.CHECKED if signature.words == digest else State.LAPSED


def recipe_digest(recipe: Recipe, code: str) -> str:
    """The digest of the recipe's own words in a language, with what they were made from."""
    return words_digest(
        (one.words.get(recipe.author, ""), one.words[code])
        for one in spoken(recipe)
        if code in one.words
    )


def recipe_state(recipe: Recipe, code: str) -> State:
    """The state of the recipe's own words in a language."""
    own = code == recipe.author
    return state_of(recipe.signed.get(code), recipe_digest(recipe, code), own)


def file_digest(sections: Mapping[str, Mapping[str, Any]]) -> str:
    """The digest of all that a words file prints."""
    return words_digest(_texts(sections))


def _texts(sections: Mapping[str, Mapping[str, Any]]) -> Iterator[tuple[str, str]]:
    for section, texts in sections.items():
        for key, text in texts.items():
            forms = text.items() if isinstance(text, Mapping) else (("", text),)
            yield from ((f"{section}/{key}/{form}", str(said)) for form, said in forms)


def check_signatures(recipe: Recipe, languages: Iterable[str]) -> Iterator[Diagnostic]:
    """A note for each signature whose words are others by now."""
    for code in languages:
        if recipe_state(recipe, code) is State.LAPSED:
            yield lapsed(recipe.signed[code], code)


def stale_texts(
    made_from: Mapping[str, Any], english: Mapping[str, Mapping[str, Any]]
) -> dict[str, str]:
    """Texts of a words file whose English is another now, each with what it was made from."""
    found: dict[str, str] = {}
    for key, was in made_from.items():
        section, _, name = key.partition("/")
        now = english.get(section, {}).get(name)
        text = now.get("other") if isinstance(now, Mapping) else now
        if isinstance(text, str) and text != was:
            found[key] = str(was)
    return found


def lapsed(signature: Signature, code: str) -> Diagnostic:
    """Somebody signed for words, and they are others now."""
    return note(
        signature.at,
        "signature-lapsed",
        f"the words in {code} are not those that were signed for on {signature.date} "
        f"({signature.role}); they count as a draft again",
        f"have them read over, then: cards words sign ... --in {code}",
    )
