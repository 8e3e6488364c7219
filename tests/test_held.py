"""What a measure holds is told by its picture: which food shows what, and that a copier leaves it.

Hours and minutes are held apart in the same way.
"""

from __future__ import annotations

import io
import itertools
from functools import cache

import pytest
from PIL import Image, ImageChops
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from cards.batch.stages import Run
from cards.card.measure_icons import held_as, prep_icons
from cards.card.step_pictures import COOKED, UNMARKED
from cards.data import load
from cards.foods.table import FORMS, GROUPS, Food, shipped_table
from cards.icons import catalogue
from cards.icons.held import HELD
from cards.icons.pen import Ink
from cards.layout.pages import IconItem
from cards.pdf.ink import CodePen, shown
from cards.source.vocabulary import PREPS
from tests.copier import WORN, copied, raster
from tests.test_icons import ONE_COLOUR

LISTS = load.mapping("pictures.yaml")
VESSELS = ("cup", "bowl", "glass", "ladle", "tablespoon", "teaspoon")
MARGIN_MM = 2.0


def food(name: str) -> Food:
    found = shipped_table().find(name)
    assert found is not None, name
    return found


@pytest.mark.parametrize(
    ("name", "preps", "held"),
    [
        ("water", (), "water"),
        ("milk", (), "milk"),
        ("curd", (), "milk"),
        ("ghee", (), "oil"),
        ("mustard oil", (), "oil"),
        ("rice", (), "grain"),
        ("rice", ("ground",), "powder"),
        ("sesame", (), "grain"),
        ("moong dal", (), "pulses"),
        ("kidney bean", (), "pulses"),
        ("wheat flour", (), "powder"),
        ("sugar", (), "powder"),
        ("spinach", (), "leaves"),
        ("spinach", ("chopped fine",), "pieces"),
        ("pumpkin", ("chopped",), "pieces"),
        ("potato", ("boiled", "mashed"), "plain"),
        ("lemon", ("juice",), "water"),
        ("paneer", (), "pieces"),
        ("goat meat", ("chopped",), "meat"),
        ("minced chicken", (), "meat"),
        ("chicken liver", (), "meat"),
        ("rohu", (), "fish"),
        ("prawn", (), "pieces"),
    ],
)
def test_a_measure_shows_what_is_in_it(name: str, preps: tuple[str, ...], held: str) -> None:
    assert held_as(food(name), preps) == held


def test_the_lists_name_only_what_there_is() -> None:
    flags = {flag for each in shipped_table().foods.values() for flag in each.flags}
    known = {"preps": {*PREPS}, "flags": flags, "groups": {*GROUPS}, "forms": {*FORMS}}
    for line in LISTS["held"]:
        assert line["of"] in HELD
        for key, values in line.items():
            assert key == "of" or set(values) <= known[key], line
    assert set(LISTS["preps"]) == set(PREPS)
    assert set(LISTS["preps"].values()) <= {*catalogue.names()}


def test_two_words_of_one_work_are_one_mark() -> None:
    assert [i.name for i in prep_icons(("boiled", "cooked", "mashed"), "x")] == ["boil", "mash"]


def printed(name: str, height: float, width_mm: float, **params: float | str) -> Image.Image:
    """An icon in one-bit black at a printed height in mm, in the middle of a plate."""
    drawing = catalogue.find(name)
    scale = height * mm / drawing.height
    sheet = io.BytesIO()
    wide, high = width_mm * mm, (height + 2 * MARGIN_MM) * mm
    canvas = Canvas(sheet, pagesize=(wide, high))
    pen = CodePen(ONE_COLOUR)
    drawing.draw(pen, **params)
    left = (wide - drawing.width * scale) / 2
    canvas._code.append(shown(pen.code, left, MARGIN_MM * mm, scale))
    canvas.save()
    return raster(sheet.getvalue(), 0)


def one_bit(picture: Image.Image) -> Image.Image:
    return picture.point(lambda value: 255 if value > 127 else 0)


def black(picture: Image.Image) -> int:
    return picture.histogram()[0]


def unlike(one: Image.Image, other: Image.Image) -> int:
    """Pixels that differ."""
    return ImageChops.difference(one, other).histogram()[255]


@cache
def held(vessel: str, of: str, fill: float) -> tuple[Image.Image, Image.Image]:
    """A measure at its printed size: the print, and what a worn copier leaves of it."""
    true = catalogue.find(vessel).true_height_mm
    assert true is not None
    picture = printed(vessel, true, 20, fill=fill, of=of)
    return one_bit(picture), one_bit(copied(picture, WORN).straightened())


@pytest.mark.parametrize("fill", [1.0, 0.5])
@pytest.mark.parametrize("vessel", VESSELS)
def test_on_a_worn_copy_each_is_known_by_its_print(vessel: str, fill: float) -> None:
    for of in HELD:
        copy = held(vessel, of, fill)[1]
        nearest = min(HELD, key=lambda other: unlike(copy, held(vessel, other, fill)[0]))
        assert nearest == of


@pytest.mark.parametrize("vessel", VESSELS)
def test_two_things_in_like_measures_look_different(vessel: str) -> None:
    """They differ in a seventh or more of what is in the vessel, which is the same."""
    food = black(held(vessel, "plain", 1.0)[0]) - black(held(vessel, "plain", 0.0)[0])
    for one, other in itertools.combinations(HELD, 2):
        assert unlike(held(vessel, one, 1.0)[0], held(vessel, other, 1.0)[0]) > food / 7


class _Surface:
    """Keeps the highest point of the part that is filled: the first path painted after paper."""

    def __init__(self) -> None:
        self.path: list[tuple[float, float]] = []
        self.painted: list[tuple[Ink, list[tuple[float, float]]]] = []

    def move(self, x: float, y: float) -> None:
        self.path.append((x, y))

    def line(self, x: float, y: float) -> None:
        self.path.append((x, y))

    def curve(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        self.path.append((x, y))

    def close(self) -> None:
        pass

    def paint(self, ink: Ink, width: float = 2.4) -> None:
        self.painted.append((ink, self.path))
        self.path = []


def surface(vessel: str, of: str, fill: float) -> tuple[float, float]:
    """Lowest and highest point of what the vessel holds."""
    pen = _Surface()
    catalogue.find(vessel).draw(pen, fill=fill, of=of)
    filled = next(
        path
        for (before, _), (ink, path) in itertools.pairwise(pen.painted)
        if before is Ink.PAPER and ink in (Ink.FOOD, Ink.PAPER)
    )
    heights = [y for _, y in filled]
    return min(heights), max(heights)


@pytest.mark.parametrize("vessel", VESSELS)
def test_a_pattern_changes_no_level(vessel: str) -> None:
    for fill in (0.25, 0.5, 0.75, 1.0):
        plain = surface(vessel, "plain", fill)
        assert all(surface(vessel, of, fill) == plain for of in HELD)


@pytest.mark.parametrize("of", [kind for kind in HELD if kind != "plain"])
def test_marks_stay_inside_what_is_held(of: str) -> None:
    """No mark of a half full cup lies above its surface."""
    pen = _Surface()
    catalogue.find("cup").draw(pen, fill=0.5, of=of)
    top = surface("cup", of, 0.5)[1]
    inside = [
        y
        for ink, path in pen.painted[3:-1]
        for _, y in path
        if ink in (Ink.FOOD, Ink.PAPER, Ink.GAP)
    ]
    assert inside
    assert max(inside) < top


# ---- hours are no minutes


def faces() -> dict[tuple[str, float], Image.Image]:
    hours = {("hours", h): printed("hours", 9, 16, hours=h) for h in (2.0, 4.0, 6.0, 8.0, 12.0)}
    minutes = {
        ("clock", m): printed("clock", 9, 16, minutes=m) for m in (2.0, 10.0, 20.0, 40.0, 60.0)
    }
    return {**hours, **minutes}


def test_hours_are_not_taken_for_minutes_on_a_worn_copy() -> None:
    """Any number of one is further from every number of the other than from all of its own."""
    prints = {key: one_bit(picture) for key, picture in faces().items()}
    for key, picture in faces().items():
        copy = one_bit(copied(picture, WORN).straightened())
        own = [unlike(copy, p) for other, p in prints.items() if other[0] == key[0]]
        others = [unlike(copy, p) for other, p in prints.items() if other[0] != key[0]]
        assert min(own) * 3 < min(others)
        assert min(others) > black(copy) / 2


def test_the_sun_of_more_hours_stands_further_on() -> None:
    """The black of its way grows with the hours, left half before right half."""

    def halves(hours: float) -> tuple[int, int]:
        picture = one_bit(printed("hours", 24, 30, hours=hours))
        middle = picture.width // 2
        return black(picture.crop((0, 0, middle, picture.height))), black(
            picture.crop((middle, 0, picture.width, picture.height))
        )

    morning, noon, evening = halves(3), halves(6), halves(10)
    assert morning[0] < noon[0]
    assert noon[1] < evening[1]


def test_a_number_of_hours_is_shown_by_the_sun(demos: dict[str, Run]) -> None:
    card = demos["ragi-cakes-tomato-chutney"].card
    assert card is not None
    marks = [m for s in card.steps.sections for row in s.rows for m in row.marks]
    (hours,) = [m for m in marks if m.name == "hours"]
    assert (hours.params, hours.label) == ((("hours", 8.0),), "6–8")


# ---- what a step shows


def test_a_step_shows_the_food_it_is_done_to(demos: dict[str, Run]) -> None:
    card = demos["egg-spinach-potato"].card
    assert card is not None
    rows = [row for section in card.steps.sections for row in section.rows]
    assert (rows[0].icon.name, rows[0].icon.params) == ("mash", (("of", "potato"),))
    cooked = [row.icon.params for row in rows[1:]]
    assert cooked[:4] == [
        (("of", "onion"),),  # oil and cumin only go with it
        (("of", "leaves"),),  # leaves stay leaves, however fine they are cut
        (),
        (("of", "egg"), ("also", "potato")),
    ]
    assert all(params == () for params in cooked[4:])


def test_two_foods_over_the_fire_are_told_apart_and_three_are_not_drawn(
    demos: dict[str, Run],
) -> None:
    def steps(name: str) -> list[tuple[str, dict[str, float | str]]]:
        card = demos[name].card
        assert card is not None
        rows = [row for section in card.steps.sections for row in section.rows]
        return [(row.icon.name, dict(row.icon.params)) for row in rows]

    roasts = [shown for name, shown in steps("roasted-grain-porridge") if name == "roast"]
    assert roasts == [{"of": "grain", "also": "pulses"}, {"of": "pulses"}]
    assert ("boil", {"of": "potato"}) in steps("steamed-fish-potato")  # and the water it is in
    assert ("fry", {}) in steps("chicken-potato-cakes")  # the whole dish


@pytest.mark.parametrize("action", COOKED)
def test_each_food_in_a_vessel_is_known_by_its_print_on_a_worn_copy(action: str) -> None:
    """At 9.5 mm, among the foods that a measure tells apart and three that are counted."""
    foods = [of for of in HELD if of not in UNMARKED] + ["potato", "onion", "carrot"]
    prints = {of: printed(action, 9.5, 20, of=of) for of in foods}
    for of in foods:
        copy = one_bit(copied(prints[of], WORN).straightened())
        assert min(foods, key=lambda other: unlike(copy, one_bit(prints[other]))) == of


def test_parts_bear_dots_and_a_step_those_it_takes(demos: dict[str, Run]) -> None:
    card = demos["ragi-cakes-tomato-chutney"].card
    assert card is not None
    for sections in (card.needs.sections, card.steps.sections):
        marks = [section.mark for section in sections]
        assert [dict(m.params)["number"] for m in marks if m] == [1, 2]
    last = card.steps.sections[-1].rows[-1]
    assert [dict(mark.params)["number"] for mark in last.parts] == [1, 2]
    plain = demos["egg-spinach-potato"].card
    assert plain is not None
    assert [section.mark for section in plain.needs.sections] == [None]


def test_the_meals_of_a_day_stand_between_sun_and_moon(demos: dict[str, Run]) -> None:
    for name, run in demos.items():
        assert run.pages is not None
        assert run.card is not None
        day = [
            item
            for page in run.pages.pages
            for item in page.items
            if isinstance(item, IconItem)
            and item.icon.name in ("sun", "meal", "moon")
            # the sun and moon of a step are larger
            and item.height < 6 * mm
        ]
        suns = [n for n, item in enumerate(day) if item.icon.name == "sun"]
        columns = run.card.portions.columns
        assert len(suns) == len(columns), name
        for start, end, column in zip(suns, [*suns[1:], len(day)], columns, strict=True):
            own = day[start:end]
            assert [i.icon.name for i in own][-1] == "moon"
            assert len(own) == len(column.meal_icons) + 2
            lines = sorted({round(item.box[3]) for item in own})
            for line in lines:
                across = [item.x for item in own if round(item.box[3]) == line]
                assert across == sorted(across)


def test_a_number_of_pieces_stands_on_a_cake(demos: dict[str, Run]) -> None:
    def made(name: str) -> tuple[str, dict[str, float | str], str]:
        card = demos[name].card
        assert card is not None
        (icon,) = [m.icon for m in card.lead.items if m.icon.name.startswith("makes")]
        return icon.name, dict(icon.params), icon.label

    assert made("ragi-cakes-tomato-chutney") == ("makes", {"of": "pieces"}, "12")
    assert made("liver-rice-masoor") == ("makes-cups", {}, "3½")
