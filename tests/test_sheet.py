"""The trainer's sheet: what it says, how long its bars are, and that it reads back."""

from __future__ import annotations

from dataclasses import replace

import pypdfium2
import pytest

from cards.batch.kit import Kit
from cards.batch.show import stage_text
from cards.batch.stages import Run, sheet_of
from cards.card.compose import card_meta
from cards.card.sheet import Sheet, compose_sheet
from cards.layout.checks import check_boxes
from cards.layout.pages import BarItem, TextItem
from cards.layout.trainer import charts
from cards.layout.trainer.sheet_pages import place_sheet
from cards.layout.trainer.sheet_type import Type
from cards.nutrition.adequacy import Standing
from cards.pdf.paint import paint
from tests.conftest import DEMO_FILES, PLAIN, Bench

DEMOS = [p.stem for p in DEMO_FILES]


def sheet_for(run: Run, kit: Kit) -> Sheet:
    assert run.recipe is not None
    assert run.analysis is not None
    meta = card_meta(run.recipe, kit.programme)
    return compose_sheet(run.recipe, run.analysis, run.diagnostics, kit.needs, kit.programme, meta)


@pytest.mark.parametrize("demo", DEMOS)
def test_nothing_overlaps_or_leaves_the_page(demo: str, demos: dict[str, Run], kit: Kit) -> None:
    pages = sheet_of(demos[demo], kit)
    assert pages is not None
    assert check_boxes(pages) == ()
    assert len(pages.pages) <= 3


@pytest.mark.parametrize("demo", DEMOS)
def test_every_line_reads_back(demo: str, demos: dict[str, Run], kit: Kit) -> None:
    pages = sheet_of(demos[demo], kit)
    assert pages is not None
    document = pypdfium2.PdfDocument(paint(pages))
    got = "".join("".join(p.get_textpage().get_text_range().split()) for p in document)
    document.close()
    lines = [i.line.text for p in pages.pages for i in p.items if isinstance(i, TextItem)]
    assert len(lines) > 80
    assert [line for line in lines if "".join(line.split()) not in got] == []


def test_credit_and_sources_stand_on_the_sheet_and_notes_nowhere(bench: Bench, kit: Kit) -> None:
    head = "credit: told by a cook\nsources: [a field diary]\nnotes: ask Tara again\nmakes:"
    run = bench.run(PLAIN.replace("makes:", head))
    sheet = sheet_of(run, kit)
    assert sheet is not None
    words = " ".join(
        item.line.text for page in sheet.pages for item in page.items if isinstance(item, TextItem)
    )
    assert "From: told by a cook; a field diary." in words
    assert "Tara" not in words + stage_text(run, "pages") + stage_text(run, "card")


def test_bars_are_as_long_as_their_figures(bench: Bench) -> None:
    """Twice the desired density fills the bar; the share of each bar is that of its figure."""
    sheet = sheet_for(bench.run(PLAIN), bench.kit)
    items, _ = charts.densities(sheet, Type(bench.kit.book), 500)
    bars = [i for i in items if isinstance(i, BarItem)]
    known = [d for row in sheet.densities for d in row.cells if d.standing is not Standing.UNKNOWN]
    longest = max(bar.width for bar in bars)
    expected = [min(d.share or 0, charts.FULL) / charts.FULL for d in known]
    assert longest == pytest.approx((500 - 92) / 3 * 0.42)
    shown = [share for share in expected if share * longest > 0.3]
    assert [bar.width / longest for bar in bars] == pytest.approx(shown)


def test_short_and_enough_differ_in_shade(bench: Bench) -> None:
    sheet = sheet_for(bench.run(PLAIN), bench.kit)
    items, _ = charts.densities(sheet, Type(bench.kit.book), 500)
    shades = {i.shade for i in items if isinstance(i, BarItem)}
    assert shades == {"dark", "accent"}


def test_the_unknown_has_no_bar(bench: Bench) -> None:
    run = bench.run(PLAIN)
    assert run.analysis is not None
    blank = replace(run.analysis.totals["FE"], value=0.0, known_share=0.1, missing=("rice",))
    analysis = replace(run.analysis, totals={**run.analysis.totals, "FE": blank})
    sheet = sheet_for(replace(run, analysis=analysis), bench.kit)
    row = next(r for r in sheet.densities if r.name == "iron")
    assert {d.standing for d in row.cells} == {Standing.UNKNOWN}
    texts = [
        i.line.text
        for i in charts.densities(sheet, Type(bench.kit.book), 500)[0]
        if isinstance(i, TextItem)
    ]
    assert texts.count("not known") == 3 * sum(
        all(d.standing is Standing.UNKNOWN for d in row.cells) for row in sheet.densities
    )
    cells = next(r for r in sheet.needs.rows if r[0].startswith("iron"))[1:]
    assert all(cell.startswith("cannot tell") for cell in cells)


def test_thresholds_are_those_of_paho_table_2(bench: Bench) -> None:
    """PAHO/WHO (2003) Table 2, average breast milk, two meals: 0.71, 0.84, 1.12 kcal per g."""
    sheet = sheet_for(bench.run(PLAIN), bench.kit)
    two_meals = [t.density for t in sheet.thresholds if t.meals == 2]
    assert two_meals == pytest.approx([0.71, 0.84, 1.12], abs=0.01)


def test_origins_add_up(bench: Bench) -> None:
    sheet = sheet_for(bench.run(PLAIN), bench.kit)
    for origin in sheet.origins:
        if origin.shares:
            assert sum(share for _, share in origin.shares) == pytest.approx(1, abs=0.02)


def test_findings_stand_on_the_sheet_with_their_source(bench: Bench) -> None:
    run = bench.run(PLAIN.replace("6 tbsp rice", "6 tbsp rice\n  - 1 pinch salt"))
    sheet = sheet_for(run, bench.kit)
    salt = next(m for m in sheet.messages if "added-salt" in m)
    assert "WHO (2023)" in salt
    assert "line 7" in salt


def test_a_path_longer_than_the_line_is_parted(bench: Bench) -> None:
    run = bench.run(PLAIN)
    sheet = replace(sheet_for(run, bench.kit), facts=("x" * 400,))
    assert check_boxes(place_sheet(sheet, bench.kit.book)) == ()


def test_retinol_by_the_week(bench: Bench) -> None:
    """7 x 600 ug (IOM 2001) over the retinol of one meal."""
    run = bench.run(PLAIN.replace("6 tbsp rice", "6 tbsp rice\n  - 60 g chicken liver"))
    assert run.analysis is not None
    portion = run.analysis.portions[-1]
    times = int(4200 // portion.per_portion["RETOL"])
    lines = [b for b in sheet_for(run, bench.kit).bounds if "in a week" in b]
    assert f"{times} such meals" in lines[-1]


def test_a_food_known_by_name_is_told_once_and_adds_nothing(bench: Bench) -> None:
    plain = bench.run(PLAIN)
    named = bench.run(PLAIN.replace("  - 1 tbsp ghee\n", "  - 1 tbsp ghee\n  - 1 tsp tea leaves\n"))
    assert plain.analysis is not None
    assert named.analysis is not None
    iron = named.analysis.totals["FE"]
    assert iron.value == pytest.approx(plain.analysis.totals["FE"].value)
    assert iron.missing == ("tea leaves",)
    assert iron.known_share < 1
    assert "Energy: at least" in " ".join(sheet_for(named, bench.kit).facts)
    assert "at least" not in " ".join(sheet_for(plain, bench.kit).facts)
    before = sheet_for(plain, bench.kit).missing
    told = sheet_for(named, bench.kit).missing
    assert "tea leaves" in told[0]
    assert "at least" in told[0]
    assert len(told) == len(before) + 1
    assert not any("tea leaves" in line for line in told[1:])


def test_a_dish_of_names_only_still_has_a_sheet(bench: Bench) -> None:
    lines = PLAIN.replace("  - 3 tbsp moong dal\n", "").replace("  - 1 tbsp ghee\n", "")
    run = bench.run(
        lines.replace("6 tbsp rice", "6 tbsp sherbet mix").replace(
            "rice, moong dal, water, ghee", "all"
        )
    )
    assert run.analysis is not None
    assert run.analysis.energy_density is None
    assert sheet_of(run, bench.kit) is not None
    facts = " ".join(sheet_for(run, bench.kit).facts)
    assert "Energy: not known" in facts
    assert "0 kcal" not in facts
