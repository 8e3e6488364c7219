"""check --changed: what has not changed is repeated word for word, and nothing else is."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

import cards
from cards.batch import basis, memory
from cards.batch.kit import open_kit
from cards.batch.stages import Run, run_file
from cards.cli import command
from cards.source.workspace import open_workspace, side_files
from tests.conftest import PLAIN, ROOT

WRONG = PLAIN.replace("6 tbsp rice", "6 tbsp rise")
SALTED = PLAIN.replace("6 tbsp rice", "6 tbsp rice\n  - 1 pinch salt")


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a sound recipe, one with a warning, and a programme."""
    recipes = tmp_path / "recipes"
    recipes.mkdir()
    shutil.copy(ROOT / "recipes" / "programme.yaml", recipes)
    (recipes / "plain.yaml").write_text(PLAIN, encoding="utf-8")
    (recipes / "salted.yaml").write_text(SALTED, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def ran(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The files taken through the stages, in order."""
    names: list[str] = []

    def spy(path: Path, *rest: object) -> Run:
        names.append(path.name)
        return run_file(path, *rest)  # type: ignore[arg-type]

    monkeypatch.setattr(memory, "run_file", spy)
    return names


def check(*args: str) -> Result:
    result = CliRunner(env={"COLUMNS": "200"}).invoke(command, ["check", *args])
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


def told(result: Result) -> list[str]:
    """The output without the count at the end."""
    *lines, last = result.stdout.splitlines()
    assert last.endswith(" remembered")
    return lines


def kept(folder: Path) -> set[str]:
    return set(json.loads((folder / "out" / ".checked.json").read_text("utf-8"))["files"])


@pytest.mark.parametrize("strict", [(), ("--strict",)])
@pytest.mark.parametrize(("added", "code", "strictly"), [("", 0, 1), (WRONG, 1, 1)])
def test_the_same_words_and_exit_code_as_a_fresh_check(
    folder: Path, ran: list[str], added: str, code: int, strictly: int, strict: tuple[str, ...]
) -> None:
    if added:
        (folder / "recipes" / "added.yaml").write_text(added, encoding="utf-8")
    plain = check(*strict)
    assert not (folder / "out").exists()
    first = check("--changed", *strict)
    ran.clear()
    second = check("--changed", *strict)
    assert ran == []
    assert told(first) == told(second) == plain.stdout.splitlines()
    assert "added-salt" in plain.stdout
    assert "  - 1 pinch salt" in second.stdout
    assert {r.exit_code for r in (plain, first, second)} == {strictly if strict else code}
    count = 3 if added else 2
    assert first.stdout.splitlines()[-1] == f"{count} checked, 0 remembered"
    assert second.stdout.splitlines()[-1] == f"0 checked, {count} remembered"


def test_json_lines_stay_json_lines(folder: Path) -> None:
    (folder / "recipes" / "wrong.yaml").write_text(WRONG, encoding="utf-8")
    plain = check("--json")
    first = check("--json", "--changed")
    second = check("--json", "--changed")
    assert plain.stdout == first.stdout == second.stdout
    assert [json.loads(line)["severity"] for line in second.stdout.splitlines()] == [
        "warning",
        "error",
    ]
    assert second.stderr == "0 checked, 3 remembered\n"
    assert plain.exit_code == first.exit_code == second.exit_code == 1


def test_one_changed_file_is_checked_alone(folder: Path, ran: list[str]) -> None:
    check("--changed")
    ran.clear()
    path = folder / "recipes" / "plain.yaml"
    path.write_text(PLAIN, encoding="utf-8")  # a new date, the same text
    assert check("--changed").exit_code == 0
    assert ran == []
    path.write_text(WRONG, encoding="utf-8")
    result = check("--changed")
    assert ran == ["plain.yaml"]
    assert result.exit_code == 1
    assert 'did you mean "rice"?' in result.stdout
    assert result.stdout.splitlines()[-1] == "1 checked, 1 remembered"
    path.write_text(PLAIN, encoding="utf-8")
    assert check("--changed").exit_code == 0
    assert ran == ["plain.yaml", "plain.yaml"]


def _programme(folder: Path) -> None:
    path = folder / "recipes" / "programme.yaml"
    path.write_text(path.read_text("utf-8").replace("cup: 250", "cup: 240"), encoding="utf-8")


def _words(folder: Path) -> None:
    (folder / "templates" / "words").mkdir(parents=True)
    words = (ROOT / "templates" / "words" / "en.yaml").read_text("utf-8")
    (folder / "templates" / "words" / "en.yaml").write_text(words + "# mine\n", encoding="utf-8")


def _layout(folder: Path) -> None:
    (folder / "templates" / "layouts").mkdir(parents=True)
    text = (ROOT / "templates" / "layouts" / "hand-card.yaml").read_text("utf-8")
    (folder / "templates" / "layouts" / "hand-card.yaml").write_text(
        text + "# mine\n", encoding="utf-8"
    )


def _foods(folder: Path) -> None:
    (folder / "recipes" / "foods.csv").write_text(
        "food,name,group,form,source,ENERC_kcal\nmy-rice,my rice,grains-roots,whole,label,350\n",
        encoding="utf-8",
    )


def _needs(folder: Path) -> None:
    (folder / "recipes" / "needs.yaml").write_text(
        "needs: 1\nprofiles:\n  national:\n    name: Ours\n    needs:\n"
        '      FE: {"6-8": 9, "9-11": 9, "12-23": 8, source: our table}\n',
        encoding="utf-8",
    )


def _link_gone(folder: Path) -> None:
    (folder / "recipes" / "programme.yaml").unlink()


@pytest.mark.parametrize("change", [_programme, _words, _layout, _foods, _needs, _link_gone])
def test_what_all_recipes_rest_on_checks_them_all(
    folder: Path, ran: list[str], change: Callable[[Path], None]
) -> None:
    check("--changed")
    change(folder)
    ran.clear()
    plain = check()
    assert ran == ["plain.yaml", "salted.yaml"]
    ran.clear()
    result = check("--changed")
    assert ran == ["plain.yaml", "salted.yaml"], result.stdout
    assert told(result) == plain.stdout.splitlines()
    check("--changed")
    assert len(ran) == 2


def test_own_foods_change_what_is_said(folder: Path) -> None:
    (folder / "recipes" / "millet.yaml").write_text(
        PLAIN.replace("6 tbsp rice", "60 g moon millet").replace("use: rice", "use: moon millet"),
        encoding="utf-8",
    )
    assert check("--changed").exit_code == 1
    (folder / "recipes" / "foods.csv").write_text(
        "food,name,group,form,source,ENERC_kcal\n"
        "moon-millet,moon millet,grains-roots,whole,label,350\n",
        encoding="utf-8",
    )
    result = check("--changed")
    assert "food-unknown" not in result.stdout
    assert result.exit_code == check().exit_code


def test_another_program_or_font_checks_all_again(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    workspace = open_workspace(folder)
    (folder / "fonts").mkdir()
    listing = (ROOT / "fonts" / "fonts.yaml").read_text("utf-8")
    (folder / "fonts" / "fonts.yaml").write_text(listing, encoding="utf-8")
    kit = open_kit(workspace).value
    assert kit is not None
    seen = {basis.rests_on(kit)}
    assert basis.rests_on(kit) in seen
    monkeypatch.setattr(cards, "__version__", "0.0.0")
    seen.add(basis.rests_on(kit))
    data = folder / "data.csv"
    data.write_text("food\n", encoding="utf-8")
    monkeypatch.setattr(basis, "package_files", lambda: (data,))
    seen.add(basis.rests_on(kit))
    data.write_text("foods\n", encoding="utf-8")
    seen.add(basis.rests_on(kit))
    font = kit.book.files[0]
    changed = folder / font.name
    changed.write_bytes(font.read_bytes() + b"\0")
    monkeypatch.setattr(
        kit.book,
        "_faces",
        {k: f._replace(path=changed) if f.path == font else f for k, f in kit.book._faces.items()},
    )
    seen.add(basis.rests_on(kit))
    assert len(seen) == 5


def test_the_program_is_its_code_and_its_data() -> None:
    names = {path.name for path in basis.package_files()}
    assert {"judge.py", "rules.yaml", "composition.csv", "making.py"} <= names


def test_files_beside_a_recipe_belong_to_it(folder: Path) -> None:
    recipes = folder / "recipes"
    for name in ("plain.bn.yaml", "plain.ta.yml", "plainer.bn.yaml", "plain.txt"):
        (recipes / name).write_text("x\n", encoding="utf-8")
    plain, salted = recipes / "plain.yaml", recipes / "salted.yaml"
    assert side_files([plain, salted]) == {
        plain: (recipes / "plain.bn.yaml", recipes / "plain.ta.yml"),
        salted: (),
    }


def test_a_file_beside_a_recipe_checks_it_again(folder: Path, ran: list[str]) -> None:
    both = ("recipes/plain.yaml", "recipes/salted.yaml", "--changed")
    side = folder / "recipes" / "plain.hi.yaml"
    check(*both)
    for change in (
        lambda: side.write_text("title: भात\n", encoding="utf-8"),
        lambda: side.write_text("title: नरम भात\n", encoding="utf-8"),
        side.unlink,
    ):
        change()
        ran.clear()
        check(*both)
        assert ran == ["plain.yaml"]
        check(*both)
        assert ran == ["plain.yaml"]


def test_words_in_a_language_that_is_not_printed_check_nothing_again(
    folder: Path, ran: list[str]
) -> None:
    check("--changed")
    (folder / "recipes" / "plain.bn.yaml").write_text("title: ভাত\n", encoding="utf-8")
    ran.clear()
    check("--changed")
    assert ran == []


def test_deleted_files_drop_out_and_others_stay(folder: Path, ran: list[str]) -> None:
    check("--changed")
    assert kept(folder) == {"recipes/plain.yaml", "recipes/salted.yaml"}
    check("--changed", "recipes/plain.yaml")
    assert kept(folder) == {"recipes/plain.yaml", "recipes/salted.yaml"}
    (folder / "recipes" / "salted.yaml").unlink()
    assert check("--changed").stdout.splitlines()[-1] == "0 checked, 1 remembered"
    assert kept(folder) == {"recipes/plain.yaml"}
    assert ran == ["plain.yaml", "salted.yaml"]


def test_a_file_that_cannot_be_read_is_tried_each_time(folder: Path) -> None:
    for _ in range(2):
        result = check("--changed", "recipes/none.yaml")
        assert result.exit_code == 1
        assert "file-missing" in result.stdout
        assert result.stdout.splitlines()[-1] == "1 checked, 0 remembered"


@pytest.mark.parametrize(
    "damage",
    [
        lambda whole: b"",
        lambda whole: whole[: len(whole) // 2],
        lambda whole: whole.replace(b'"severity":1', b'"severity":7'),
        lambda whole: whole.replace(b'"digest"', b'"digits"'),
        lambda whole: b"\xff\xfe" + whole,
        lambda whole: b'{"rests_on": "", "files": {}}',
        lambda whole: b"[" * 100_000,
        lambda whole: b'{"files": ["a", "\\ud800"], "rests_on": 3}',
        lambda whole: b"null",
    ],
)
def test_a_damaged_or_foreign_memory_is_no_memory(
    folder: Path, damage: Callable[[bytes], bytes]
) -> None:
    first = check("--changed")
    path = folder / "out" / ".checked.json"
    whole = path.read_bytes()
    assert damage(whole) != whole
    path.write_bytes(damage(whole))
    assert check("--changed").stdout == first.stdout
    assert path.read_bytes() == whole


def test_a_memory_that_cannot_be_written_fails_nothing(folder: Path) -> None:
    (folder / "out").write_text("a file where a folder should be", encoding="utf-8")
    result = check("--changed")
    assert result.exit_code == 0
    assert "out-unwritable" in result.stderr
    assert result.stdout.splitlines()[-1] == "2 checked, 0 remembered"


def test_a_failed_write_leaves_the_old_memory_whole(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    check("--changed")
    before = (folder / "out" / ".checked.json").read_bytes()
    (folder / "recipes" / "plain.yaml").write_text(WRONG, encoding="utf-8")

    def full(self: Path, target: Path) -> Path:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    assert check("--changed").exit_code == 1
    assert (folder / "out" / ".checked.json").read_bytes() == before
    assert [p.name for p in (folder / "out").iterdir()] == [".checked.json"]


def test_a_name_that_is_no_text_is_checked_each_time(folder: Path) -> None:
    try:
        (folder / "recipes" / "x\udcff.yaml").write_text(WRONG, encoding="utf-8")
    except OSError:
        pytest.skip("this system has no such names")
    call = [sys.executable, "-m", "cards", "check", "--changed"]
    counts = []
    for _ in range(2):
        done = subprocess.run(
            call, env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True
        )
        assert done.returncode == 1, done.stderr
        counts.append(done.stdout.splitlines()[-1])
    assert counts == ["3 checked, 0 remembered", "1 checked, 2 remembered"]
    assert kept(folder) == {"recipes/plain.yaml", "recipes/salted.yaml"}
