"""A wall chart of feeding by age, from the published figures alone."""

from __future__ import annotations

from pathlib import Path

from cards.batch.kit import Kit
from cards.batch.tiling import write_chart
from cards.card.feeding_chart import FeedingChart, compose_feeding_chart
from cards.card.origin import draft_codes, page_origin
from cards.diagnostics.diagnostic import Result, has_errors
from cards.layout.pages import Pages
from cards.layout.wall.feeding_chart_pages import place_feeding_chart
from cards.nutrition import feeding
from cards.source.grounds import FEEDING_CHART, Grounds, page_grounds
from cards.source.workspace import Workspace


def feeding_chart_pages(size: str, kit: Kit) -> Result[Pages]:
    """The placed chart of a size, a key of ``feeding_chart_pages.SIZES``."""
    chart = feeding_chart(kit)
    if chart.value is None:
        return Result(None, chart.diagnostics)
    placed = place_feeding_chart(chart.value, kit.layout, kit.book, size, kit.programme.at)
    return Result(placed.value, (*chart.diagnostics, *placed.diagnostics))


def feeding_chart(kit: Kit) -> Result[FeedingChart]:
    """What the chart says, in the programme's languages and measures."""
    cup, spoon = (kit.measures.millilitres(1, unit) for unit in ("cup", "tablespoon"))
    version, _ = feeding.edition()
    digest = chart_grounds(kit).digest(draft_codes(kit.languages))
    origin = page_origin(FEEDING_CHART, str(version), digest, kit.programme)
    return compose_feeding_chart(kit.programme, kit.languages, cup, spoon, origin)


def chart_grounds(kit: Kit) -> Grounds:
    """What the chart rests on besides the published figures."""
    return page_grounds(FEEDING_CHART, kit.shelf, [lang.code for lang in kit.languages])


def make_feeding_chart(
    size: str, workspace: Workspace, kit: Kit, *, tile: bool = False
) -> Result[tuple[Path, ...]]:
    """Write the chart into the folder's ``out/``, and if wished its sheets of A4 beside it."""
    placed = feeding_chart_pages(size, kit)
    if placed.value is None or has_errors(placed.diagnostics):
        return Result(None, placed.diagnostics)
    target = workspace.out / f"feeding-chart-{size}{kit.programme.suffix}.pdf"
    made = write_chart(placed.value, chart_grounds(kit).carried, target, workspace, kit, tiled=tile)
    return Result(made.value, (*placed.diagnostics, *made.diagnostics))
