"""Which picture shows a counted food, and that a share of it is as large as it says."""

from __future__ import annotations

import io
from fractions import Fraction as F

import pypdfium2
import pytest
from reportlab.pdfgen.canvas import Canvas

from cards.batch.stages import Run
from cards.card.measure_icons import measure_icons
from cards.data import load
from cards.foods.own import own_table
from cards.foods.table import Food, pictures, shipped_table
from cards.icons import catalogue
from cards.icons.pen import Ink, Pen
from cards.pdf.ink import BLACK, CodePen, shown
from cards.source.amounts import Amount

COUNTS = ("small", "medium", "large", "piece")
LISTS = load.mapping("pictures.yaml")


def food(name: str) -> Food:
    found = shipped_table().find(name)
    assert found is not None, name
    return found


def icons(amount: Amount, of: Food) -> list[tuple[str, float | None]]:
    return [(use.name, dict(use.params).get("fill")) for use in measure_icons(amount, of, "")]


def icon(unit: str, name: str) -> str:
    return icons(Amount(F(1), F(1), unit), food(name))[0][0]


@pytest.mark.parametrize("kind", ["whole", "cut"])
def test_every_food_with_a_picture_is_in_the_table_once(kind: str) -> None:
    named = [name for foods in LISTS[kind].values() for name in foods]
    assert [name for name in named if name not in shipped_table().foods] == []
    assert len(set(named)) == len(named)
    assert set(LISTS[kind]) <= {*catalogue.names()}


def test_every_picture_of_a_food_is_for_some_food_or_for_a_programmes_own() -> None:
    """What no food of the table shows can be chosen in a programme's table."""
    used = {*LISTS["whole"], *LISTS["cut"], "whole", "chunk", "fish", "fish-piece", "cake"}
    assert set(pictures()) - used == {"bread-slice"}
    assert used - set(pictures()) == {"leaf"}


def test_foods_taken_for_whole_ones_can_be_counted() -> None:
    """A piece of them is a whole one in the sums too."""
    weighed = {"papaya-green"}  # counted only where the recipe gives its grams
    for foods in LISTS["whole"].values():
        for name in set(foods) - weighed:
            measures = shipped_table().foods[name].measures
            assert not {*COUNTS, "leaf"}.isdisjoint(measures), name


@pytest.mark.parametrize(
    ("unit", "name", "shown"),
    [
        ("medium", "carrot", "carrot"),
        ("piece", "carrot", "carrot"),
        ("small", "red carrot", "carrot"),
        ("medium", "sweet potato", "sweet-potato"),
        ("each", "spring onion", "spring-onion"),
        ("medium", "boiled potato", "potato"),
        ("each", "duck egg", "egg"),
        ("each", "dates", "date"),
        ("inch", "ginger", "ginger"),
        ("piece", "pumpkin", "wedge"),
        ("slice", "muskmelon", "wedge"),
        ("slice", "paneer", "chunk"),
        ("piece", "paneer", "chunk"),
        ("piece", "rohu", "fish-piece"),
        ("each", "sardine", "fish"),
        ("each", "prawn", "whole"),
        ("each", "pomegranate", "pomegranate"),
        ("each", "peach", "plum"),
        ("each", "custard apple", "whole"),
        ("cup", "carrot", "cup"),
    ],
)
def test_the_picture_is_that_of_the_food(unit: str, name: str, shown: str) -> None:
    assert icon(unit, name) == shown


def test_half_an_egg_is_half_and_perhaps_is_empty() -> None:
    egg = food("egg")
    assert icons(Amount(F(1, 2), F(1, 2), "each"), egg) == [("egg", 0.5)]
    assert icons(Amount(F(1), F(2), "each"), egg) == [("egg", 1.0), ("egg", 0.0)]


def test_most_foods_that_are_counted_have_a_picture() -> None:
    """Of vegetables and fruit a kitchen buys by number, those with a weight of a middling one."""
    groups = ("vitamin-a-plants", "other-plants", "grains-roots")
    counted = [
        f.id
        for f in shipped_table().foods.values()
        if f.group in groups and "medium" in f.measures and not f.has("name-only")
    ]
    plain = [name for name in counted if icon("medium", name) == "whole"]
    assert len(counted) > 20
    assert len(plain) <= len(counted) / 3, plain


def test_a_programmes_own_food_names_its_picture() -> None:
    head = "food,name,group,form,piece_g,picture\n"
    table = own_table(
        head + "bread,bread,grains-roots,whole,25,bread-slice\n", "foods.csv", shipped_table()
    )
    assert table.value is not None
    bread = table.value.foods["bread"]
    for unit in ("each", "slice", "piece"):
        assert icons(Amount(F(2), F(2), unit), bread) == [("bread-slice", 1.0)] * 2
    wrong = own_table(
        head + "bread,bread,grains-roots,whole,25,bred-slice\n", "foods.csv", shipped_table()
    )
    assert [(d.kind, d.place.line) for d in wrong.diagnostics] == [("table-row", 2)]
    assert "bread-slice" in wrong.diagnostics[0].hint


def test_a_dish_in_pieces_is_given_in_cakes(demos: dict[str, Run]) -> None:
    card = demos["chicken-potato-cakes"].card
    assert card is not None
    for column in card.portions.columns:
        assert {use.name for use in column.amount_icons} == {"cake"}


class _Filling:
    """Keeps what is filled with food or is a cut face; drops strokes and what else is white."""

    def __init__(self, pen: Pen) -> None:
        self._pen, self._path = pen, list[tuple[str, tuple[float, ...]]]()

    def move(self, x: float, y: float) -> None:
        self._path.append(("move", (x, y)))

    def line(self, x: float, y: float) -> None:
        self._path.append(("line", (x, y)))

    def curve(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        self._path.append(("curve", (x1, y1, x2, y2, x, y)))

    def close(self) -> None:
        self._path.append(("close", ()))

    def paint(self, ink: Ink, width: float = 2.4) -> None:
        if ink is Ink.FOOD:
            for verb, numbers in self._path:
                getattr(self._pen, verb)(*numbers)
            self._pen.paint(ink)
        self._path.clear()


def food_area(name: str, fill: float) -> int:
    """Dots of food in a large picture of an icon, whatever is laid over it."""
    drawing = catalogue.find(name)
    sheet = io.BytesIO()
    canvas = Canvas(sheet, pagesize=(drawing.width * 4, drawing.height * 4))
    pen = CodePen(dict.fromkeys(Ink, BLACK))
    drawing.draw(_Filling(pen), fill=fill)
    canvas._code.append(shown(pen.code, 0, 0, 4))
    canvas.save()
    page = pypdfium2.PdfDocument(sheet.getvalue())[0]
    dots = page.render(scale=1).to_pil().convert("L").point(lambda v: 0 if v > 127 else 1)
    return dots.histogram()[1]


@pytest.mark.parametrize("share", [0.25, 0.75])
@pytest.mark.parametrize("name", [n for n in pictures() if n != "chunk"])
def test_a_share_of_a_piece_is_a_share_of_its_area(name: str, share: float) -> None:
    """Of cakes the edge is drawn too, of which less shows than its share."""
    most = 0.11 if name == "cake" else 0.02
    assert food_area(name, share) / food_area(name, 1.0) == pytest.approx(share, abs=most)
    assert food_area(name, 0.0) == 0
