"""Golden pages: box lists as text, small rasters with a tolerance. Run to write them anew."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pypdfium2
from PIL import Image, ImageChops, ImageStat

from cards.batch.kit import Kit
from cards.source.grounds import Shelf

FOLDER = Path(__file__).parent / "golden"
DPI = 60
TILE = 8
"""Pixels a side of the squares that are compared."""
ICON_PAGES = {
    "sheet": ("icons 1", "icons 2", "icons 3", "icons 4", "icons 7"),
    "test": ("how", "test 1", "count 2", "marks"),
    "lesson": ("front", "back"),
}
"""Pages about the icons that are kept: one or two of each kind, by name."""
WALL = ("wall-chart-a2", "pumpkin-rice-moong")
"""The layout and the dish of the wall chart that is kept."""
PAIRED = (
    ("full-sheet-beside", "pumpkin-rice-moong"),
    ("hand-card-beside", "ragi-cakes-tomato-chutney"),
    ("full-sheet-turned", "steamed-fish-potato"),
    ("hand-card-turned", "egg-spinach-potato"),
)
"""Layouts that set two languages otherwise than one under the other, each with a dish."""
FAR = 30
"""Rasters of charts, dots an inch: they are seen from further."""
TOLERANCE = 10.0
"""Mean grey difference (0 to 255) a square may show; other anti-aliasing stays well under it."""


def raster(pdf: bytes, page: int, dpi: int = DPI) -> Image.Image:
    """A page in grey."""
    document = pypdfium2.PdfDocument(pdf)
    picture = document[page].render(scale=dpi / 72, grayscale=True).to_pil().convert("L")
    document.close()
    return picture


def differing_tiles(one: Image.Image, other: Image.Image) -> list[tuple[int, int]]:
    """Upper left corners of the squares that differ beyond the tolerance."""
    if one.size != other.size:
        return [(0, 0)]
    difference = ImageChops.difference(one, other)
    found = []
    for x in range(0, one.width, TILE):
        for y in range(0, one.height, TILE):
            tile = difference.crop((x, y, min(x + TILE, one.width), min(y + TILE, one.height)))
            if ImageStat.Stat(tile).mean[0] > TOLERANCE:
                found.append((x, y))
    return found


def still(kit: Kit) -> Kit:
    """A kit of a folder without files, so that no code on a page hangs on what words say today."""
    return replace(kit, shelf=Shelf(lambda _: None, tuple, lambda _: None))


def icon_file(what: str, page: str) -> Path:
    """Where the raster of a page about the icons is kept."""
    return FOLDER / f"icons-{what}-{page.replace(' ', '-')}.png"


def main() -> None:
    """Write all golden files from the demo recipes."""
    from cards.batch.feeding_chart import feeding_chart_pages
    from cards.batch.icon_pages import icon_pages
    from cards.batch.kit import open_kit
    from cards.batch.show import pages_text, stage_text
    from cards.batch.stages import run_file
    from cards.pdf.paint import paint
    from cards.source.workspace import open_workspace

    FOLDER.mkdir(exist_ok=True)
    workspace = open_workspace(Path(__file__).resolve().parent.parent)
    kit = open_kit(workspace).value
    assert kit is not None
    for path in workspace.recipe_files():
        run = run_file(path, workspace, kit)
        assert run.pages is not None
        (FOLDER / f"{path.stem}.txt").write_text(stage_text(run, "pages"), encoding="utf-8")
        for number in (0, 1):
            raster(paint(run.pages), number).save(
                FOLDER / f"{path.stem}-{number + 1}.png", optimize=True
            )
    for what, pages in ICON_PAGES.items():
        placed = icon_pages(what, (), still(kit)).value
        assert placed is not None
        for number, page in enumerate(placed.pages):
            if page.name in pages:
                raster(paint(placed), number).save(icon_file(what, page.name), optimize=True)
    chart = feeding_chart_pages("a2", still(kit)).value
    assert chart is not None
    (FOLDER / "feeding-chart.txt").write_text(pages_text(chart), encoding="utf-8")
    raster(paint(chart), 0, FAR).save(FOLDER / "feeding-chart.png", optimize=True)
    for layout, dish in PAIRED:
        own = open_kit(workspace, layout).value
        assert own is not None
        run = run_file(workspace.recipes / f"{dish}.yaml", workspace, own)
        assert run.pages is not None
        (FOLDER / f"{layout}.txt").write_text(stage_text(run, "pages"), encoding="utf-8")
        for number in range(len(run.pages.pages)):
            raster(paint(run.pages), number).save(
                FOLDER / f"{layout}-{number + 1}.png", optimize=True
            )
    layout, dish = WALL
    walls = open_kit(workspace, layout).value
    assert walls is not None
    wall = run_file(workspace.recipes / f"{dish}.yaml", workspace, walls).pages
    assert wall is not None
    raster(paint(wall), 0, FAR).save(FOLDER / "wall-chart.png", optimize=True)


if __name__ == "__main__":
    main()
