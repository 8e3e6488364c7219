"""The digits a language prints: its own or ours."""

from __future__ import annotations

from babel import Locale

from cards.data import load

CHOICES = ("native", "latin")
"""What a words file may say of its digits; if it says nothing, what is usual is taken."""

LATIN = "0123456789"


def digits_of(locale: Locale, choice: str = "") -> str:
    """The ten digits, from 0, in which a language prints numbers.

    Without a choice those of its usual numbering system (Unicode CLDR, by Babel). Those of ours
    where the language has no decimal digits of its own.
    """
    systems = load.mapping("digits.yaml")
    usual = locale.default_numbering_system
    native = locale.other_numbering_systems.get("native", usual)
    system = {"native": native, "latin": "latn"}.get(choice, usual)
    zero = ord(systems.get(system, LATIN[0]))
    return "".join(chr(zero + value) for value in range(10))
