"""Wall charts: large enough for their distance, all said, figures as published."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pypdf
import pytest
import zxingcpp
from click.testing import CliRunner
from PIL import Image

from cards.batch.feeding_chart import feeding_chart_pages
from cards.batch.kit import Kit
from cards.batch.show import pages_text
from cards.batch.stages import Run, run_file
from cards.card.feeding_chart import FeedingChart, compose_feeding_chart
from cards.card.origin import Origin
from cards.cli import command
from cards.layout.cover import ink_covers
from cards.layout.layoutfile import load_layout
from cards.layout.pages import MM, IconItem, Pages, PanelItem, QrItem, RuleItem, TextItem
from cards.pdf.paint import paint
from cards.source.workspace import Workspace
from cards.words.language import load_language
from tests.conftest import DEMO_FILES, ROOT
from tests.golden import FAR, FOLDER, WALL, differing_tiles, raster, still
from tests.printed import picture, sizes
from tests.test_layouts import kit_for

# ANSI Z535.4, from memory: message capitals are 1/300 of the distance they are read from
READ_PER_HEIGHT = 300
CAPITAL = 0.64  # of an em, measured of the fonts
METRES = {  # one language: message, sentences; two: the same
    "wall-chart-a2": {1: (3, 1.5), 2: (1.8, 1.1)},
    "wall-chart-a3": {1: (2.1, 1.05), 2: (1.25, 0.75)},
    "feeding-chart-a2": {1: (3, 1.5), 2: (2.4, 1.25)},
    "feeding-chart-a1": {1: (4.2, 2.1), 2: (3.4, 1.75)},
}
CHARTS = ("wall-chart-a2", "wall-chart-a3")
DISHES = ("steamed-fish-potato", "roasted-grain-porridge", "methi-roti-curd")
LANGUAGES = [("en", "hi"), ("en",), ("hi",)]

# WHO (2009) Model Chapter, Table 1, as printed: cups of 250 ml a meal, meals, snacks, texture
WHO_TABLE_1 = {
    "6–8": ((Fraction(1, 2), Fraction(1, 2)), (2, 3), (1, 2), "mashed"),
    "9–11": ((Fraction(1, 2), Fraction(1, 2)), (3, 4), (1, 2), "chopped"),
    "12–23": ((Fraction(3, 4), Fraction(1)), (3, 4), (1, 2), "family"),
}
GLYPHS = {Fraction(1, 2): "½", Fraction(3, 4): "¾", Fraction(1): "1"}


def speaking(kit: Kit, codes: tuple[str, ...]) -> Kit:
    """The kit with languages of ours."""
    return replace(
        kit,
        programme=replace(kit.programme, languages=codes),
        languages=tuple(lang for code in codes for lang in kit.languages if lang.code == code),
    )


def texts(pages: Pages, *roles: str) -> list[TextItem]:
    return [
        item
        for page in pages.pages
        for item in page.items
        if isinstance(item, TextItem) and (not roles or item.role in roles)
    ]


def icons(pages: Pages, name: str = "") -> list[IconItem]:
    return [
        item
        for page in pages.pages
        for item in page.items
        if isinstance(item, IconItem) and (not name or item.icon.name == name)
    ]


def read_from(size: float, magnify: float) -> float:
    """Metres that printed type of a drawn size in points is read from."""
    return size * magnify * CAPITAL / MM * READ_PER_HEIGHT / 1000


@pytest.fixture(scope="module", params=LANGUAGES, ids="-".join)
def codes(request: pytest.FixtureRequest) -> tuple[str, ...]:
    found: tuple[str, ...] = request.param
    return found


@pytest.fixture(scope="module")
def feeding(kit: Kit, codes: tuple[str, ...]) -> Pages:
    made = feeding_chart_pages("a2", speaking(kit, codes))
    assert made.value is not None
    assert made.diagnostics == ()  # no overlap, nothing small, nothing over the margin, ink
    return made.value


ORIGIN = Origin("feeding-chart", "1", "0123456789", "recipes/programme.yaml", "feeding-chart")


@pytest.fixture(scope="module")
def told(kit: Kit) -> FeedingChart:
    made = compose_feeding_chart(kit.programme, kit.languages, 250, 15, ORIGIN).value
    assert made is not None
    return made


# ---- the chart of a dish


def dish(workspace: Workspace, name: str, stem: str, codes: tuple[str, ...]) -> Run:
    return run_file(ROOT / "recipes" / f"{stem}.yaml", workspace, kit_for(workspace, name, codes))


@pytest.mark.parametrize("name", CHARTS)
@pytest.mark.parametrize("stem", DISHES)
def test_a_dish_is_read_from_the_distance_declared(
    name: str, stem: str, codes: tuple[str, ...], workspace: Workspace
) -> None:
    run = dish(workspace, name, stem, codes)
    assert run.pages is not None
    far_enough(run.pages, codes, *METRES[name][len(codes)])
    # the minutes in a clock are a numeral too; a range of them is smaller, and is in the words
    # so are the hours of the caution, which are in its words
    soon = [i.box for i in icons(run.pages, "eat-soon")]
    one_number = [
        i
        for i in texts(run.pages, "label")
        if "–" not in i.line.text
        and not any(x1 < i.x < x2 and y1 < i.y < y2 for x1, y1, x2, y2 in soon)
    ]
    if len(codes) == 1:
        for item in one_number:
            assert read_from(item.size, run.pages.magnify) >= METRES[name][1][0] * 0.98


def far_enough(pages: Pages, codes: tuple[str, ...], message: float, sentence: float) -> None:
    first = codes[0]
    for item in texts(pages, "title", "message", "numeral"):
        if item.language in (first, "und"):
            assert read_from(item.size, pages.magnify) >= message * 0.99, item.line.text
    for item in texts(pages, "body"):
        if item.language == first:
            assert read_from(item.size, pages.magnify) >= sentence * 0.99, item.line.text


@pytest.mark.parametrize("name", CHARTS)
def test_no_chart_is_too_black_and_no_box_lies_on_another(
    name: str, codes: tuple[str, ...], workspace: Workspace
) -> None:
    kit = kit_for(workspace, name, codes)
    for path in DEMO_FILES:
        run = run_file(path, workspace, kit)
        assert run.pages is not None
        faults = {d.kind for d in run.diagnostics}
        assert not faults & {"ink-heavy", "overlap", "outside-margin", "type-too-small"}
        assert max(ink_covers(run.pages)) < 0.15


def test_the_second_language_is_smaller_and_never_under_half(workspace: Workspace) -> None:
    for name in CHARTS:
        pages = dish(workspace, name, DISHES[0], ("en", "hi")).pages
        assert pages is not None
        for role in ("title", "message", "body"):
            first = min(i.size for i in texts(pages, role) if i.language == "en")
            second = {i.size for i in texts(pages, role) if i.language == "hi"}
            assert first / 2 <= min(second)
            assert max(second) < first


@pytest.mark.parametrize("stem", DISHES)
def test_a_chart_says_all_that_a_cook_needs(
    stem: str, codes: tuple[str, ...], workspace: Workspace
) -> None:
    """Ingredients with all their words, steps, amounts, the dish's own cautions, the source."""
    run = dish(workspace, "wall-chart-a2", stem, codes)
    assert run.pages is not None
    assert run.card is not None
    shown = {w for item in texts(run.pages) for w in re.findall(r"[^\s,;:]+", item.line.text)}
    card = run.card
    said = [
        *(row.said for section in card.needs.sections for row in section.rows),
        *(row.said for section in card.steps.sections for row in section.rows),
        *(column.amount for column in card.portions.columns),
        *(column.meals for column in card.portions.columns),
        *(caution.said for caution in card.safety.own),
        card.portions.breast_milk.said,
        card.foot.guidance.said,
    ]
    for text in (t for one in said for t in one):
        for word in re.findall(r"[^\s,;:*]+", text.text):
            assert word in shown, text.text
    assert {column.ages for column in card.portions.columns} <= shown
    assert card.foot.trace[-1][0].text.split(",")[0] in shown
    assert any(
        isinstance(i, QrItem) and i.payload == card.foot.qr for i in run.pages.pages[0].items
    )
    drawn = [i.icon.name for i in icons(run.pages)]
    for row in (row for section in card.needs.sections for row in section.rows):
        for icon in row.icons:
            assert icon.name in drawn


def test_steps_are_read_from_left_to_right(workspace: Workspace) -> None:
    run = dish(workspace, "wall-chart-a2", DISHES[1], ("en",))
    assert run.pages is not None
    assert run.card is not None
    half = run.pages.width / 2
    count = sum(len(section.rows) for section in run.card.steps.sections)
    numbers = [i for i in texts(run.pages, "numeral") if i.x > half and i.line.text.isdigit()]
    assert [i.line.text for i in numbers] == [str(n + 1) for n in range(count)]
    for left, right in zip(numbers[::2], numbers[1::2], strict=True):
        assert left.x < right.x
        assert abs(left.y - right.y) < run.pages.height / 12
    for upper, lower in zip(numbers[::2], numbers[2::2], strict=False):
        assert upper.y < lower.y
        assert upper.x == pytest.approx(lower.x)


def test_pictures_are_larger_than_words(workspace: Workspace) -> None:
    """Each step's picture is at least four times as high as its sentence's type."""
    run = dish(workspace, "wall-chart-a2", DISHES[0], ("en",))
    assert run.pages is not None
    assert run.card is not None
    largest = max(i.size for i in texts(run.pages, "body"))
    names = {row.icon.name for section in run.card.steps.sections for row in section.rows}
    half = run.pages.width / 2
    steps = [i for i in icons(run.pages) if i.icon.name in names and i.x > half]
    assert min(max(i.height for i in steps if i.icon.name == name) for name in names) > 4 * largest


def layout_text(name: str) -> str:
    return (ROOT / "templates" / "layouts" / f"{name}.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("old", "new", "kind"),
    [
        ("leaves_out: [lead]", "leaves_out: [safety]", "layout-block"),
        ("leaves_out: [lead]", "leaves_out: []", "layout-block"),
        ("message: [44.8, 24]", "message: [44.8, 22]", "layout-type"),
        ("message: [44.8, 24]", "message: [40, 24]", "layout-type"),
        ("numeral: 46", "numeral: 40", "layout-type"),
    ],
)
def test_a_chart_that_hides_or_whispers_is_refused(old: str, new: str, kind: str) -> None:
    text = layout_text("wall-chart-a2")
    assert text.count(old) == 1
    assert [d.kind for d in load_layout(text.replace(old, new), "x.yaml").diagnostics] == [kind]
    assert load_layout(text, "x.yaml").diagnostics == ()


# ---- the chart of feeding by age


def test_its_figures_are_those_of_the_published_table(told: FeedingChart) -> None:
    assert [panel.feeding.ages for panel in told.ages] == list(WHO_TABLE_1)
    for panel in told.ages:
        (low, high), meals, snacks, texture = WHO_TABLE_1[panel.feeding.ages]
        shown = GLYPHS[low] if low == high else f"{GLYPHS[low]}–{GLYPHS[high]}"
        assert panel.feeding.amount[0].text == f"*{shown}* cup"
        drawn = [dict(i.params) for i in panel.feeding.amount_icons]
        # full to the smaller number, barred up to the larger
        assert [cup["fill"] for cup in drawn] == [float(low)]
        assert [cup.get("may", cup["fill"]) for cup in drawn] == [float(high)]
        assert panel.feeding.meals[0].text == f"{meals[0]}–{meals[1]} such meals a day"
        full = [dict(i.params)["fill"] for i in panel.feeding.meal_icons]
        assert (sum(full), len(full)) == meals
        assert panel.snacks[0].text.startswith(f"{snacks[0]}–{snacks[1]} snacks")
        eaten = [dict(i.params)["fill"] for i in panel.snack_icons]
        assert (sum(eaten), len(eaten)) == snacks
        assert panel.feeding.texture.icon.name == f"texture-{texture}"
    # "start with 2-3 tablespoonfuls", for the youngest alone
    assert [panel.feeding.start for panel in told.ages] == ["2–3", "", ""]
    spoons = [dict(i.params)["fill"] for i in told.ages[0].feeding.start_icons]
    assert spoons == [1, 1, 0]


def test_five_of_eight_groups_and_breast_milk_is_one(told: FeedingChart) -> None:
    """WHO/UNICEF (2021): at least five of eight, breast milk counted."""
    marks = [dict(i.params)["fill"] for i in told.variety.count_icons]
    assert (sum(marks), len(marks)) == (5, 8)
    groups = [marked.icon.name for marked in told.variety.groups]
    assert len(set(groups)) == 8
    assert "breast-milk" in groups
    assert "5 or more" in told.variety.heading[0].text


@pytest.mark.parametrize("cup", [150, 180, 200, 240, 250, 300])
def test_a_cup_of_another_size_holds_the_same_food(kit: Kit, cup: float) -> None:
    chart = compose_feeding_chart(kit.programme, kit.languages, cup, 15, ORIGIN).value
    assert chart is not None
    for panel in chart.ages:
        high = WHO_TABLE_1[panel.feeding.ages][0][1] * 250
        cups = [dict(i.params) for i in panel.feeding.amount_icons]
        drawn = sum(float(c.get("may", c["fill"])) for c in cups) * cup
        assert abs(drawn - high) <= cup / 8 + 1e-9
    assert f"1 cup = {cup} ml" in " ".join(said[0].text for said in chart.foot.trace)


def test_it_names_its_sources_and_who_comes_first(feeding: Pages, codes: tuple[str, ...]) -> None:
    printed = " ".join(i.line.text for i in texts(feeding))
    for words in ("WHO (2009)", "Table 1", "WHO/UNICEF (2021)", "2026-11-25"):
        assert words in printed
    assert "(seen)" not in printed
    if codes[0] == "en":
        assert "National guidance and your health worker come first." in printed
        assert "not breastfed" in printed
        assert "Keep breastfeeding" in printed


def test_the_feeding_chart_is_read_from_the_distance_declared(
    feeding: Pages, codes: tuple[str, ...], kit: Kit
) -> None:
    far_enough(feeding, codes, *METRES["feeding-chart-a2"][len(codes)])
    a1 = feeding_chart_pages("a1", speaking(kit, codes)).value
    assert a1 is not None
    far_enough(a1, codes, *METRES["feeding-chart-a1"][len(codes)])


def test_the_child_grows_from_left_to_right(feeding: Pages) -> None:
    children = [icons(feeding, f"child-{does}")[0] for does in ("sits", "stands", "walks")]
    assert [c.x for c in children] == sorted(c.x for c in children)
    heights = [c.height for c in children]
    assert heights == sorted(set(heights))
    feet = [c.y + c.height for c in children]
    assert max(feet) - min(feet) < 0.1 * MM
    ground = [
        i
        for i in feeding.pages[0].items
        if isinstance(i, RuleItem) and i.y1 == i.y2 and i.stroke == 2
    ]
    assert len(ground) == 1
    assert ground[0].y1 == pytest.approx(feet[0], abs=0.1 * MM)


def test_a_day_goes_from_sun_to_moon_with_the_meals_between(feeding: Pages) -> None:
    suns, moons = icons(feeding, "sun"), icons(feeding, "moon")
    meals = icons(feeding, "meal")
    assert (len(suns), len(moons), len(meals)) == (3, 3, 3 + 4 + 4)
    for sun, moon, count in zip(suns, moons, (3, 4, 4), strict=True):
        between = [m for m in meals if sun.box[2] < m.x and m.box[2] < moon.x]
        assert len(between) == count


def test_one_box_holds_all_cautions(feeding: Pages) -> None:
    (box,) = [i for i in feeding.pages[0].items if isinstance(i, PanelItem)]
    names = ("hand-wash", "boiled-water", "no-honey", "no-whole-nuts", "watch", "eat-soon")
    for name in (*names, "no-salt", "no-sugar"):
        (icon,) = icons(feeding, name)
        assert box.box[0] < icon.x
        assert icon.box[2] < box.box[2]
        assert box.box[1] < icon.y < icon.box[3] < box.box[3]


def test_every_picture_of_a_chart_says_what_it_is(
    feeding: Pages, codes: tuple[str, ...], workspace: Workspace
) -> None:
    run = dish(workspace, "wall-chart-a3", DISHES[0], codes)
    assert run.pages is not None
    for pages in (feeding, run.pages):
        assert all(item.icon.alt for item in icons(pages))
        assert all(item.tags for page in pages.pages for item in page.items)


def test_sizes_bytes_and_the_code_on_the_wall(kit: Kit, codes: tuple[str, ...]) -> None:
    own = speaking(kit, codes)
    for size, paper in (("a2", (594.0, 420.0)), ("a1", (841.0, 594.0))):
        placed = feeding_chart_pages(size, own).value
        again = feeding_chart_pages(size, own).value
        assert placed is not None
        assert again is not None
        data = paint(placed)
        assert data == paint(again)
        assert sizes(data) == {paper}
        if size == "a2":
            read = [c.text for c in zxingcpp.read_barcodes(picture(data, 0, 150))]
            assert read == [placed.meta.code]
            assert read[0].startswith(f"{kit.programme.link}recipes/programme.yaml?d=")
            (code,) = [i for i in placed.pages[0].items if isinstance(i, QrItem)]
            assert code.side / (code.modules + 8) / MM * placed.magnify >= 0.8


def test_without_a_link_the_code_has_no_address_and_it_is_said(kit: Kit) -> None:
    bare = replace(kit, programme=replace(kit.programme, link=""))
    made = feeding_chart_pages("a2", bare)
    assert made.value is not None
    assert [d.kind for d in made.diagnostics] == ["link-missing"]
    (code,) = [i for i in made.value.pages[0].items if isinstance(i, QrItem)]
    assert code.payload.startswith("recipes/programme.yaml?d=")


def test_a_programme_of_one_age_gets_that_age(kit: Kit) -> None:
    for band in ("6-8", "9-11", "12-23"):
        own = replace(kit, programme=replace(kit.programme, bands=(band,)))
        made = feeding_chart_pages("a2", own)
        assert made.value is not None
        assert made.diagnostics == ()
        figures = [i.line.text for i in texts(made.value, "numeral")]
        assert figures == [band.replace("-", "–")] * 2


def test_phrases_too_long_for_the_chart_are_told(kit: Kit) -> None:
    text = (ROOT / "templates" / "words" / "en.yaml").read_text(encoding="utf-8")
    long = text.replace("  clean-hands: ", "  clean-hands: " + "Wash hands well and " * 15)
    words = load_language(long, "en.yaml", "en")
    assert words.value is not None, words.diagnostics
    own = replace(kit, languages=(words.value,))
    made = feeding_chart_pages("a2", own)
    assert made.value is None
    assert [d.kind for d in made.diagnostics] == ["chart-too-full"]


def test_the_command(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Written into out/, and cut into sheets of A4 that hold all of it."""
    (tmp_path / "recipes").mkdir()
    monkeypatch.chdir(tmp_path)
    done = CliRunner().invoke(command, ["chart", "--tile", "a4"], catch_exceptions=False)
    assert done.exit_code == 0, done.output
    assert "out/feeding-chart-a2.pdf written" in done.output
    tiles = pypdf.PdfReader(tmp_path / "out" / "feeding-chart-a2-tiles.pdf")
    # 594 x 420 mm on windows of less than 297 x 210, and a map
    assert 4 < len(tiles.pages) <= 10
    done = CliRunner().invoke(command, ["chart", "--size", "a1"], catch_exceptions=False)
    assert done.exit_code == 0
    assert sizes((tmp_path / "out" / "feeding-chart-a1.pdf").read_bytes()) == {(841, 594)}


# ---- golden pages


def test_golden_charts(kit: Kit, workspace: Workspace) -> None:
    """After a wanted change: look at the pages, then run ``python -m tests.golden``."""
    placed = feeding_chart_pages("a2", still(kit)).value
    assert placed is not None
    assert pages_text(placed) == (FOLDER / "feeding-chart.txt").read_text(encoding="utf-8")
    run = dish(workspace, WALL[0], WALL[1], ("en", "hi"))
    assert run.pages is not None
    for name, pages in (("feeding-chart", placed), ("wall-chart", run.pages)):
        with Image.open(FOLDER / f"{name}.png") as golden:
            assert differing_tiles(raster(paint(pages), 0, FAR), golden.convert("L")) == [], name
