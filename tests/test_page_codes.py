"""Every page that is printed bears what it is of, in words and in a code that copiers leave."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterator
from dataclasses import replace

import pypdf
import pytest
from PIL import Image

from cards.batch.day import plan_day
from cards.batch.day_pages import day_chart_pages
from cards.batch.feeding_chart import feeding_chart_pages
from cards.batch.icon_pages import FILES, icon_pages
from cards.batch.kit import Kit, open_kit
from cards.batch.pack import Pack, build_pack
from cards.batch.stages import run_file, sheet_of
from cards.batch.tiling import tiles_of
from cards.layout.a4 import settled
from cards.layout.page_foot import LEAST_MODULE, MOST_MODULES, SIDE, CodeTooLong, code_item
from cards.layout.pages import MM, Page, Pages, QrItem, TextItem, flat
from cards.pdf.paint import paint
from cards.pdf.read_back import read_pdf
from cards.source.workspace import Workspace
from tests.conftest import ROOT
from tests.copier import ORDINARY, WORN, Machine, copied, raster
from tests.test_copier import by_zbar, by_zxing

SESSION = ROOT / "recipes" / "sessions" / "two-wells-thursday.yaml"
DAY = ROOT / "recipes" / "days" / "one-day.yaml"


@pytest.fixture(scope="module")
def pack(workspace: Workspace, kit: Kit, tmp_path_factory: pytest.TempPathFactory) -> Pack:
    """The demonstration's day with one village and one dish."""
    text = SESSION.read_text(encoding="utf-8")
    start, end = text.index("  - village: {en: Kacchi"), text.index("spare:")
    text = text[:start] + text[end:]
    start, end = text.index("  - ragi-cakes"), text.index("  - fruit-curd")
    text = text[:start] + text[end:]
    start, end = text.index("  - chart: sprouted"), text.index("price:")
    path = tmp_path_factory.mktemp("session") / "two-wells-thursday.yaml"
    path.write_text(text[:start] + text[end : text.index("market:")], encoding="utf-8")
    made = build_pack(path, workspace, kit)
    assert not made.stopped, made.diagnostics
    return made


def kit_of(workspace: Workspace, *languages: str) -> Kit:
    kit = open_kit(workspace, "", languages).value
    assert kit is not None
    return kit


def codes(page: Page) -> list[QrItem]:
    return [item for item in page.items if isinstance(item, QrItem)]


def texts(page: Page) -> str:
    return " ".join(item.line.text for item in page.items if isinstance(item, TextItem))


@pytest.mark.parametrize("languages", [("en", "hi"), ("ur",), ("ta",)])
@pytest.mark.parametrize("what", list(FILES))
def test_pages_about_icons_bear_their_code(
    what: str, languages: tuple[str, ...], workspace: Workspace
) -> None:
    """On all of them of one size at one place, mirrored with the page where it is read so."""
    pages = icon_pages(what, ("egg", "no-salt", "steam"), kit_of(workspace, *languages)).value
    assert pages is not None
    places = set()
    for page in pages.pages:
        (code,) = codes(page)
        assert code.side == SIDE
        digest = code.payload.partition("?d=")[2][:10]
        assert digest in texts(page)
        assert code.payload.endswith(f"&p={FILES[what]}")
        places.add((round(code.x, 3), round(code.y, 3)))
    assert len(places) == 1
    ((x, _),) = places
    assert (x < pages.width / 2) == (languages[0] == "ur")


def test_every_page_of_a_pack_bears_its_code(pack: Pack) -> None:
    """Cards bear their own on the side that has the foot; the cover's back is empty."""
    session = set()
    for name, data in pack.files.items():
        if not name.endswith(".pdf"):
            continue
        told = read_pdf(data)
        assert told is not None
        assert told.codes, name
        if name[0] in "45678":
            assert all(told.codes[0] in page for page in told.pages), name
            assert len(told.codes) == 1, name
            session.add(told.codes[0])
        elif name.endswith("-tiles.pdf") or name[0] == "3":
            assert all(told.codes[0] in page for page in told.pages), name
    assert len(session) == 1
    cover = read_pdf(pack.files["1-cards.pdf"])
    assert cover is not None
    assert session.pop() in cover.pages[0]


def pages_of_each_kind(workspace: Workspace, kit: Kit, pack: Pack) -> Iterator[tuple[str, bytes]]:
    for what in FILES:
        pages = icon_pages(what, ("egg", "no-salt"), kit).value
        assert pages is not None
        yield what, paint(pages)
    for name in ("4-shopping.pdf", "6-hours.pdf", "8-checklist.pdf"):
        yield name, pack.files[name]
    yield "tiles", pack.files["2-chart-feeding-a2-tiles.pdf"]
    yield "sheet", pack.files["3-sheet-fruit-curd-sesame.pdf"]


@pytest.mark.parametrize("machine", [ORDINARY, WORN], ids=["ordinary", "worn"])
def test_codes_are_read_from_a_third_copy(
    machine: Machine, workspace: Workspace, kit: Kit, pack: Pack
) -> None:
    for name, data in pages_of_each_kind(workspace, kit, pack):
        picture = copied(raster(data, 0), machine).picture
        told = read_pdf(data)
        assert told is not None
        for reader in (by_zxing, by_zbar):
            # on the map of tiles the chart's own code may be read too
            found = {code.partition("?d=")[2][:10] for code in reader(picture)}
            assert found == {told.codes[0]}, (name, reader)


@pytest.mark.parametrize("reader", [by_zxing, by_zbar])
def test_the_finest_code_is_read_from_a_copy(
    reader: Callable[[Image.Image], list[str]], kit: Kit
) -> None:
    """The longest address that a page takes, whose modules are as fine as they may be."""
    payload = longest()
    code = code_item(payload)
    assert LEAST_MODULE <= code.side / (code.modules + 8) < LEAST_MODULE * 1.2
    meta = icon_pages("lesson", (), kit).value
    assert meta is not None
    page = Page("one", flat((code,), 100 * MM, 100 * MM))
    data = paint(Pages(210 * MM, 297 * MM, 0, meta.meta, (page,)))
    assert reader(copied(raster(data, 0)).picture) == [payload]
    with pytest.raises(CodeTooLong):
        code_item(payload + "y" * 60)


def longest() -> str:
    payload = "https://two-wells.example/"
    while True:
        try:
            code_item(payload + "x")
        except CodeTooLong:
            assert code_item(payload).modules <= MOST_MODULES
            return payload
        payload += "x"


def test_a_link_that_is_too_long_is_told_once(kit: Kit) -> None:
    long = replace(kit, programme=replace(kit.programme, link=f"https://x.example/{'y' * 300}/"))
    made = icon_pages("sheet", (), long)
    assert made.value is None
    assert [one.kind for one in made.diagnostics] == ["name-too-long"]


def test_charts_bear_their_digest_in_words_and_code(workspace: Workspace, kit: Kit) -> None:
    feeding = feeding_chart_pages("a2", kit).value
    plan = plan_day(DAY, workspace, kit).value
    assert plan is not None
    day = day_chart_pages(plan, kit).value
    for pages in (feeding, day):
        assert pages is not None
        for page in pages.pages:
            (code,) = codes(page)
            assert code.payload.partition("?d=")[2][:10] in texts(page)
        assert pages.meta.code == code.payload
        sheets = tiles_of(paint(pages), pages.meta, "x", kit).value
        assert sheets is not None
        told = read_pdf(sheets)
        assert told is not None
        assert all(told.codes[0] in page for page in told.pages)


def test_the_trainers_sheet_bears_the_cards_code(workspace: Workspace, kit: Kit) -> None:
    run = run_file(ROOT / "recipes" / "egg-spinach-potato.yaml", workspace, kit)
    sheet = sheet_of(run, kit)
    assert run.card is not None
    assert sheet is not None
    for page in sheet.pages:
        (code,) = codes(page)
        assert code.payload == run.card.foot.qr


# words that nobody has read over, and digits


MARKS = {"hi": "अनुवाद की जाँच बाकी"}
"""The mark as the words file has it; a test would not see another."""


def test_drafts_are_marked_on_every_page(workspace: Workspace, kit: Kit, pack: Pack) -> None:
    """Hindi is a draft, English is the source."""
    feeding = feeding_chart_pages("a2", kit).value
    plan = plan_day(DAY, workspace, kit).value
    assert plan is not None
    placed = [icon_pages(what, ("egg",), kit).value for what in FILES]
    placed += [feeding, day_chart_pages(plan, kit).value]
    for pages in placed:
        assert pages is not None
        for page in pages.pages:
            assert texts(page).count(MARKS["hi"]) == 1, pages.meta.title
    for name in ("4-shopping.pdf", "5-kitchen.pdf", "6-hours.pdf", "7-print-plan.pdf"):
        told = read_pdf(pack.files[name])
        assert told is not None
        for words in told.pages:
            assert MARKS["hi"] in " ".join(words.split())


def test_words_that_are_signed_for_bear_no_mark(kit: Kit) -> None:
    english = replace(
        kit, languages=kit.languages[:1], programme=replace(kit.programme, chosen=("en",))
    )
    pages = icon_pages("lesson", (), english).value
    assert pages is not None
    assert "draft" not in texts(pages.pages[0])


@pytest.mark.parametrize("code", ["mr", "bn"])
def test_numbers_are_in_the_digits_of_the_language(code: str, workspace: Workspace) -> None:
    """Marathi and Bengali count in digits of their own (Unicode CLDR, default numbering system).

    What leads back to a file, and documents that are named, keep ours.
    """
    kit = kit_of(workspace, code)
    own = {"mr": "DEVANAGARI DIGIT", "bn": "BENGALI DIGIT"}[code]
    for what in FILES:
        pages = icon_pages(what, ("egg", "no-salt"), kit).value
        assert pages is not None
        for page in pages.pages:
            for item in page.items:
                if isinstance(item, TextItem) and item.role not in ("trace", "source", "name"):
                    for sign in item.line.text:
                        if sign.isdigit():
                            assert unicodedata.name(sign).startswith(own), item.line.text


def test_papers_of_a_day_count_in_the_digits_of_their_language(
    workspace: Workspace, tmp_path: pytest.TempPathFactory
) -> None:
    from cards.batch.kit import kit_in
    from cards.layout.session.hours_page import place_hours
    from cards.layout.session.paper_pages import place_paper
    from cards.plan.hours_paper import hours_paper
    from cards.plan.kitchen import kitchen_needs
    from cards.plan.shopping import shop
    from cards.plan.shopping_paper import kitchen_paper, shopping_paper
    from cards.plan.timeline import plan_hours
    from cards.source.session import read_session

    base = kit_of(workspace)
    kit = kit_in(workspace, base, ("mr",)).value
    assert kit is not None
    text = SESSION.read_text(encoding="utf-8").replace("hi: ", "mr: ")
    text = (
        text[: text.index("recipes:")] + "recipes: [egg-spinach-potato]\nspare: 1\nvillages:\n"
        "  - {village: Neemtal, languages: [mr], copies: 2}\n"
    )
    session = read_session(text, "recipes/sessions/x.yaml", kit.programme).value
    assert session is not None
    run = run_file(ROOT / "recipes" / "egg-spinach-potato.yaml", workspace, kit)
    assert run.recipe is not None
    assert run.analysis is not None
    dishes = [(run.recipe, run.analysis)]
    shopping = shop(session, dishes, kit.table, kit.measures).value
    assert shopping is not None
    hours = plan_hours([run.recipe], session.starts)
    needs = kitchen_needs(session, [run.recipe], kit.measures)
    papers = (
        shopping_paper(session, shopping, kit.programme, kit.languages),
        kitchen_paper(session, needs, kit.programme, kit.languages),
    )
    bars = hours_paper(session, hours, dishes, kit.programme, kit.languages)
    placed = [settled(lambda p=p: place_paper(p, kit.layout, kit.book), session.at) for p in papers]  # type: ignore[misc]
    placed.append(settled(lambda: place_hours(bars, kit.layout, kit.book), session.at))
    counted = 0
    for result in placed:
        assert result.value is not None
        for page in result.value.pages:
            for item in page.items:
                if isinstance(item, TextItem) and item.role != "trace":
                    if "USDA" in item.line.text:
                        continue
                    digits = [sign for sign in item.line.text if sign.isdigit()]
                    counted += len(digits)
                    for sign in digits:
                        assert unicodedata.name(sign).startswith("DEVANAGARI DIGIT"), item.line.text
    assert counted > 40


def test_papers_carry_what_they_rest_on(pack: Pack) -> None:
    """The session's file and its recipes, so that they can be compared without git."""
    import io

    file = pypdf.PdfReader(io.BytesIO(pack.files["4-shopping.pdf"]))
    assert "two-wells-thursday.yaml" in file.attachments
    assert "recipes/fruit-curd-sesame.yaml" in file.attachments
