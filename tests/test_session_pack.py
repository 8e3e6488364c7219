"""The folder of a training day: whole or not at all, and what its files hold."""

from __future__ import annotations

import csv
import io
import shutil
from collections import Counter
from dataclasses import replace
from pathlib import Path
from typing import Any

import pypdf
import pytest
from click.testing import CliRunner, Result
from filelock import FileLock

from cards.batch import write
from cards.batch.kit import Kit
from cards.batch.pack import PLAN, Pack, build_pack
from cards.card.model import CardMeta, Text
from cards.card.origin import PageFoot
from cards.cli import command
from cards.diagnostics.diagnostic import Place
from cards.diagnostics.diagnostic import Result as Outcome
from cards.layout.a4 import settled
from cards.layout.pages import BarItem, PanelItem, TextItem
from cards.layout.session.hours_page import place_hours
from cards.layout.session.paper_pages import place_paper
from cards.plan.day_papers import Pile, broken, cover_paper
from cards.plan.hours_paper import hours_paper
from cards.plan.paper import Column, Paper, Section
from cards.plan.timeline import plan_hours
from cards.source.session import read_session
from cards.source.workspace import Workspace
from tests.conftest import PLAIN, ROOT
from tests.test_session import SESSION

DEMO = ROOT / "recipes" / "sessions" / "two-wells-thursday.yaml"


@pytest.fixture(scope="module")
def demo(workspace: Workspace, kit: Kit) -> Pack:
    made = build_pack(DEMO, workspace, kit)
    assert made.diagnostics == [], made.diagnostics
    return made


def reader(data: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(data))


def words(data: bytes, page: int = 0) -> str:
    return " ".join(reader(data).pages[page].extract_text().split())


def test_every_file_opens_and_is_counted(demo: Pack) -> None:
    told = {one.name: one for one in demo.printed}
    pdfs = {name for name in demo.files if name.endswith(".pdf")}
    assert pdfs == told.keys()
    for name in pdfs:
        assert len(reader(demo.files[name]).pages) == told[name].sides, name
        assert told[name].sheets == told[name].sides // (2 if told[name].both else 1)
        assert 0.01 < told[name].ink < 0.15, name


def test_the_cards_are_as_many_as_the_villages_need(demo: Pack) -> None:
    """Four dishes, two cards of A5 on a sheet: four villages with 4 of each have 8 sheets, eight
    with 3 have 6, and 6 are to spare; 4 x 8 + 8 x 6 + 6 = 86, and a cover with an empty back.
    """
    file = reader(demo.files["1-cards.pdf"])
    assert len(file.pages) == 2 * (86 + 1)
    assert file.trailer["/Root"]["/ViewerPreferences"]["/Duplex"] == "/DuplexFlipLongEdge"
    assert file.pages[1].extract_text() == ""
    cover = words(demo.files["1-cards.pdf"])
    for told in ("Neemtal", "1–8", "Kusum Khurd", "61–68", "81–86", "172"):
        assert told in cover
    fronts = [words(demo.files["1-cards.pdf"], page) for page in range(2, 18, 2)]
    # the first village: 4 of each of the 4 dishes, two on a sheet
    dishes = ("Steamed ragi cakes", "Sprouted moong", "Egg with greens", "Fruit, curd")
    for number, front in enumerate(fronts):
        assert front.count(dishes[number // 2]) >= 2, number


def test_a_village_gets_its_own_language(demo: Pack) -> None:
    hindi = words(demo.files["1-cards.pdf"], 2 * 15)  # the fifteenth sheet begins Amrai's pile
    assert "चम्मच" in hindi or "कप" in hindi
    assert "cup" not in hindi


def test_the_plan_tells_what_it_costs(demo: Pack) -> None:
    plan = " ".join(page.extract_text() for page in reader(demo.files[PLAN]).pages)
    sheets = sum(one.sheets for one in demo.printed if one.paper == "A4")
    assert f"{sheets * 1.5:.2f}" in plan
    assert "2-chart-feeding-a2.pdf (A2)" in " ".join(plan.split())
    assert "flip on the long edge" in " ".join(plan.split())
    own = next(one for one in demo.printed if one.name == PLAN)
    assert own.sides == len(reader(demo.files[PLAN]).pages)


def test_the_spreadsheet_is_in_the_folder(demo: Pack) -> None:
    rows = list(csv.DictReader(io.StringIO(demo.files["4-shopping.csv"].decode("utf-8-sig"))))
    counts = Counter(row["food_en"] for row in rows)
    assert counts["egg"] == 1
    assert max(counts.values()) == 1  # like foods are one row
    assert "water" not in counts
    eggs = next(row for row in rows if row["food_en"] == "egg")
    assert (eggs["buy"], eggs["unit"]) == ("10", "pieces")  # 2 eggs x 5 groups


def test_the_same_bytes_twice(demo: Pack, workspace: Workspace, kit: Kit) -> None:
    again = build_pack(DEMO, workspace, kit)
    assert again.files.keys() == demo.files.keys()
    assert [name for name in demo.files if again.files[name] != demo.files[name]] == []


def test_bars_lie_where_the_hours_are(demo: Pack, workspace: Workspace, kit: Kit) -> None:
    """A wait twice as long has a bar twice as long, and work is a black one."""
    from cards.batch.session_order import order

    found = order(DEMO, workspace, kit)
    assert found.session is not None
    own = kit.programme.languages
    dishes = found.dishes(own)
    plan = plan_hours([recipe for recipe, _ in dishes], found.session.starts)
    paper = hours_paper(found.session, plan, dishes, kit.programme, kit.languages)
    pages = settled(lambda: place_hours(paper, kit.layout, kit.book), found.session.at)
    assert pages.value is not None
    assert pages.diagnostics == ()
    items = [item for page in pages.value.pages for item in page.items]
    waits = [task for task in plan.tasks if task.waits]
    panels = sorted(
        (item for item in items if isinstance(item, PanelItem)), key=lambda item: -item.width
    )[: len(waits)]
    lengths = sorted((task.ends - task.begins for task in waits), reverse=True)
    for panel, length in zip(panels, lengths, strict=True):
        assert panel.width / panels[0].width == pytest.approx(length / lengths[0], rel=0.02)
    black = [item for item in items if isinstance(item, BarItem)]
    assert len(black) == sum(not task.waits for task in plan.tasks) == 1
    assert {item.shade for item in black} == {"dark"}
    told = {item.line.text for item in items if isinstance(item, TextItem)}
    assert {"12:55", "20:55", "21:00+"} <= told


def test_names_are_broken_after_a_hyphen() -> None:
    assert broken("3-sheet-a.pdf", 20) == ["3-sheet-a.pdf"]
    assert broken("aaaa-bbbb-cccc.pdf", 10) == ["aaaa-bbbb-", "cccc.pdf"]
    assert broken("x" * 25, 10) == ["x" * 10, "x" * 10, "x" * 5]


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A programme with one dish and one session."""
    recipes = tmp_path / "recipes"
    (recipes / "sessions").mkdir(parents=True)
    shutil.copy(ROOT / "recipes" / "programme.yaml", recipes)
    (recipes / "plain.yaml").write_text(PLAIN, encoding="utf-8")
    small = SESSION.replace("charts:\n  - chart: feeding\n    size: a2\n    print: tiled\n", "")
    (recipes / "sessions" / "day.yaml").write_text(small, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*args: str) -> Result:
    return CliRunner(env={"COLUMNS": "200"}).invoke(command, ["pack", *args])


def spoil(folder: Path, old: str, new: str) -> None:
    path = folder / "recipes" / "sessions" / "day.yaml"
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_pack_makes_one_folder_and_makes_it_again(folder: Path) -> None:
    first = run("recipes/sessions/day.yaml")
    assert first.exit_code == 0, first.output
    assert "out/day written" in first.output
    made = {p.name: p.read_bytes() for p in (folder / "out" / "day").iterdir()}
    assert {"1-cards.pdf", "4-shopping.csv", "6-hours.pdf", "8-checklist.pdf"} <= made.keys()
    (folder / "out" / "day" / "of-yesterday.pdf").write_bytes(b"old")
    assert run("recipes/sessions/day.yaml").exit_code == 0
    again = {p.name: p.read_bytes() for p in (folder / "out" / "day").iterdir()}
    assert again == made
    assert sorted(p.name for p in (folder / "out").iterdir()) == [".lock", "day"]


def test_a_full_disk_leaves_the_old_folder(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert run("recipes/sessions/day.yaml").exit_code == 0
    made = {p.name: p.read_bytes() for p in (folder / "out" / "day").iterdir()}
    real, count = write.write_whole, 0

    def full(*args: Any, **more: Any) -> Outcome[Path]:
        nonlocal count
        count += 1
        if count == 4:
            return Outcome(None, (write.unwritable("x", OSError(28, "No space left on device")),))
        return real(*args, **more)

    monkeypatch.setattr(write, "write_whole", full)
    spoil(folder, "copies: 3", "copies: 7")
    result = run("recipes/sessions/day.yaml")
    assert result.exit_code == 1
    assert "out-unwritable" in result.output
    assert count == 4
    assert {p.name: p.read_bytes() for p in (folder / "out" / "day").iterdir()} == made
    assert sorted(p.name for p in (folder / "out").iterdir()) == [".lock", "day"]


def test_what_a_kill_left_is_mended(folder: Path) -> None:
    """Killed between the two changes of name: the old folder is back, then replaced."""
    assert run("recipes/sessions/day.yaml").exit_code == 0
    out = folder / "out"
    (out / "day").rename(out / ".day.before")
    (out / ".day.part").mkdir()
    (out / ".day.part" / "1-cards.pdf").write_bytes(b"half")
    assert run("recipes/sessions/day.yaml").exit_code == 0
    assert sorted(p.name for p in out.iterdir()) == [".lock", "day"]
    assert (out / "day" / "1-cards.pdf").read_bytes()[:5] == b"%PDF-"


def test_a_folder_of_somebody_else_is_left_alone(folder: Path) -> None:
    own = folder / "out" / "day"
    own.mkdir(parents=True)
    (own / "letters.txt").write_text("mine", encoding="utf-8")
    result = run("recipes/sessions/day.yaml")
    assert result.exit_code == 1
    assert "out-foreign" in result.output
    assert [p.name for p in own.iterdir()] == ["letters.txt"]


def test_one_build_at_a_time(folder: Path) -> None:
    (folder / "out").mkdir()
    with FileLock(folder / "out" / ".lock"):
        result = run("recipes/sessions/day.yaml")
    assert result.exit_code == 1
    assert "out-busy" in result.output
    assert not (folder / "out" / "day").exists()


@pytest.mark.parametrize(
    ("old", "new", "kind", "line", "cure"),
    [
        ("  - plain", "  - plane", "recipe-unknown", 8, 'did you mean "plain"?'),
        ("languages: [hi]", "languages: [xx]", "language-unknown", 13, "choose en or hi"),
        (
            "price:",
            "charts:\n  - chart: feding\nprice:",
            "recipe-unknown",
            18,
            'did you mean "feeding"?',
        ),
        ("spinach:", "spinnach:", "food-unknown", 19, "spinach"),
        ("date: 2026-11-26", "date: tomorrow", "value-wrong", 3, "2026-11-26"),
    ],
)
def test_nothing_is_made_after_a_slip(
    folder: Path, old: str, new: str, kind: str, line: int, cure: str
) -> None:
    spoil(folder, old, new)
    result = run("recipes/sessions/day.yaml")
    assert result.exit_code == 1
    assert result.output.count("error ") == 1, result.output
    assert f"recipes/sessions/day.yaml:{line}:" in result.output
    assert f"error {kind}" in result.output
    assert cure in result.output
    assert not (folder / "out" / "day").exists()


def test_a_dish_that_fails_its_check_stops_all(folder: Path) -> None:
    bad = PLAIN.replace("6 tbsp rice", "6 tbsp rise")
    (folder / "recipes" / "plain.yaml").write_text(bad, encoding="utf-8")
    result = run("recipes/sessions/day.yaml")
    assert result.exit_code == 1
    assert result.output.count("error ") == 1, result.output
    assert "recipes/sessions/day.yaml:8:5: error recipe-unsound" in result.output
    assert '"rise" is not in the food table' in result.output
    assert "cards check recipes/plain.yaml" in result.output


def test_a_warning_is_told_once_and_the_papers_are_made(folder: Path) -> None:
    salted = PLAIN.replace("  - 1 tbsp ghee\n", "  - 1 tbsp ghee\n  - 1 pinch salt\n")
    salted = salted.replace("use: rice, moong dal, water, ghee", "use: all")
    (folder / "recipes" / "plain.yaml").write_text(salted, encoding="utf-8")
    result = run("recipes/sessions/day.yaml")
    assert result.exit_code == 0, result.output
    # the villages have two sets of languages, so the dish is checked twice
    assert result.output.count("warning added-salt") == 1, result.output
    assert "recipes/plain.yaml:10:5: warning added-salt" in result.output


def test_a_language_without_words_for_these_papers(folder: Path) -> None:
    text = (ROOT / "templates" / "words" / "hi.yaml").read_text(encoding="utf-8")
    start = text.index("\nsessions:\n")
    end = text.index("\nreading:\n")
    words = folder / "templates" / "words"
    words.mkdir(parents=True)
    (words / "hi.yaml").write_text(text[:start] + text[end:], encoding="utf-8")
    result = run("recipes/sessions/day.yaml")
    assert result.exit_code == 1
    assert result.output.count("error ") == 1, result.output
    assert "error words-missing" in result.output
    assert "templates/words/hi.yaml" in result.output


def test_no_cards_at_all_is_told(folder: Path) -> None:
    path = folder / "recipes" / "sessions" / "day.yaml"
    text = path.read_text(encoding="utf-8")
    for count in ("copies: 3", "copies: 1", "spare: 2"):
        text = text.replace(count, f"{count.split(':')[0]}: 0")
    path.write_text(text, encoding="utf-8")
    result = run("recipes/sessions/day.yaml")
    assert result.exit_code == 1
    assert "no village gets a card" in result.output


def test_a_session_of_one_language(folder: Path, workspace: Workspace, kit: Kit) -> None:
    programme = replace(kit.programme, languages=("hi",))
    only = read_session(
        SESSION.replace("{en: Day of cooking, hi: पकाने का दिन}", "पकाने का दिन"),
        "recipes/sessions/day.yaml",
        programme,
    )
    assert only.value is not None
    assert only.value.title == {"hi": "पकाने का दिन"}


def test_a_table_that_goes_on_says_what_it_is(workspace: Workspace, kit: Kit) -> None:
    """Ninety villages do not fit a page: every page of the cover has the heads of the columns."""
    text = DEMO.read_text(encoding="utf-8")
    one = text[text.index("  - village: {en: Belbari") : text.index("spare:")]
    more = "".join(one.replace("Belbari", f"Belbari {n}") for n in range(90))
    many = text.replace("spare:", f"{more}spare:")
    session = read_session(many, "recipes/sessions/day.yaml", kit.programme).value
    assert session is not None
    piles = [Pile(village, village.languages, 3, 12, 1, 6) for village in session.villages]
    paper = cover_paper(session, piles, [], kit.programme, kit.languages)
    pages = settled(lambda: place_paper(paper, kit.layout, kit.book), session.at)
    assert pages.value is not None
    assert pages.diagnostics == ()
    texts = [
        [item.line.text for item in page.items if isinstance(item, TextItem)]
        for page in pages.value.pages
    ]
    assert len(texts) > 2
    assert all("Village" in told and "Sheets" in told for told in texts)
    named = [text for told in texts for text in told if text.startswith("Belbari ")]
    assert named == [f"Belbari {n}" for n in range(90)]


def test_cells_of_a_row_stand_on_one_line(kit: Kit) -> None:
    """A name in bold, a small name and a figure, of three sizes, have one baseline."""

    def cell(text: str) -> tuple[tuple[Text, ...], ...]:
        return ((Text("en", text, Place("x.yaml")),),)

    columns = (Column("text"), Column("small", 40), Column("figure", 20))
    row = (cell("Neemtal"), cell("English"), cell("16"))
    paper = Paper(
        "cover",
        CardMeta("x", "", "en", "", "", ""),
        PageFoot((), (Text("en", "x, 1", Place("x.yaml")),), (), "x.yaml?d=0123456789"),
        (Text("en", "Cards", Place("x.yaml")),),
        (),
        (Section((), "", columns, (row,)),),
    )
    items = place_paper(paper, kit.layout, kit.book).pages[0].items
    words = ("Neemtal", "English", "16")
    told = [item for item in items if isinstance(item, TextItem) and item.line.text in words]
    assert len({item.size for item in told}) > 1
    assert len({round(item.y, 6) for item in told}) == 1
