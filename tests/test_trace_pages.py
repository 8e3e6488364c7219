"""Which session, plan, chart or page about icons a paper is, and what has changed since."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from tests.conftest import ROOT
from tests.copier import ORDINARY, copied, raster
from tests.test_trace import change, commit, git, run

DISH = "pumpkin-rice-moong"
OTHER = "dalia-milk-banana"
SESSION = Path("recipes/sessions/well.yaml")
DAY = Path("recipes/days/one.yaml")

SESSION_TEXT = f"""\
session: 1
title: {{en: First day, hi: पहला दिन}}
date: 2026-11-26
starts: 10:00
trainees: 8
groups: 2
recipes: [{DISH}]
villages:
  - village: {{en: Neemtal, hi: नीमतल}}
    languages: [en, hi]
    copies: 2
  - village: {{en: Amrai, hi: अमराई}}
    languages: [hi]
    copies: 3
"""
DAY_TEXT = f"""\
day: 1
title: {{en: A day, hi: एक दिन}}
ages: 9-11
meals:
  morning: {OTHER}
  midday: {DISH}
revised: 2026-11-25
"""

MADE = {
    "out/well/4-shopping.pdf": ("session", str(SESSION), "First day"),
    "out/well/6-hours.pdf": ("session", str(SESSION), "First day"),
    "out/one-meals.pdf": ("day", str(DAY), "A day"),
    "out/one-meals-tiles.pdf": ("day", str(DAY), "A day"),
    "out/feeding-chart-a2.pdf": ("feeding-chart", "recipes/programme.yaml", "feeding by age"),
    "out/icons.pdf": ("icons", "recipes/programme.yaml", "all pictures"),
    "out/icon-test.pdf": ("icon-test", "recipes/programme.yaml", "the test of pictures"),
    "out/first-lesson.pdf": ("first-lesson", "recipes/programme.yaml", "the first lesson"),
}


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A programme in git with everything printed."""
    folder = tmp_path_factory.mktemp("papers")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        SESSION.parent.mkdir(parents=True)
        DAY.parent.mkdir()
        for name in (f"{DISH}.yaml", f"{OTHER}.yaml", "programme.yaml"):
            shutil.copy(ROOT / "recipes" / name, "recipes")
        SESSION.write_text(SESSION_TEXT, encoding="utf-8")
        DAY.write_text(DAY_TEXT, encoding="utf-8")
        git("init", "-q")
        commit("first")
        for words in (
            ("pack", str(SESSION)),
            ("day", str(DAY), "--tile", "a4"),
            ("chart",),
            ("icons",),
            ("icons", "--test", f"recipes/{DISH}.yaml"),
            ("icons", "--lesson"),
        ):
            assert run(*words).exit_code == 0, words
    return folder


@pytest.fixture
def folder(printed: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of it, to be changed."""
    shutil.copytree(printed, tmp_path / "w")
    monkeypatch.chdir(tmp_path / "w")
    return tmp_path / "w"


def told(what: str) -> dict[str, object]:
    return dict(json.loads(run("trace", what, "--json").output.splitlines()[0]))


def code_of(file: str) -> str:
    return str(told(file)["code"])


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_every_page_is_known(folder: Path) -> None:
    """By its PDF, and by the code that stands on it."""
    for file, (page, path, title) in MADE.items():
        found = told(file)
        assert (found["page"], found["recipe"], found["state"]) == (page, path, "current"), file
        assert title in str(found["title"])
        again = run("trace", str(found["code"]))
        assert again.exit_code == 0
        assert "this paper is current" in again.output
        assert path in again.output
    assert DISH in str(told("out/icon-test.pdf")["title"])


def test_a_picture_of_each_is_known(folder: Path) -> None:
    """A third copy, read from its QR code alone."""
    for file in ("out/well/4-shopping.pdf", "out/icons.pdf", "out/icon-test.pdf"):
        copied(raster(Path(file).read_bytes(), 0), ORDINARY).picture.convert("L").save("p.png")
        result = run("trace", "p.png")
        assert result.exit_code == 0, result.output
        assert MADE[file][2] in result.output


def test_a_cover_and_its_cards_are_told_apart(folder: Path) -> None:
    lines = run("trace", "out/well/1-cards.pdf", "--json").output.splitlines()
    pages = [json.loads(line)["page"] for line in lines]
    assert sorted(set(pages)) == ["card", "session"]
    assert pages.count("card") == 1  # one recipe, whose Hindi is in it


def test_what_changed_in_a_session_is_told(folder: Path) -> None:
    code = code_of("out/well/4-shopping.pdf")
    edit(SESSION, "copies: 2", "copies: 5")
    edit(SESSION, "date: 2026-11-26", "date: 2026-12-03")
    edit(SESSION, f"[{DISH}]", f"[{DISH}, {OTHER}]")
    edit(SESSION, "en: Amrai", "en: Belbari")
    for what in (code, "out/well/4-shopping.pdf"):
        result = run("trace", what)
        assert result.exit_code == 1, result.output
        assert "out of date: the file has 2026-12-03 now" in result.output
        assert "the paper has 2026-11-26" in result.output
        for words in (
            "villages: Neemtal: 2 copies of each dish in en + hi",
            "now Neemtal: 5 copies of each dish in en + hi",
            "villages: Amrai: 3 copies of each dish in hi",
            "now (taken out)",
            f"now {OTHER}: cooked",
            "date: 2026-11-26, 10:00",
        ):
            assert words in result.output, (what, words)
        assert "RECALL" not in result.output


def test_without_git_the_file_tells_what_it_carries(folder: Path) -> None:
    code = code_of("out/well/4-shopping.pdf")
    edit(SESSION, "copies: 2", "copies: 5")
    shutil.rmtree(".git")
    assert "now Neemtal: 5 copies" in run("trace", "out/well/4-shopping.pdf").output
    alone = run("trace", code)
    assert alone.exit_code == 2
    assert "nor had one" in alone.output
    address = run("trace", f"https://two-wells.example/{SESSION}?d={code}")
    assert address.exit_code == 1
    assert "cannot be compared" in address.output
    assert str(SESSION) in address.output


def test_an_amount_in_a_dish_makes_the_papers_old(folder: Path) -> None:
    codes = {file: code_of(file) for file in MADE}
    change(DISH, "3 tsp ghee", "2 1/2 tsp ghee")
    for file, (page, _, _) in MADE.items():
        result = run("trace", codes[file])
        rests = page in ("session", "day", "icon-test")
        assert result.exit_code == (1 if rests else 0), (file, result.output)
        assert (f"{DISH}, amounts:" in result.output) == rests
        assert "RECALL" not in result.output


def test_a_warning_added_to_a_dish_calls_the_papers_back(folder: Path) -> None:
    code = code_of("out/well/4-shopping.pdf")
    change(DISH, "\nsteps:", "\n  - 1 tsp peanut powder\nsteps:")
    change(DISH, "use: rice", "use: peanut powder, rice")
    for what in (code, "out/one-meals.pdf"):
        result = run("trace", what)
        assert result.exit_code == 1
        assert f"RECALL THIS PAPER: a warning was added to {DISH}" in result.output
        assert "peanut" in result.output.split("RECALL")[1]


def test_what_changed_in_a_plan_is_told(folder: Path) -> None:
    code = code_of("out/one-meals.pdf")
    edit(DAY, "ages: 9-11", "ages: 12-23")
    edit(DAY, f"midday: {DISH}", f"midday: 1/2 cup {OTHER}")
    commit("second")  # what was printed lies in the past
    edit(DAY, "revised: 2026-11-25", "revised: 2026-11-30")
    for what in (code, "out/one-meals.pdf"):
        result = run("trace", what)
        assert result.exit_code == 1
        for words in (
            "ages: 9-11 months",
            "now 12-23 months",
            f"meals: midday: {DISH}, the usual portion",
            f"now midday: 1/2 cup {OTHER}",
            "now 2026-11-30",
        ):
            assert words in result.output, words


def test_words_that_changed_make_pages_about_icons_old(folder: Path) -> None:
    code = code_of("out/icons.pdf")
    own = Path("templates/words")
    own.mkdir(parents=True)
    text = (ROOT / "templates" / "words" / "en.yaml").read_text(encoding="utf-8")
    (own / "en.yaml").write_text(text, encoding="utf-8")
    assert run("trace", code).exit_code == 0  # the same words, in the folder's own file
    line = next(x for x in text.splitlines() if x.startswith("  icons-how:"))
    (own / "en.yaml").write_text(text.replace(line, "  icons-how: Look here."), encoding="utf-8")
    result = run("trace", code)
    assert result.exit_code == 1
    assert "words en: sheets.icons-how: " in result.output
    assert "now sheets.icons-how: Look here." in result.output


def test_a_session_that_is_gone(folder: Path) -> None:
    code = code_of("out/well/4-shopping.pdf")
    SESSION.unlink()
    result = run("trace", code)
    assert result.exit_code == 1
    assert "the file is no longer here; the paper has 2026-11-26" in result.output


def test_a_slip_of_the_hand_in_a_pages_code(folder: Path) -> None:
    code = code_of("out/icons.pdf")
    wrong = code[:4] + ("0" if code[4] != "0" else "1") + code[5:]
    result = run("trace", wrong)
    assert result.exit_code == 2
    assert f"did you mean: {code}" in result.output


# checked as what they are


def test_a_session_and_a_plan_are_checked_as_such(folder: Path) -> None:
    result = run("check", str(SESSION), str(DAY))
    assert "recipe" not in result.output.split("hint")[0].replace("recipes/", "")
    assert result.exit_code == 0, result.output
    edit(SESSION, "groups: 2", "groups: 20")
    edit(DAY, f"midday: {DISH}", "midday: nothing-such")
    result = run("check", str(SESSION), str(DAY))
    assert result.exit_code == 1
    assert "20 groups are more than 8 trainees" in result.output
    assert "dish-unknown" in result.output
    assert not Path("out/.checked.json").exists()


def test_what_rests_on_other_files_is_not_remembered(folder: Path) -> None:
    assert run("check", "--changed", str(SESSION)).exit_code == 0
    assert "1 checked, 0 remembered" in run("check", "--changed", str(SESSION)).output
