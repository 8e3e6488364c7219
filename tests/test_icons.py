"""The icons as a photocopier sees them: strokes, edges, and likeness in one-bit black."""

from __future__ import annotations

import io
import itertools
import re
from functools import cache
from pathlib import Path

import pypdfium2
import pytest
from PIL import Image, ImageChops
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from cards.foods.table import pictures
from cards.icons import catalogue
from cards.icons.pen import FINE, GRID, Ink, RecordingPen
from cards.pdf.ink import BLACK, WHITE, CodePen, shown

ROOT = Path(__file__).parent.parent
MARGIN = 4.0
"""White round an icon in the test picture, in grid units."""

ONE_COLOUR = {ink: WHITE if ink in (Ink.PAPER, Ink.GAP) else BLACK for ink in Ink}

STEPS_AND_CAUTIONS = sorted(
    name for name in catalogue.names() if catalogue.find(name).true_height_mm is None
)


@cache
def one_bit(name: str, height_mm: float = 9.0, dpi: int = 300) -> Image.Image:
    """An icon in one-bit black at a printed height, with a white margin round its box."""
    icon = catalogue.find(name)
    scale = height_mm * mm / GRID
    sheet = io.BytesIO()
    size = ((icon.width + 2 * MARGIN) * scale, (icon.height + 2 * MARGIN) * scale)
    canvas = Canvas(sheet, pagesize=size)
    pen = CodePen(ONE_COLOUR)
    icon.draw(pen)
    canvas._code.append(shown(pen.code, MARGIN * scale, MARGIN * scale, scale))
    canvas.save()
    page = pypdfium2.PdfDocument(sheet.getvalue())[0]
    picture = page.render(scale=dpi / 72).to_pil().convert("L")
    return picture.point(lambda value: 255 if value > 127 else 0)


def black_share(picture: Image.Image) -> float:
    return picture.histogram()[0] / (picture.width * picture.height)


def strokes(name: str) -> list[float]:
    pen = RecordingPen()
    catalogue.find(name).draw(pen)
    return [float(line.split()[2]) for line in pen.lines if line.startswith("paint line")]


def test_every_drawing_is_in_the_catalogue_and_counted() -> None:
    written = [
        name
        for module in (ROOT / "cards" / "icons").glob("*.py")
        for name in re.findall(r'^@icon\("([a-z-]+)"', module.read_text("utf-8"), re.M)
    ]
    assert sorted(written) == list(catalogue.names())
    told = re.search(r"^- (\d+) icons\.$", (ROOT / "CHANGELOG.md").read_text("utf-8"), re.M)
    assert told is not None
    assert int(told[1]) == len(written)


@pytest.mark.parametrize("name", catalogue.names())
def test_no_stroke_is_thinner_than_a_copy_keeps(name: str) -> None:
    assert all(width >= FINE for width in strokes(name))


@pytest.mark.parametrize("name", catalogue.names())
def test_nothing_is_painted_outside_the_box(name: str) -> None:
    picture = one_bit(name, 24.0)
    ink = ImageChops.invert(picture).getbbox()
    assert ink is not None
    unit = picture.width / (catalogue.find(name).width + 2 * MARGIN)
    slack = 0.5 * unit
    left, top, right, bottom = ink
    assert left >= MARGIN * unit - slack
    assert top >= MARGIN * unit - slack
    assert right <= picture.width - MARGIN * unit + slack
    assert bottom <= picture.height - MARGIN * unit + slack


@pytest.mark.parametrize(
    "name", [n for n in STEPS_AND_CAUTIONS if n.startswith("no-") and n != "no-leftovers"]
)
def test_what_is_forbidden_stands_behind_a_whole_bar(name: str) -> None:
    """The bar of the sign is black from upper left to lower right, with white on both its sides."""
    picture = one_bit(name, 24.0)
    unit = picture.width / (GRID + 2 * MARGIN)
    cx, cy, r = (14.56, 14.56, 13.06) if name == "no-choking" else (24.0, 24.0, 20.4)

    def at(along: float, beside: float) -> int:
        x, y = cx + (along + beside) * 0.7071, cy + (beside - along) * 0.7071
        value = picture.getpixel((int((x + MARGIN) * unit), int((GRID - y + MARGIN) * unit)))
        assert isinstance(value, int)
        return value

    for step in range(-7, 8):
        assert at(r * step / 10, 0) == 0
        assert at(r * step / 10, r * 0.135) == 255
        assert at(r * step / 10, -r * 0.135) == 255


def test_no_two_pictures_are_taken_for_one_another_in_one_bit() -> None:
    """At 9 mm two icons of steps and cautions differ in a sixth of their ink or more.

    Two things forbidden share ring and bar, over half of their ink.
    """
    square = [n for n in STEPS_AND_CAUTIONS if catalogue.find(n).width == GRID]
    for one, other in itertools.combinations(square, 2):
        a, b = one_bit(one), one_bit(other)
        unlike = black_share(ImageChops.invert(ImageChops.difference(a, b)))
        assert unlike >= max(black_share(a), black_share(b)) / 6, (one, other)


def as_printed(name: str) -> Image.Image:
    """A counted thing at the size a card shows it, in the middle of a plate for all."""
    drawing = catalogue.find(name)
    assert drawing.true_height_mm is not None
    picture = one_bit(name, drawing.true_height_mm * GRID / drawing.height)
    picture = picture.crop(ImageChops.invert(picture).getbbox())
    plate = Image.new("L", (240, 200), 255)
    plate.paste(picture, ((240 - picture.width) // 2, (200 - picture.height) // 2))
    return plate


def test_no_two_counted_things_are_taken_for_one_another_in_one_bit() -> None:
    """At their printed sizes they differ as much as steps do, in a sixth of their ink."""
    printed = {name: as_printed(name) for name in pictures()}
    for one, other in itertools.combinations(printed, 2):
        a, b = printed[one], printed[other]
        unlike = black_share(ImageChops.invert(ImageChops.difference(a, b)))
        assert unlike >= max(black_share(a), black_share(b)) / 6, (one, other)
