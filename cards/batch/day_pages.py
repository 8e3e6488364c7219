"""The wall chart of a plan, placed and written into out/."""

from __future__ import annotations

from pathlib import Path, PurePosixPath

from cards.batch.day import DayPlan
from cards.batch.kit import Kit
from cards.batch.write import write_whole
from cards.diagnostics.diagnostic import Result, has_errors
from cards.layout.day_chart_pages import place_day_chart
from cards.layout.pages import Pages
from cards.pdf.paint import paint
from cards.plan.day_chart import compose_day_chart
from cards.source.workspace import Workspace


def day_chart_pages(plan: DayPlan, kit: Kit) -> Result[Pages]:
    """The placed chart of a plan."""
    chart = compose_day_chart(plan.file, plan.meals, kit.programme, kit.languages)
    return place_day_chart(chart, kit.layout, kit.book, plan.file.at)


def make_day_chart(plan: DayPlan, workspace: Workspace, kit: Kit) -> Result[Path]:
    """Write the chart; the plan's own file travels in it."""
    placed = day_chart_pages(plan, kit)
    if placed.value is None or has_errors(placed.diagnostics):
        return Result(None, placed.diagnostics)
    name = PurePosixPath(plan.file.path).stem
    target = workspace.out / f"{name}-meals.pdf"
    data = paint(placed.value, {plan.file.path: plan.text})
    done = write_whole(target, data, workspace.name(target))
    return Result(done.value, (*placed.diagnostics, *done.diagnostics))
