"""Placed pages: golden box lists and rasters, checks on the boxes, and faults that must be seen."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from PIL import Image

from cards.batch.kit import Kit
from cards.batch.show import stage_text
from cards.batch.stages import Run
from cards.layout.checks import check_pages
from cards.layout.layoutfile import load_layout
from cards.layout.pages import MM, IconItem, Pages, Placed, QrItem, TextItem
from cards.layout.place import Fit, place, rounds
from cards.pdf.paint import paint
from cards.text.wrap import spans_of, width_of, words_of, wrap
from tests.conftest import DEMO_FILES, PLAIN, ROOT, Bench
from tests.golden import FOLDER, differing_tiles, raster

DEMOS = [p.stem for p in DEMO_FILES]


@pytest.mark.parametrize("demo", DEMOS)
def test_boxes_are_where_they_were(demo: str, demos: dict[str, Run]) -> None:
    """After a wanted change: look at the pages, then run ``python -m tests.golden``."""
    golden = (FOLDER / f"{demo}.txt").read_text(encoding="utf-8")
    assert stage_text(demos[demo], "pages") == golden


@pytest.mark.parametrize("demo", DEMOS)
def test_pages_look_as_they_did(demo: str, pdfs: dict[str, bytes]) -> None:
    for page in (0, 1):
        with Image.open(FOLDER / f"{demo}-{page + 1}.png") as golden:
            assert differing_tiles(raster(pdfs[demo], page), golden.convert("L")) == []


def changed(
    pages: Pages, wanted: Callable[[Placed], bool], change: Callable[[Placed], Placed]
) -> Pages:
    """The pages with the first wanted item changed."""
    done = False
    new_pages = []
    for page in pages.pages:
        items = []
        for item in page.items:
            if not done and wanted(item):
                item, done = change(item), True
            items.append(item)
        new_pages.append(replace(page, items=tuple(items)))
    assert done
    return replace(pages, pages=tuple(new_pages))


def without_vowel_sign(item: Placed, kit: Kit) -> Placed:
    assert isinstance(item, TextItem)
    spoilt = item.line.text.replace("ि", "", 1)
    words = words_of(spans_of(spoilt), kit.book, "hi")
    line = wrap(words, item.size, width_of(words, item.size) + 1)[0]
    return replace(item, line=line)


@pytest.mark.parametrize("fault", ["vowel", "icon"])
def test_seeded_faults_are_seen(fault: str, demos: dict[str, Run], kit: Kit) -> None:
    """A dropped vowel sign and an icon 2 mm off must not pass for the golden page."""
    run = demos["pumpkin-rice-moong"]
    assert run.pages is not None
    if fault == "vowel":
        spoilt = changed(
            run.pages,
            lambda i: isinstance(i, TextItem) and "भिगोएँ" in i.line.text,
            lambda i: without_vowel_sign(i, kit),
        )
    else:
        spoilt = changed(
            run.pages,
            lambda i: isinstance(i, IconItem) and i.icon.name == "soak",
            lambda i: i.moved(2 * MM, 0),
        )
    golden_text = (FOLDER / "pumpkin-rice-moong.txt").read_text(encoding="utf-8")
    assert stage_text(replace(run, pages=spoilt), "pages") != golden_text
    with Image.open(FOLDER / "pumpkin-rice-moong-2.png") as golden:
        assert differing_tiles(raster(paint(spoilt), 1), golden.convert("L"))


def test_demo_pages_pass_all_checks(demos: dict[str, Run], kit: Kit) -> None:
    for run in demos.values():
        assert run.pages is not None
        assert check_pages(run.pages, kit.layout) == ()


def kinds(pages: Pages, kit: Kit) -> set[str]:
    return {d.kind for d in check_pages(pages, kit.layout)}


def is_text(item: Placed) -> bool:
    return isinstance(item, TextItem) and item.role == "body"


def words_in(item: Placed) -> str:
    return item.line.text if isinstance(item, TextItem) else ""


def down(item: Placed) -> Placed:
    return item.moved(0, 12)


def test_checks_see_what_is_wrong(demos: dict[str, Run], kit: Kit) -> None:
    run = demos["pumpkin-rice-moong"]
    assert run.pages is not None
    assert kinds(changed(run.pages, is_text, lambda i: i.moved(0, -40)), kit) >= {"outside-margin"}
    onto = changed(run.pages, lambda i: is_text(i) and "turmeric" in words_in(i), down)
    assert kinds(onto, kit) >= {"overlap"}
    small = changed(run.pages, is_text, lambda i: replace(i, size=8.0))  # type: ignore[arg-type]
    assert kinds(small, kit) >= {"type-too-small"}
    tiny = changed(run.pages, lambda i: isinstance(i, QrItem), lambda i: replace(i, side=12 * MM))  # type: ignore[arg-type]
    assert kinds(tiny, kit) >= {"qr-too-small"}


def test_least_sizes(demos: dict[str, Run]) -> None:
    """Body text at least 12 pt in the first language and 10 pt in the second; measures 9 mm."""
    for run in demos.values():
        assert run.pages is not None
        for page in run.pages.pages:
            for item in page.items:
                if isinstance(item, TextItem) and item.role in ("body", "title"):
                    assert item.size >= (12 if item.language == "en" else 10), item.line.text
                elif isinstance(item, TextItem):
                    assert item.size >= 10
                if isinstance(item, IconItem) and item.icon.name in (
                    "cup",
                    "bowl",
                    "tablespoon",
                    "teaspoon",
                    "pinch",
                    "handful",
                    "egg",
                    "leaf",
                    "lemon",
                    "tomato",
                    "onion",
                    "chunk",
                ):
                    assert item.height >= 9 * MM - 0.01, item.icon.name


def test_too_much_text_is_refused_with_the_lines_to_shorten(bench: Bench) -> None:
    long = (
        "Stir this very slowly and carefully for a long while and then stir again until done well"
    )
    steps = "".join(f"  - do: mix\n    use: rice\n    en: {long} {n}\n" for n in range(8))
    run = bench.run(PLAIN + steps)
    told = [d for d in run.diagnostics if d.kind == "side-too-full"]
    assert len(told) == 1
    assert run.pages is None
    assert told[0].place.line >= 17
    assert f"line {told[0].place.line}" in told[0].hint
    assert "Stir this" in told[0].hint


def test_a_word_that_fits_nowhere_is_named(bench: Bench) -> None:
    run = bench.run(PLAIN.replace("Soft rice", "S" + "o" * 60 + "ft"))
    told = [d for d in run.diagnostics if d.kind == "word-too-wide"]
    assert [d.place.line for d in told] == [2]


def test_type_shrinks_before_a_side_is_refused(bench: Bench) -> None:
    steps = "".join(
        f"  - do: mix\n    en: Stir slowly and with care, round and round {n}\n" for n in range(5)
    )
    run = bench.run(PLAIN + steps)
    assert run.pages is not None
    sizes = [
        i.size
        for i in run.pages.pages[1].items
        if isinstance(i, TextItem) and i.language == "en" and i.role == "body"
    ]
    assert 12 <= min(sizes) < bench.kit.layout.type.body[0]


@pytest.mark.parametrize(
    ("old", "new", "kind"),
    [
        ("front: [heading,", "front: [", "layout-block"),
        ("front: [heading,", "front: [heading, heading,", "layout-block"),
        ("front: [heading,", "front: [header,", "layout-block"),
        ("width_mm: 148", "width_mm: wide", "value-wrong"),
        ("margin_mm: 8", "margin_mm: 8, bleed: 3", "key-unknown"),
        ("  numeral: 18\n", "", "key-missing"),
    ],
)
def test_layout_files_are_checked(old: str, new: str, kind: str) -> None:
    text = (ROOT / "templates" / "layouts" / "hand-card.yaml").read_text(encoding="utf-8")
    assert old in text
    result = load_layout(text.replace(old, new), "hand-card.yaml")
    assert [d.kind for d in result.diagnostics] == [kind]


def test_placing_is_pure(demos: dict[str, Run], kit: Kit) -> None:
    run = demos["egg-spinach-potato"]
    assert run.card is not None
    assert place(run.card, kit.layout, kit.book).value == run.pages


@pytest.mark.parametrize("demo", DEMOS)
def test_a_side_that_fits_at_a_size_fits_at_all_smaller_ones(
    demo: str, demos: dict[str, Run], kit: Kit
) -> None:
    """What the search for the first that fits rests on, tried at every size."""
    card, page = demos[demo].card, kit.layout.page
    assert card is not None
    room = tuple((side - 2 * page.margin_mm) * MM for side in (page.width_mm, page.height_mm))
    for bands in kit.layout.sides.values():
        fit = Fit(card, bands, kit.layout, kit.book, room)  # type: ignore[arg-type]
        for sizes in rounds(kit.layout):
            over = [fit.over(one) for one in sizes]
            assert over == sorted(over, reverse=True)
