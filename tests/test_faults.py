"""Faults as people make them: each gives one message, at its line, with a cure that works.

Each row spoils one of three sound recipes in one place, and mends it as the message's
own cure says. The spoilt recipe must give exactly one error or warning, of the kind and
at the line told; the mended one none.
"""

from __future__ import annotations

import pytest

from cards.diagnostics.diagnostic import Diagnostic, Severity
from tests.conftest import Bench

PORRIDGE = """\
recipe: 1
title:
  en: Rice and egg porridge
  hi: चावल और अंडे का दलिया
ages: 6-23 months
makes: 2 cups (500 g)
keep: 2 hours
ingredients:
  - 6 tbsp (70 g) rice, washed
  - 3 tbsp (42 g) moong dal, washed
  - 1 egg
  - 1 small carrot, grated
  - 2 cups water
  - 1 tbsp ghee
steps:
  - do: soak
    use: rice, moong dal
    time: 30 minutes
  - do: simmer
    use: rice, moong dal, carrot, water
    time: 25 minutes
    flame: low
    lid: on
    until: soft
  - do: beat
    use: egg
  - do: simmer
    use: egg
    time: 5 minutes
    flame: low
    until: firm
  - do: mash
    use: all
  - do: mix
    use: ghee
"""

FISH = """\
recipe: 1
title: {en: Fish and potato, hi: मछली और आलू}
ages: from 9 months
makes: 2 cups (480 g)
texture: chopped
ingredients:
  - food: rohu
    amount: 2 pieces
    grams: 70
    en: river fish
    hi: नदी की मछली
  - 3 medium potatoes, peeled
  - 1 pinch turmeric
  - 2 tsp mustard oil
  - 1/2 cup water
steps:
  - do: boil
    use: potatoes, water
    time: 15 minutes
    flame: medium
    until: soft
  - do: steam
    use: rohu, turmeric
    time: 12 minutes
    flame: medium
    until: flakes
  - do: debone
    use: rohu
  - do: chop
    use: rohu, potatoes
    size: pea
  - do: mix
    use: mustard oil
  - do: cool
    time: 5 minutes
"""

CAKES = """\
recipe: 1
title: {en: Steamed cakes with dal, hi: भाप की टिक्की और दाल}
ages: from 9 months
makes: 3 cups (750 g)
texture: chopped
parts:
  - part: {en: Cakes, hi: टिक्की}
    ingredients:
      - 1 cup ragi flour
      - 1 1/2 cups water
    steps:
      - do: ferment
        use: ragi flour, water
        time: 8 hours
      - do: steam
        use: ragi flour
        time: 15 minutes
        flame: medium
        until: firm
  - part: {en: Dal, hi: दाल}
    ingredients:
      - 1/2 cup (95 g) masoor dal, washed
      - 1 1/2 cups water
      - 1 tbsp ghee
    steps:
      - do: pressure-cook
        use: masoor dal, water, ghee
        whistles: 3
        flame: medium
      - do: cool
        time: 10 minutes
      - do: mash
        use: masoor dal
        until: smooth
      - do: serve
        use: Cakes, Dal
"""

RICE = "  - 6 tbsp (70 g) rice, washed\n"
GHEE = "  - 1 tbsp ghee\n"
TITLE = "title: {en: Fish and potato, hi: मछली और आलू}"

# recipe, what is spoilt, how, kind, line, how it reads when mended
FAULTS = [
    # the file
    (PORRIDGE, "  hi: चावल और", "\thi: चावल और", "yaml-tab", 4, "  hi: चावल और"),
    (PORRIDGE, "en: Rice and egg", "en: Rice: egg", "yaml-colon", 3, "en: Rice and egg"),
    (
        PORRIDGE,
        "en: Rice and egg porridge",
        'en: "Rice and egg',
        "yaml-quote",
        3,
        "en: Rice and egg",
    ),
    (FISH, TITLE, "title: {en: Fish, hi: मछली", "yaml-bracket", 2, TITLE),
    (FISH, "ages: from 9 months", "ages from 9 months", "yaml-key", 3, "ages: from 9 months"),
    (PORRIDGE, "keep: 2 hours", "keeps: 2 hours", "key-unknown", 7, "keep: 2 hours"),
    (PORRIDGE, "keep: 2 hours", "keep: 2 hours\nkeep: 1 hour", "key-twice", 8, "keep: 2 hours"),
    (PORRIDGE, "recipe: 1", "recipe: 3", "format-newer", 1, "recipe: 1"),
    (PORRIDGE, "keep: 2 hours", "keep:", "value-missing", 7, "keep: 2 hours"),
    (PORRIDGE, "  hi: चावल और अंडे का दलिया\n", "", "language-missing", 3, "  hi: दलिया\n"),
    (
        FISH,
        "ages: from 9 months",
        "ages: from 4 months",
        "ages-too-young",
        3,
        "ages: from 9 months",
    ),
    (FISH, "ages: from 9 months", "ages: 9-60 months", "ages-too-old", 3, "ages: 9-23 months"),
    (FISH, "texture: chopped", "texture: lumpy", "value-wrong", 5, "texture: chopped"),
    (PORRIDGE, GHEE, "  1 tbsp ghee\n", "yaml-dash", 14, GHEE),
    (PORRIDGE, GHEE, "  -1 tbsp ghee\n", "yaml-dash", 14, GHEE),
    (PORRIDGE, GHEE, "  – 1 tbsp ghee\n", "yaml-dash", 14, GHEE),
    (PORRIDGE, GHEE, "  • 1 tbsp ghee\n", "yaml-dash", 14, GHEE),
    (PORRIDGE, "  en: Rice", "  en:Rice", "yaml-key", 3, "  en: Rice"),
    (PORRIDGE, "  en: Rice", "  en Rice", "yaml-key", 3, "  en: Rice"),
    (PORRIDGE, "  - do: beat", "  - do beat", "yaml-key", 25, "  - do: beat"),
    (PORRIDGE, "  - do: beat", "    do: beat", "key-twice", 25, "  - do: beat"),
    (PORRIDGE, "  hi: चावल और", "  hi:\u00a0चावल और", "yaml-blank", 4, "  hi: चावल और"),
    # ingredients
    (PORRIDGE, RICE, "  - 6 tbspoon rice\n", "unit-unknown", 9, "  - 6 tbsp rice\n"),
    (PORRIDGE, RICE, "  - 6 tbsp rise\n", "food-unknown", 9, RICE),
    (PORRIDGE, RICE, "  - rice\n", "amount-missing", 9, "  - 6 tbsp rice\n"),
    (PORRIDGE, RICE, "  - some rice\n", "amount-missing", 9, "  - 6 tbsp rice\n"),
    (PORRIDGE, RICE, "  - 6 tbsp (170 g) rice\n", "spoons-against-grams", 9, RICE),
    (PORRIDGE, RICE, "  - 6 tbsp rice, wased\n", "prep-unknown", 9, RICE),
    (PORRIDGE, RICE, "  - 7-6 tbsp rice\n", "amount-unreadable", 9, "  - 6-7 tbsp rice\n"),
    (PORRIDGE, RICE, "  - 1,5 tbsp rice\n", "amount-unreadable", 9, "  - 5 tbsp rice\n"),
    (
        PORRIDGE,
        RICE,
        "  - 5 tbsp rice, soaked\n",
        "swollen-measure",
        9,
        "  - 5 tbsp (60 g) rice, soaked\n",
    ),
    (PORRIDGE, RICE, "  - 1 leaf rice\n", "measure-without-weight", 9, "  - 1 leaf (70 g) rice\n"),
    (PORRIDGE, GHEE, GHEE + "  - salt to taste\n", "amount-to-taste", 15, GHEE),
    (PORRIDGE, GHEE, GHEE + "  - 1 pinch cumin\n", "", 0, GHEE),
    (PORRIDGE, GHEE, "  - 1 tbsp ghee or gee\n", "food-unknown", 14, GHEE),
    (PORRIDGE, GHEE, "  - 1 tbsp ghee or peanut\n", "whole-nuts", 14, GHEE),
    (
        FISH,
        "  - 1 pinch turmeric\n",
        "  - {food: turmeric, amount: 1 pinch, seasons: {autum: cumin}}\n",
        "season-unknown",
        13,
        "  - 1 pinch turmeric\n",
    ),
    # what it makes and promises
    (PORRIDGE, "2 cups (500 g)", "100 g", "makes-too-little", 6, "2 cups (500 g)"),
    (PORRIDGE, "2 cups (500 g)", "6 cups (1500 g)", "makes-too-much", 6, "2 cups (500 g)"),
    (PORRIDGE, "2 cups (500 g)", "2 cups (900 g)", "spoons-against-grams", 6, "2 cups (500 g)"),
    (
        PORRIDGE,
        "(500 g)",
        "(500 g), 9 portions",
        "makes-less-than-promised",
        6,
        "(500 g), 4 portions",
    ),
    (PORRIDGE, "keep: 2 hours", "ready: 30 minutes", "ready-too-soon", 7, "ready: 80 minutes"),
    (CAKES, "ages: from 9", "ready: 45 minutes\nages: from 9", "ready-too-soon", 3, "ages: from 9"),
    # steps against the list
    (
        PORRIDGE,
        "    use: egg\n    time",
        "    use: eg\n    time",
        "use-unknown",
        28,
        "    use: egg\n    time",
    ),
    (PORRIDGE, "use: ghee", "use: half of the ghee", "left-over", 14, "use: ghee"),
    (PORRIDGE, "use: ghee", "use: 2 tbsp ghee", "used-more-than-listed", 35, "use: 1 tbsp ghee"),
    (PORRIDGE, "use: ghee", "use: the rest of the ghee", "rest-of-nothing", 35, "use: ghee"),
    (
        FISH,
        "    use: mustard oil\n",
        "    use: potatoes\n",
        "ingredient-unused",
        14,
        "    use: mustard oil\n",
    ),
    (CAKES, "use: Cakes, Dal", "use: Dal", "part-unjoined", 7, "use: Cakes, Dal"),
    (
        PORRIDGE,
        "    lid: on\n",
        "    whistles: 3\n",
        "whistles-without-cooker",
        23,
        "    lid: on\n",
    ),
    (
        PORRIDGE,
        "do: simmer\n    use: egg",
        "do: coook\n    use: egg",
        "action-unknown",
        27,
        "do: simmer\n    use: egg",
    ),
    (FISH, "until: flakes", "until: flaky", "end-unknown", 26, "until: flakes"),
    (PORRIDGE, "time: 25 minutes", "time: a while", "time-unreadable", 21, "time: 25 minutes"),
    (PORRIDGE, "time: 25 minutes", "time: 25", "time-unreadable", 21, "time: 25 minutes"),
    (CAKES, "whistles: 3", "whistles: many", "value-wrong", 28, "whistles: 3"),
    (PORRIDGE, "    lid: on\n", "    lid: half\n", "value-wrong", 23, "    lid: on\n"),
    # what can hurt
    (PORRIDGE, "    until: firm\n", "", "runny-egg", 11, "    until: firm\n"),
    (
        PORRIDGE,
        "  - do: mash\n    use: all\n",
        "",
        "texture-for-age",
        1,
        "  - do: mash\n    use: all\n",
    ),
    (PORRIDGE, "keep: 2 hours", "keep: 6 hours", "kept-too-long", 7, "keep: 2 hours"),
    (
        PORRIDGE,
        "keep: 2 hours",
        "keep: 3 days in the fridge",
        "fridge-too-long",
        7,
        "keep: 1 day in the fridge",
    ),
    (PORRIDGE, GHEE, GHEE + "  - 2 tsp jaggery\n", "added-sugar", 15, GHEE),
    (PORRIDGE, GHEE, GHEE + "  - 1 pinch salt\n", "added-salt", 15, GHEE),
    (PORRIDGE, GHEE, GHEE + "  - 2 tsp honey\n", "honey-before-one", 15, GHEE),
    (PORRIDGE, "en: Rice and egg", "en: Honey egg", "honey-in-disguise", 3, "en: Rice and egg"),
    (FISH, "  - do: debone\n    use: rohu\n", "", "bones", 7, "  - do: debone\n    use: rohu\n"),
    (FISH, "size: pea", "size: finger", "piece-size", 29, "size: pea"),
    (FISH, "    size: pea\n", "", "piece-size", 29, "    size: pea\n"),
    (FISH, "until: flakes", "until: warm", "", 0, "until: flakes"),
    (FISH, "time: 5 minutes", "time: 3 hours", "stands-too-long", 34, "time: 5 minutes"),
    (FISH, "texture: chopped", "texture: family", "family-food-before-one", 5, "texture: chopped"),
    (
        FISH,
        "  - 1 pinch turmeric\n",
        "  - 1 pinch turmeric\n  - 2 tsp cumin\n",
        "ingredient-unused",
        14,
        "  - 1 pinch turmeric\n",
    ),
    (
        CAKES,
        "      - do: cool\n        time: 10 minutes\n",
        "",
        "cooker-opened-hot",
        30,
        "      - do: cool\n        time: 10 minutes\n",
    ),
    (CAKES, "time: 8 hours", "time: 2 days", "ferments-too-long", 12, "time: 8 hours"),
    (
        CAKES,
        "      - do: steam\n        use: ragi flour\n",
        "      - do: rest\n        use: ragi flour\n",
        "ferment-cooked",
        12,
        "      - do: steam\n        use: ragi flour\n",
    ),
    (
        CAKES,
        "      - 1 tbsp ghee\n    steps:\n      - do: pressure-cook\n"
        "        use: masoor dal, water, ghee",
        "      - 1 tbsp ghee\n      - 2 curry leaves\n    steps:\n      - do: pressure-cook\n"
        "        use: masoor dal, water, ghee, curry leaves",
        "spices-taken-out",
        25,
        "      - 1 tbsp ghee\n      - 2 curry leaves, powdered\n    steps:\n"
        "      - do: pressure-cook\n        use: masoor dal, water, ghee, curry leaves",
    ),
    (
        CAKES,
        "use: Cakes, Dal",
        "use: Cakes, Dal\n        en: Feed from a bottle.\n        hi: बोतल से दें।",
        "bottle",
        35,
        "use: Cakes, Dal",
    ),
    # own words
    (
        PORRIDGE,
        "use: ghee",
        "use: ghee\n    en: Stir it well.\n    hi: घी मिलाएँ।",
        "food-unspoken",
        34,
        "use: ghee\n    en: Stir in the ghee.\n    hi: घी मिलाएँ।",
    ),
    (
        PORRIDGE,
        "use: rice, moong dal, carrot, water",
        "use: [rice, moong dal, carrot, 1 cup water]\n    en: Cook rice, dal, carrot in water.\n"
        "    hi: चावल, दाल, गाजर 1 कप पानी में पकाएँ।",
        "numbers-differ",
        19,
        "use: rice, moong dal, carrot, water",
    ),
    (
        PORRIDGE,
        "use: egg\n    time",
        "use: egg\n    en: Add the egg and a little salt.\n    hi: अंडा डालें।\n    time",
        "word-not-listed",
        27,
        "use: egg\n    time",
    ),
    (
        PORRIDGE,
        "use: egg\n    time: 5 minutes",
        "use: egg\n    en: Stir the egg for 8 minutes.\n    hi: अंडा 8 मिनट चलाएँ।\n"
        "    time: 5 minutes",
        "numbers-differ",
        27,
        "use: egg\n    en: Stir the egg for 8 minutes.\n    hi: अंडा 8 मिनट चलाएँ।\n"
        "    time: 8 minutes",
    ),
    (
        PORRIDGE,
        "use: ghee",
        "use: ghee\n    en: Stir in the ghee.",
        "language-incomplete",
        34,
        "use: ghee\n    en: Stir in the ghee.\n    hi: घी मिलाएँ।",
    ),
    (
        PORRIDGE,
        "use: ghee",
        "use: ghee\n    en: Incorporate the ghee.\n    hi: घी मिलाएँ।",
        "word-hard",
        34,
        "use: ghee\n    en: Mix in the ghee.\n    hi: घी मिलाएँ।",
    ),
    (
        PORRIDGE,
        "use: ghee",
        "use: ghee\n    en: Add the ghee and stir it.\n    hi: घी मिलाएँ।",
        "two-actions",
        34,
        "use: ghee\n    en: Add the ghee. Stir it.\n    hi: घी मिलाएँ।",
    ),
    (
        PORRIDGE,
        GHEE,
        "  - 14 g ghee\n",
        "grams-alone",
        14,
        GHEE,
    ),
]


def told(bench: Bench, text: str) -> list[Diagnostic]:
    return [d for d in bench.said(text) if d.severity <= Severity.WARNING]


@pytest.mark.parametrize("text", [PORRIDGE, FISH, CAKES], ids=["porridge", "fish", "cakes"])
def test_the_sound_ones_are_sound(bench: Bench, text: str) -> None:
    assert told(bench, text) == []


@pytest.mark.parametrize(
    ("text", "old", "new", "kind", "line", "mended"),
    FAULTS,
    ids=[f"{n}-{f[3]}" for n, f in enumerate(FAULTS)],
)
def test_one_fault_one_message_one_cure(
    bench: Bench, text: str, old: str, new: str, kind: str, line: int, mended: str
) -> None:
    assert text.count(old) == 1, old
    found = told(bench, text.replace(old, new))
    assert [(d.kind, d.place.line) for d in found] == ([(kind, line)] if kind else [])
    assert all(d.hint for d in found)
    assert told(bench, text.replace(old, mended)) == []
