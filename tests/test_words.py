"""Languages: complete, strict, and safe to open."""

from __future__ import annotations

import re
from fractions import Fraction as F
from pathlib import Path

import pytest
from babel import Locale

from cards.card.need_words import need_words
from cards.data import load
from cards.foods.table import shipped_table
from cards.source.vocabulary import actions
from cards.words.language import Language, icon_names, load_language, tidy
from cards.words.numbers import number, number_range
from cards.words.plain import told_to_do
from cards.words.tokens import Phrase, fold_word, phrase, sentences, tokens
from tests.conftest import PLAIN, ROOT, Bench

FILES = sorted((ROOT / "templates" / "words").glob("*.yaml"))
WHOLE = ("hi",)
"""Languages that name every food of the table; others name the everyday ones."""

SURELY_UNNAMED = 10
"""Everyday foods that a language may leave out, where no name is sure enough to print."""


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
    foods = shipped_table().foods
    for food in foods.values():
        assert path.stem not in WHOLE or result.value.has_food(food.id), food.id
        for allergen in food.allergens:
            assert f"\n  {allergen}: " in path.read_text(encoding="utf-8"), allergen
    everyday = load.mapping("everyday_foods.yaml")["foods"]
    assert set(everyday) <= set(foods) and set(result.value.foods()) <= set(foods)
    if path.stem != "en":
        unnamed = [food for food in everyday if not result.value.has_food(food)]
        assert len(unnamed) <= SURELY_UNNAMED, unnamed


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.stem)
def test_no_two_foods_share_a_name(path: Path) -> None:
    result = load_language(path.read_text(encoding="utf-8"), path.name, path.stem)
    assert result.value is not None
    called: dict[Phrase, str] = {}
    for food, forms in result.value.foods().items():
        for name in map(phrase, forms):
            assert called.setdefault(name, food) == food, name


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


def words_in(code: str) -> Language:
    path = ROOT / "templates" / "words" / f"{code}.yaml"
    language = load_language(path.read_text(encoding="utf-8"), path.name, code).value
    assert language is not None
    return language


def english() -> Language:
    return words_in("en")


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


def test_lists_have_the_comma_of_their_language() -> None:
    urdu = words_in("ur")
    assert urdu.listed(["چاول", "دال", "پانی"]) == "چاول، دال اور پانی"
    assert urdu.listed(["چاول", "دال", "پانی"], "or") == "چاول، دال یا پانی"
    assert urdu.listed(["چاول", "دال"]) == "چاول اور دال"
    assert urdu.enumerated(["دھو کر", "کاٹ کر"]) == "دھو کر، کاٹ کر"
    assert words_in("hi").listed(["चावल", "दाल", "पानी"]) == "चावल, दाल और पानी"


def test_preparations_have_the_comma_of_their_language(bench: Bench) -> None:
    run = bench.run(PLAIN.replace("1 tbsp ghee", "1 tbsp ghee\n  - 1 carrot, peeled, grated"))
    assert run.analysis is not None
    carrot = next(line for line in run.analysis.lines if line.food.id == "carrot")
    assert need_words(carrot, words_in("ur")) == "*گاجر*، چھیل کر، کدوکش کر کے"
    assert need_words(carrot, english()) == "*carrot*, peeled, grated"


def test_urdu_bends_its_words() -> None:
    urdu = words_in("ur")
    assert urdu.phrase("share-of", number="½", food="آٹا") == "آٹے کا آدھا\u00a0حصہ"
    assert urdu.phrase("share-of", number="1/3", food="پانی") == "پانی کا 1/3\u00a0حصہ"
    small = urdu.unit("small", F(2))
    assert urdu.phrase("line", unit=small, food="پیاز", prep="") == "چھوٹی *پیاز*"
    assert urdu.phrase("line", unit=small, food="آلو", prep="") == "چھوٹے *آلو*"
    assert urdu.sentence("steam", foods="اڈلی", time="12 منٹ", until="جمنے تک") == (
        "اڈلی 12 منٹ، جمنے تک بھاپ میں پکائیں۔"
    )


def test_urdu_is_written_with_its_own_letters() -> None:
    """None of the letters of Arabic keyboards, nor marks of Latin script behind an Urdu word."""
    sides = sorted((ROOT / "recipes").glob("*.ur.yaml"))
    assert len(sides) >= 4
    texts = [path.read_text(encoding="utf-8") for path in sides]
    words = words_in("ur")
    texts += [words.icon(name) for name in icon_names()]
    texts += [words.sentence(action, foods="سب", time="رات بھر") for action in actions()]
    texts += [name for forms in words.foods().values() for name in forms]
    for text in texts:
        assert not set(text) & set("يىكهة\u200c\u200e\u200f"), text
        assert not re.search(r"[\u0600-\u06ff]\s?[,;.?]", text), text


def test_an_urdu_order_is_known_for_one() -> None:
    urdu = words_in("ur")
    assert urdu.lists is not None
    for action in actions():
        sentence = urdu.sentence(action, foods="سب", time="رات بھر", until="نرم ہونے تک")
        assert sentence.endswith("۔") and told_to_do(tokens(sentence), urdu.lists), sentence
        assert not any((fold_word(w.strip("،۔")),) in urdu.lists.hard for w in sentence.split())


def test_urdu_words_are_compared_whatever_keyboard_wrote_them() -> None:
    assert phrase("كدوكش كريں") == phrase("کدوکش کریں")
    assert phrase("مِلائیں") == phrase("ملائیں")
    assert phrase("دہي") == phrase("دهی") == phrase("دہی")
    assert sentences("دال دھوئیں۔ پانی ہے؟ ابالیں۔") == ("دال دھوئیں", "پانی ہے", "ابالیں")


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
    assert tidy("چاول ،  دال بھگوئیں  ۔") == "چاول، دال بھگوئیں۔"
    assert tidy("کیا ؟ سب ؛ پھر") == "کیا؟ سب؛ پھر"


# amounts as people say them


@pytest.mark.parametrize(
    ("code", "amount", "unit", "said"),
    [
        ("hi", "1/2", "कप", "आधा"),
        ("hi", "1/2", "कटोरी", "आधी"),
        ("hi", "3/2", "कप", "डेढ़"),
        ("hi", "5/2", "कप", "ढाई"),
        ("hi", "7/2", "कप", "साढ़े 3"),
        ("hi", "15/4", "कप", "पौने 4"),
        ("hi", "3", "कप", "3"),
        ("mr", "5/2", "कप", "अडीच"),
        ("bn", "3/2", "কাপ", "দেড়"),
        ("ur", "7/4", "کپ", "پونے دو"),
        ("ta", "5/2", "கப்", "இரண்டரை"),
        ("ta", "7/2", "கப்", "3½"),
        ("te", "1/2", "కప్పు", "అర"),
        ("en", "5/2", "cups", "2½"),
    ],
)
def test_amounts_as_people_say_them(code: str, amount: str, unit: str, said: str) -> None:
    """Words of the trade: ढाई is two and a half, साढ़े a half more than the number after it."""
    value = F(amount)
    language = load_language(
        (ROOT / "templates" / "words" / f"{code}.yaml").read_text("utf-8"), "x.yaml", code
    ).value
    assert language is not None
    # a number of two words is not parted
    assert language.amount(value, value, unit) == said.replace(" ", "\u00a0")
    # a range stays in figures, which every reader knows
    assert language.amount(value, value + 1, unit) != said


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ('  "1/3": एक तिहाई', "words-unknown"),
        ('  "1/2": "{{ half }}"', "words-template"),
        ('  "1/2": ""', "words-template"),
        ("  half", "words-missing"),
    ],
)
def test_amounts_that_cannot_be_said(line: str, kind: str) -> None:
    text = (ROOT / "templates" / "words" / "en.yaml").read_text("utf-8") + f"\nfractions:\n{line}\n"
    found = load_language(text, "x.yaml", "en")
    assert [d.kind for d in found.diagnostics] == [kind]
