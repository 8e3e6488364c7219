"""The wall chart of a day or a week: all is said, nothing overlaps, the code leads back."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pypdf
import pytest
import zxingcpp

from cards.batch.day import DayPlan, plan_day
from cards.batch.day_pages import day_chart_pages, make_day_chart
from cards.batch.kit import Kit, open_kit
from cards.diagnostics.diagnostic import has_errors
from cards.layout.cover import ink_covers
from cards.layout.pages import IconItem, Pages, TextItem
from cards.pdf.paint import paint
from cards.source.workspace import Workspace
from tests.conftest import ROOT
from tests.printed import picture
from tests.test_charts import LANGUAGES, speaking

NAMES = ("one-day", "one-week", "market-day")
CROWDED = """\
day: 1
title: {en: A week at the child centre, hi: बाल केंद्र का एक हफ़्ता}
ages: 9-11, 12-23
milk: low
propose: week
"""


@pytest.fixture(scope="module")
def plans(workspace: Workspace, kit: Kit) -> dict[str, DayPlan]:
    found = {}
    for name in NAMES:
        plan = plan_day(ROOT / f"recipes/days/{name}.yaml", workspace, kit).value
        assert plan is not None
        found[name] = plan
    return found


def said(pages: Pages) -> str:
    """All words of the chart, in reading order."""
    items = [i for page in pages.pages for i in page.items if isinstance(i, TextItem)]
    return " ".join(item.line.text for item in items)


def icons(pages: Pages) -> list[str]:
    items = [i for page in pages.pages for i in page.items if isinstance(i, IconItem)]
    return [item.icon.name for item in items]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("codes", LANGUAGES, ids="-".join)
def test_nothing_overlaps_or_is_too_small_or_too_black(
    name: str, codes: tuple[str, ...], plans: dict[str, DayPlan], kit: Kit
) -> None:
    made = day_chart_pages(plans[name], speaking(kit, codes))
    assert made.value is not None and made.diagnostics == ()
    assert all(cover < 0.15 for cover in ink_covers(made.value))


def test_an_urdu_day_runs_from_right_to_left(
    plans: dict[str, DayPlan], workspace: Workspace
) -> None:
    """Sun at the right, moon at the left, as on the feeding chart; drawings stay as they are."""
    for code, sun_first in (("en", True), ("ur", False)):
        kit = open_kit(workspace, "", (code,)).value
        assert kit is not None
        pages = day_chart_pages(plans["one-day"], kit).value
        assert pages is not None
        places = {i.icon.name: i.x for i in pages.pages[0].items if isinstance(i, IconItem)}
        assert (places["sun"] < places["moon"]) is sun_first


def test_a_bengali_day_counts_in_its_own_digits(
    plans: dict[str, DayPlan], workspace: Workspace
) -> None:
    """CLDR: Bengali prints beng digits; what leads back to the file keeps ours."""
    kit = open_kit(workspace, "", ("bn",)).value
    assert kit is not None
    pages = day_chart_pages(plans["one-week"], kit).value
    assert pages is not None
    items = [i for i in pages.pages[0].items if isinstance(i, TextItem) and i.role != "trace"]
    words = " ".join(item.line.text for item in items)
    assert any(digit in words for digit in "১২৩")
    assert not any(digit in words for digit in "123")


def test_every_dish_and_amount_is_on_the_chart(plans: dict[str, DayPlan], kit: Kit) -> None:
    for plan in plans.values():
        pages = day_chart_pages(plan, kit).value
        assert pages is not None
        words = said(pages)
        for meal in plan.meals:
            for code in ("en", "hi"):
                assert all(word in words for word in meal.dish.title[code].split())
        groups = [f"group-{g}" for meal in plan.meals for g in meal.dish.groups]
        assert sorted(i for i in icons(pages) if i.startswith("group-")) == sorted(groups)


def test_the_day_runs_from_sun_to_moon_with_milk_between(
    plans: dict[str, DayPlan], kit: Kit
) -> None:
    pages = day_chart_pages(plans["one-day"], kit).value
    assert pages is not None
    line = [
        (item.x, item.icon.name)
        for item in pages.pages[0].items
        if isinstance(item, IconItem) and item.icon.name in ("sun", "moon", "meal", "breast-milk")
    ]
    between = ["meal", *["breast-milk", "meal"] * 3]
    assert [name for _, name in sorted(line)] == ["sun", *between, "moon"]


def test_it_sends_to_the_health_worker_and_asks_for_milk(
    plans: dict[str, DayPlan], kit: Kit
) -> None:
    for plan in plans.values():
        pages = day_chart_pages(plan, kit).value
        assert pages is not None
        words = said(pages)
        assert "National guidance" in words and "health worker" in words
        assert "ill or very thin" in words
        assert "Breast milk whenever the child wants it" in words
        assert ("once-a-week" in icons(pages)) == any(m.dish.liver for m in plan.meals)
    assert any(m.dish.liver for m in plans["one-day"].meals)


def test_the_code_and_the_file_lead_back(plans: dict[str, DayPlan], kit: Kit) -> None:
    plan = plans["one-week"]
    pages = day_chart_pages(plan, kit).value
    assert pages is not None
    data = paint(pages, plan.carried)
    codes = [found.text for found in zxingcpp.read_barcodes(picture(data, 0, 150))]
    address = "https://two-wells.example/recipes/days/one-week.yaml"
    assert codes == [f"{address}?d={plan.file.digest}"]


def test_a_crowded_week_goes_on_to_a_second_page(
    workspace: Workspace, kit: Kit, tmp_path: Path
) -> None:
    path = tmp_path / "crowded.yaml"
    path.write_text(CROWDED, encoding="utf-8")
    plan = plan_day(path, workspace, kit).value
    assert plan is not None
    made = day_chart_pages(plan, kit)
    assert made.value is not None and made.diagnostics == ()
    assert len(made.value.pages) > 1
    assert all(f"Day {n}" in said(made.value) for n in range(1, 8))
    words = [said(replace(made.value, pages=(page,))) for page in made.value.pages]
    assert all("health worker" in text for text in words)


def test_a_chart_that_cannot_hold_a_day_says_so(
    plans: dict[str, DayPlan], kit: Kit, workspace: Workspace, tmp_path: Path
) -> None:
    plan = plans["one-day"]
    long = " ".join(["rice and dal"] * 40)
    meals = tuple(
        replace(m, dish=replace(m.dish, title={"en": long, "hi": long})) for m in plan.meals
    )
    made = make_day_chart(replace(plan, meals=meals), replace(workspace, out=tmp_path), kit)
    assert has_errors(made.diagnostics) and made.value is None
    assert [d.kind for d in made.diagnostics] == ["chart-too-full"]
    assert list(tmp_path.iterdir()) == []


def test_the_file_is_a3_and_the_same_every_time(
    plans: dict[str, DayPlan], kit: Kit, workspace: Workspace, tmp_path: Path
) -> None:
    made = make_day_chart(plans["one-day"], replace(workspace, out=tmp_path), kit).value
    assert made is not None
    (chart,) = made
    first = chart.read_bytes()
    page = pypdf.PdfReader(chart).pages[0]
    millimetres = [float(n) * 25.4 / 72 for n in (page.mediabox.width, page.mediabox.height)]
    assert millimetres == pytest.approx([420, 297], abs=0.1)
    make_day_chart(plans["one-day"], replace(workspace, out=tmp_path), kit)
    assert chart.read_bytes() == first


def test_it_is_cut_into_sheets_of_a4(
    plans: dict[str, DayPlan], kit: Kit, workspace: Workspace, tmp_path: Path
) -> None:
    made = make_day_chart(plans["one-day"], replace(workspace, out=tmp_path), kit, tile=True).value
    assert made is not None
    assert [path.name for path in made] == ["one-day-meals.pdf", "one-day-meals-tiles.pdf"]
    sheets = pypdf.PdfReader(made[1]).pages
    assert len(sheets) >= 2
    sides = {round(float(n) * 25.4 / 72) for page in sheets for n in page.mediabox[2:]}
    assert sides == {210, 297}
