"""Tamil and Telugu: words that may not mislead, and own words read over with their endings."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cards.batch.kit import Kit
from cards.source.vocabulary import actions
from cards.words.figures import figures
from cards.words.plain import told_to_do
from cards.words.reading import check_words
from cards.words.tokens import phrase, tokens
from cards.words.wordlists import equipment_names
from tests.conftest import PLAIN, ROOT, Bench
from tests.languages import language, lists
from tests.test_reading import KINDS

CODES = ("ta", "te")


@pytest.mark.parametrize("code", CODES)
def test_the_programs_own_words_are_not_hard(code: str) -> None:
    text = (ROOT / "templates" / "words" / f"{code}.yaml").read_text(encoding="utf-8")
    hard = lists(code).hard
    assert len(set(hard.values())) >= 40
    assert [w for w in phrase(text.split("\nreading:")[0]) if (w,) in hard] == []
    assert set(lists(code).equipment.values()) == set(equipment_names())


def test_every_sentence_of_the_program_is_one_telugu_order() -> None:
    for action in actions():
        sentence = language("te").sentence(action, foods="X", time="Y", until="Z")
        assert len(told_to_do(tokens(sentence), lists("te"))) == 1, sentence


@pytest.mark.parametrize(
    ("code", "sentence", "orders"),
    [
        ("ta", "வெங்காயம் நறுக்கி வதக்குங்கள்", ["வதக்குங்கள்"]),
        ("ta", "அரிசி கழுவுங்கள், வேக வையுங்கள்", ["கழுவுங்கள்", "வையுங்கள்"]),
        ("ta", "கேரட்டைத் துருவுங்கள் அல்லது நறுக்குங்கள்", ["நறுக்குங்கள்"]),
        ("ta", "உப்பு போட வேண்டாம்", []),
        ("te", "ఉల్లిపాయ తరిగి వేపండి", ["వేపండి"]),
        ("te", "బియ్యం కడగండి, ఉడికించండి", ["కడగండి", "ఉడికించండి"]),
        ("te", "క్యారెట్ తురమండి లేదా తరగండి", ["తరగండి"]),
        ("te", "ఉప్పు వేయకూడదు", []),
    ],
)
def test_orders(code: str, sentence: str, orders: list[str]) -> None:
    assert told_to_do(tokens(sentence), lists(code)) == orders


@pytest.mark.parametrize(
    ("code", "text", "low", "high"),
    [
        ("ta", "ஒன்றரை மணி நேரம்", 90, 90),
        ("ta", "கால் மணி நேரம்", 15, 15),
        ("ta", "5 முதல் 6 நிமிடம்", 5, 6),
        ("ta", "இரண்டு நாள்", 2880, 2880),
        ("te", "గంట", None, None),
        ("te", "రెండున్నర గంటలు", 150, 150),
        ("te", "అర గంట", 30, 30),
        ("te", "5 నుంచి 6 నిమిషాలు", 5, 6),
        ("te", "రెండు రోజులు", 2880, 2880),
    ],
)
def test_times(code: str, text: str, low: int | None, high: int | None) -> None:
    found = figures(text, lists(code)).times
    assert [(t.low, t.high) for t in found] == ([] if low is None else [(low, high)])


def test_words_bend() -> None:
    tamil, telugu = language("ta"), language("te")
    # a small onion is another vegetable, சின்ன வெங்காயம்
    assert tamil.phrase("line", unit="சிறிய", food="வெங்காயம்", prep="") == ("சிறிய அளவு *வெங்காயம்*")
    assert tamil.sentence("boil", foods="தண்ணீர்") == "தண்ணீர் கொதிக்க வையுங்கள்."
    assert tamil.sentence("boil", foods="உருளைக்கிழங்கு") == "உருளைக்கிழங்கு வேக வையுங்கள்."
    assert tamil.listed(["அரிசி", "தண்ணீர்"]).replace(" ,", ",") == "அரிசி, தண்ணீர்"
    assert telugu.phrase("line", unit="కప్పులు", food="నీళ్ళు", prep="") == "కప్పుల *నీళ్ళు*"
    assert telugu.phrase("line", unit="కప్పు", food="నీళ్ళు", prep="") == "కప్పు *నీళ్ళు*"
    assert telugu.phrase("eat-soon", time="2 గంటలు", covered="") == "వండిన 2 గంటల లోపు పెట్టండి"
    assert telugu.sentence("grind", foods="మినప్పప్పు") == "మినప్పప్పు రుబ్బండి."
    assert telugu.sentence("grind", foods="నువ్వులు") == "నువ్వులు నూరండి."


def read_over(bench: Bench, code: str, words: str) -> list[str]:
    step = f'  - do: simmer\n    use: rice\n    time: 3 minutes\n    {code}: "{words}"\n'
    kit: Kit = replace(bench.kit, languages=(language(code),))
    run = bench.run(PLAIN + step)
    assert run.recipe and run.analysis
    found = check_words(run.recipe, run.analysis, kit.languages, kit.table, kit.measures)
    at = (PLAIN + step).splitlines().index("  - do: simmer") + 1
    return [d.kind for d in found if d.kind in KINDS and d.place.line == at]


@pytest.mark.parametrize(
    ("code", "words", "kind"),
    [
        ("ta", "அரிசியை மெதுவாக வேக வையுங்கள்.", None),
        ("ta", "அரிசி மூன்று நிமிடம் வேக வையுங்கள்.", None),
        ("ta", "அரிசியைப் பட்டாணி அளவில் மசியுங்கள்.", None),
        ("ta", "அரிசியில் தேன் கலக்குங்கள்.", "word-not-listed"),
        ("ta", "அரிசியில் முட்டையை ஊற்றுங்கள்.", "word-not-listed"),
        ("ta", "அரிசி கலவையை வேக வையுங்கள்.", "word-hard"),
        ("ta", "அரிசி மிக்ஸியில் அரையுங்கள்.", "equipment-missing"),
        ("ta", "அரிசி 5 நிமிடம் வேக வையுங்கள்.", "numbers-differ"),
        ("ta", "அரிசியில் தேன் கூடாது.", None),
        ("te", "బియ్యం మెల్లగా ఉడికించండి.", None),
        ("te", "బియ్యం మూడు నిమిషాలు ఉడికించండి.", None),
        ("te", "బియ్యం బఠాణీ గింజంత చేయండి.", None),
        ("te", "బియ్యంలో తేనె కలపండి.", "word-not-listed"),
        ("te", "బియ్యంలో గుడ్డును వేయండి.", "word-not-listed"),
        ("te", "బియ్యం మిశ్రమం ఉడికించండి.", "word-hard"),
        ("te", "బియ్యం మిక్సీలో నూరండి.", "equipment-missing"),
        ("te", "బియ్యం 5 నిమిషాలు ఉడికించండి.", "numbers-differ"),
        ("te", "బియ్యంలో తేనె వద్దు.", None),
    ],
)
def test_own_words_are_read_over(bench: Bench, code: str, words: str, kind: str | None) -> None:
    assert read_over(bench, code, words) == ([kind] if kind else [])
