"""What a training day needs, held against sums and hours worked by hand."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from datetime import datetime, time, timedelta
from fractions import Fraction

import pytest

from cards.batch.kit import Kit
from cards.batch.stages import Run
from cards.data import load
from cards.method.lead import lead_time
from cards.nutrition.analysis import Analysis
from cards.nutrition.flow import minutes_of
from cards.plan.kitchen import SPOONS, kitchen_needs
from cards.plan.market import Quantity, as_bought, quantity, stall_of, stalls
from cards.plan.shopping import Row, Shopping, shop
from cards.plan.shopping_paper import PICTURES, shopping_csv, shopping_paper
from cards.plan.timeline import Task, plan_hours
from cards.source.programme import Programme
from cards.source.read import read
from cards.source.recipe import Recipe
from cards.source.session import Session
from cards.source.session_fields import PACKS
from cards.source.vocabulary import actions
from tests.conftest import Bench
from tests.test_session import SESSION, session_of

HEAD = "recipe: 1\ntitle: {en: A, hi: क}\nages: 6-23 months\n"
STEPS = "steps:\n  - {do: pressure-cook, use: all, whistles: 3}\n  - {do: mash, use: all}\n"
MASH = f"""{HEAD}ingredients:
  - 3 tbsp (42 g) moong dal, washed
  - 1 medium potato
  - 2 eggs
  - 2 cups water
  - food: ghee
    amount: 2 tsp
    or: groundnut oil
  - food: spinach
    grams: 30
    seasons:
      winter: mustard leaves
{STEPS}"""
SOUP = f"""{HEAD}ingredients:
  - 1/4 cup (50 g) moong dal
  - 1 small potato
  - 1 egg
  - 2 tsp ghee
  - food: fenugreek leaves
    grams: 20
    optional: yes
{STEPS}"""


def dish(text: str, bench: Bench, name: str) -> tuple[Recipe, Analysis]:
    run = bench.run(text)
    assert run.recipe is not None, run.diagnostics
    assert run.analysis is not None
    return replace(run.recipe, id=name), run.analysis


@pytest.fixture(scope="module")
def dishes(bench: Bench) -> list[tuple[Recipe, Analysis]]:
    return [dish(MASH, bench, "mash"), dish(SOUP, bench, "soup")]


def listed(session: Session, dishes: list[tuple[Recipe, Analysis]], kit: Kit) -> dict[str, Row]:
    found = shop(session, dishes, kit.table, kit.measures)
    assert found.value is not None
    assert found.diagnostics == ()
    return {row.food.id: row for row in found.value.rows}


def test_the_list_worked_by_hand(dishes: list[tuple[Recipe, Analysis]], kit: Kit) -> None:
    """Two dishes, four groups. Refuse: USDA SR 28, potato (11352) 25 %, egg (01123) 12 %,
    spinach (11457) 28 %; a middling potato 100 g and a small one 60 g, an egg 44 g without shell,
    ghee 0.91 g/ml, as the table has them.
    """
    session = replace(session_of(), groups=4)
    rows = listed(session, dishes, kit)
    assert "water" not in rows
    # (42 + 50) x 4 = 368 g, nothing thrown away; to fifties: 400
    assert rows["moong-dal"].bought.grams == pytest.approx(368)
    assert rows["moong-dal"].buy == Quantity(Fraction(400), "gram")
    assert rows["moong-dal"].dishes == ("mash", "soup")
    # (100 + 60) x 4 = 640 g to eat; / (1 - 0.25) = 853.3 g; to fifties: 900
    assert rows["potato"].edible_g == pytest.approx(640)
    assert rows["potato"].bought.grams == pytest.approx(853.33, abs=0.01)
    assert rows["potato"].buy == Quantity(Fraction(900), "gram")
    # (2 + 1) x 4 = 12 eggs; 12 x 44 / 0.88 = 600 g with shell
    assert rows["egg"].buy == Quantity(Fraction(12), "each")
    assert rows["egg"].bought.grams == pytest.approx(600)
    # (10 + 10) ml x 4 = 80 ml; in the first dish, 40 ml, groundnut oil will do
    assert rows["ghee"].bought.grams == pytest.approx(80 * 0.91)
    assert rows["ghee"].buy == Quantity(Fraction(80), "millilitre")
    (oil,) = rows["ghee"].options
    assert (oil.food.id, oil.season) == ("oil-groundnut", "")
    assert oil.buy == Quantity(Fraction(40), "millilitre")
    assert oil.in_place_of == Quantity(Fraction(40), "millilitre")
    # 30 x 4 = 120 g of leaves; / (1 - 0.28) = 166.7 g; the session's bunch is 250 g: one
    assert rows["spinach"].bought.grams == pytest.approx(166.67, abs=0.01)
    assert rows["spinach"].buy == Quantity(Fraction(1), "bunch")
    (winter,) = rows["spinach"].options
    # 120 g / (1 - 0.07) = 129 g of mustard leaves (USDA 11270, 7 % refuse); to fifties: 150
    assert (winter.season, winter.in_place_of) == ("winter", None)
    assert winter.buy == Quantity(Fraction(150), "gram")
    # nobody tells what of fenugreek leaves is thrown away: 80 g, and it is said
    assert not rows["fenugreek-leaves"].bought.known
    assert rows["fenugreek-leaves"].optional
    assert rows["fenugreek-leaves"].buy == Quantity(Fraction(80), "gram")


def test_twice_the_groups_twice_the_food(dishes: list[tuple[Recipe, Analysis]], kit: Kit) -> None:
    few, many = (listed(replace(session_of(), groups=n), dishes, kit) for n in (2, 4))
    assert few.keys() == many.keys()
    for name, row in few.items():
        assert many[name].edible_g == pytest.approx(2 * row.edible_g)


def test_every_food_has_a_stall_and_enough_is_bought(kit: Kit) -> None:
    for food in kit.table.foods.values():
        assert stall_of(food) in stalls(), food.id
        for grams in (0.4, 9, 11, 99, 101, 999, 1001, 4999, 5001, 88_000):
            buy = quantity(food, grams, kit.measures)
            assert buy is not None
            bought = as_bought(food, grams).grams
            if buy.unit in ("gram", "kilogram"):
                weight = float(buy.number) * (1000 if buy.unit == "kilogram" else 1)
                assert bought - 1e-6 <= weight < bought + 500, food.id


@pytest.mark.parametrize(
    ("food", "stall"),
    [
        ("rice", "grains-pulses"),
        ("moong dal", "grains-pulses"),
        ("peanut", "grains-pulses"),
        ("potato", "vegetables"),
        ("coriander leaves", "vegetables"),
        ("lemon", "vegetables"),
        ("banana", "fruit"),
        ("curd", "dairy"),
        ("ghee", "oil-spice"),
        ("turmeric", "oil-spice"),
        ("rohu", "flesh"),
        ("egg", "flesh"),
    ],
)
def test_stalls(food: str, stall: str, kit: Kit) -> None:
    found = kit.table.find(food)
    assert found is not None
    assert stall_of(found) == stall


def test_a_spreadsheet_reads_the_list(dishes: list[tuple[Recipe, Analysis]], kit: Kit) -> None:
    session = replace(session_of(), groups=4)
    found = shop(session, dishes, kit.table, kit.measures).value
    assert found is not None
    data = shopping_csv(found, kit.languages)
    assert data.startswith(b"\xef\xbb\xbf")
    assert data.count(b"\n") == data.count(b"\r\n") == len(found.rows) + 1
    rows = {row["food_en"]: row for row in csv.DictReader(io.StringIO(data.decode("utf-8-sig")))}
    assert rows["potato"]["buy"] == "900"
    assert rows["potato"]["unit"] == "g"
    assert rows["potato"]["eaten_share"] == "0.75"
    assert rows["potato"]["source"] == "usda_sr28 11352"
    assert rows["potato"]["food_hi"] == "आलू"
    # blank is not nought: what is thrown away of the leaves is not known
    assert rows["fenugreek leaves"]["needed_g"] == ""
    assert rows["fenugreek leaves"]["on_recipes_g"] == "80.0"
    assert rows["fenugreek leaves"]["optional"] == "yes"
    assert "groundnut oil" in rows["ghee"]["or"]


def test_no_cell_is_a_formula(dishes: list[tuple[Recipe, Analysis]], kit: Kit) -> None:
    found = shop(session_of(), dishes, kit.table, kit.measures).value
    assert found is not None
    evil = ("=HYPERLINK(1)", "+1", "-2+3", "@SUM(A1)")
    rows = tuple(
        replace(row, food=replace(row.food, id=f"own-{n}", name=name))
        for n, (row, name) in enumerate(zip(found.rows, evil, strict=False))
    )
    data = shopping_csv(Shopping(rows), kit.languages).decode("utf-8-sig")
    cells = [cell for row in csv.reader(io.StringIO(data)) for cell in row]
    assert not [cell for cell in cells if cell[:1] in ("=", "+", "-", "@")]
    assert {f"'{name}" for name in evil} <= set(cells)


def test_a_pack_of_unknown_weight_is_told(dishes: list[tuple[Recipe, Analysis]], kit: Kit) -> None:
    text = SESSION.replace("spinach: bunch of 250 g", "egg: piece of 10 g\n  potato: bottle of 1 l")
    session = session_of(text)
    foods = dict(kit.table.foods)
    measures = {k: v for k, v in foods["potato"].measures.items() if k != "density"}
    bare = replace(foods["potato"], measures=measures)
    recipe, analysis = dishes[0]
    lines = tuple(
        replace(line, food=bare) if line.food.id == "potato" else line for line in analysis.lines
    )
    found = shop(session, [(recipe, replace(analysis, lines=lines))], kit.table, kit.measures)
    (told,) = found.diagnostics
    assert told.kind == "market-unweighed"
    assert told.place.line == 24


def test_a_food_the_market_does_not_know(dishes: list[tuple[Recipe, Analysis]], kit: Kit) -> None:
    session = session_of(SESSION.replace("spinach:", "spinnach:"))
    found = shop(session, dishes, kit.table, kit.measures)
    assert found.value is None
    (told,) = found.diagnostics
    assert (told.kind, told.place.line) == ("food-unknown", 23)
    assert "spinach" in told.hint


def test_the_paper_names_what_is_not_known(
    dishes: list[tuple[Recipe, Analysis]], kit: Kit, bench: Bench
) -> None:
    found = shop(session_of(), dishes, kit.table, kit.measures).value
    assert found is not None
    paper = shopping_paper(session_of(), found, kit.programme, kit.languages)
    told = {
        row[2][0][0].text: [said[0].text for said in row[2][1:]]
        for section in paper.sections
        for row in section.rows
    }
    assert told["fenugreek leaves"] == [
        "if you wish",
        "as in the recipe; add what is thrown away",
    ]
    assert told["ghee"] == ["or: 30 ml groundnut oil (for 30 ml ghee)"]
    assert told["potato"] == []
    # 30 x 3 = 90 g of fenugreek leaves in place of the spinach, and nobody knows the stalks
    text = MASH.replace("winter: mustard leaves", "winter: fenugreek leaves")
    other = shop(session_of(), [dish(text, bench, "mash")], kit.table, kit.measures).value
    assert other is not None
    rows = shopping_paper(session_of(), other, kit.programme, kit.languages).sections[1].rows
    below = [said[0].text for row in rows for said in row[2][1:]]
    assert below == ["in winter: 90 g fenugreek leaves (as in the recipe; add what is thrown away)"]


def recipe_of(*steps: str) -> Recipe:
    text = "recipe: 1\ntitle: T\ningredients:\n  - 1 cup rice\nsteps:\n" + "".join(
        f"  - {{{s}}}\n" for s in steps
    )
    recipe = read(text, "t.yaml", Programme(languages=("en",))).value
    assert recipe is not None
    return recipe


def hours(starts: datetime, *steps: str) -> list[tuple[str, str, str, bool]]:
    def told(task: Task) -> tuple[str, str, str, bool]:
        return (
            task.step.action,
            f"{task.begins:%a %H:%M}",
            f"{task.ends:%a %H:%M}",
            task.longer,
        )

    return [told(task) for task in plan_hours([recipe_of(*steps)], starts).tasks]


BATTER = (
    "do: soak, time: overnight",
    "do: grind, time: 13 minutes",
    "do: ferment, time: 10 hours",
    "do: steam, time: 12 minutes",
)


def test_soak_and_ferment_before_an_evening_session() -> None:
    """Thursday 18:00. Ten hours of rising begin at 8:00; grinding, 13 minutes taken as 15, at
    7:45; eight hours of soaking would begin at 23:45, at night, so at 21:00 on Wednesday: 10 3/4
    hours instead of 8, which is marked.
    """
    assert hours(datetime(2026, 11, 26, 18), *BATTER) == [
        ("soak", "Wed 21:00", "Thu 07:45", True),
        ("grind", "Thu 07:45", "Thu 08:00", False),
        ("ferment", "Thu 08:00", "Thu 18:00", False),
    ]


def test_soak_and_ferment_before_a_morning_session() -> None:
    """Thursday 10:00. Ten hours before is midnight: it begins to rise at 21:00, ground from 20:45,
    soaked for eight hours from 12:45.
    """
    assert hours(datetime(2026, 11, 26, 10), *BATTER) == [
        ("soak", "Wed 12:45", "Wed 20:45", False),
        ("grind", "Wed 20:45", "Wed 21:00", False),
        ("ferment", "Wed 21:00", "Thu 10:00", True),
    ]


def test_sprouting_begins_two_days_ahead() -> None:
    told = hours(
        datetime(2026, 11, 26, 10),
        "do: soak, time: overnight",
        "do: drain",
        "do: sprout, time: 1 day",
        "do: pressure-cook, whistles: 3",
    )
    # a day before Thursday 10:00; drained in five minutes, which get no row; soaked from Tuesday
    assert told == [
        ("soak", "Tue 21:00", "Wed 09:55", True),
        ("sprout", "Wed 10:00", "Thu 10:00", False),
    ]


def test_short_waits_belong_to_the_session() -> None:
    steps = ("do: soak, time: 30 minutes", "do: boil, time: 18 minutes", "do: mash")
    plan = plan_hours([recipe_of(*steps)], datetime(2026, 11, 26, 10))
    assert plan.tasks == ()
    assert plan.first == plan.starts
    # 30 + 18 + 3 = 51 minutes, told as 55
    assert [cooking.minutes for cooking in plan.cooking] == [55]


@pytest.mark.parametrize("hour", range(24))
@pytest.mark.parametrize("steps", [BATTER, BATTER[:3], BATTER[1:], BATTER[2:]])
def test_nobody_gets_up_at_night_and_nothing_stands_about(
    hour: int, steps: tuple[str, ...]
) -> None:
    starts = datetime(2026, 11, 26, hour)
    tasks = plan_hours([recipe_of(*steps)], starts).tasks
    for task in tasks:
        assert 5 <= task.begins.hour <= 21, task
        assert task.begins.time() <= time(21)
    # every step is taken up when the one before it ends, and the last of them ends at the hour
    ends = [task.ends for task in tasks]
    assert ends == [task.begins for task in tasks[1:]] + [starts]
    for task in tasks:
        least = 8 * 60 if task.step.action == "soak" else minutes_of(task.step)
        assert task.ends - task.begins >= timedelta(minutes=least)


def test_batter_is_ground_before_it_rises_not_the_evening_before() -> None:
    """Thursday 15:13: ten hours before is 5:13, and grinding would begin at 4:58. So it is ground
    and rises from the evening, not ground in the evening to stand until morning.
    """
    told = hours(datetime(2026, 11, 26, 15, 13), *BATTER[1:])
    assert told == [
        ("grind", "Wed 20:45", "Wed 21:00", False),
        ("ferment", "Wed 21:00", "Thu 15:13", True),
    ]


def test_what_the_kitchens_bring(dishes: list[tuple[Recipe, Analysis]], kit: Kit) -> None:
    session = replace(session_of(), groups=4, children=9)
    griddled = recipe_of("do: grate, use: rice", "do: griddle, time: 5 minutes", "do: strain")
    needs = {
        need.thing: (need.each, need.total)
        for need in kitchen_needs(session, [dishes[0][0], griddled], kit.measures)
    }
    # from the steps: actions.yaml names a cooker, a grater, a griddle and a strainer
    assert {k for k in needs if k in ("pot", "pan", "steamer")} == set()
    for thing in ("pressure cooker", "grater", "griddle", "strainer", "cup", "teaspoon"):
        assert needs[thing] == (1, 4), thing
    assert needs["tablespoon"] == (1, 4)
    assert needs["child-bowl"] == (0, 9)
    assert "bowl" not in needs


def test_every_thing_and_stall_has_a_name(kit: Kit) -> None:
    """What the plan can name is in the words; a name that is missing would break a paper."""
    things = {action.needs for action in actions().values() if action.needs}
    things |= {*SPOONS, "knife", "pot", "pan", "fire", "cook-spoon", "mixing-bowl", "cloth"}
    things |= {"child-bowl", "child-spoon", *load.mapping("market.yaml")["vessel"].values()}
    for language in kit.languages:
        told = [language.session(f"thing-{thing.replace(' ', '-')}") for thing in things]
        told += [language.session(f"stall-{stall}") for stall in stalls()]
        told += [language.session(f"pack-{pack}", number="2") for pack in PACKS]
        assert len(set(told)) == len(told)
        assert all(text.strip() for text in told)
    assert things - PICTURES.keys() == {"cloth"}


def test_the_hours_agree_with_what_the_cards_say(demos: dict[str, Run]) -> None:
    """A card that tells to begin early has something on the timeline, days before where it says
    days; one that does not has nothing.
    """
    starts = datetime(2026, 11, 26, 12)
    begun = 0
    for name, run in demos.items():
        assert run.recipe is not None
        lead = lead_time(run.recipe)
        plan = plan_hours([run.recipe], starts)
        assert bool(plan.tasks) == bool(lead.wait), name
        if lead.days:
            assert (starts.date() - plan.first.date()).days == lead.days, name
        begun += bool(plan.tasks)
    assert begun >= 2
