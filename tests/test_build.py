"""Builds that go on where the last one ended, side by side, in parts; the same bytes each way."""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from filelock import FileLock

from cards.batch import manifest, opened
from cards.cli import command
from cards.source.workspace import open_workspace
from tests.conftest import DEMO_FILES, PLAIN, ROOT

FEW = DEMO_FILES[:3]


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A programme with three recipes, and the working folder."""
    fill(tmp_path)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def fill(root: Path) -> None:
    (root / "recipes").mkdir(parents=True)
    for path in (*FEW, ROOT / "recipes" / "programme.yaml"):
        shutil.copy(path, root / "recipes")


def run(*args: str) -> Result:
    return CliRunner(env={"COLUMNS": "200"}).invoke(command, ["make", *args])


def digests(out: Path) -> dict[str, str]:
    return {
        p.relative_to(out).as_posix(): hashlib.sha256(p.read_bytes()).hexdigest()
        for p in out.rglob("[!.]*")
        if p.is_file()
    }


def times(out: Path) -> dict[str, int]:
    return {p.name: p.stat().st_mtime_ns for p in out.rglob("*.pdf")}


def made_anew(result: Result) -> list[str]:
    lines = [line for line in result.output.splitlines() if " -> " in line]
    return [line.split(" -> ")[0] for line in lines if "as before" not in line]


# what is made again


def test_nothing_changed_nothing_made(folder: Path) -> None:
    assert len(made_anew(run())) == 3
    before = times(folder / "out")
    again = run()
    assert again.exit_code == 0, again.output
    assert made_anew(again) == []
    assert "3 of 3 are as before" in again.output
    assert times(folder / "out") == before


def test_only_the_recipe_that_changed_is_made(folder: Path) -> None:
    run()
    path = folder / "recipes" / FEW[1].name
    path.write_text(path.read_text(encoding="utf-8") + "# seen\n", encoding="utf-8")
    assert made_anew(run()) == [f"recipes/{FEW[1].name}"]


@pytest.mark.parametrize("what", ["words", "programme", "layout", "foods"])
def test_what_all_cards_rest_on_makes_all_again(what: str, folder: Path) -> None:
    run()
    if what == "programme":
        path = folder / "recipes" / "programme.yaml"
        path.write_text(path.read_text(encoding="utf-8") + "# seen\n", encoding="utf-8")
    elif what == "foods":
        shutil.copy(ROOT / "cards" / "data" / "foods.csv", folder / "recipes" / "foods.csv")
        head = "food,name,group,form,energy_kcal\n"
        (folder / "recipes" / "foods.csv").write_text(head, encoding="utf-8")
    else:
        name = {"words": "words/en.yaml", "layout": "layouts/hand-card.yaml"}[what]
        text = (ROOT / "templates" / name).read_text(encoding="utf-8") + "\n# seen\n"
        own = folder / "templates" / name
        own.parent.mkdir(parents=True)
        own.write_text(text, encoding="utf-8")
    result = run()
    told = "foods.csv" in result.output if what == "foods" else len(made_anew(result)) == 3
    assert told, result.output


def test_words_in_a_language_that_is_not_printed_make_nothing(folder: Path) -> None:
    run()
    (folder / "recipes" / f"{FEW[0].stem}.kok.yaml").write_text("words: 1\n", encoding="utf-8")
    own = folder / "templates" / "words" / "ta.yaml"
    own.parent.mkdir(parents=True)
    own.write_text("language: ta\n", encoding="utf-8")
    assert made_anew(run()) == []


def test_the_page_of_all_cards_is_written_when_it_would_be_another(folder: Path) -> None:
    page = folder / "out" / "index.html"

    def written(*args: str) -> bool:
        """Whether a build writes the page anew, told by a time that no build sets."""
        if page.exists():
            os.utime(page, ns=(5, 5))
        run(*args)
        return page.stat().st_mtime_ns != 5

    assert written()
    run()  # once more: what is remembered holds the time of change
    assert not written()
    assert not written("--anew")
    page.write_text("spoilt", encoding="utf-8")
    assert written()
    good = page.read_bytes()
    path = folder / "recipes" / FEW[0].name
    text = path.read_text("utf-8")
    path.write_text(text.replace("title:\n  en: ", "title:\n  en: New "), "utf-8")
    assert written()
    assert page.read_bytes() != good
    path.unlink()
    assert written()
    assert path.stem not in page.read_text("utf-8")
    own = folder / "templates" / "pages" / "index.html.j2"
    own.parent.mkdir(parents=True)
    own.write_text("<p>{{ title }}</p>", encoding="utf-8")
    assert written()
    assert page.read_text("utf-8").startswith("<p>")


HEAVY = ("pint", "numpy", "uharfbuzz", "fontTools", "yaml", "babel", "jinja2", "rich", "pypdfium2")


@pytest.mark.parametrize(("args", "free_of"), [("make", HEAVY), ("--help", (*HEAVY, "pydantic"))])
def test_what_is_not_needed_is_not_imported(
    args: str, free_of: tuple[str, ...], folder: Path
) -> None:
    """A build with nothing to make, and help, start without what cards are made with."""
    run()
    code = (
        f"import sys; sys.argv = ['cards', {args!r}]; from cards.cli import main\n"
        "try: main()\n"
        "finally: print(*sys.modules, file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        timeout=60,
        check=True,
    )
    assert "3 of 3 are as before" in done.stdout or args == "--help"
    loaded = set(done.stderr.split())
    assert "cards.cli.root" in loaded
    assert loaded.isdisjoint(free_of)


def test_what_was_wrong_with_the_kit_is_told_each_time(folder: Path) -> None:
    own = folder / "recipes" / "foods.csv"
    own.write_text("food,ENERC_kcal\nrice-raw,350\n", encoding="utf-8")
    first, second = run(), run()
    assert "table-mixed" in first.output
    assert "table-mixed" in second.output
    assert made_anew(second) == []


@pytest.mark.parametrize("spoil", [b"", b"{}", b"\xff", b'{"seen": 3}'])
def test_what_is_remembered_of_the_kit_may_be_unreadable(spoil: bytes, folder: Path) -> None:
    run()
    (folder / "out" / opened.FILE).write_bytes(spoil)
    assert made_anew(run()) == []


def test_another_font_or_library_opens_the_kit(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    run()
    workspace = open_workspace(folder)
    now = opened.seen(workspace, "", ())
    found = opened.recall(workspace, now)
    assert found is not None
    monkeypatch.syspath_prepend(folder / "libraries")
    (folder / "libraries" / "pint-99.dist-info").mkdir(parents=True)
    assert opened.seen(workspace, "", ()) != now
    opened.keep(replace(found, fonts=(*found.fonts, str(FEW[0]))), workspace)
    assert opened.recall(workspace, now) is None


def test_a_card_spoilt_or_gone_is_made_again(folder: Path) -> None:
    run()
    good = digests(folder / "out")
    spoilt, gone = (folder / "out" / f"{path.stem}.pdf" for path in FEW[:2])
    data = spoilt.read_bytes()
    spoilt.write_bytes(data[:-1] + b" ")  # as long as before
    gone.unlink()
    assert len(made_anew(run())) == 2
    assert digests(folder / "out") == good


def test_a_copy_of_the_folder_is_believed_by_its_content(folder: Path, tmp_path: Path) -> None:
    """Other times of change, the same bytes, a clock set back: nothing is made again."""
    run()
    for path in (folder / "out").glob("*.pdf"):
        os.utime(path, (1, 1))
    assert made_anew(run()) == []


def test_messages_are_told_again(folder: Path) -> None:
    path = folder / "recipes" / "bad.yaml"
    path.write_text(PLAIN.replace("6 tbsp rice", "6 tbsp rise"), encoding="utf-8")
    first, second = run(), run()
    assert first.exit_code == second.exit_code == 1
    assert "did you mean" in second.output
    assert "bad.yaml -> no card as before" in second.output
    assert made_anew(second) == []


def test_anew_makes_all(folder: Path) -> None:
    run()
    assert len(made_anew(run("--anew"))) == 3


@pytest.mark.parametrize("spoil", [b"", b"{}\n", b"\xff\xfe", b'{"target": "x", "rec'])
def test_a_manifest_that_cannot_be_read_is_none(spoil: bytes, folder: Path) -> None:
    run()
    (folder / "out" / manifest.FILE).write_bytes(spoil)
    assert len(made_anew(run())) == 3
    assert made_anew(run()) == []


def test_a_line_cut_off_costs_one_card(folder: Path) -> None:
    run()
    path = folder / "out" / manifest.FILE
    path.write_bytes(path.read_bytes()[:-40])
    assert len(made_anew(run())) == 1
    assert made_anew(run()) == []


# what is left over


def test_cards_without_a_recipe_are_told_and_taken_on_request(folder: Path) -> None:
    run()
    (folder / "recipes" / FEW[0].name).unlink()
    (folder / "out" / "mine.pdf").write_bytes(b"mine")
    told = run()
    assert f"the recipe is gone of: out/{FEW[0].stem}-sheet.pdf" in told.output
    assert (folder / "out" / f"{FEW[0].stem}.pdf").is_file()
    taken = run("--clear")
    assert "taken away" in taken.output
    left = sorted(p.name for p in (folder / "out").glob("*.pdf"))
    assert left == sorted(
        ["mine.pdf", *(f"{p.stem}{end}" for p in FEW[1:] for end in (".pdf", "-sheet.pdf"))]
    )
    assert "is gone" not in run().output


# the same bytes


def command_in(folder: Path, *args: str, **env: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "cards", "make", *args],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT), **env},
        capture_output=True,
        text=True,
        timeout=120,
    )


@pytest.mark.parametrize(
    "env",
    [
        {"PYTHONHASHSEED": "1", "TZ": "Pacific/Kiritimati", "LC_ALL": "C"},
        {"PYTHONHASHSEED": "2", "TZ": "America/St_Johns", "LC_ALL": "C.UTF-8", "LANG": "hi_IN"},
    ],
)
def test_seed_zone_and_locale_leave_no_trace(
    env: dict[str, str], tmp_path: Path, folder: Path
) -> None:
    run()
    fill(tmp_path / "other")
    done = command_in(tmp_path / "other", **env)
    assert done.returncode == 0, done.stderr
    assert digests(tmp_path / "other" / "out") == digests(folder / "out")


def test_processes_order_and_parts_leave_no_trace(tmp_path: Path, folder: Path) -> None:
    run()
    fill(tmp_path / "two")
    done = command_in(tmp_path / "two", "--processes", "2")
    assert done.returncode == 0, done.stderr
    assert digests(tmp_path / "two" / "out") == digests(folder / "out")
    fill(tmp_path / "parts")
    for part in ("2/2", "1/2"):  # the second before the first
        assert command_in(tmp_path / "parts", "--part", part).returncode == 0
    assert digests(tmp_path / "parts" / "out") == digests(folder / "out")


def test_parts_of_several_machines_are_joined(tmp_path: Path, folder: Path) -> None:
    """The script builds each part in a copy of the folder; joined, it is as one build."""
    if shutil.which("bash") is None:
        pytest.skip("bash is not installed")
    run()
    fill(tmp_path / "parts")
    cards = tmp_path / "cards"
    cards.write_text(f'#!/bin/sh\nexec {sys.executable} -m cards "$@"\n', encoding="utf-8")
    cards.chmod(0o755)
    done = subprocess.run(
        ["bash", ROOT / ".ci" / "build-in-parts", tmp_path / "parts", "2"],
        env={**os.environ, "PYTHONPATH": str(ROOT), "CARDS": str(cards)},
        capture_output=True,
        text=True,
        timeout=120,
    )
    assert done.returncode == 0, done.stderr
    assert "3 of 3 are as before" in done.stdout
    assert digests(tmp_path / "parts" / "out") == digests(folder / "out")


def test_messages_of_several_processes_come_in_order(folder: Path) -> None:
    path = folder / "recipes" / "bad.yaml"
    path.write_text(PLAIN.replace("6 tbsp rice", "6 tbsp rise"), encoding="utf-8")
    done = command_in(folder, "--processes", "2")
    assert done.returncode == 1
    names = [line.split(" -> ")[0] for line in done.stdout.splitlines() if " -> " in line]
    assert names == sorted(names)
    assert len(names) == 4
    assert "  - 6 tbsp rise" in done.stdout


@pytest.mark.parametrize("wrong", ["0/2", "3/2", "x", "1/0", "1"])
def test_a_part_that_is_none_is_wrong_use(wrong: str, folder: Path) -> None:
    assert run("--part", wrong).exit_code == 2


# two at once


def test_a_folder_in_use_is_left_alone(folder: Path) -> None:
    run()
    before = times(folder / "out")
    with FileLock(open_workspace(folder).out / ".lock"):
        # a lock of the same process would be let through
        done = command_in(folder, "--anew")
    assert done.returncode == 1
    assert "out-busy" in done.stdout
    assert times(folder / "out") == before
    assert run("--anew").exit_code == 0
