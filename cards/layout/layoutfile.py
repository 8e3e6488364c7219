"""Layout files: page, type, icon sizes and space, checked on loading with positions."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, model_validator

from cards.diagnostics.diagnostic import Result
from cards.source.faults import validate
from cards.source.fields import fault
from cards.source.nodes import read_nodes

BLOCKS = ("heading", "lead", "needs", "portions", "running", "steps", "safety", "foot")
"""The blocks of a card that a layout places, each once; the running title where it is wanted."""

READ_PER_HEIGHT = 300
"""Reading distance in capital heights of message text (ANSI Z535.4, known from memory)."""

CAPITAL_HEIGHT = 0.64
"""Height of capitals in ems (measured of the shipped font)."""

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
    numeral: Length
    small: Length
    reading_m: Annotated[float, Field(gt=0, le=20)] | None = None
    """Distance the words are read from; their capitals are 1/300 of it (ANSI Z535)."""

    @model_validator(mode="after")
    def _legible(self) -> TypeSizes:
        if self.reading_m is not None:
            needed = self.reading_m * 1000 / READ_PER_HEIGHT / CAPITAL_HEIGHT * 72 / 25.4
            if self.least[0] < needed - 0.05:
                raise fault(
                    "layout-type",
                    f"read from {self.reading_m:g} m, type of {self.least[0]:g} pt is too small",
                    f"make least: at least {math.ceil(needed)} for the first language, "
                    "or reading_m: smaller",
                )
        return self


class IconSizes(_Part):
    """Icon heights in mm; measures at their true sizes times ``measure_scale`` (wished, least)."""

    row_mm: Length
    measure_scale: Pair
    measure_least_mm: Length
    mark_mm: Length


class Space(_Part):
    """Space between blocks and rows in mm (wished, least); rows may grow to ``row_most_mm``."""

    block_mm: Pair
    row_mm: Pair
    row_most_mm: Length


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


class Columns(_Part):
    """Stacks of blocks side by side, with their shares of the width."""

    columns: Annotated[list[list[str]], Field(min_length=2, max_length=4)]
    widths: list[Length]

    @model_validator(mode="after")
    def _a_width_each(self) -> Columns:
        if len(self.widths) != len(self.columns):
            raise fault(
                "layout-block",
                f"{len(self.columns)} columns have {len(self.widths)} widths",
                "write one number for each column, as in widths: [2, 3]",
            )
        return self


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
    type: TypeSizes
    alone: TypeSizes | None = None
    """Type sizes where the card is in one language."""
    icons: IconSizes
    space: Space
    safety: SafetyShape
    qr: QrSize

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
            if name != "running" and placed.count(name) != 1:
                raise fault(
                    "layout-block",
                    f'the block "{name}" is placed {placed.count(name)} times',
                    "place each block once",
                )
        for name in self.continues:
            if name not in ("needs", "steps"):
                raise fault("layout-block", f'"{name}" cannot run on', "needs and steps can")
        return self

    def drawn(self, languages: int) -> Layout:
        """The layout as it is drawn, before it is magnified, for a number of languages."""
        kind = self.alone if languages == 1 and self.alone else self.type
        if self.magnify == 1:
            return self.model_copy(update={"type": kind})
        smaller = {
            name: _divided(part, self.magnify)
            for name, part in (
                ("page", self.page),
                ("type", kind),
                ("icons", self.icons),
                ("space", self.space),
                ("qr", self.qr),
            )
        }
        return self.model_copy(update=smaller)


def _divided(part: BaseModel, by: float) -> BaseModel:
    """All lengths of a part smaller by a factor."""

    def less(value: Any) -> Any:
        return tuple(v / by for v in value) if isinstance(value, tuple) else value / by

    kept = ("measure_scale", "reading_m")  # no lengths of the drawing
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
