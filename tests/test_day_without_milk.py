"""A plan for children who are not breastfed: figures as published, sums, messages, the chart."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from cards.batch.day import DayPlan, plan_day
from cards.batch.day_pages import day_chart_pages
from cards.batch.kit import Kit
from cards.diagnostics.diagnostic import Diagnostic, Severity
from cards.foods.table import shipped_table
from cards.layout.pages import IconItem
from cards.nutrition import breast_milk
from cards.nutrition.feeding import bands, without_milk
from cards.plan.day_slots import slots_for
from cards.source.workspace import Workspace
from tests.conftest import ROOT
from tests.test_charts import LANGUAGES, speaking
from tests.test_day import planned
from tests.test_day_chart import icons, said

DEMO = ROOT / "recipes/days/not-breastfed.yaml"
HEAD = "day: 1\ntitle: {en: x, hi: x}\nages: 9-11\nmilk: none\n"
MEALS = """\
meals:
  morning: dalia-milk-banana
  midday: pumpkin-rice-moong
  evening: fruit-curd-sesame
"""
WITH_EGG = MEALS.replace("midday: pumpkin-rice-moong", "midday: egg-spinach-potato")


def kinds(told: list[Diagnostic]) -> list[str]:
    return [d.kind for d in told]


def test_energy_is_as_published() -> None:
    """WHO (2005): about 600, 700 and 900 kcal a day (seen). What covers 97.5 % of children is
    all of what PAHO/WHO (2003) has: 615, 686, 894 x 1.25, of which no milk is taken off."""
    found = [(b.mean_food_energy("none"), b.food_energy("none")) for b in bands().values()]
    assert found == [(600, 769), (700, 858), (900, 1118)]
    for total, (_, most) in zip((615, 686, 894), found, strict=True):
        assert most == pytest.approx(total * 1.25, abs=0.8)


def test_meals_and_milk_are_as_published() -> None:
    """WHO (2005): 4 to 5 meals, 1 or 2 snacks (seen); 200-400 ml of milk beside other food of
    animals, 300-500 without (memory). WHO/UNICEF (2021): four times fed, two of them milk feeds
    at least (memory)."""
    facts = without_milk()
    assert (facts.meals, facts.snacks) == ((4, 5), (1, 2))
    assert (facts.beside_animal_foods_ml, facts.alone_ml) == ((200, 400), (300, 500))
    assert (facts.least_meals, facts.least_feeds) == (4, 2)
    assert [b.fed_least("none") for b in bands().values()] == [4, 4, 4]
    assert [b.fed_least("low") for b in bands().values()] == [2, 3, 3]


def test_no_breast_milk_brings_nothing_of_anything() -> None:
    for tag in ("CA", "RETOL", "MG", "VITD"):  # of the last two nothing is known where there is
        assert breast_milk.holds(tag, "9-11", "none") == 0.0
    assert breast_milk.litres("9-11", "none") == breast_milk.energy("9-11", "none") == 0.0


def test_there_may_be_five_meals() -> None:
    assert slots_for(set(), ["6-8"], "none") == (3, 2, 2)
    assert slots_for({"morning", "forenoon"}, ["6-8"], "none") == (2, 1, 1)
    assert slots_for(set(), ["6-8"]) == (3, 0, 2)


def test_cups_are_in_the_sums(workspace: Workspace, kit: Kit, tmp_path: Path) -> None:
    """Two half cups are 250 ml: 250 x 1.03 g of milk (its density), of whose energy and calcium
    boiling takes nothing (USDA retention factors: minerals of milk 100)."""
    with_cups, _ = planned(
        HEAD + "milk feeds: 2 of 1/2 cup cow milk\n" + MEALS, workspace, kit, tmp_path
    )
    without, _ = planned(HEAD + MEALS, workspace, kit, tmp_path)
    assert with_cups is not None and without is not None
    milk = shipped_table().find("cow milk")
    assert milk is not None
    grams = 250 * milk.measures["density"].value
    sums, plain = with_cups.sums[0], without.sums[0]

    def food(of: DayPlan, tag: str) -> float:
        return next(i.food for i in of.sums[0].intakes if i.tag == tag)

    calcium = grams / 100 * milk.figures["CA"].value
    assert food(with_cups, "CA") - food(without, "CA") == pytest.approx(calcium, rel=0.01)
    energy = grams / 100 * milk.figures["ENERC"].value
    day, before = sums.days[0], plain.days[0]
    assert day.energy is not None and before.energy is not None
    assert day.energy - before.energy == pytest.approx(energy, rel=0.01)
    assert (day.meals, day.feeds, before.meals, before.feeds) == (5, 2, 3, 0)
    assert day.milk_ml - before.milk_ml == pytest.approx(250, rel=0.01)
    assert all(i.milk == 0.0 for i in sums.intakes)


def test_breast_milk_is_no_food_group_without_it(
    workspace: Workspace, kit: Kit, tmp_path: Path
) -> None:
    few = HEAD + "meals:\n  midday: pumpkin-rice-moong\n"
    plan, told = planned(few, workspace, kit, tmp_path)
    fed, _ = planned(few.replace("none", "low"), workspace, kit, tmp_path)
    assert plan is not None and fed is not None
    assert fed.sums[0].days[0].variety == plan.sums[0].days[0].variety + 1
    groups = len(plan.sums[0].days[0].groups)
    assert any(f"{groups} of 8 food groups, and 5 are wanted" in d.message for d in told)
    assert not any("breast milk is one" in d.hint for d in told)
    assert any("1 times fed, and 4 are the least" in d.message for d in told)
    assert any("and 700 are needed" in d.message for d in told)


@pytest.mark.parametrize(
    ("feeds", "meals", "expected"),
    [
        ("", WITH_EGG, {"milk-short"}),  # no milk feeds at all
        ("milk feeds: 1 of 1 cup cow milk\n", WITH_EGG, {"milk-short"}),  # one of two
        ("milk feeds: 2 of 1/4 cup cow milk\n", MEALS, {"milk-short"}),  # 125 ml and the dishes'
        ("milk feeds: 2 of 1/2 cup buffalo milk\n", WITH_EGG, set()),
        ("milk feeds: 3 of 1 cup cow milk\n", MEALS, {"milk-over"}),  # 750 ml
    ],
)
def test_milk_is_told_short_or_over(
    feeds: str, meals: str, expected: set[str], workspace: Workspace, kit: Kit, tmp_path: Path
) -> None:
    plan, told = planned(HEAD + feeds + meals, workspace, kit, tmp_path)
    assert plan is not None
    assert {k for k in kinds(told) if k in ("milk-short", "milk-over")} == expected
    assert "not-breastfed" in kinds(told)
    about = [d for d in told if d.kind in expected]
    assert all("WHO" in d.source and d.hint for d in about)


def test_before_twelve_months_advice_differs(
    workspace: Workspace, kit: Kit, tmp_path: Path
) -> None:
    text = HEAD + "milk feeds: 2 of 1/2 cup cow milk\n" + MEALS
    strict = replace(kit, programme=replace(kit.programme, milk="from-12-months"))
    for one, severity in ((kit, Severity.NOTE), (strict, Severity.WARNING)):
        _, told = planned(text, workspace, one, tmp_path)
        assert [d.severity for d in told if d.kind == "milk-too-young"] == [severity]
    _, told = planned(text.replace("9-11", "12-23"), workspace, strict, tmp_path)
    assert "milk-too-young" not in kinds(told)


SLIPS = {
    "milk feeds: 2 of 1/2 cup unicorn milk\n": "food-unknown",
    "milk feeds: 2 of 1/2 cup condensed milk\n": "milk-wrong",
    "milk feeds: 2 of 1/2 cup skimmed milk\n": "milk-wrong",
    "milk feeds: 2 of 1/2 cup soya milk\n": "milk-wrong",
    "milk feeds: twice\n": "value-wrong",
    "milk feeds: 9 of 1/2 cup cow milk\n": "value-wrong",
    "milk feeds: 2 of 1/3 cup cow milk\n": "value-wrong",
    "milk feeds: 2 of 2 cups cow milk\n": "value-wrong",
    "milk feeds: 2 of 200 ml cow milk\n": "value-wrong",
    "milk feeds: [2]\n": "value-wrong",
}


@pytest.mark.parametrize("line", SLIPS)
def test_a_slip_has_one_message_with_its_place_and_cure(
    line: str, workspace: Workspace, kit: Kit, tmp_path: Path
) -> None:
    plan, told = planned(HEAD + line + MEALS, workspace, kit, tmp_path)
    assert plan is None
    (slip,) = [d for d in told if d.severity is Severity.ERROR]
    assert (slip.kind, slip.place.line) == (SLIPS[line], 5)
    assert slip.hint


def test_cups_beside_breast_milk_are_a_slip(workspace: Workspace, kit: Kit, tmp_path: Path) -> None:
    text = (HEAD + "milk feeds: 2 of 1/2 cup cow milk\n" + MEALS).replace("none", "low")
    plan, told = planned(text, workspace, kit, tmp_path)
    assert plan is None and kinds(told) == ["value-wrong"]


@pytest.fixture(scope="module")
def demo(workspace: Workspace, kit: Kit) -> DayPlan:
    plan = plan_day(DEMO, workspace, kit).value
    assert plan is not None
    return plan


def test_a_proposal_brings_all_energy_from_food(demo: DayPlan) -> None:
    assert demo.proposal is not None and demo.proposal.proven
    (day,) = demo.sums[0].days
    assert day.energy is not None and 700 <= day.energy <= 858.1
    assert day.meals >= 4 and day.feeds == 2 and day.variety >= 5
    assert day.variety == len(day.groups)
    assert 200 <= day.milk_ml <= 400


@pytest.mark.parametrize("codes", LANGUAGES, ids="-".join)
def test_the_chart_has_cups_and_no_breast(codes: tuple[str, ...], demo: DayPlan, kit: Kit) -> None:
    made = day_chart_pages(demo, speaking(kit, codes))
    assert made.value is not None and made.diagnostics == ()
    drawn = icons(made.value)
    assert "breast-milk" not in drawn and "no-bottle" in drawn
    line = [
        i
        for i in made.value.pages[0].items
        if isinstance(i, IconItem) and i.icon.name == "cup" and ("of", "milk") in i.icon.params
    ]
    assert len(line) == 2


def test_the_chart_says_how_much_milk_and_who_comes_first(demo: DayPlan, kit: Kit) -> None:
    pages = day_chart_pages(demo, kit).value
    assert pages is not None
    words = said(pages)
    assert "Milk, ½ cup, 2 times a day" in words and "Breast milk" not in words
    assert "National guidance and the health worker come first" in words
    assert "WHO (2005)" in words
    bare = replace(demo, file=replace(demo.file, feeds=None))
    other = day_chart_pages(bare, kit).value
    assert other is not None
    assert "A child who is not breastfed needs more meals, and milk." in said(other)
