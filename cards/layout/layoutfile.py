"""Layout files: page, type, icon sizes and space, checked on loading with positions."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, model_validator

from cards.diagnostics.diagnostic import Result
from cards.source.faults import validate
from cards.source.fields import fault, one_of
from cards.source.nodes import read_nodes

BLOCKS = ("heading", "lead", "needs", "portions", "running", "steps", "safety", "foot")
"""The blocks of a card that a layout places, each once; the running title where it is wanted."""

SPARED = ("lead",)
"""Blocks a layout may leave out: never ages, amounts, steps, cautions or source."""

READ_PER_HEIGHT = 300
"""Reading distance in capital heights of message text (ANSI Z535.4, known from memory)."""

CAPITAL_HEIGHT = 0.64
"""Height of capitals in ems (measured of the shipped font)."""

STACKED, BESIDE, TURNED = KINDS = ("stacked", "beside", "turned")
"""How two languages stand: one under the other, in two columns, one on each side of the sheet."""

Length = Annotated[float, Field(gt=0, le=2000)]
Pair = Annotated[tuple[Length, Length], Field()]


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class PageSize(_Part):
    """Trim size and margin."""

    width_mm: Length
    height_mm: Length
    margin_mm: Annotated[float, Field(ge=5, le=60)]


class TypeSizes(_Part):
    """Type sizes in points; pairs are first and second language."""

    title: Pair
    title_least: Pair
    body: Pair
    least: Pair
    last: Annotated[list[Pair], Field(max_length=4)] = Field(default_factory=list)
    """Smaller sizes than the least, tried in this order where a side fits at no others."""
    numeral: Length
    small: Length
    message: Pair | None = None
    """Names of ingredients and amounts on a chart; without it they are set like the body."""
    reading_m: Annotated[float, Field(gt=0, le=20)] | None = None
    """Distance the words are read from; their capitals are 1/300 of it (ANSI Z535)."""
    message_m: Annotated[float, Field(gt=0, le=20)] | None = None
    """The same for title, numerals and message, where those are read from further."""

    @property
    def smallest(self) -> tuple[float, float]:
        """Nothing on a card is smaller, but what is sized by itself."""
        return self.last[-1] if self.last else self.least

    @model_validator(mode="after")
    def _legible(self) -> TypeSizes:
        _read_from(self.reading_m, "reading_m", {"least": self.smallest[0]})
        message = {"title_least": self.title_least[0], "numeral": self.numeral}
        if self.message:
            message["message"] = self.message[0]
        _read_from(self.message_m, "message_m", message)
        return self

    @model_validator(mode="after")
    def _second_not_lost(self) -> TypeSizes:
        """The second language is apart and smaller, never under half of the first."""
        pairs = [
            (n, getattr(self, n)) for n in ("title", "title_least", "body", "least", "message")
        ]
        for name, pair in (*pairs, *(("last", pair) for pair in self.last)):
            first, second = pair or (1, 1)
            if second < first / 2:
                raise fault(
                    "layout-type",
                    f"in {name}: the second language of {second:g} pt is under half of the first",
                    f"make it at least {first / 2:g}",
                )
        return self

    def alike(self) -> TypeSizes:
        """Both languages as large as the first."""
        pairs = ("title", "title_least", "body", "least", "message")
        first = {name: getattr(self, name) and getattr(self, name)[:1] * 2 for name in pairs}
        return self.model_copy(update={**first, "last": [pair[:1] * 2 for pair in self.last]})


def _read_from(metres: float | None, key: str, sizes: dict[str, float]) -> None:
    """Sizes by name, in points, are large enough to be read from a distance, or a fault."""
    if metres is None:
        return
    needed = metres * 1000 / READ_PER_HEIGHT / CAPITAL_HEIGHT * 72 / 25.4
    for name, size in sizes.items():
        if size < needed - 0.05:
            raise fault(
                "layout-type",
                f"read from {metres:g} m, type of {size:g} pt is too small",
                f"make {name}: at least {math.ceil(needed)} for the first language, "
                f"or {key}: smaller",
            )


class IconSizes(_Part):
    """Icon heights in mm; measures at their true sizes times ``measure_scale`` (wished, least)."""

    row_mm: Length
    row_most_mm: Length | None = None
    """How high pictures of steps are where there is room; ``row_mm`` is then their least."""
    measure_scale: Pair
    measure_least_mm: Length
    mark_mm: Length


class Space(_Part):
    """Space between blocks and rows in mm (wished, least); rows may grow to ``row_most_mm``."""

    block_mm: Pair
    row_mm: Pair
    row_most_mm: Length
    second_mm: Annotated[float, Field(ge=0, le=20)] = 0
    """By which a language stands in under the first, so that the eye finds its own lines."""


class SafetyShape(_Part):
    """Columns of the safety box and how many cautions it takes."""

    columns: Annotated[int, Field(ge=1, le=4)]
    most: Annotated[int, Field(ge=1, le=12)]
    usual: Annotated[int, Field(ge=1, le=12)]
    least: Annotated[int, Field(ge=1, le=12)]


class QrSize(_Part):
    """Module size in mm, wished and least."""

    module_mm: Length
    least_module_mm: Annotated[float, Field(ge=0.4)]


class InkLimit(_Part):
    """The most of a side that may be black, in percent; more is smeared and eaten by copiers."""

    most_percent: Annotated[float, Field(gt=0, le=50)] = 12.0


class Wall(_Part):
    """The form for a wall: how many ingredients, and how many steps, stand side by side."""

    needs: Annotated[int, Field(ge=1, le=6)]
    steps: Annotated[int, Field(ge=1, le=6)]


class Columns(_Part):
    """Stacks of blocks side by side, with their shares of the width."""

    columns: Annotated[list[list[str]], Field(min_length=2, max_length=4)]
    widths: list[Length]
    else_widths: list[Length] | None = None
    """Shares that are tried where a side fits no other way: one column may have room left."""

    @model_validator(mode="after")
    def _a_width_each(self) -> Columns:
        for widths in (self.widths, self.else_widths or self.widths):
            if len(widths) != len(self.columns):
                raise fault(
                    "layout-block",
                    f"{len(self.columns)} columns have {len(widths)} widths",
                    "write one number for each column, as in widths: [2, 3]",
                )
        return self

    @property
    def otherwise(self) -> Columns:
        """The columns with the shares that are tried last."""
        return self.model_copy(update={"widths": self.else_widths or self.widths})


def _band(given: Any) -> Any:
    """A band is the name of a block, or columns."""
    if isinstance(given, str | dict):
        return given
    raise fault("layout-block", "this is neither a block nor columns", "name a block")


Band = Annotated[str | Columns, BeforeValidator(_band)]


class Layout(_Part):
    """A layout file. Lengths are those on the paper."""

    layout: str
    page: PageSize
    sides: dict[str, list[Band]]
    magnify: Annotated[float, Field(ge=0.5, le=10)] = 1
    """How much larger than on a hand card lines, gaps and pictures are drawn."""
    continues: list[str] = Field(default_factory=list)
    """Blocks that may run on to a further side."""
    running_on_is_meant: bool = True
    """Whether the card is made for it; else a card that does so comes with a warning."""
    leaves_out: list[str] = Field(default_factory=list)
    """Blocks that this layout does without."""
    languages: Annotated[str, one_of(KINDS, "value-wrong", "a way to set two languages")] = STACKED
    """How a card in two languages is set."""
    wall: Wall | None = None
    """Ingredients, portions, steps and foot in their form for a wall, if given."""
    type: TypeSizes
    alone: TypeSizes | None = None
    """Type sizes where the card is in one language."""
    icons: IconSizes
    icons_alone: IconSizes | None = None
    """Icon sizes where the card is in one language."""
    space: Space
    safety: SafetyShape
    qr: QrSize
    ink: InkLimit = InkLimit()

    @model_validator(mode="after")
    def _blocks_once(self) -> Layout:
        placed = [name for bands in self.sides.values() for name in blocks_of(bands)]
        for name in placed:
            if name not in BLOCKS:
                raise fault(
                    "layout-block",
                    f'"{name}" is not a block of a card',
                    f"choose from {', '.join(BLOCKS)}",
                )
        for name in BLOCKS:
            if name in self.leaves_out and name not in placed:
                continue
            if name != "running" and placed.count(name) != 1:
                raise fault(
                    "layout-block",
                    f'the block "{name}" is placed {placed.count(name)} times',
                    "place each block once",
                )
        for name in self.leaves_out:
            if name not in SPARED:
                raise fault(
                    "layout-block",
                    f'"{name}" cannot be left out',
                    f"a layout may do without: {', '.join(SPARED)}",
                )
        for name in self.continues:
            if name not in ("needs", "steps"):
                raise fault("layout-block", f'"{name}" cannot run on', "needs and steps can")
        return self

    @model_validator(mode="after")
    def _languages_hold(self) -> Layout:
        if self.wall and self.languages != STACKED:
            raise fault(
                "layout-languages",
                f'the form for a wall cannot be "{self.languages}"',
                f"leave out wall:, or write languages: {STACKED}",
            )
        if self.languages == TURNED and (len(self.sides) > 1 or self.continues):
            raise fault(
                "layout-languages",
                "each language needs one side that holds the whole card",
                "place all blocks on one side, and leave out continues:",
            )
        return self

    def beside(self, block: str) -> int:
        """How many of a block's rows stand side by side on a wall chart."""
        return int(getattr(self.wall, block)) if self.wall else 1

    def drawn(self, languages: int) -> Layout:
        """The layout as it is drawn, before it is magnified, for a number of languages."""
        kind = self.alone if languages == 1 and self.alone else self.type
        icons = self.icons_alone if languages == 1 and self.icons_alone else self.icons
        if self.languages == TURNED:
            kind = (self.alone or self.type).alike()
        if self.magnify == 1:
            return self.model_copy(update={"type": kind, "icons": icons})
        smaller = {
            name: _divided(part, self.magnify)
            for name, part in (
                ("page", self.page),
                ("type", kind),
                ("icons", icons),
                ("space", self.space),
                ("qr", self.qr),
            )
        }
        return self.model_copy(update=smaller)


def _divided(part: BaseModel, by: float) -> BaseModel:
    """All lengths of a part smaller by a factor."""

    def less(value: Any) -> Any:
        if value is None:
            return None
        if isinstance(value, tuple | list):
            return type(value)(less(v) for v in value)
        return value / by

    kept = ("measure_scale", "reading_m", "message_m")  # no lengths of the drawing
    values = {k: v if k in kept else less(v) for k, v in part.model_dump().items()}
    return part.model_copy(update=values)


def blocks_of(bands: Sequence[str | Columns]) -> list[str]:
    """The blocks of a side in reading order."""
    return [
        name
        for band in bands
        for name in ([band] if isinstance(band, str) else [n for c in band.columns for n in c])
    ]


def load_layout(text: str, file: str) -> Result[Layout]:
    """A layout file's text as a ``Layout``."""
    nodes = read_nodes(text, file)
    if nodes.value is None or nodes.failed:
        return Result(None, nodes.diagnostics)
    layout, faults = validate(Layout, nodes.value)
    return Result(layout, tuple(faults))
