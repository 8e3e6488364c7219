"""A photocopier: what three copies of copies leave of a page, on a raster of ``DPI``.

Each generation turns and shrinks the page a little, blurs it, adds noise and then hardens
it, as lens, glass, drum and toner do. The strengths are our own choice, not a published figure;
``tests/test_copier.py`` holds them from the other side, by what must be lost.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass
from statistics import NormalDist

import pypdfium2
from PIL import Image, ImageChops, ImageFilter

DPI = 200
GENERATIONS = 3

TURN = 1.5
"""Degrees the last copy is turned by, clockwise."""
SHRINK = 0.96
"""Side of the last copy over that of the page."""


@dataclass(frozen=True)
class Machine:
    """What a machine does to a page, each time."""

    blur: float = 0.75
    """Standard deviation of the blur in pixels: 0.1 mm, half the contrast at 2 lines a mm."""
    noise: float = 13.0
    """Standard deviation of the noise, in steps of grey."""
    contrast: float = 3.0
    """How much steeper than before grey turns into black or white."""
    middle: int = 128
    """The grey that stays as it is; what is paler gets paler. Lower on a machine set to light."""


ORDINARY = Machine()
WORN = Machine(blur=0.9, noise=16.0, middle=120)
"""One with a dusty glass, set to light."""


@dataclass(frozen=True)
class Copy:
    """The last copy, and how a point of the page got there."""

    picture: Image.Image
    turn: float
    shrink: float

    def straightened(self) -> Image.Image:
        """The copy turned back and enlarged to the page's own size, so that places can be found."""
        return _turned(self.picture, -self.turn, 1 / self.shrink)


def raster(pdf: bytes, page: int, dpi: int = DPI) -> Image.Image:
    """A page in grey, as pdfium paints it."""
    document = pypdfium2.PdfDocument(pdf)
    picture = document[page].render(scale=dpi / 72, grayscale=True).to_pil().convert("L")
    document.close()
    return picture


def copied(
    picture: Image.Image, machine: Machine = ORDINARY, seed: int = 1, generations: int = GENERATIONS
) -> Copy:
    """The copy of a copy of a copy of a grey picture. Same picture and seed, same copy."""
    dice = random.Random(seed)
    turn, shrink = TURN / generations, SHRINK ** (1 / generations)
    speck = NormalDist(128, machine.noise)
    grain = [round(speck.inv_cdf((value + 0.5) / 256)) for value in range(256)]
    curve = [
        max(0, min(255, round(machine.middle + (value - machine.middle) * machine.contrast)))
        for value in range(256)
    ]
    for _ in range(generations):
        picture = _turned(picture, turn, shrink)
        picture = picture.filter(ImageFilter.GaussianBlur(machine.blur))
        noise = Image.frombytes("L", picture.size, dice.randbytes(picture.width * picture.height))
        picture = ImageChops.add(picture, noise.point(grain), offset=-128).point(curve)
    return Copy(picture, TURN, SHRINK)


def _turned(picture: Image.Image, degrees: float, scale: float) -> Image.Image:
    """Turned clockwise and scaled about the middle, on a sheet of the same size."""
    cos, sin = math.cos(math.radians(degrees)) / scale, math.sin(math.radians(degrees)) / scale
    cx, cy = picture.width / 2, picture.height / 2
    back = (cos, sin, cx - cos * cx - sin * cy, -sin, cos, cy + sin * cx - cos * cy)
    return picture.transform(
        picture.size, Image.Transform.AFFINE, back, Image.Resampling.BICUBIC, fillcolor=255
    )
