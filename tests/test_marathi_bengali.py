"""Marathi and Bengali: words that may not mislead, and own words read over with their endings."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from cards.batch.kit import Kit
from cards.batch.stages import run_file
from cards.source.workspace import Workspace
from cards.words.figures import figures
from cards.words.plain import told_to_do
from cards.words.tokens import phrase, tokens
from cards.words.wordlists import equipment_names
from tests.conftest import ROOT, Bench
from tests.languages import language, lists
from tests.test_reading import KINDS

CODES = ("mr", "bn")
OURS = KINDS | {"food-unspoken", "amount-unspoken", "side-line-unused", "side-line-missing"}


def kit_with(kit: Kit, code: str) -> Kit:
    """The checkout's kit, with English and one more language."""
    english = next(lang for lang in kit.languages if lang.code == "en")
    return replace(
        kit,
        programme=replace(kit.programme, languages=("en", code)),
        languages=(english, language(code)),
    )


@pytest.mark.parametrize("code", CODES)
def test_the_programs_own_words_are_not_hard(code: str) -> None:
    text = (ROOT / "templates" / "words" / f"{code}.yaml").read_text(encoding="utf-8")
    printed = phrase(text.split("\nreading:")[0])
    hard = lists(code).hard
    assert len(set(hard.values())) >= 40
    assert [word for word in printed if (word,) in hard] == []
    assert set(lists(code).equipment.values()) == set(equipment_names())


@pytest.mark.parametrize(
    ("code", "sentence", "orders"),
    [
        ("mr", "तेलात कांदा मऊ होईपर्यंत परता", ["परता"]),
        ("mr", "ढवळत 5 मिनिटे उकळा", ["उकळा"]),
        ("mr", "तांदूळ धुवा आणि शिजवा", ["धुवा", "शिजवा"]),
        ("mr", "उकडा तांदूळ भिजवा", ["भिजवा"]),
        ("mr", "पाणी घालू नका", []),
        ("bn", "চাল ধুয়ে নিন", ["নিন"]),
        ("bn", "মাছে লেবু মাখুন", ["মাখুন"]),
        ("bn", "আলু কাটুন আর মেশান", ["কাটুন", "মেশান"]),
        ("bn", "2 দিন রেখে মাখুন", ["মাখুন"]),
        ("bn", "নুন দেবেন না", []),
    ],
)
def test_orders(code: str, sentence: str, orders: list[str]) -> None:
    assert told_to_do(tokens(sentence), lists(code)) == orders


@pytest.mark.parametrize(
    ("code", "text", "low", "high"),
    [
        ("mr", "दीड तास", 90, 90),
        ("mr", "साडेतीन तास", 210, 210),
        ("mr", "साडे तीन तास", 210, 210),
        ("mr", "५ ते ६ मिनिटे", 5, 6),
        ("mr", "पाव तास", 15, 15),
        ("bn", "দেড় ঘণ্টা", 90, 90),
        ("bn", "সাড়ে তিন ঘন্টা", 210, 210),
        ("bn", "৫ থেকে ৬ মিনিট", 5, 6),
        ("bn", "আড়াই দিন", 3600, 3600),
    ],
)
def test_times(code: str, text: str, low: int, high: int) -> None:
    found = figures(text, lists(code)).times
    assert [(told.low, told.high) for told in found] == [(F(low), F(high))]


@pytest.mark.parametrize(
    ("code", "text"),
    [("mr", "4 शिट्या होईपर्यंत"), ("bn", "4টি সিটি পড়া পর্যন্ত"), ("bn", "চারটে সিটি")],
)
def test_whistles(code: str, text: str) -> None:
    assert [told.low for told in figures(text, lists(code)).whistles] == [4]


@pytest.mark.parametrize("code", CODES)
def test_the_translated_recipes_read_well(kit: Kit, workspace: Workspace, code: str) -> None:
    ours = kit_with(kit, code)
    paths = [p for p in workspace.recipe_files() if p.with_suffix(f".{code}.yaml").exists()]
    assert len(paths) == 5
    for path in paths:
        run = run_file(path, workspace, ours)
        assert run.findings is not None, run.diagnostics
        assert [d for d in run.diagnostics if d.kind in OURS] == []


TEXT = """\
recipe: 1
title: {{en: Soft rice, {code}: "{title}"}}
ages: 6-23 months
makes: 2 cups (500 g)
ingredients:
  - 6 tbsp rice
  - 2 cups water
  - 2 tsp groundnut oil
steps:
  - do: boil
    use: rice, water
    time: 20 minutes
    en: Cook the rice in the water.
    {code}: "{boil}"
  - do: mix
    use: groundnut oil
    en: Stir in the oil.
    {code}: "{mix}"
  - do: mash
    use: rice
"""


@pytest.mark.parametrize(
    ("code", "boil", "mix", "kinds"),
    [
        # a food is known by the endings it takes: in the water, with the oil
        ("mr", "तांदूळ पाण्यात शिजवा.", "तेलाने मऊ करा.", []),
        ("bn", "জলে চাল ফোটান।", "তেলের সঙ্গে মেশান।", []),
        # and so is one that is not listed
        ("mr", "तांदूळ पाण्यात शिजवा.", "तेल आणि तुपाने मऊ करा.", ["word-not-listed"]),
        ("mr", "तांदूळ पाण्यात शिजवा.", "तेल आणि मध मिसळा.", ["word-not-listed"]),
        ("bn", "জলে চাল ফোটান।", "তেলে চিনির সঙ্গে মেশান।", ["word-not-listed"]),
        ("bn", "জলে চাল ফোটান।", "তেল আর মধু মেশান।", ["word-not-listed"]),
        # nobody is told when the oil goes in
        ("bn", "জলে চাল ফোটান।", "ভালো করে মেশান।", ["food-unspoken"]),
        ("mr", "तांदूळ पाण्यात शिजवा.", "नीट मिसळा.", ["food-unspoken"]),
    ],
)
def test_foods_with_endings(kit: Kit, code: str, boil: str, mix: str, kinds: list[str]) -> None:
    title = {"mr": "मऊ भात", "bn": "নরম ভাত"}[code]
    text = TEXT.format(code=code, title=title, boil=boil, mix=mix)
    found = Bench(kit_with(kit, code)).said(text)
    assert [d.kind for d in found if d.kind in OURS] == kinds


def test_large_bends_to_the_food() -> None:
    """मोठा कांदा, मोठी काकडी, मोठे केळे; मोठे कांदे, मोठ्या काकड्या, मोठी केळी."""
    words = language("mr")

    def row(food_id: str, count: int) -> str:
        number = F(count)
        food = words.food(food_id, "", number)
        return words.phrase("line", unit=words.unit("large", number), food=food, prep="")

    assert [row(food, 1) for food in ("onion", "cucumber", "banana", "carrot", "papaya")] == [
        "मोठा *कांदा*",
        "मोठी *काकडी*",
        "मोठे *केळे*",
        "मोठे *गाजर*",
        "मोठी *पिकलेली पपई*",
    ]
    assert [row(food, 2) for food in ("onion", "cucumber", "banana", "carrot", "papaya")] == [
        "मोठे *कांदे*",
        "मोठ्या *काकड्या*",
        "मोठी *केळी*",
        "मोठी *गाजरे*",
        "मोठ्या *पिकलेल्या पपया*",
    ]


@pytest.mark.parametrize(
    ("code", "foods", "sentence"),
    [
        ("mr", "बटाटे", "बटाटे उकडा."),
        ("mr", "गाईचे दूध", "गाईचे दूध उकळा."),
        ("bn", "আলু", "আলু সেদ্ধ করুন।"),
        ("bn", "গরুর দুধ", "গরুর দুধ ফোটান।"),
    ],
)
def test_boiling_is_said_of_food_and_of_liquid(code: str, foods: str, sentence: str) -> None:
    assert language(code).sentence("boil", foods=foods) == sentence
