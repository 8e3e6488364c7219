"""What a card says can be understood in one way only.

Each test holds a mending that came of telling cards back from one language alone: first-time
readers looked for peanuts in a dish with their oil, took cakes for broken pieces, saw only the
larger number of a range, and had breakfast ready of a batter that rises all morning.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from cards.batch.kit import Kit
from cards.batch.stages import run_file
from cards.card.allergen_words import allergen_names
from cards.layout.pages import IconItem, TextItem
from cards.method.lead import lead_time
from cards.source.workspace import Workspace
from tests.conftest import PLAIN, Bench

GHEE = "  - 1 tbsp ghee\n"
ROOT = Path(__file__).parent.parent


@pytest.mark.parametrize(
    ("lines", "named"),
    [
        (GHEE, "ghee (milk)"),
        ("  - 1 tbsp groundnut oil\n", "groundnut oil"),
        ("  - 1/4 cup cow milk\n", "cow milk"),
        (GHEE + "  - 1/4 cup cow milk\n", "milk"),
        ("  - 1 tbsp semolina\n", "semolina (wheat)"),
    ],
)
def test_an_allergen_is_named_as_the_food_that_brings_it(
    bench: Bench, lines: str, named: str
) -> None:
    run = bench.run(PLAIN.replace(GHEE, lines))
    assert run.analysis is not None
    assert allergen_names(run.analysis, bench.kit.languages[0]) == [named]


def test_pieces_are_called_what_the_author_calls_them(bench: Bench) -> None:
    plain = PLAIN.replace("makes: 2 cups (500 g)", "makes: 10 pieces (400 g)")
    called = plain.replace("ingredients:", "piece: {en: dumplings, hi: पकौड़ी}\ningredients:")
    for text, words in ((plain, ("pieces", "टुकड़े")), (called, ("dumplings", "पकौड़ी"))):
        card = bench.run(text).card
        assert card is not None
        made = card.lead.items[-1].said
        for index, word in enumerate(words):
            assert word in made[index].text


def test_portions_are_in_pieces_as_the_author_calls_them(workspace: Workspace, kit: Kit) -> None:
    run = run_file(ROOT / "recipes" / "ragi-cakes-tomato-chutney.yaml", workspace, kit)
    assert run.card is not None
    for column in run.card.portions.columns:
        assert [text.text.split(" ", 1)[1] for text in column.amount] == ["cakes", "इडली"]


def test_a_wait_after_the_night_begins_the_day_before(bench: Bench) -> None:
    soak = "steps:\n  - {do: soak, use: rice, time: overnight}\n"
    rise = soak + "  - {do: ferment, use: rice, time: 6 hours}\n"
    for steps, late in ((soak, False), (rise, True)):
        run = bench.run(PLAIN.replace("steps:\n", steps))
        assert run.recipe is not None and run.card is not None
        assert lead_time(run.recipe).late is late
        first = run.card.lead.items[0].said[0].text
        assert first == ("Start the day before" if late else "Start the evening before")


def test_the_smaller_number_of_a_range_is_full(bench: Bench) -> None:
    """A cup is barred from the smaller to the larger; both stand in the words."""
    card = bench.run(PLAIN).card
    assert card is not None
    ranges = 0
    for column in card.portions.columns:
        words = column.amount[0].text.partition("*")[2].partition("*")[0]
        cups = [dict(i.params) for i in column.amount_icons]
        barred = [cup for cup in cups if "may" in cup]
        assert bool(barred) is ("–" in words)
        assert all(float(cup["may"]) > float(cup["fill"]) for cup in barred)
        ranges += bool(barred)
    assert ranges


def test_words_of_a_step_end_only_at_its_own_marks(workspace: Workspace, kit: Kit) -> None:
    """Marks have columns; a row without a lid has its words run over the lids' column."""
    run = run_file(ROOT / "recipes" / "ragi-cakes-tomato-chutney.yaml", workspace, kit)
    assert run.pages is not None
    back = run.pages.pages[-1].items
    lid = min(i.box[0] for i in back if isinstance(i, IconItem) and i.icon.name == "cover")
    beyond = [
        i.line.text
        for i in back
        if isinstance(i, TextItem) and i.role == "body" and i.box[0] < lid < i.box[2]
    ]
    assert any("Let it rise" in text for text in beyond)
