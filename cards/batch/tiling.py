"""Large pages made ready for an office printer: each cut into sheets of A4."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from cards.batch.due import Made
from cards.batch.kit import Kit
from cards.batch.printing import size_mm, taken
from cards.batch.write import write_whole
from cards.card.model import CardMeta
from cards.diagnostics.diagnostic import Diagnostic, Place, Result, note
from cards.layout.office.tile_marks import Box, Overlay, Words, map_overlay, tile_overlay
from cards.layout.office.tile_plan import Tiling, plan_tiles
from cards.layout.pages import Page, Pages
from cards.pdf.assemble import About, page_sizes
from cards.pdf.paint import paint
from cards.pdf.tile import tile
from cards.source.workspace import Workspace

TILES_SUFFIX = "-tiles.pdf"
"""The sheets of out/x.pdf are in out/x-tiles.pdf."""


def print_tiles(made: Made, others: Sequence[Made], workspace: Workspace, kit: Kit) -> Result[Path]:
    """Write the sheets of one card or chart beside it; a note where one sheet holds it.

    ``others`` are all cards made with it, none of which is written over.
    """
    if made.pdf is None or made.run.card is None:
        return Result(None)
    target = made.pdf.with_name(f"{made.pdf.stem}{TILES_SUFFIX}")
    clash = taken(target, others, workspace)
    if clash is not None:
        return Result(None, (clash,))
    sheets = tiles_of(made.card, made.run.card.meta, workspace.name(made.pdf), kit)
    if sheets.value is None:
        return Result(None, sheets.diagnostics)
    return write_whole(target, sheets.value, workspace.name(target))


def write_chart(
    pages: Pages,
    sources: Mapping[str, str],
    target: Path,
    workspace: Workspace,
    kit: Kit,
    *,
    tiled: bool,
) -> Result[tuple[Path, ...]]:
    """Write a chart, with its ``sources`` in it, and if wished its sheets of A4 beside it."""
    data = paint(pages, sources)
    files = {target: data}
    told: list[Diagnostic] = []
    if tiled:
        sheets = tiles_of(data, pages.meta, workspace.name(target), kit)
        told += sheets.diagnostics
        if sheets.value is not None:
            files[target.with_name(f"{target.stem}{TILES_SUFFIX}")] = sheets.value
    written: list[Path] = []
    for path, content in files.items():
        done = write_whole(path, content, workspace.name(path))
        told += done.diagnostics
        written += [done.value] if done.value is not None else []
    return Result(tuple(written), tuple(told))


def tiles_of(chart: bytes, meta: CardMeta, name: str, kit: Kit) -> Result[bytes]:
    """The PDF to print of a chart's PDF; None with one note if every page goes on a sheet."""
    plans = [plan_tiles(*size) for size in page_sizes(chart)]
    pages = [(page, plan) for page, plan in enumerate(plans) if plan is not None]
    if not pages:
        size = size_mm(page_sizes(chart)[0])
        needless = note(
            Place(name),
            "tile-needless",
            f"a page of {size} goes on one sheet of A4, nothing was cut",
            "print it as it is, or lay several on a sheet with --up",
        )
        return Result(None, (needless,))
    return Result(_tile(chart, pages, meta, Words(kit.languages[0], kit.book)))


def _tile(chart: bytes, pages: list[tuple[int, Tiling]], meta: CardMeta, words: Words) -> bytes:
    maps: list[tuple[int, Tiling, Box]] = []
    overlays: list[Overlay] = []
    for page, plan in pages:
        name = f"{page + 1}-" if len(pages) > 1 else ""
        overlay, picture = map_overlay(plan, words, meta, name)
        maps.append((page, plan, picture))
        overlays.append(overlay)
        overlays += [tile_overlay(plan, part, words, meta, name) for part in plan.tiles]
    # the marks of all sheets are one file, whose pages are as large as the largest sheet, so that
    # their fonts come once; each sheet is drawn in its lower left corner
    width, height = (max(overlay.sheet[n] for overlay in overlays) for n in (0, 1))
    drawn = tuple(
        Page(f"tile {n}", tuple(item.moved(0, height - one.sheet[1]) for item in one.items))
        for n, one in enumerate(overlays, 1)
    )
    marks = paint(Pages(width, height, 0.0, meta, drawn))
    about = About(meta.title, meta.author, words.language.code)
    return tile(chart, maps, [overlay.white for overlay in overlays], marks, about)
