"""A wall chart of feeding by age, from the published figures alone."""

from __future__ import annotations

from pathlib import Path

from cards.batch.kit import Kit
from cards.batch.tiling import TILES_SUFFIX, tiles_of
from cards.batch.write import write_whole
from cards.card.feeding_chart import compose_feeding_chart
from cards.diagnostics.diagnostic import Result, has_errors
from cards.layout.pages import Pages
from cards.layout.wall.feeding_chart_pages import place_feeding_chart
from cards.pdf.paint import paint
from cards.source.workspace import Workspace


def feeding_chart_pages(size: str, kit: Kit) -> Result[Pages]:
    """The placed chart of a size, a key of ``feeding_chart_pages.SIZES``."""
    cup, spoon = (kit.measures.millilitres(1, unit) for unit in ("cup", "tablespoon"))
    chart = compose_feeding_chart(kit.programme, kit.languages, cup, spoon)
    if chart.value is None:
        return Result(None, chart.diagnostics)
    placed = place_feeding_chart(chart.value, kit.layout, kit.book, size, kit.programme.at)
    return Result(placed.value, (*chart.diagnostics, *placed.diagnostics))


def make_feeding_chart(
    size: str, workspace: Workspace, kit: Kit, *, tile: bool = False
) -> Result[tuple[Path, ...]]:
    """Write the chart into the folder's ``out/``, and if wished its sheets of A4 beside it."""
    placed = feeding_chart_pages(size, kit)
    if placed.value is None or has_errors(placed.diagnostics):
        return Result(None, placed.diagnostics)
    target = workspace.out / f"feeding-chart-{size}{kit.programme.suffix}.pdf"
    data = paint(placed.value)
    files = {target: data}
    told = list(placed.diagnostics)
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
