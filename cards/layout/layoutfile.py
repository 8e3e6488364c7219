"""Layout files: page, type, icon sizes and space, checked on loading with positions."""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field, model_validator

from cards.diagnostics.diagnostic import Result
from cards.source.faults import validate
from cards.source.fields import fault
from cards.source.nodes import read_nodes

BLOCKS = ("heading", "lead", "needs", "portions", "running", "steps", "safety", "foot")
"""The blocks of a card that a layout places, each once; the running title where it is wanted."""

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


class InkLimit(_Part):
    """The most of a side that may be black, in percent; more is smeared and eaten by copiers."""

    most_percent: Annotated[float, Field(gt=0, le=50)] = 12.0


class Layout(_Part):
    """A layout file."""

    layout: str
    page: PageSize
    sides: dict[str, list[str]]
    type: TypeSizes
    icons: IconSizes
    space: Space
    safety: SafetyShape
    qr: QrSize
    ink: InkLimit = InkLimit()

    @model_validator(mode="after")
    def _blocks_once(self) -> Layout:
        placed = [name for blocks in self.sides.values() for name in blocks]
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
        return self


def load_layout(text: str, file: str) -> Result[Layout]:
    """A layout file's text as a ``Layout``."""
    nodes = read_nodes(text, file)
    if nodes.value is None or nodes.failed:
        return Result(None, nodes.diagnostics)
    layout, faults = validate(Layout, nodes.value)
    return Result(layout, tuple(faults))
