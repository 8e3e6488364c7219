"""The page to browse all cards: sound HTML, links that lead somewhere, and a real browser."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import unquote

import html5lib
import pytest
from click.testing import CliRunner

from cards.batch.browse import browse_page
from cards.batch.kit import Kit
from cards.batch.manifest import Entry, recall
from cards.cli import command
from cards.source.workspace import open_workspace
from tests.conftest import DEMO_FILES, ROOT

XHTML = "{http://www.w3.org/1999/xhtml}"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """All demo cards made, one of them under a name in another script."""
    root = tmp_path_factory.mktemp("browse")
    shutil.copytree(ROOT / "recipes", root / "recipes")
    for path in (root / "recipes").glob(f"{DEMO_FILES[2].stem}.*"):
        path.rename(path.with_name(path.name.replace(DEMO_FILES[2].stem, "अंडा #1?")))
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(root)
        result = CliRunner().invoke(command, ["make"])
        assert result.exit_code == 0, result.output
        yield root


def page_of(folder: Path) -> str:
    return (folder / "out" / "index.html").read_text(encoding="utf-8")


def test_the_page_is_sound_html(folder: Path) -> None:
    """html5lib in its strict mode raises at the first fault."""
    html5lib.HTMLParser(strict=True).parse(page_of(folder))


def test_every_link_and_picture_is_there(folder: Path) -> None:
    tree = html5lib.parse(page_of(folder))
    links = [e.get("href") for e in tree.iter(f"{XHTML}a")]
    pictures = [e.get("src") for e in tree.iter(f"{XHTML}img")]
    assert len(pictures) == len(DEMO_FILES)
    assert len(links) == 2 * len(DEMO_FILES)
    for link in (*links, *pictures):
        assert link
        assert (folder / "out" / unquote(link)).is_file(), link


def test_nothing_comes_from_elsewhere(folder: Path) -> None:
    page = page_of(folder)
    assert "://" not in page.replace("http://www.w3.org", "")
    assert 'src="/' not in page


def test_what_is_filled_in_is_text(folder: Path, kit: Kit) -> None:
    """A title that is HTML is shown, not obeyed."""
    entry = next(iter(recall(open_workspace(folder)).entries.values()))
    from dataclasses import replace

    evil = "<script>alert(1)</script>\"'&"
    told = replace(entry.about, titles=(("en", evil),), groups=('"><b>',), cautions=(("x", evil),))
    entries: list[Entry] = [replace(entry, about=told)]
    template = (ROOT / "templates" / "pages" / "index.html.j2").read_text(encoding="utf-8")
    with pytest.raises(KeyError):  # a group of no words is a fault of ours, not of a recipe
        browse_page(entries, template, kit)
    page = browse_page([replace(entries[0], about=replace(told, groups=()))], template, kit)
    assert "<script>alert" not in page
    tree = html5lib.parse(page)
    assert evil in "".join(tree.itertext())


def test_a_card_whose_recipe_is_gone_is_not_shown(folder: Path, tmp_path: Path) -> None:
    other = tmp_path / "copy"
    shutil.copytree(folder, other)
    (other / "recipes" / DEMO_FILES[1].name).unlink()
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(other)
        CliRunner().invoke(command, ["make"])
    assert page_of(other).count("<li") == len(DEMO_FILES) - 1


# a real browser


@pytest.fixture(scope="module")
def browser(folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[object]:
    """Chromium on the page, from the disk, with no network."""
    chromium, driver = shutil.which("chromium"), shutil.which("chromedriver")
    if chromium is None or driver is None:
        pytest.skip("Chromium or its driver is not installed")
    selenium = pytest.importorskip("selenium.webdriver")
    options = selenium.ChromeOptions()
    options.binary_location = chromium
    for word in (
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        f"--user-data-dir={tmp_path_factory.mktemp('chromium')}",
    ):
        options.add_argument(word)
    found = selenium.Chrome(options, selenium.ChromeService(driver))
    try:
        found.get((folder / "out" / "index.html").as_uri())
        yield found
    finally:
        found.quit()


def shown(browser: object) -> list[str]:
    script = (
        "return [...document.querySelectorAll('li.card.on h2 span:first-child')]"
        ".map(e => e.textContent)"
    )
    return list(browser.execute_script(script))  # type: ignore[attr-defined]


def set_field(browser: object, name: str, value: str) -> None:
    """Fill a field in as a person would."""
    field = browser.find_element("name", name)  # type: ignore[attr-defined]
    if field.tag_name == "select":
        option = field.find_element("css selector", f'option[value="{value}"]')
        option.click()
        assert field.get_attribute("value") == value
    else:
        field.clear()
        field.send_keys(value or " \b")


def test_searching_and_choosing(browser: object) -> None:
    assert len(shown(browser)) == len(DEMO_FILES)
    set_field(browser, "text", "egg")
    found = shown(browser)
    assert "Egg with greens and potato" in found
    assert len(found) < len(DEMO_FILES)
    set_field(browser, "text", "अंडा")
    assert "Egg with greens and potato" in shown(browser)
    set_field(browser, "text", "no such dish")
    assert shown(browser) == []
    set_field(browser, "text", "")
    assert len(shown(browser)) == len(DEMO_FILES)
    set_field(browser, "ages", "6-8")
    young = shown(browser)
    assert "Soft rice, moong and pumpkin" in young
    assert "Soft methi roti in curd" not in young
    set_field(browser, "group", "dairy")
    assert shown(browser) == ["Fruit, curd and sesame"]
    count = browser.find_element("id", "count").text  # type: ignore[attr-defined]
    assert count == f"1 / {len(DEMO_FILES)}"
    set_field(browser, "ages", "")
    set_field(browser, "group", "")


def test_pictures_load(browser: object) -> None:
    script = "return [...document.images].map(i => {i.loading='eager'; return i.src}).length"
    assert browser.execute_script(script) == len(DEMO_FILES)  # type: ignore[attr-defined]
    sizes = browser.execute_async_script(  # type: ignore[attr-defined]
        "const done = arguments[0];"
        "Promise.all([...document.images].map(i => i.decode().then(() => i.naturalWidth)))"
        ".then(done)"
    )
    assert set(sizes) == {240}


@pytest.mark.parametrize("width", [360, 1200])
def test_a_telephone_shows_all_of_it(width: int, browser: object) -> None:
    """At the width of a small telephone nothing lies outside; targets are as large as a thumb."""
    browser.execute_cdp_cmd(  # type: ignore[attr-defined]
        "Emulation.setDeviceMetricsOverride",
        {"width": width, "height": 740, "deviceScaleFactor": 2, "mobile": width < 500},
    )
    across = browser.execute_script("return document.documentElement.scrollWidth")  # type: ignore[attr-defined]
    assert across <= width
    script = (
        "return Math.min(...[...document.querySelectorAll('input, select')]"
        ".map(e => e.getBoundingClientRect().height))"
    )
    assert browser.execute_script(script) >= 44  # type: ignore[attr-defined]
