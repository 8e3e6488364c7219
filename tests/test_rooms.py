"""The room of a text is what the card holds: at the limit it fits, a third longer it does not."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from cards.batch.kit import open_kit
from cards.batch.pieces import open_recipe
from cards.batch.rooms import Rooms
from cards.batch.stages import run_file
from cards.cli import command
from cards.diagnostics.diagnostic import has_errors
from cards.source.workspace import open_workspace
from cards.words.units import Unit, letters
from tests.conftest import ROOT

RUNNING = "पालक को अच्छे से धोकर महीन काटें और धीमी आँच पर नरम होने तक पकाएँ फिर ठंडा करके मसल दें"
WORDS = RUNNING.split(" ")
"""Hindi as people write it, not the words by which rooms are measured."""


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "recipes").mkdir()
    for name in ("programme.yaml", "ragi-cakes-tomato-chutney.yaml"):
        shutil.copy(ROOT / "recipes" / name, tmp_path / "recipes")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def text_of(count: int) -> str:
    """Running words, of so many letters at most."""
    text = WORDS[0]
    for number in range(1, 200):
        longer = f"{text} {WORDS[number % len(WORDS)]}"
        if letters(longer) > count:
            break
        text = longer
    return text


def fits(folder: Path, unit: Unit, text: str) -> bool:
    """Whether the recipe makes a card of two sides with this text in it: the whole way."""
    path = folder / "recipes" / "ragi-cakes-tomato-chutney.yaml"
    before = path.read_text(encoding="utf-8")
    old = unit.target["other"]
    assert before.count(f"hi: {old}\n") == 1
    path.write_text(before.replace(f"hi: {old}\n", f"hi: {text}\n"), encoding="utf-8")
    try:
        workspace = open_workspace(folder)
        kit = open_kit(workspace).value
        assert kit is not None
        run = run_file(path, workspace, kit)
    finally:
        path.write_text(before, encoding="utf-8")
    told = {d.kind for d in run.diagnostics}
    return run.pages is not None and not has_errors(run.diagnostics) and "side-runs-on" not in told


def units(folder: Path) -> tuple[Rooms, list[Unit]]:
    workspace = open_workspace(folder)
    kit = open_kit(workspace).value
    assert kit is not None
    rooms = Rooms("hi", workspace)
    path = folder / "recipes" / "ragi-cakes-tomato-chutney.yaml"
    piece = open_recipe(path, "hi", workspace, kit).value
    assert piece is not None
    marked = [rooms.marked(one) for one in piece.units if one.path[0] != "part"]
    # a text with a number must keep it, which the running words do not
    plain = [u for u in marked if not any(letter.isdigit() for letter in u.text)]
    return rooms, [u for u in plain if u.measured and "part" not in u.path][:3]


def test_at_the_limit_it_fits_and_a_third_longer_it_does_not(folder: Path) -> None:
    """Title and steps; the card itself is the judge, with words that measured nothing."""
    rooms, measured = units(folder)
    assert len(measured) >= 2
    for unit in measured:
        short, long = text_of(unit.limit), text_of(unit.limit * 4 // 3)
        # words of another length break otherwise: each line's end may cost a word
        held = text_of(unit.limit * 9 // 10)
        assert fits(folder, unit, held), (unit.text, unit.limit)
        assert letters(long) > letters(short)
        if len(long) <= 160:  # the longest line of a recipe
            assert not fits(folder, unit, long), (unit.text, unit.limit)
        over, paper = rooms.too_long(unit, long)
        assert over and "ragi-cakes-tomato-chutney" in paper
        assert rooms.too_long(unit, held) == (0, "")


def test_import_refuses_what_the_card_would_not_hold(folder: Path) -> None:
    """One message with place, how much too long, and cure; and nothing is changed."""
    _, measured = units(folder)
    unit = measured[0]
    long = text_of(min(155, unit.limit * 4 // 3))
    run = CliRunner(env={"COLUMNS": "200"}).invoke
    recipe = "recipes/ragi-cakes-tomato-chutney.yaml"
    made = run(command, ["words", "export", "--to", "hi", "-o", "x.po", "--recipes", recipe])
    assert made.exit_code == 0, made.output
    text = Path("x.po").read_text(encoding="utf-8")
    assert f"at most {unit.limit} letters, measured in its place" in text
    before = (folder / recipe).read_bytes()
    old = unit.target["other"]
    Path("x.po").write_text(text.replace(f'msgstr "{old}"', f'msgstr "{long}"'), encoding="utf-8")
    told = run(command, ["words", "import", "x.po"])
    assert told.exit_code == 1, told.output
    found = re.findall(r"x\.po:\d+:\d+: error ([a-z-]+): (.*)", told.output)
    assert [kind for kind, _ in found] == ["translation-too-long"], told.output
    said = re.search(r"is (\d+) letters too long for its place on the card of", found[0][1])
    assert said is not None
    cure = re.search(r"say it in (\d+) letters or fewer", told.output)
    assert cure is not None and int(cure[1]) + int(said[1]) == letters(long)
    assert (folder / recipe).read_bytes() == before


def test_a_recipe_that_is_not_told_yet_has_rooms(folder: Path) -> None:
    """Before the first translation the first language stands where the second will."""
    path = folder / "recipes" / "ragi-cakes-tomato-chutney.yaml"
    text = path.read_text(encoding="utf-8")
    path.write_text(re.sub(r"(?m)^ *hi: .*\n", "", text), encoding="utf-8")
    _, bare = units(folder)
    path.write_text(text, encoding="utf-8")
    _, full = units(folder)
    limits = {u.text: u.limit for u in full}
    assert bare
    for unit in bare:
        # Hindi and English of one text take about the same room
        assert limits[unit.text] * 0.6 < unit.limit < limits[unit.text] * 1.6, unit.text


def test_what_has_no_room_of_its_own_is_reckoned_as_before(folder: Path) -> None:
    made = CliRunner().invoke(command, ["words", "export", "--to", "hi", "-o", "x.po"])
    assert made.exit_code == 0, made.output
    text = Path("x.po").read_text(encoding="utf-8")
    filled = next(e for e in text.split("\n\n") if "{{ time }}" in e and "msgctxt" in e)
    assert re.search(r"at most \d+ letters, reckoned from other languages", filled)
    months = next(e for e in text.split("\n\n") if 'msgid "months"' in e)
    assert re.search(r"at most \d+ letters, measured in its place", months)
