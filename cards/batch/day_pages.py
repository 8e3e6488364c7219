"""The wall chart of a plan, placed and written into out/."""

from __future__ import annotations

from pathlib import Path, PurePosixPath

from cards.batch.day import DayPlan
from cards.batch.kit import Kit
from cards.batch.tiling import write_chart
from cards.diagnostics.diagnostic import Result, has_errors
from cards.layout.pages import Pages
from cards.layout.wall.day_chart_pages import place_day_chart
from cards.plan.day_chart import compose_day_chart
from cards.source.workspace import Workspace


def day_chart_pages(plan: DayPlan, kit: Kit) -> Result[Pages]:
    """The placed chart of a plan."""
    chart = compose_day_chart(plan.file, plan.meals, kit.programme, kit.languages)
    return place_day_chart(chart, kit.layout, kit.book, plan.file.at)


def make_day_chart(
    plan: DayPlan, workspace: Workspace, kit: Kit, *, tile: bool = False
) -> Result[tuple[Path, ...]]:
    """Write the chart, what it rests on in it, and if wished its sheets of A4 beside it."""
    placed = day_chart_pages(plan, kit)
    if placed.value is None or has_errors(placed.diagnostics):
        return Result(None, placed.diagnostics)
    target = workspace.out / f"{PurePosixPath(plan.file.path).stem}-meals.pdf"
    made = write_chart(placed.value, plan.carried, target, workspace, kit, tiled=tile)
    return Result(made.value, (*placed.diagnostics, *made.diagnostics))
