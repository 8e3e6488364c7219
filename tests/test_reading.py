"""The author's own words: plain, short, one action each, and the same in every language."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction as F
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cards.batch.kit import Kit
from cards.batch.stages import Run
from cards.diagnostics.diagnostic import Diagnostic, Severity
from cards.foods.own import own_table
from cards.foods.table import shipped_table
from cards.source.amounts import OVERNIGHT, Duration
from cards.words.figures import bears_out, differing, figures
from cards.words.language import Language, load_language
from cards.words.plain import told_to_do
from cards.words.reading import check_words
from cards.words.tokens import count_words, fold_word, sentences, tokens
from cards.words.wordlists import WordLists, equipment_names
from tests.conftest import PLAIN, ROOT, Bench

KINDS = {
    "sentence-long",
    "two-actions",
    "word-hard",
    "steps-many",
    "numbers-differ",
    "names-differ",
    "word-not-listed",
    "equipment-missing",
    "language-incomplete",
    "amount-odd",
    "grams-alone",
    "food-unnamed",
}


def told(bench: Bench, text: str) -> list[Diagnostic]:
    """What the reading over says of a recipe; nothing else may keep it from being reached."""
    run = bench.run(text)
    assert run.findings is not None, run.diagnostics
    return [d for d in run.diagnostics if d.kind in KINDS]


def with_step(en: str, hi: str, *more: str, action: str = "mix") -> str:
    """The plain recipe with one more step that has words of its own, and keys if need be."""
    lines = [f"  - do: {action}", "    use: rice", *(f"    {line}" for line in more)]
    lines += [f'    {code}: "{text}"' for code, text in (("en", en), ("hi", hi)) if text]
    return PLAIN + "\n".join(lines) + "\n"


def kinds(
    bench: Bench, en: str, hi: str = "चावल मिलाएँ।", *more: str, action: str = "mix"
) -> list[str]:
    return [d.kind for d in told(bench, with_step(en, hi, *more, action=action))]


def with_line(line: str) -> str:
    return PLAIN.replace("  - 1 tbsp ghee\n", f"  - 1 tbsp ghee\n{line}\n")


def lists_of(kit: Kit, code: str) -> WordLists:
    lists = next(lang.lists for lang in kit.languages if lang.code == code)
    assert lists is not None
    return lists


def test_the_demonstration_recipes_read_well(demos: dict[str, Run]) -> None:
    for run in demos.values():
        assert [d for d in run.diagnostics if d.kind in KINDS] == []


def test_a_plain_recipe_reads_well(bench: Bench) -> None:
    assert told(bench, PLAIN) == []
    assert kinds(bench, "Stir the rice.") == []


def test_what_is_said_has_a_place_and_a_cure(bench: Bench) -> None:
    text = with_step("Marinate rice and boil it in the oven with salt.", "")
    found = told(bench, text)
    assert {d.kind for d in found} == {
        "word-hard",
        "two-actions",
        "equipment-missing",
        "word-not-listed",
        "language-incomplete",
    }
    line = text.splitlines().index("  - do: mix") + 1
    assert all(d.place.line == line and d.hint for d in found)
    assert {d.severity for d in found} == {Severity.WARNING}


# sentences


def test_long_sentences(bench: Bench) -> None:
    ten = "Stir the soft rice with the ghee in one pot."
    assert count_words(ten) == 10
    assert kinds(bench, ten) == []
    assert kinds(bench, ten.replace("one pot", "one large pot")) == ["sentence-long"]
    assert kinds(bench, "Stir the soft rice with the ghee: in one large pot.") == []
    found = told(bench, with_step(ten.replace("one pot", "one large pot"), "चावल मिलाएँ।"))[0]
    assert "11 words" in found.message and "10 words" in found.hint and "CDC" in found.source


def test_long_sentences_in_hindi(bench: Bench) -> None:
    twelve = "नरम चावल को घी के साथ एक ही बर्तन में अच्छी तरह"
    assert count_words(twelve) == 12
    assert kinds(bench, "Stir the rice.", f"{twelve}।") == []
    assert kinds(bench, "Stir the rice.", f"{twelve} मिलाएँ।") == ["sentence-long"]
    assert kinds(bench, "Stir the rice.", f"{twelve}। चावल मिलाएँ।") == []


def test_sentences_end_at_stops_of_every_script() -> None:
    assert sentences("Boil. Mash! Done? यह: वह। अब॥") == ("Boil", "Mash", "Done", "यह", "वह", "अब")
    assert sentences("Add 1.5 cups.") == ("Add 1.5 cups",)


@pytest.mark.parametrize(
    ("sentence", "orders"),
    [
        ("Chop and boil the carrot", ["Chop", "boil"]),
        ("Wash the rice, then soak it", ["Wash", "soak"]),
        ("Peel, wash and grate the carrot", ["Peel", "wash", "grate"]),
        ("Add milk and gently stir", ["Add", "stir"]),
        ("Cool it and mash it", ["Cool", "mash"]),
        ("Boil until soft", ["Boil"]),
        ("Chop or grate the carrot", ["Chop"]),
        ("Keep the mix away from the steam", ["Keep"]),
        ("Wait until it is soft and cool", ["Wait"]),
        ("Mash rice, dal and the rest of the water", ["Mash"]),
        ("Stir in the ghee", ["Stir"]),
    ],
)
def test_orders_in_english(kit: Kit, sentence: str, orders: list[str]) -> None:
    assert told_to_do(tokens(sentence), lists_of(kit, "en")) == orders


@pytest.mark.parametrize(
    ("sentence", "orders"),
    [
        ("गाजर काटें और उबालें", ["काटें", "उबालें"]),
        ("साँचों में भरें, भाप में पकाएँ", ["भरें", "पकाएँ"]),
        ("साँचों में भरें, भाप में पकाएं", ["भरें", "पकाएं"]),
        ("छोड़कर सब पकाएँ", ["पकाएँ"]),
        ("मछली, आलू, तेल मिलाकर मसलें", ["मसलें"]),
        ("गाजर काटें या कद्दूकस करें", ["करें"]),
        ("ढक्कन न खोलें, चलाते रहें", ["रहें"]),
        ("खमीर उठने दें", ["दें"]),
    ],
)
def test_orders_in_hindi(kit: Kit, sentence: str, orders: list[str]) -> None:
    assert told_to_do(tokens(sentence), lists_of(kit, "hi")) == orders


def test_two_actions(bench: Bench) -> None:
    assert kinds(bench, "Boil and mash the rice.") == ["two-actions"]
    assert kinds(bench, "Boil until soft. Mash.") == []
    assert kinds(bench, "Stir the rice.", "चावल उबालें और मसलें।") == ["two-actions"]
    assert kinds(bench, "Stir the rice.", "चावल उबालें। मसलें।") == []


# words


def test_hard_words(bench: Bench) -> None:
    found = told(bench, with_step("Sautéed rice.", "मिश्रण मिलाएँ।"))
    assert [(d.kind, d.hint) for d in found] == [
        ("word-hard", 'say "stir in the pan"'),
        ("word-hard", 'say "घोल, या सब मिला हुआ"'),
    ]
    assert kinds(bench, "MARINATED rice.") == ["word-hard"]
    assert kinds(bench, "Boil prior to use.", "पर्याप्त पानी।") == ["word-hard"] * 2
    # a word within a word is another word
    assert kinds(bench, "The temperate rice.", "आवश्यकताओं चावल।") == []


def test_hard_words_in_title_and_names(bench: Bench) -> None:
    text = PLAIN.replace("en: Soft rice", "en: Pureed rice")
    assert [d.kind for d in told(bench, text)] == ["word-hard"]
    line = "  - {food: carrot, amount: 1 medium, en: julienne carrot, hi: गाजर}"
    assert [d.kind for d in told(bench, with_line(line))] == ["word-hard"]


def test_a_hard_word_in_a_listed_food_is_its_name(bench: Bench) -> None:
    text = with_step("Stir in tomato puree.", "टमाटर प्यूरी मिलाएँ।")
    listed = text.replace("  - 1 tbsp ghee\n", "  - 1 tbsp ghee\n  - 1 cup tomato puree\n")
    assert [d.kind for d in told(bench, listed)] == []


def test_enough_words_and_no_cure_worse_than_the_word(kit: Kit) -> None:
    """A plain word offered is not itself in the list, and no common order is a hard word."""
    for code, least in (("en", 60), ("hi", 40)):
        lists = lists_of(kit, code)
        assert len(set(lists.hard.values())) >= least
        for plain in lists.hard.values():
            words = [fold_word(w) for w in plain.replace(",", " ").split()]
            assert not any((word,) in lists.hard for word in words), plain
        # the program's own sentences may use none of them
        language = next(lang for lang in kit.languages if lang.code == code)
        for action in ("chop", "boil", "simmer", "saute", "mash", "steam", "debone", "ferment"):
            sentence = language.sentence(action, foods="x", time="x", until="x")
            assert not any((fold_word(w.strip(".,।")),) in lists.hard for w in sentence.split())


def test_equipment(bench: Bench) -> None:
    found = told(bench, with_step("Warm it in the microwave.", "फ़्रिज में रखें।"))
    assert [d.kind for d in found] == ["equipment-missing"] * 2
    assert '"microwave" to kitchen:' in found[0].hint and '"fridge"' in found[1].hint
    assert kinds(bench, "Take the scales off the fish with a spoon.") == ["word-not-listed"]


def test_equipment_that_every_kitchen_has(bench: Bench) -> None:
    run = bench.run(with_step("Put it in the oven.", "ओवन में रखें।"))
    assert run.recipe and run.analysis
    kit = bench.kit
    given = (run.recipe, run.analysis, kit.languages, kit.table, kit.measures)
    assert [d.kind for d in check_words(*given)] == ["equipment-missing"] * 2
    assert check_words(*given, kitchen=frozenset({"oven"})) == ()


def test_every_language_names_all_equipment(kit: Kit) -> None:
    for language in kit.languages:
        assert set(lists_of(kit, language.code).equipment.values()) == set(equipment_names())


def test_many_steps(bench: Bench) -> None:
    eight = PLAIN + "  - do: rest\n" * 6
    assert told(bench, eight) == []
    found = told(bench, eight + "  - do: serve\n")
    assert [d.kind for d in found] == ["steps-many"]
    assert found[0].place.line == len(eight.splitlines()) + 1


# numbers


@pytest.mark.parametrize(
    ("en", "hi"),
    [
        ("Boil 10 minutes.", "१० मिनट उबालें।"),
        ("Boil 10–12 minutes.", "10 से 12 मिनट उबालें।"),
        ("Boil half an hour.", "30 मिनट उबालें।"),
        ("Boil one and a half hours.", "डेढ़ घंटा उबालें।"),
        ("Boil 3½ hours.", "साढ़े तीन घंटे उबालें।"),
        ("Boil five minutes.", "पाँच मिनट उबालें।"),
        ("Soak overnight.", "रात भर भिगोएँ।"),
        ("Soak overnight.", "8 घंटे भिगोएँ।"),
        ("Make 12 balls.", "बारह गोले बनाएँ।"),
        ("Add 1 1/2 cups.", "1½ कप डालें।"),
        ("Add a cup of rice.", "चावल डालें।"),
        ("Feed 3 times a day.", "दिन में 3 बार खिलाएँ।"),
    ],
)
def test_numbers_that_agree(bench: Bench, en: str, hi: str) -> None:
    found = told(bench, with_step(en, hi, action="serve"))
    assert [d.message for d in found if d.kind == "numbers-differ"] == []


@pytest.mark.parametrize(
    ("en", "hi", "says"),
    [
        ("Boil 10 minutes.", "12 मिनट उबालें।", ("10 minutes", "12 मिनट")),
        ("Boil 10 minutes.", "10 घंटे उबालें।", ("10 minutes", "10 घंटे")),
        ("Boil 10-12 minutes.", "10 मिनट उबालें।", ("10-12 minutes", "10 मिनट")),
        ("Boil five minutes.", "दस मिनट उबालें।", ("five minutes", "दस मिनट")),
        ("Boil 5 minutes.", "उबालें।", ("5 minutes", "no such number")),
        ("Cook to 3 whistles.", "4 सीटी तक पकाएँ।", ("3 whistles", "4 सीटी")),
        ("Make 12 balls.", "१५ गोले बनाएँ।", ("12", "15")),
        ("Add 1½ cups.", "½ कप डालें।", ("1½", "½")),
    ],
)
def test_numbers_that_differ_stop_the_card(
    bench: Bench, en: str, hi: str, says: tuple[str, str]
) -> None:
    run = bench.run(with_step(en, hi, action="serve"))
    found = [
        d for d in run.diagnostics if d.kind == "numbers-differ" and d.severity is Severity.ERROR
    ]
    assert len(found) == 1 and run.stopped
    assert all(text in found[0].message for text in says)


@pytest.mark.parametrize(
    ("words", "time"),
    [
        (("Boil 10 minutes.", "10 मिनट उबालें।"), "time: 10 minutes"),
        (("Boil 10-12 minutes.", "10-12 मिनट उबालें।"), "time: 10-12 minutes"),
        (("Cook 3 minutes on each side.", "दोनों तरफ़ 3 मिनट पकाएँ।"), "time: 6 minutes"),
        (("Boil 5 minutes. Stir 2 minutes.", "5 मिनट उबालें। 2 मिनट चलाएँ।"), "time: 7 minutes"),
        (("Soak overnight.", "रात भर भिगोएँ।"), "time: overnight"),
        (("Soak overnight.", "रात भर भिगोएँ।"), "time: 8 hours"),
        (("Boil until soft.", "नरम होने तक उबालें।"), "time: 10 minutes"),
    ],
)
def test_words_bear_the_time_out(bench: Bench, words: tuple[str, str], time: str) -> None:
    assert kinds(bench, *words, time, action="boil") == []


@pytest.mark.parametrize(
    ("words", "keys"),
    [
        (("Boil 10 minutes.", "10 मिनट उबालें।"), ("time: 12 minutes",)),
        (("Boil 10 minutes.", "10 मिनट उबालें।"), ()),
        (("Boil 10 minutes.", "10 मिनट उबालें।"), ("time: 10-12 minutes",)),
        (("Soak overnight.", "रात भर भिगोएँ।"), ("time: 30 minutes",)),
        (("Cook 5 minutes on each side.", "दोनों तरफ़ 5 मिनट पकाएँ।"), ("time: 12 minutes",)),
    ],
)
def test_words_against_the_time(
    bench: Bench, words: tuple[str, str], keys: tuple[str, ...]
) -> None:
    found = told(bench, with_step(*words, *keys, action="boil"))
    assert [(d.kind, d.severity) for d in found] == [("numbers-differ", Severity.WARNING)]


def test_words_against_the_whistles(bench: Bench) -> None:
    words = ("Cook to 3 whistles.", "3 सीटी तक पकाएँ।")
    assert kinds(bench, *words, "whistles: 3", action="pressure-cook") == []
    assert kinds(bench, *words, "whistles: 4", action="pressure-cook") == ["numbers-differ"]
    assert kinds(bench, *words, action="pressure-cook") == ["numbers-differ"]
    ranged = ("Cook to 3-4 whistles.", "३–४ सीटी तक पकाएँ।")
    assert kinds(bench, *ranged, "whistles: 3-4", action="pressure-cook") == []


def test_a_serving_may_name_how_long_the_food_keeps(bench: Bench) -> None:
    assert kinds(bench, "Feed within 2 hours.", "2 घंटे में खिलाएँ।", action="serve") == []


@pytest.mark.parametrize(
    ("code", "text", "low", "high"),
    [
        ("en", "30 minutes to 1 hour", 30, 60),
        ("en", "a minute or two", 1, 2),
        ("en", "5 more minutes", 5, 5),
        ("en", "a 10-minute rest", 10, 10),
        ("en", "2 days", 2880, 2880),
        ("en", "1½ hours", 90, 90),
        ("hi", "१०–१२ मिनट", 10, 12),
        ("hi", "पाँच-छह मिनट", 5, 6),
        ("hi", "पांच मिनट", 5, 5),
        ("hi", "सवा घंटा", 75, 75),
    ],
)
def test_times_are_read(kit: Kit, code: str, text: str, low: int, high: int) -> None:
    found = figures(text, lists_of(kit, code))
    assert [(t.low, t.high) for t in found.times] == [(low, high)]
    assert bears_out(found, Duration(F(low), F(high)))
    assert not bears_out(found, Duration(F(low), F(high + 1)))


def test_digits_of_every_script(kit: Kit) -> None:
    lists = lists_of(kit, "en")
    for text in ("2½ 10", "२½ १०", "2 1/2 ১০", "2.5 ௧௦"):
        assert figures(text, lists).digits == {F(5, 2): 1, F(10): 1}
    assert figures("1/0 cup", lists).digits == {}
    night = figures("overnight", lists).times[0]
    assert (night.low, night.high) == (OVERNIGHT.low, OVERNIGHT.high)


PIECES = [
    "1/0",
    "½",
    "10",
    "१०",
    "-",
    "–",
    "to",
    "से",
    "half",
    "minutes",
    "मिनट",
    "a",
    "साढ़े",
    ".",
    "salt",
]


@given(st.lists(st.sampled_from(PIECES) | st.text(max_size=6), max_size=12))
def test_any_text_can_be_read_over(bench: Bench, pieces: list[str]) -> None:
    """Whatever is written can be read, twice alike, and no letter of it is lost."""
    text = " ".join(pieces)
    for code in ("en", "hi"):
        lists = lists_of(bench.kit, code)
        one, two = figures(text, lists), figures(text, lists)
        assert differing(one.times, two.times) == ([], [])
        assert one.digits == two.digits
        told_to_do(tokens(text), lists)
    letters = {c for c in unicodedata.normalize("NFC", text) if c.isalnum()}
    kept = {c for token in tokens(text) for c in token.text}
    assert {c for c in letters if not c.isnumeric()} <= kept


# names


def test_names_that_differ(bench: Bench) -> None:
    two_names = with_line("  - {food: ghee, amount: 1 tsp, en: butter oil, hi: घी}")
    assert [d.kind for d in told(bench, two_names)] == ["names-differ"]
    one_name = with_line("  - {food: masoor dal, amount: 1 tbsp, en: moong dal, hi: मूँग दाल}")
    assert [d.kind for d in told(bench, one_name)] == ["names-differ"] * 2
    plural = PLAIN.replace("  - 1 tbsp ghee\n", "  - 1 tbsp ghee\n  - 2 eggs\n  - 1 egg\n")
    assert told(bench, plural) == []


PARTS = """\
recipe: 1
title: {en: Rice and dal, hi: चावल और दाल}
makes: 2 cups (500 g)
parts:
  - part: {en: Rice, hi: चावल}
    ingredients: [6 tbsp rice, 1 cup water]
    steps: [{do: boil, use: "rice, water", time: 20 minutes}, {do: mash, use: all}]
  - part: {en: Sauce, hi: दाल}
    ingredients: [3 tbsp moong dal, 1 cup water]
    steps: [{do: boil, use: "moong dal, water", time: 20 minutes}, {do: mash, use: all}]
"""


def test_parts_have_names_of_their_own(bench: Bench) -> None:
    assert told(bench, PARTS) == []
    found = told(bench, PARTS.replace("en: Sauce", "en: rice"))
    assert [d.kind for d in found] == ["names-differ"]
    assert found[0].place.line == 8


def test_a_language_left_out(bench: Bench) -> None:
    assert kinds(bench, "Stir the rice.", "") == ["language-incomplete"]
    assert kinds(bench, "", "चावल मिलाएँ।") == ["language-incomplete"]
    half = PARTS.replace("{en: Sauce, hi: दाल}", "{en: Sauce}")
    assert [d.kind for d in told(bench, half)] == ["language-incomplete"]
    name = "  - {food: carrot, amount: 1 medium, hi: लाल गाजर}"
    found = told(bench, with_line(name))
    assert [d.kind for d in found] == ["language-incomplete"]
    assert "hi" in found[0].message and "en: ..." in found[0].hint


OWN_FOODS = "food,name,group,form,source,ENERC_kcal\nmy-root,hill root,grains-roots,fresh,mine,90\n"


def test_a_food_without_a_name(bench: Bench) -> None:
    own = own_table(OWN_FOODS, "foods.csv", shipped_table()).value
    assert own is not None
    run = bench.run(PLAIN)
    kit = Kit(**{**{f: getattr(bench.kit, f) for f in Kit.__slots__}, "table": own})
    own_bench = Bench(kit)
    assert run.analysis
    found = told(own_bench, with_line("  - 1 cup (100 g) hill root"))
    assert [d.kind for d in found] == ["food-unnamed"]
    assert "hi:" in found[0].hint
    named = "  - {food: hill root, amount: 1 cup, grams: 100, en: root, hi: पहाड़ी कंद}"
    assert told(own_bench, with_line(named)) == []


# foods that are spoken of


@pytest.mark.parametrize(
    ("en", "word"),
    [
        ("Add a pinch of salt.", "salt"),
        ("Add Sugar.", "Sugar"),
        ("Stir in honey.", "honey"),
        ("Add namak.", "namak"),
        ("Add groundnut oil.", "groundnut oil"),
        ("Stir the eggs.", "eggs"),
        ("Add the fish.", "fish"),
        ("Add masala.", "masala"),
    ],
)
def test_foods_that_are_not_listed(bench: Bench, en: str, word: str) -> None:
    found = told(bench, with_step(en, "चावल मिलाएँ।"))
    assert [d.kind for d in found] == ["word-not-listed"]
    assert f'"{word}"' in found[0].message


@pytest.mark.parametrize("hi", ["नमक डालें।", "चीनी मिलाएँ।", "शहद डालें।", "अंडे डालें।", "शक्कर डालें।"])
def test_foods_that_are_not_listed_in_hindi(bench: Bench, hi: str) -> None:
    assert kinds(bench, "Stir the rice.", hi) == ["word-not-listed"]


@pytest.mark.parametrize(
    ("en", "hi"),
    [
        ("Stir the white rice.", "चावल चलाएँ।"),
        ("Stir the dal.", "दाल चलाएँ।"),
        ("Stir the boiled rice.", "पका चावल चलाएँ।"),
        ("Stir the clarified butter.", "घी चलाएँ।"),
        ("Add some hot water.", "गरम पानी डालें।"),
        ("Add no salt.", "नमक न डालें।"),
        ("Cook without sugar.", "बिना चीनी पकाएँ।"),
        ("Stir until thick like curd.", "दही जैसा गाढ़ा करें।"),
        ("Make balls the size of a lemon.", "नींबू जितने गोले बनाएँ।"),
        ("Mash to pea size.", "हर चीज़ मसलें।"),
        ("Let breast milk come first.", "माँ का दूध पहले।"),
    ],
)
def test_foods_that_may_be_spoken_of(bench: Bench, en: str, hi: str) -> None:
    assert kinds(bench, en, hi) == []


def test_a_name_of_the_authors_own_is_listed(bench: Bench) -> None:
    line = "  - {food: spinach, amount: 1 handful, en: garden greens, hi: बाग का साग}"
    text = with_step("Add the greens.", "साग डालें।")
    text = text.replace("  - 1 tbsp ghee\n", f"  - 1 tbsp ghee\n{line}\n")
    assert told(bench, text) == []


def test_salt_is_not_excused_by_salt_fish(bench: Bench) -> None:
    text = with_step("Add salt.", "चावल मिलाएँ।")
    text = text.replace("  - 1 tbsp ghee\n", "  - 1 tbsp ghee\n  - 20 g salt fish, boned\n")
    assert [d.kind for d in told(bench, text)] == ["word-not-listed"]


def test_what_is_made_of_a_listed_food_may_be_spoken_of(bench: Bench) -> None:
    text = with_step("Rinse the moong sprouts.", "अंकुरित मूँग धोएँ।")
    listed = text.replace("  - 1 tbsp ghee\n", "  - 1 tbsp ghee\n  - 2 tbsp mung bean\n")
    assert told(bench, listed) == []


def test_juice_may_be_pressed_of_what_is_listed(bench: Bench) -> None:
    text = with_step("Add the orange juice.", "संतरे का रस डालें।")
    assert told(bench, text.replace("  - 1 tbsp ghee\n", "  - 1 tbsp ghee\n  - 1 orange\n")) == []


def test_what_may_be_taken_instead_is_listed(bench: Bench) -> None:
    text = with_step("Add the greens.", "पालक डालें।")
    line = "  - {food: carrot, amount: 1 medium, or: spinach}"
    assert [d.kind for d in told(bench, text)] == ["word-not-listed"]
    assert told(bench, text.replace("  - 1 tbsp ghee\n", f"  - 1 tbsp ghee\n{line}\n")) == []


def test_salt_is_excused_by_rock_salt(bench: Bench) -> None:
    text = with_step("Add the salt.", "नमक डालें।")
    listed = text.replace("  - 1 tbsp ghee\n", "  - 1 tbsp ghee\n  - 1 pinch rock salt\n")
    assert told(bench, listed) == []


@pytest.mark.parametrize("en", ["Add some rice beer.", "Add the rice drink.", "Pour in chai."])
def test_drinks_are_foods_of_their_own(bench: Bench, en: str) -> None:
    assert kinds(bench, en) == ["word-not-listed"]


@pytest.mark.parametrize(
    "en", ["Make small cakes.", "Squeeze out the juice.", "Give with a tea spoon."]
)
def test_words_of_the_kitchen_are_no_foods(bench: Bench, en: str) -> None:
    assert kinds(bench, en) == []


def test_oil_and_seed_of_a_listed_food_are_foods_of_their_own(bench: Bench) -> None:
    text = with_step("Add pumpkin seed.", "कद्दू का तेल डालें।")
    text = text.replace("  - 1 tbsp ghee\n", "  - 1 tbsp ghee\n  - 1 bowl pumpkin\n")
    assert [d.kind for d in told(bench, text)] == ["word-not-listed"] * 2


# amounts


@pytest.mark.parametrize(
    ("line", "near"),
    [
        ("0.37 cup rice", "1/3 cup"),
        ("1/8 tsp turmeric", "2 pinches"),
        ("1/8 cup rice", "2 tablespoons"),
        ("1/5 tsp cumin", "3 pinches"),
        ("2 1/5 cups water", "2¼ cups"),
    ],
)
def test_odd_amounts(bench: Bench, line: str, near: str) -> None:
    found = told(bench, with_line(f"  - {line}"))
    assert [d.kind for d in found] == ["amount-odd"]
    assert near in found[0].hint


@pytest.mark.parametrize(
    "line",
    [
        "1/3 cup rice",
        "2/3 cup rice",
        "3/4 tsp cumin",
        "1 1/2 tbsp rice",
        "9 tsp rice",
        "half a lemon",
    ],
)
def test_amounts_of_a_household(bench: Bench, line: str) -> None:
    assert told(bench, with_line(f"  - {line}")) == []


@pytest.mark.parametrize(
    ("line", "cure"),
    [
        ("5 g mustard oil", '"1 teaspoon (5 g) mustard oil"'),
        ("200 g rice", '"1 cup (200 g) rice"'),
        ("250 ml milk", '"1 cup cow milk"'),
        ("60 g carrot", '"1 medium (60 g) carrot"'),
        ("{food: potato, grams: 100}", '"1 medium (100 g) potato"'),
    ],
)
def test_grams_alone(bench: Bench, line: str, cure: str) -> None:
    found = told(bench, with_line(f"  - {line}"))
    assert [d.kind for d in found] == ["grams-alone"]
    assert cure in found[0].hint
    # the cure cures, and raises nothing new about this line
    mended = cure.strip('"')
    said = bench.kinds(with_line(f"  - {mended}"))
    assert not {"grams-alone", "amount-odd", "spoons-against-grams"} & set(said)


@pytest.mark.parametrize(
    "line",
    [
        "60 g chicken",
        "1 cup (200 g) rice",
        "water, as needed",
        "{food: carrot, grams: 60, optional: yes}",
    ],
)
def test_grams_that_may_stand_alone(bench: Bench, line: str) -> None:
    assert told(bench, with_line(f"  - {line}")) == []


def test_every_cure_for_grams_can_be_read(bench: Bench) -> None:
    """For every food of the table: what is offered for 20 g of it is an amount that is understood
    and lies within the tolerance of measure against grams."""
    foods = [
        food.name
        for food in bench.kit.table.foods.values()
        if food.group != "flesh" and not food.has("water")
    ]
    bad = {"grams-alone", "amount-odd", "spoons-against-grams", "amount-unreadable"}
    offered = 0
    for start in range(0, len(foods), 30):
        lines = [f"  - 20 g {name}" for name in foods[start : start + 30]]
        hints = [d.hint for d in told(bench, with_line("\n".join(lines))) if d.kind in bad]
        assert len(hints) == len(lines)
        mended = [
            "  - " + hint.removeprefix('write "').removesuffix('"')
            for hint in hints
            if hint.startswith("write")
        ]
        offered += len(mended)
        run = bench.run(with_line("\n".join(mended)))
        assert run.findings is not None, run.diagnostics
        assert [d for d in run.diagnostics if d.kind in bad] == []
    assert offered > len(foods) / 2


# the words file


def load(code: str, old: str, new: str) -> tuple[Language | None, list[str]]:
    text = Path(ROOT / "templates" / "words" / f"{code}.yaml").read_text(encoding="utf-8")
    assert text.count(old) == 1
    result = load_language(text.replace(old, new), "words.yaml", code)
    return result.value, [d.kind for d in result.diagnostics]


@pytest.mark.parametrize(
    ("old", "new", "kind"),
    [
        ("  joins: [", "  joinz: [", "key-unknown"),
        ("{words: 10, source", "{words: ten, source", "value-wrong"),
        ("{words: 10, source", "{wordz: 10, source", "key-unknown"),
        ("  to: [to, or]", "  to: to", "value-wrong"),
        ("    oven: [", "    stove: [", "key-unknown"),
        ("{half: 1/2,", "{half: much,", "value-wrong"),
        ("  days: [day, days]", "  days:", "value-missing"),
    ],
)
def test_faults_in_the_lists_are_told(old: str, new: str, kind: str) -> None:
    language, found = load("en", old, new)
    assert language is None and found == [kind]


def test_a_fault_in_the_lists_has_its_place() -> None:
    text = (ROOT / "templates" / "words" / "en.yaml").read_text(encoding="utf-8")
    lines = text.splitlines()
    at = next(n for n, line in enumerate(lines, 1) if line.startswith("    oven: ["))
    result = load_language(text.replace("    oven: [", "    stove: ["), "words.yaml", "en")
    assert [d.place.line for d in result.diagnostics] == [at]


def test_a_language_without_lists_is_not_read_over(bench: Bench) -> None:
    text = (ROOT / "templates" / "words" / "en.yaml").read_text(encoding="utf-8")
    bare = re.sub(r"\nreading:\n.*?\n(?=foods:)", "\n", text, flags=re.DOTALL)
    plain = load_language(bare, "words.yaml", "en").value
    assert plain is not None and plain.lists is None
    run = bench.run(with_step("Marinate and bake it in the oven with salt.", ""))
    assert run.recipe and run.analysis
    kit = bench.kit
    assert check_words(run.recipe, run.analysis, (plain,), kit.table, kit.measures) == ()


def test_an_amount_taken_in_part_is_told(bench: Bench) -> None:
    """amount-unspoken: the front says a spoon, the step takes half of it, the words say nothing."""
    text = PLAIN.replace(
        "    use: rice, moong dal, water, ghee\n",
        "    use: [rice, moong dal, water, 1 tsp ghee]\n"
        "    en: Boil rice and dal in water and ghee.\n    hi: चावल, दाल पानी, घी में उबालें।\n",
    ).replace("use: all", "use: the rest of the ghee")
    assert bench.kinds(text).count("amount-unspoken") == 1
    told = text.replace("and ghee.", "and 1 small spoon ghee.").replace(
        "पानी, घी", "पानी, 1 चम्मच घी"
    )
    assert "amount-unspoken" not in bench.kinds(told)


# Urdu


def told_in_urdu(bench: Bench, words: str, time: str = "3 minutes") -> list[str]:
    path = ROOT / "templates" / "words" / "ur.yaml"
    urdu = load_language(path.read_text(encoding="utf-8"), path.name, "ur").value
    assert urdu is not None
    step = f'  - do: simmer\n    use: rice\n    time: {time}\n    ur: "{words}"\n'
    run = bench.run(PLAIN + step)
    assert run.recipe and run.analysis
    kit = bench.kit
    found = check_words(run.recipe, run.analysis, (urdu,), kit.table, kit.measures)
    at = (PLAIN + step).splitlines().index("  - do: simmer") + 1
    return [d.kind for d in found if d.kind in KINDS and d.place.line == at]


@pytest.mark.parametrize(
    ("words", "kind"),
    [
        ("چاول دھیرے دھیرے پکائیں۔", None),
        ("چاول نہ ہلائیں۔ ڈھک کر پکائیں۔", None),
        ("چاول مٹر جتنے نرم پکائیں۔", None),
        ("چاول تین منٹ پکائیں۔", None),
        ("چاول دھوئیں، ڈھک کر پکائیں۔", "two-actions"),
        ("چاول میں پانی شامل کریں۔", "word-hard"),
        ("چاول مائیکروویو میں پکائیں۔", "equipment-missing"),
        ("چاول میں شہد ملائیں۔", "word-not-listed"),
        ("چاول میں پسے بادام ملائیں۔", "word-not-listed"),
        ("چاول ڈھائی منٹ پکائیں۔", "numbers-differ"),
        ("چاول ۵ منٹ پکائیں۔", "numbers-differ"),
        ("چاول صاف برتن میں صاف پانی میں ڈھک کر دھیرے دھیرے پکائیں۔", None),
        ("چاول صاف برتن میں صاف پانی میں ڈھک کر بہت ہی دھیرے دھیرے پکائیں۔", "sentence-long"),
    ],
)
def test_urdu_is_read_over(bench: Bench, words: str, kind: str | None) -> None:
    assert told_in_urdu(bench, words) == ([kind] if kind else [])
