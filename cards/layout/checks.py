"""Checks on placed pages: nothing leaves the page, overlaps, is too small or too black."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cards.diagnostics.diagnostic import Diagnostic, Place, error, warning
from cards.layout.cover import ink_covers
from cards.layout.layoutfile import Layout
from cards.layout.pages import (
    MM,
    BarItem,
    IconItem,
    Page,
    Pages,
    PanelItem,
    Placed,
    QrItem,
    RuleItem,
    TextItem,
)
from cards.layout.setting import LABEL_LEAST

SLACK = 0.3
"""Points two boxes may touch by, from rounding."""


def check_boxes(pages: Pages) -> tuple[Diagnostic, ...]:
    """Faults of place alone: what leaves the margin or lies on something else."""
    return tuple(
        fault for page in pages.pages for fault in (*_outside(page, pages), *_overlaps(page, pages))
    )


def check_pages(pages: Pages, layout: Layout) -> tuple[Diagnostic, ...]:
    """All faults of placing. An empty tuple is a page one may print."""
    found = list(check_boxes(pages))
    for page in pages.pages:
        found += _small(page, pages, layout)
    return (*found, *_heavy(pages, layout))


def _name(item: Placed) -> str:
    if isinstance(item, TextItem):
        return f'"{item.line.text}"'
    if isinstance(item, IconItem):
        return f"icon {item.icon.name}"
    return "QR code" if isinstance(item, QrItem) else "a line or box"


def _at(item: Placed, pages: Pages) -> Place:
    """Where a text comes from; the recipe as a whole for what has no line of its own."""
    if isinstance(item, TextItem) and item.at.line:
        return item.at
    return Place(pages.meta.path)


def _outside(page: Page, pages: Pages) -> Iterator[Diagnostic]:
    left, right = pages.margin - SLACK, pages.width - pages.margin + SLACK
    top, bottom = pages.margin - SLACK, pages.height - pages.margin + SLACK
    for item in page.items:
        x1, y1, x2, y2 = item.box
        if x1 < left or x2 > right or y1 < top or y2 > bottom:
            yield error(
                _at(item, pages), "outside-margin", f"{_name(item)} leaves the {page.name}'s margin"
            )


def _overlaps(page: Page, pages: Pages) -> Iterator[Diagnostic]:
    """Texts, icons and the QR code may not cover one another.

    Exempt: a number on the clock made for it, and icons of one fan.
    """
    solid = [i for i in page.items if not isinstance(i, RuleItem | PanelItem | BarItem)]
    for one, other in _crossing(solid):
        icons = isinstance(one, IconItem) and isinstance(other, IconItem)
        label = isinstance(one, IconItem) and one.under and _is_label(other)
        fan = icons and abs(one.box[3] - other.box[3]) < SLACK
        if not label and not fan:
            yield error(
                _at(one, pages),
                "overlap",
                f"{_name(one)} and {_name(other)} overlap on the {page.name}",
            )


def _crossing(items: Sequence[Placed]) -> Iterator[tuple[Placed, Placed]]:
    """Pairs of items whose boxes cross, in each pair the one that is read first."""
    downwards = sorted(enumerate(item.box for item in items), key=lambda numbered: numbered[1][1])
    for index, (one, a) in enumerate(downwards):
        for other, b in downwards[index + 1 :]:
            if b[1] >= a[3] - SLACK:
                break  # this one and all below it begin under the box
            if _cross(a, b):
                yield items[min(one, other)], items[max(one, other)]


def _is_label(item: Placed) -> bool:
    return isinstance(item, TextItem) and item.role == "label"


def _cross(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    return (
        a[1] < b[3] - SLACK and b[1] < a[3] - SLACK and a[0] < b[2] - SLACK and b[0] < a[2] - SLACK
    )


def _small(page: Page, pages: Pages, layout: Layout) -> Iterator[Diagnostic]:
    kind = layout.type
    # a number in a clock and the line of trace are sized by themselves
    limits = {"trace": kind.small, "label": LABEL_LEAST}
    for item in page.items:
        if not isinstance(item, TextItem):
            continue
        least = min(*kind.smallest, limits.get(item.role, min(kind.smallest)))
        if item.size < least - 0.01:
            yield error(
                _at(item, pages),
                "type-too-small",
                f"{_name(item)} is set in {item.size * pages.magnify:g} pt, "
                f"under {least * pages.magnify:g} pt",
            )
    for item in page.items:
        if isinstance(item, QrItem):
            module = item.side / (item.modules + 8) / MM
            if module < layout.qr.least_module_mm - 1e-6:
                yield error(_at(item, pages), "qr-too-small", f"QR modules of {module:.2f} mm")


def _heavy(pages: Pages, layout: Layout) -> Iterator[Diagnostic]:
    most = layout.ink.most_percent
    for page, cover in zip(pages.pages, ink_covers(pages), strict=True):
        if cover > most / 100:
            yield warning(
                Place(pages.meta.path),
                "ink-heavy",
                f"{cover:.1%} of the {page.name} is black, over {most:g}%: copies will smear",
                "measure with fewer and larger measures (1 cup for 16 spoons), or take out a step",
            )
