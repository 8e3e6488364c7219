"""Bad input: one clear message each, at the right place, with a cure."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cards.source.programme import Programme, read_programme
from cards.source.read import digest_of, read
from tests.conftest import PLAIN, Bench

CASES = [
    ("makes: 2 cups (500 g)", "makes: 100 g", "makes-too-little", 4, "amounts"),
    ("  - 6 tbsp rice", "  - 6 tbsp rice, soaked", "swollen-measure", 6, "dry"),
    ("  - 6 tbsp rice", "  - 6 tbsp rice\n  - 1 tsp dal", "food-unknown", 7, "masoor dal"),
    # (what to replace, by what, kind, line, a word of the hint)
    ("  - 6 tbsp rice", "  - 6 tbspp rice", "unit-unknown", 6, "tbsp"),
    ("  - 6 tbsp rice", "  - food: rice\n    amount: 6 tbspp", "unit-unknown", 7, "tbsp"),
    ("  - 6 tbsp rice", "  - 6 tbsp rise", "food-unknown", 6, "rice"),
    ("  - 6 tbsp rice", "  - rice", "amount-missing", 6, "amount first"),
    ("  - 6 tbsp rice", "  - food: rice", "amount-missing", 6, "amount"),
    ("  - 6 tbsp rice", "  - rice, as needed", "amount-missing", 6, "only water"),
    ("  - 6 tbsp rice", "  - food: rice\n    amount: some", "amount-unreadable", 7, "1 1/2"),
    (
        "  - 6 tbsp rice",
        "  - food: rice\n    amount: 6 tbsp\n    gram: 60",
        "key-unknown",
        8,
        "grams",
    ),
    ("  - 6 tbsp rice", "  - 6 tbsp rice, wshed", "prep-unknown", 6, "washed"),
    ("  - 6 tbsp rice", "  - 6 tbsp (150 g) rice", "spoons-against-grams", 6, "mend"),
    ("  - 6 tbsp rice", "  - 2 inches rice", "measure-without-weight", 6, "grams"),
    ("  - 6 tbsp rice", "  - 60 tsp rice", "amount-too-many", 6, "larger measure"),
    ("title:", "titel:", "key-unknown", 2, "title"),
    ("title: {en: Soft rice, hi: नरम चावल}", "title: Rice: soft", "yaml-colon", 2, "quotes"),
    ("title: {en: Soft rice, hi: नरम चावल}", "title: {en: Soft rice}", "language-missing", 2, "hi"),
    ("title: {en: Soft rice, hi: नरम चावल}", "title:", "value-missing", 2, "text"),
    ("title: {en: Soft rice, hi: नरम चावल}", 'title: "Soft', "yaml-quote", 2, "closing"),
    (
        "title: {en: Soft rice, hi: नरम चावल}",
        "title: {en: Soft, hi: 軟飯}",
        "glyph-missing",
        2,
        "font",
    ),
    ("title: {en: Soft rice, hi: नरम चावल}", "title: &a Soft", "yaml-anchor", 2, "quotes"),
    ("title: {en: Soft rice, hi: नरम चावल}", "title: !x Soft", "yaml-tag", 2, "quotes"),
    ("title: {en: Soft rice, hi: नरम चावल}", "title: [a, b", "yaml-bracket", 2, "close"),
    ("title: {en: Soft rice, hi: नरम चावल}", "title: %x", "yaml-syntax", 2, "quotes"),
    ("ages: 6-23 months", "ages: 4-23 months", "ages-too-young", 3, "6 months"),
    ("ages: 6-23 months", "ages: 6-48 months", "ages-too-old", 3, "23"),
    ("ages: 6-23 months", "ages: small", "ages-unreadable", 3, "from 9"),
    ("ages: 6-23 months", "ages: 6-23 months\nages: 7", "key-twice", 4, "one of the two"),
    ("makes: 2 cups (500 g)", "makes: lots", "amount-unreadable", 4, ""),
    ("makes: 2 cups (500 g)", "makes: 3 cups (750 g)", "makes-too-much", 4, "water"),
    ("makes: 2 cups (500 g)\n", "", "makes-missing", 1, "makes"),
    ("recipe: 1", "recipe: 2", "format-newer", 1, "newer"),
    ("recipe: 1", "recipe: one", "format-unknown", 1, "recipe: 1"),
    ("recipe: 1\n", "", "key-missing", 1, "recipe"),
    ("  - do: boil", "  - do: boyl", "action-unknown", 11, "boil"),
    ("  - do: boil", "  - do: boil\n    whistles: many", "value-wrong", 12, "number"),
    ("    time: 20 minutes", "    time: a while", "time-unreadable", 13, "minutes"),
    ("    flame: low", "    flame: lowest", "value-wrong", 14, "low"),
    ("    flame: low", "\tflame: low", "yaml-tab", 14, "spaces"),
    ("    flame: low", "      flame: low", "yaml-indent", 14, "line up"),
    ("    flame: low", "    until: done", "end-unknown", 14, "firm"),
    ("    use: all", "    use: pumpkin", "use-unknown", 16, "listed"),
    (
        "    use: all",
        "    use: all\naccept:\n  - finding: salty\n    reason: as was said\n    role: trainer",
        "accept-unknown",
        18,
        "",
    ),
    (
        "    use: all",
        "    use: all\naccept:\n  - finding: added-salt\n    reason: well, so\n    role: us two",
        "accept-unused",
        18,
        "take",
    ),
    ("    use: all", "    use: all\nparts: []\nnotes", "yaml-key", 18, "colon"),
    ("    use: all", "    use: all\nparts:\n  - part: Sauce", "parts-mixed", 17, "part"),
    ("    use: all", "    use: all\n---\nx: 1", "file-shape", 17, "one recipe"),
]


@pytest.mark.parametrize(("old", "new", "kind", "line", "hint"), CASES, ids=[c[2] for c in CASES])
def test_each_fault_gives_its_message_at_its_line(
    bench: Bench, old: str, new: str, kind: str, line: int, hint: str
) -> None:
    assert PLAIN.count(old) == 1
    said = bench.said(PLAIN.replace(old, new))
    found = [d for d in said if d.kind.startswith(kind)]
    assert found, said
    assert found[0].place.line == line
    assert hint in found[0].hint or hint in found[0].message
    # one slip, one message: nothing else is shouted about
    assert len([d for d in said if d.severity <= found[0].severity]) == 1, said


def test_several_preparations(bench: Bench) -> None:
    run = bench.run(PLAIN.replace("6 tbsp rice", "6 tbsp (70 g) rice, washed, soaked"))
    assert run.recipe is not None
    assert run.recipe.ingredients[0].preps == ("washed", "soaked")
    assert run.card is not None
    assert "washed, soaked" in run.card.needs.sections[0].rows[0].said[0].text


def test_the_plain_recipe_is_sound(bench: Bench) -> None:
    assert bench.said(PLAIN) == []
    assert bench.run(PLAIN).pages is not None


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("", "file-empty"),
        ("# only a remark\n", "file-empty"),
        ("- a\n- b\n", "file-shape"),
        ("a\0b", "file-not-text"),
        ("title: \x07", "file-not-text"),
        ("x" * 500_000, "file-too-large"),
        ("a: " + "[" * 30 + "]" * 30, "file-shape"),
        ("just words", "file-shape"),
        ("? [a, b]\n: c\n", "file-shape"),
    ],
)
def test_files_that_are_no_recipe(bench: Bench, text: str, kind: str) -> None:
    assert kind in bench.kinds(text)


def test_all_faults_are_told_at_once(bench: Bench) -> None:
    spoilt = (
        PLAIN.replace("6 tbsp rice", "rice")
        .replace("boil", "boyl")
        .replace("flame: low", "flam: low")
        .replace("ages:", "agess:")
    )
    assert sorted(bench.kinds(spoilt)) == [
        "action-unknown",
        "amount-missing",
        "key-unknown",
        "key-unknown",
    ]


@given(st.text(max_size=300))
@settings(max_examples=200, suppress_health_check=[HealthCheck.too_slow])
def test_no_text_breaks_the_reader(text: str) -> None:
    result = read(text, "recipes/x.yaml", Programme())
    assert result.value is not None or result.diagnostics


@given(st.data())
@settings(max_examples=150, deadline=None)
def test_no_cut_or_flip_breaks_the_whole_flow(bench: Bench, data: st.DataObject) -> None:
    start = data.draw(st.integers(0, len(PLAIN)))
    end = data.draw(st.integers(start, min(len(PLAIN), start + 30)))
    new = data.draw(st.text(alphabet=":-\n #'\"[]{}&*!0123abcठ½", max_size=6))
    run = bench.run(PLAIN[:start] + new + PLAIN[end:])
    assert run.pages is not None or run.diagnostics


def test_yaml_words_stay_words(bench: Bench) -> None:
    """YAML 1.1 makes a time of 1:30, octal of 012 and a truth value of no; a recipe does not."""
    run = bench.run(PLAIN.replace("recipe: 1", "recipe: 1\nversion: 012"))
    assert run.recipe is not None
    assert run.recipe.version == "012"


def test_digest_does_not_see_line_ends() -> None:
    assert digest_of("a\nb\n") == digest_of("a\r\nb\r\n") != digest_of("a\nc\n")


def test_digest_is_that_of_sha256() -> None:
    """FIPS 180-2, appendix B.1: the digest of "abc" begins ba7816bf 8f."""
    assert digest_of("abc") == "ba7816bf8f"


PROGRAMME = "programme: 1\nname: Us\nlanguages: [en, hi]\n"


@pytest.mark.parametrize(
    ("more", "kind"),
    [
        ("link: two-wells", "link-wrong"),
        ("link: https://x.example/?a=1", "link-wrong"),
        ("link: ftp://x.example/", "link-wrong"),
        ("measures: {cup: much}", "amount-unreadable"),
        ("measures: {cup: 250 g}", "value-wrong"),
        ("ages: [0-6]", "value-wrong"),
        ("lnk: x", "key-unknown"),
    ],
)
def test_programme_faults(more: str, kind: str) -> None:
    result = read_programme(PROGRAMME + more, "programme.yaml")
    assert [d.kind for d in result.diagnostics] == [kind]
    assert result.diagnostics[0].place.line == 4


def test_programme_measures_become_words(bench: Bench) -> None:
    programme = read_programme(PROGRAMME + "measures: {tumbler: 180 ml}", "programme.yaml").value
    assert programme is not None
    result = read(PLAIN.replace("6 tbsp rice", "1 tumbler rice"), "x.yaml", programme)
    assert result.value is not None
    amount = result.value.ingredients[0].amount
    assert amount is not None
    assert amount.unit == "tumbler"


def test_a_dish_of_less_than_a_meal(bench: Bench) -> None:
    text = PLAIN.replace("6 tbsp rice", "1 tsp rice").replace("3 tbsp moong", "1 tsp moong")
    text = text.replace("2 cups water", "3 tbsp water").replace("1 tbsp ghee", "1/4 tsp ghee")
    text = text.replace("2 cups (500 g)", "40 g")
    assert ("makes-less-than-a-meal", 4) in [(d.kind, d.place.line) for d in bench.said(text)]


def test_a_food_that_goes_nowhere(bench: Bench) -> None:
    text = PLAIN.replace("use: rice, moong dal, water, ghee", "use: rice, moong dal, water")
    assert bench.said(text) == []  # the last step takes all there is
    text = text.replace("use: all", "use: rice, moong dal")
    assert [(d.kind, d.place.line) for d in bench.said(text)] == [("ingredient-unused", 9)]
