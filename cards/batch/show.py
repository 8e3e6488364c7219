"""Every stage as plain text, for reading and for comparing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from enum import Enum
from typing import Any

from cards.batch.analysis_text import analysis_text
from cards.batch.run import Run
from cards.card.model import Text
from cards.diagnostics.diagnostic import Place
from cards.layout.cover import ink_covers
from cards.layout.pages import IconItem, Pages, PanelItem, QrItem, RuleItem, TextItem
from cards.source.amounts import Amount, Duration
from cards.text.faces import Face
from cards.words.numbers import number_range

STAGES = ("recipe", "analysis", "card", "pages")


def stage_text(run: Run, stage: str) -> str:
    """The stage's value as text; a line saying so where the recipe did not come that far."""
    value = getattr(run, stage)
    if value is None:
        return f"{run.name} did not come as far as {stage}\n"
    if stage == "analysis":
        return analysis_text(run.analysis)  # type: ignore[arg-type]
    if stage == "pages":
        assert run.pages is not None
        return pages_text(run.pages)
    return "\n".join(_outline(value, 0)) + "\n"


def ink_text(pages: Pages) -> str:
    """How much of each side is black, for who pays the toner."""
    covers = zip(pages.pages, ink_covers(pages), strict=True)
    return "ink: " + ", ".join(f"{page.name} {cover:.1%}" for page, cover in covers)


def _outline(value: Any, depth: int) -> Iterator[str]:
    """A frozen value as an indented outline."""
    pad = "  " * depth
    for field in fields(value):
        inner = getattr(value, field.name)
        if isinstance(inner, Place) or inner in (None, "", (), {}):
            continue
        yield from _entry(field.name, inner, depth, pad)


def _entry(name: str, inner: Any, depth: int, pad: str) -> Iterator[str]:
    if isinstance(inner, tuple) and any(is_dataclass(i) and not _is_plain(i) for i in inner):
        yield f"{pad}{name}:"
        for item in inner:
            yield f"{pad}  -"
            yield from _outline(item, depth + 2)
    elif is_dataclass(inner) and not _is_plain(inner):
        yield f"{pad}{name}:"
        yield from _outline(inner, depth + 1)
    else:
        yield f"{pad}{name}: {_plain(inner)}"


def _is_plain(value: Any) -> bool:
    return isinstance(value, Amount | Duration | Enum | Face) or not is_dataclass(value)


def _plain(value: Any) -> str:
    if isinstance(value, Amount):
        return f"{number_range(value.low, value.high)} {value.unit}"
    if isinstance(value, Duration):
        night = ", overnight" if value.overnight else ""
        return f"{number_range(value.low, value.high)} minutes{night}"
    if isinstance(value, Text):
        return f"{value.language}: {value.text}"
    if isinstance(value, tuple):
        return ", ".join(_plain(item) for item in value)
    if isinstance(value, dict):
        return "; ".join(f"{key}: {_plain(item)}" for key, item in value.items())
    return str(value)


def pages_text(pages: Pages) -> str:
    """The placed items of each side in reading order, a line each, lengths in points."""
    lines: list[str] = []
    for page in pages.pages:
        lines.append(f"side {page.name} {pages.width:.1f} x {pages.height:.1f}")
        for item in page.items:
            x1, y1, x2, y2 = item.box
            box = f"{x1:6.1f} {y1:6.1f} {x2:6.1f} {y2:6.1f}"
            if isinstance(item, TextItem):
                lines.append(
                    f"  text  {box} {item.size:g} {item.language} {item.role}: {item.line.text}"
                )
            elif isinstance(item, IconItem):
                params = " ".join(
                    f"{k}={v if isinstance(v, str) else f'{v:g}'}" for k, v in item.icon.params
                )
                lines.append(f"  icon  {box} {item.icon.name} {params}".rstrip())
            elif isinstance(item, QrItem):
                lines.append(f"  qr    {box} {item.payload}")
            elif isinstance(item, PanelItem):
                lines.append(f"  panel {box}")
            elif isinstance(item, RuleItem):
                lines.append(f"  rule  {box}")
    return "\n".join(lines) + "\n"
