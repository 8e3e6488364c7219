"""The command, as a person runs it, in folders of its own."""

from __future__ import annotations

import csv
import io
import json
import os
import re
import shutil
from importlib import import_module
from pathlib import Path
from typing import NoReturn

import pytest
from click.testing import CliRunner, Result

from cards.cli import command
from cards.cli.root import COMMANDS
from tests.conftest import PLAIN, ROOT


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with recipes/ and a programme."""
    (tmp_path / "recipes").mkdir()
    shutil.copy(ROOT / "recipes" / "programme.yaml", tmp_path / "recipes")
    (tmp_path / "recipes" / "plain.yaml").write_text(PLAIN, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*args: str) -> Result:
    return CliRunner(env={"COLUMNS": "200"}).invoke(command, list(args))


def test_make_writes_a_card_and_says_so(folder: Path) -> None:
    result = run("make")
    assert result.exit_code == 0, result.output
    assert "recipes/plain.yaml -> out/plain.pdf, plain-sheet.pdf: nothing to mend" in result.output
    assert (folder / "out" / "plain.pdf").read_bytes()[:5] == b"%PDF-"


def test_make_in_a_folder_of_recipe_files_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "dal.yaml").write_text(PLAIN, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    result = run("make")
    assert result.exit_code == 0, result.output
    assert "link-missing" in result.output
    assert (tmp_path / "out" / "dal.pdf").is_file()


def test_other_yaml_files_lie_about(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "dal.yaml").write_text(PLAIN, encoding="utf-8")
    (tmp_path / "compose.yaml").write_text("services: {}\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert "compose" not in run("check").output


def test_a_side_file_goes_with_its_recipe(folder: Path) -> None:
    """It is no recipe of its own, is found wherever its recipe is, and shows its own lines."""
    side = folder / "recipes" / "plain.hi.yaml"
    side.write_text("words: 1\ntitle: नरम\nlines:\n  - {en: Gone., hi: गया।}\n", encoding="utf-8")
    for named in ((), ("recipes/plain.yaml",), ("recipes/plain.hi.yaml",), ("recipes",)):
        result = run("check", *named)
        assert result.exit_code == 0, result.output
        assert result.output.startswith("recipes/plain.yaml: 1 warning\n")
        assert "recipes/plain.hi.yaml:4:5: warning side-line-unused" in result.output
        assert "- {en: Gone., hi: गया।}\n" in result.output
    side.write_bytes(b"words: 1\ntitle: \xff\n")
    result = run("make")
    assert result.exit_code == 1
    assert "recipes/plain.hi.yaml" in result.output
    assert "file-not-text" in result.output
    assert not (folder / "out" / "plain.pdf").exists()


def test_a_shell_pattern_may_name_the_programme(folder: Path) -> None:
    assert run("check", "recipes/plain.yaml", "recipes/programme.yaml").exit_code == 0


def test_one_bad_recipe_does_not_stop_the_others(folder: Path) -> None:
    (folder / "recipes" / "bad.yaml").write_text(
        PLAIN.replace("6 tbsp rice", "6 tbsp rise"), encoding="utf-8"
    )
    result = run("make")
    assert result.exit_code == 1
    assert "recipes/bad.yaml -> no card: 1 error" in result.output
    assert 'recipes/bad.yaml:6:5: error food-unknown: "rise"' in result.output
    assert "  - 6 tbsp rise" in result.output
    assert 'did you mean "rice"?' in result.output
    assert sorted(p.name for p in (folder / "out").glob("*.pdf")) == [
        "plain-sheet.pdf",
        "plain.pdf",
    ]


@pytest.mark.parametrize(
    ("name", "content", "kind"),
    [
        ("empty.yaml", b"", "file-empty"),
        ("binary.yaml", bytes(range(256)) * 40, "file-not-text"),
        ("latin.yaml", "title: r\xe9cit".encode("latin-1"), "file-not-text"),
        ("huge.yaml", b"# x\n" * 800_000, "file-too-large"),
    ],
)
def test_files_that_are_no_recipe(folder: Path, name: str, content: bytes, kind: str) -> None:
    (folder / "recipes" / name).write_bytes(content)
    result = run("check", f"recipes/{name}")
    assert result.exit_code == 1
    assert result.output.count(" error ") == 1
    assert kind in result.output


def test_a_missing_file(folder: Path) -> None:
    result = run("make", "recipes/none.yaml")
    assert result.exit_code == 1
    assert "recipes/none.yaml: error file-missing" in result.output
    assert not (folder / "out").exists() or not list((folder / "out").glob("*.pdf"))


def test_a_folder_stands_for_its_recipes(folder: Path) -> None:
    result = run("check", "recipes", "recipes/plain.yaml")
    assert result.exit_code == 0
    assert result.output.count("plain.yaml") == 1


def test_a_pipe_is_no_recipe(folder: Path) -> None:
    os.mkfifo(folder / "pipe.yaml")
    result = run("check", "pipe.yaml")
    assert result.exit_code == 1
    assert "file-unreadable" in result.output


def test_a_file_from_elsewhere_goes_by_its_bare_name(folder: Path, tmp_path: Path) -> None:
    other = tmp_path.parent / "elsewhere.yaml"
    other.write_text(PLAIN, encoding="utf-8")
    result = run("show", "../elsewhere.yaml", "--stage", "card")
    other.unlink()
    assert "https://two-wells.example/elsewhere.yaml?d=" in result.output


def test_a_file_that_may_not_be_read(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(self: Path, mode: str) -> NoReturn:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    result = run("check")
    assert result.exit_code == 1
    assert "file-unreadable" in result.output


def test_a_byte_order_mark_is_no_fault(folder: Path) -> None:
    (folder / "recipes" / "bom.yaml").write_bytes(b"\xef\xbb\xbf" + PLAIN.encode())
    assert run("check", "recipes/bom.yaml").exit_code == 0


def test_no_recipes_at_all(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    result = run("make")
    assert result.exit_code == 2
    assert "there are no recipe files here" in result.output


def test_an_out_folder_that_cannot_be_written(folder: Path) -> None:
    (folder / "out").write_text("a file where a folder should be", encoding="utf-8")
    result = run("make")
    assert result.exit_code == 1
    assert "out-unwritable" in result.output
    assert result.output.count(" error ") == 1


def test_a_failed_write_leaves_the_old_card_and_no_rest(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert run("make").exit_code == 0
    before = (folder / "out" / "plain.pdf").read_bytes()

    def full(self: Path, target: Path) -> Path:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    result = run("make", "--anew")
    assert result.exit_code == 1
    assert "No space left" in result.output
    assert sorted(p.name for p in (folder / "out").glob("*.pdf")) == [
        "plain-sheet.pdf",
        "plain.pdf",
    ]
    assert (folder / "out" / "plain.pdf").read_bytes() == before


def test_two_files_of_one_name(folder: Path) -> None:
    (folder / "recipes" / "plain.yml").write_text(PLAIN, encoding="utf-8")
    result = run("make")
    assert result.exit_code == 1
    assert "out-twice" in result.output


def test_json_lines(folder: Path) -> None:
    (folder / "recipes" / "plain.yaml").write_text(
        PLAIN.replace("do: boil", "do: boyl"), encoding="utf-8"
    )
    result = run("check", "--json")
    assert result.exit_code == 1
    rows = [json.loads(line) for line in result.output.splitlines()]
    assert rows[0]["kind"] == "action-unknown"
    assert (rows[0]["file"], rows[0]["line"]) == ("recipes/plain.yaml", 11)
    assert set(rows[0]) == {
        "file",
        "line",
        "column",
        "severity",
        "kind",
        "message",
        "hint",
        "source",
    }


@pytest.mark.parametrize(
    ("stage", "words"),
    [
        ("recipe", "age_from: 6"),
        ("analysis", "iron"),
        ("card", "Mash everything"),
        ("pages", "side front"),
    ],
)
def test_show_prints_every_stage(folder: Path, stage: str, words: str) -> None:
    result = run("show", "recipes/plain.yaml", "--stage", stage)
    assert result.exit_code == 0, result.output
    assert words in result.output


def test_show_of_a_stage_that_is_not_reached(folder: Path) -> None:
    (folder / "recipes" / "plain.yaml").write_text(
        PLAIN.replace("rice\n", "rize\n", 1), encoding="utf-8"
    )
    result = run("show", "recipes/plain.yaml", "--stage", "pages")
    assert result.exit_code == 1
    assert "food-unknown" in result.output


def test_explain(folder: Path) -> None:
    assert "binary" not in run("explain", "food-unknown").output
    assert "not in the table" in run("explain", "food-unknown").output
    assert "botulism" in run("explain", "honey-before-one").output
    assert "\nhoney-before-one  " in run("explain").output
    result = run("explain", "food-unknwon")
    assert result.exit_code == 2
    assert "food-unknown" in result.output


@pytest.mark.parametrize(
    ("old", "new", "kind"),
    [
        ("languages: [en, hi]", "languages: [en, xx]", "language-unknown"),
        ("layout: hand-card", "layout: hand-crad", "layout-unknown"),
        ("link: https", "link: htps", "link-wrong"),
    ],
)
def test_programme_faults_stop_the_build_with_one_message(
    folder: Path, old: str, new: str, kind: str
) -> None:
    path = folder / "recipes" / "programme.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")
    result = run("make")
    assert result.exit_code == 1
    assert result.output.count("error ") == 1
    assert kind in result.output


def test_own_words_and_fonts_come_before_the_shipped_ones(folder: Path) -> None:
    words = (ROOT / "templates" / "words" / "en.yaml").read_text(encoding="utf-8")
    (folder / "templates" / "words").mkdir(parents=True)
    (folder / "templates" / "words" / "en.yaml").write_text(
        re.sub(r"(eat-soon: ).*", r"\1Eat it fresh", words), encoding="utf-8"
    )
    assert "Eat it fresh" in run("show", "recipes/plain.yaml", "--stage", "card").output
    (folder / "fonts").mkdir()
    (folder / "fonts" / "fonts.yaml").write_text("families: {}\n", encoding="utf-8")
    result = run("make")
    assert result.exit_code == 1
    assert "font-list" in result.output


def test_one_language_alone(folder: Path) -> None:
    path = folder / "recipes" / "programme.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("[en, hi]", "[hi]"), encoding="utf-8")
    result = run("make")
    assert result.exit_code == 0, result.output


def test_strict_lets_a_warning_fail(folder: Path) -> None:
    path = folder / "recipes" / "plain.yaml"
    path.write_text(PLAIN.replace("6 tbsp rice", "6 tbsp rice\n  - 1 pinch salt"), encoding="utf-8")
    assert run("check").exit_code == 0
    assert run("check", "--strict").exit_code == 1


def test_wrong_use(folder: Path) -> None:
    assert run("make", "--nonsense").exit_code == 2
    assert run("show", "recipes/plain.yaml", "--stage", "soup").exit_code == 2


def test_the_analysis_as_csv_and_json(folder: Path) -> None:
    rows = list(
        csv.DictReader(io.StringIO(run("show", "recipes/plain.yaml", "--format", "csv").output))
    )
    iron = next(r for r in rows if r["component"] == "FE_mg")
    assert "rice-raw: ifct2017 A015" in iron["sources"]
    energy = {r["component"]: float(r["dish"]) for r in rows if r["component"].startswith("ENERC")}
    assert energy["ENERC_kJ"] == pytest.approx(energy["ENERC_kcal"] * 4.184, rel=1e-4)
    whole = json.loads(run("show", "recipes/plain.yaml", "--format", "json").output)
    assert whole["components"][0]["component"] == "ENERC_kcal"
    assert float(iron["dish"]) == next(
        r["dish"] for r in whole["components"] if r["component"] == "FE_mg"
    )


def test_why_shows_the_reckoning_and_adds_up(folder: Path) -> None:
    output = run("show", "recipes/plain.yaml", "--why", "fe").output
    assert "retention row" in output
    assert "ifct2017 A015 (seen)" in output
    assert "per 100 kcal" in output
    assert run("show", "recipes/plain.yaml", "--why", "iron").exit_code == 2


def test_foods_in_the_terminal(folder: Path) -> None:
    listed = run("foods", "find", "leaves")
    assert listed.exit_code == 0
    assert "drumstick-leaves" in listed.output
    shown = run("foods", "show", "pumpkin")
    for word in ("vitamin A (RAE)", "16 to 426", "ifct2017", "kJ", "edible_share"):
        assert word in shown.output, word
    named = run("foods", "show", "chai").output
    assert "no figures" in named
    assert "per 100 g" not in named
    assert "no figures" in run("foods", "find", "tea leaf").output
    assert "no figures" not in run("foods", "find", "pumpkin").output
    assert run("foods", "show", "unicorn").exit_code == 1
    assert run("foods", "find", "unicorn").exit_code == 1


def test_the_list_of_commands_is_of_all_that_there_are() -> None:
    """The list is written by hand, so that help imports no command."""
    modules = {path.stem for path in (ROOT / "cards" / "cli").glob("*ing.py")}
    for module in sorted({*modules, *(module for module, _ in COMMANDS.values())}):
        import_module(f"cards.cli.{module}")
    assert set(command.commands) == set(COMMANDS)
    for name, (_, said) in COMMANDS.items():
        long = command.commands[name].get_short_help_str(200)
        assert said.split()[:2] == long.split()[:2], name
