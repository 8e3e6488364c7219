"""Languages: complete, strict, and safe to open."""

from __future__ import annotations

from fractions import Fraction as F
from pathlib import Path

import pytest
from babel import Locale

from cards.foods.table import shipped_table
from cards.words.language import Language, load_language, tidy
from cards.words.numbers import number, number_range
from tests.conftest import ROOT

FILES = sorted((ROOT / "templates" / "words").glob("*.yaml"))


def spoilt(old: str, new: str, code: str = "en") -> list[str]:
    text = (ROOT / "templates" / "words" / f"{code}.yaml").read_text(encoding="utf-8")
    assert text.count(old) >= 1
    result = load_language(text.replace(old, new, 1), "words.yaml", code)
    return [d.kind for d in result.diagnostics]


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.stem)
def test_shipped_languages_are_complete(path: Path) -> None:
    result = load_language(path.read_text(encoding="utf-8"), path.name, path.stem)
    assert result.diagnostics == ()
    assert result.value is not None
    for food in shipped_table().foods.values():
        assert path.stem == "en" or result.value.has_food(food.id), food.id
        for allergen in food.allergens:
            assert f"\n  {allergen}: " in path.read_text(encoding="utf-8"), allergen


def test_faults_are_told() -> None:
    assert spoilt("  months: months\n", "") == ["words-missing"]
    assert spoilt("  months: months", "  months: months\n  weeks: weeks") == ["words-unknown"]
    assert spoilt("{{ days }}", "{{ day }}") == ["words-template"]
    assert spoilt("{{ days }}", "{{ days }") == ["words-template"]
    assert spoilt("language: en", "language: fr") == ["words-language"]
    assert spoilt("  gluten: wheat", "  gluten: {one: wheat, other: wheat}") == ["words-form"]
    assert spoilt("  gram: g", "  gram: {some: g}") == ["words-form"]
    assert spoilt("  no-honey: no honey before 1 year\n", "") == ["words-missing"]
    assert spoilt("  no-tea: no tea", "  no-tee: no tea") == ["words-missing", "words-unknown"]
    assert spoilt("  cup: a cup", '  cup: "{{ cup }}"') == ["words-template"]
    assert spoilt("{{ critical }}", "{{ percent }}") == ["words-template"]
    assert spoilt("preps:", "prepz:") == ["key-unknown", "words-missing"]


@pytest.mark.parametrize(
    "phrase",
    [
        "{{ days.__class__.__mro__ }}",
        "{{ days() }}",
        "{{ 1 / 0 }}",
        "{{ days + 1 }}",
        "{% for a in days %}{% for b in days %}x{% endfor %}{% endfor %}",
        "{% include 'a' %}",
        "*",
        " ",
        "x" * 500,
    ],
)
def test_templates_only_fill_in(phrase: str) -> None:
    assert spoilt('"Start {{ days }} days before"', repr(phrase)) == ["words-template"]


def english() -> Language:
    path = ROOT / "templates" / "words" / "en.yaml"
    language = load_language(path.read_text(encoding="utf-8"), path.name, "en").value
    assert language is not None
    return language


def test_parts_of_one_take_the_form_of_one() -> None:
    words = english()
    assert [words.unit("cup", n) for n in (F(1, 2), F(1), F(3, 2), F(2))] == [
        "cup",
        "cup",
        "cups",
        "cups",
    ]
    # plural categories are those of Unicode CLDR, by way of Babel
    assert Locale("en").plural_form(2) == "other"


def test_lists_and_sentences() -> None:
    words = english()
    assert words.listed(["rice", "dal", "water"]) == "rice, dal and water"
    assert words.sentence("soak", foods="rice", time="overnight") == "Soak rice overnight."
    assert words.sentence("steam", foods="fish", until="until it flakes") == (
        "Steam fish until it flakes."
    )


def test_numbers_people_use() -> None:
    assert [number(n) for n in (F(1, 2), F(5, 2), F(3), F(3, 4), F(1, 3), F(4, 3))] == [
        "½",
        "2½",
        "3",
        "¾",
        "1/3",
        "1 1/3",
    ]
    assert number_range(F(2), F(3)) == "2–3"


def test_tidy() -> None:
    assert tidy("Soak  rice .") == "Soak rice."
    assert tidy("भिगोएँ  ।") == "भिगोएँ।"
