"""The wall chart of a plan, placed and written into out/."""

from __future__ import annotations

from pathlib import Path, PurePosixPath

from cards.batch.day import DayPlan
from cards.batch.kit import Kit
from cards.batch.tiling import TILES_SUFFIX, tiles_of
from cards.batch.write import write_whole
from cards.diagnostics.diagnostic import Result, has_errors
from cards.layout.pages import Pages
from cards.layout.wall.day_chart_pages import place_day_chart
from cards.pdf.paint import paint
from cards.plan.day_chart import compose_day_chart
from cards.source.workspace import Workspace


def day_chart_pages(plan: DayPlan, kit: Kit) -> Result[Pages]:
    """The placed chart of a plan."""
    chart = compose_day_chart(plan.file, plan.meals, kit.programme, kit.languages)
    return place_day_chart(chart, kit.layout, kit.book, plan.file.at)


def make_day_chart(
    plan: DayPlan, workspace: Workspace, kit: Kit, *, tile: bool = False
) -> Result[tuple[Path, ...]]:
    """Write the chart, the plan's own file in it, and if wished its sheets of A4 beside it."""
    placed = day_chart_pages(plan, kit)
    if placed.value is None or has_errors(placed.diagnostics):
        return Result(None, placed.diagnostics)
    target = workspace.out / f"{PurePosixPath(plan.file.path).stem}-meals.pdf"
    data = paint(placed.value, {plan.file.path: plan.text})
    files, told = {target: data}, list(placed.diagnostics)
    if tile:
        sheets = tiles_of(data, placed.value.meta, workspace.name(target), kit)
        told += sheets.diagnostics
        if sheets.value is not None:
            files[target.with_name(f"{target.stem}{TILES_SUFFIX}")] = sheets.value
    written: list[Path] = []
    for path, content in files.items():
        done = write_whole(path, content, workspace.name(path))
        told += done.diagnostics
        written += [done.value] if done.value is not None else []
    return Result(tuple(written), tuple(told))
