"""Files that are no files, names that are no names, and sizes nobody meant: by the command."""

from __future__ import annotations

import os
import resource
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from cards.batch.write import write_whole
from cards.cli import command
from tests.conftest import PLAIN, ROOT


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with one recipe and a programme."""
    root = tmp_path / "ours"
    (root / "recipes").mkdir(parents=True)
    shutil.copy(ROOT / "recipes" / "programme.yaml", root / "recipes")
    (root / "recipes" / "plain.yaml").write_text(PLAIN, encoding="utf-8")
    monkeypatch.chdir(root)
    return root


def run(*args: str) -> Result:
    result = CliRunner(env={"COLUMNS": "200"}).invoke(command, list(args))
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exc_info
    return result


def be_folder(path: Path) -> None:
    path.mkdir()


def be_pipe(path: Path) -> None:
    os.mkfifo(path)


def be_endless(path: Path) -> None:
    path.symlink_to("/dev/zero")


def be_empty_device(path: Path) -> None:
    path.symlink_to("/dev/null")


def be_lost_link(path: Path) -> None:
    path.symlink_to("nowhere")


def be_link_to_itself(path: Path) -> None:
    path.symlink_to(path.name)


def be_utf16(path: Path) -> None:
    path.write_bytes(PLAIN.encode("utf-16"))


def be_latin(path: Path) -> None:
    path.write_bytes("title: r\xe9cit".encode("latin-1"))


NO_FILES: dict[Callable[[Path], None], str] = {
    be_folder: "file-missing",
    be_pipe: "file-unreadable",
    be_endless: "file-unreadable",
    be_empty_device: "file-unreadable",
    be_lost_link: "file-missing",
    be_link_to_itself: "file-unreadable",
    be_utf16: "file-not-text",
    be_latin: "file-not-text",
}
PLACES = (
    "recipes/odd.yaml",
    "recipes/plain.hi.yaml",
    "recipes/programme.yaml",
    "recipes/foods.csv",
    "recipes/needs.yaml",
    "templates/words/en.yaml",
    "templates/layouts/hand-card.yaml",
    "fonts/fonts.yaml",
)


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("become", NO_FILES, ids=lambda f: f.__name__)
def test_what_is_no_text_file_is_told_of(
    folder: Path, become: Callable[[Path], None], place: str
) -> None:
    """Nothing is passed over in silence: a card without its side file is another card."""
    path = folder / place
    path.unlink(missing_ok=True)
    path.parent.mkdir(parents=True, exist_ok=True)
    become(path)
    result = run("check")
    assert result.exit_code == 1
    assert result.output.count(" error ") == 1
    assert f"{place}: error {NO_FILES[become]}" in result.output


NAMES = {
    "a\nb\u202ec": "a?b?c",
    "a*b": "a?b",
    "[red]x": "[red]x",
    "%00?#&": "%00?#&",
    " sp ace ": "sp ace",
    "軟飯": "??",
    "ღომ": "???",
    "🍚": "?",
    "चावल": "चावल",
    "x" * 80: "x" * 37 + "...",
}


@pytest.mark.parametrize("stem", NAMES)
def test_a_file_may_have_any_name(folder: Path, stem: str) -> None:
    (folder / "recipes" / "plain.yaml").rename(folder / "recipes" / f"{stem}.yaml")
    result = run("make")
    assert result.exit_code == 0, result.output
    assert sorted(p.name for p in (folder / "out").glob("*.pdf")) == sorted(
        (f"{stem}.pdf", f"{stem}-sheet.pdf")
    )
    assert result.output.count("\n") == 1
    assert "\u202e" not in result.output
    shown = run("show", f"recipes/{stem}.yaml", "--stage", "pages").output
    assert f"trace: {NAMES[stem]}, version 1, " in shown


def test_a_name_that_is_no_utf8(folder: Path) -> None:
    name = os.fsdecode(b"caf\xe9.yaml")
    (folder / "recipes" / "plain.yaml").rename(folder / "recipes" / name)
    result = run("make")
    assert result.exit_code == 0, result.output
    made = sorted(os.fsencode(p.name) for p in (folder / "out").glob("*.pdf"))
    assert made == [b"caf\xe9-sheet.pdf", b"caf\xe9.pdf"]


def test_a_name_too_long_to_write_to(folder: Path) -> None:
    (folder / "recipes" / "plain.yaml").rename(folder / "recipes" / f"{'x' * 250}.yaml")
    result = run("make")
    assert result.exit_code == 1
    assert "out-unwritable" in result.output
    # there is room for ".pdf" in the name, but not for "-sheet.pdf"
    assert [p.name for p in (folder / "out").glob("*.pdf")] == [f"{'x' * 250}.pdf"]
    assert (folder / "out" / f"{'x' * 250}.pdf").read_bytes().rstrip().endswith(b"%%EOF")


def test_a_name_no_disk_can_hold(folder: Path) -> None:
    result = run("check", f"recipes/{'x' * 5000}.yaml")
    assert result.exit_code == 1
    assert "file-unreadable" in result.output


def test_a_path_too_long_for_a_code(folder: Path) -> None:
    deep = folder / "recipes" / ("d" * 200) / ("e" * 200)
    deep.mkdir(parents=True)
    (deep / "x.yaml").write_text(PLAIN, encoding="utf-8")
    result = run("make", f"recipes/{'d' * 200}/{'e' * 200}/x.yaml")
    assert result.exit_code == 1
    assert result.output.count(" error ") == 1
    assert "name-too-long" in result.output


def test_a_recipe_from_elsewhere_is_made_here(folder: Path) -> None:
    other = folder.parent / "elsewhere.yaml"
    other.write_text(PLAIN, encoding="utf-8")
    assert run("make", "../elsewhere.yaml").exit_code == 0
    assert sorted(p.name for p in folder.parent.iterdir()) == ["elsewhere.yaml", "ours"]
    assert (folder / "out" / "elsewhere.pdf").is_file()


def test_an_out_folder_that_lies_elsewhere(folder: Path) -> None:
    """A link is the person's own wish, as to a memory stick; a link to nowhere is told of."""
    (folder.parent / "stick").mkdir()
    (folder / "out").symlink_to("../stick")
    assert run("make").exit_code == 0
    assert (folder.parent / "stick" / "plain.pdf").is_file()
    (folder / "out").unlink()
    (folder / "out").symlink_to("nowhere")
    result = run("make")
    assert result.exit_code == 1
    assert "out-unwritable" in result.output


def test_a_card_never_writes_through_a_link(folder: Path) -> None:
    (folder / "out").mkdir()
    (folder / "kept.txt").write_text("kept", encoding="utf-8")
    (folder / "out" / "plain.pdf").symlink_to("../kept.txt")
    assert run("make").exit_code == 0
    assert (folder / "kept.txt").read_text(encoding="utf-8") == "kept"
    assert not (folder / "out" / "plain.pdf").is_symlink()


def test_a_folder_where_a_card_should_be(folder: Path) -> None:
    (folder / "out" / "plain.pdf").mkdir(parents=True)
    result = run("make")
    assert result.exit_code == 1
    assert "out-unwritable" in result.output
    assert [p.name for p in (folder / "out").glob("*.pdf")] == ["plain.pdf"]


@pytest.mark.parametrize("other", ["plain-sheet.yaml", "Plain.yaml", "PLAIN-SHEET.yml"])
def test_no_sheet_is_written_over_a_card(folder: Path, other: str) -> None:
    (folder / "recipes" / other).write_text(PLAIN, encoding="utf-8")
    result = run("make")
    assert result.exit_code == 1
    assert result.output.count("out-twice") == 1
    written = [p.name.casefold() for p in (folder / "out").glob("*.pdf")]
    assert len(written) == len(set(written)) == 2


def test_a_write_that_is_broken_off_leaves_no_rest(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "x.pdf").write_bytes(b"old")

    def stop(handle: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", stop)
    with pytest.raises(KeyboardInterrupt):
        write_whole(tmp_path / "x.pdf", b"new", "x.pdf")
    assert [(p.name, p.read_bytes()) for p in tmp_path.iterdir()] == [("x.pdf", b"old")]


def test_titles_of_new_recipes(folder: Path) -> None:
    assert run("new", "../../x").exit_code == 0
    assert run("new", "caf\udce9 rice").exit_code == 0
    assert run("new", "\udce9\n../").exit_code == 2
    assert sorted(p.stem for p in (folder / "recipes").iterdir()) == [
        "caf-rice",
        "plain",
        "programme",
        "x",
    ]


def test_marks_in_the_names_of_foods_are_shown_as_they_are(folder: Path) -> None:
    (folder / "recipes" / "foods.csv").write_text(
        "food,name,note\na,[/b][red]x,[/z] :smile:\n", encoding="utf-8"
    )
    assert "[/b][red]x" in run("foods", "find", "[red]").output
    assert "[/z] :smile:" in run("foods", "show", "a").output


SIZES = {
    "five megabytes": "notes: '" + "x" * 5_000_000 + "'\n",
    "just under the most": PLAIN + "notes: '" + "x" * 390_000 + "'\n",
    "ten thousand ingredients": PLAIN.replace("  - 6 tbsp rice\n", "  - 6 tbsp rice\n" * 10_000),
    "ten thousand faults": PLAIN.replace("  - 6 tbsp rice\n", "  - {rise: 6 tbspp}\n" * 10_000),
    "a hundred thousand empty lines": PLAIN + "accept:\n" + "  -\n" * 90_000,
}

SECONDS, MEGABYTES = 30, 500
"""Far over what each takes (under 3 s and 200 MB, measured); a blow-up is far over this."""


@pytest.mark.parametrize("name", SIZES)
def test_time_and_memory_are_bounded(folder: Path, name: str) -> None:
    (folder / "recipes" / "plain.yaml").write_text(SIZES[name], encoding="utf-8")

    def bound() -> None:
        resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
        resource.setrlimit(resource.RLIMIT_AS, (4 * MEGABYTES << 20, 4 * MEGABYTES << 20))

    code = (
        "import re, sys; sys.argv = ['cards', 'check']; from cards.cli import main\n"
        "try: main()\n"
        # of this process alone; what getrusage tells begins with the most that its parent had
        "finally: print(re.search(r'VmHWM:\\s+(\\d+)', open('/proc/self/status').read())[1],"
        " file=sys.stderr)"
    )
    ended = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        preexec_fn=bound,
        timeout=4 * SECONDS,
        check=False,
    )
    assert ended.returncode == (0 if name == "just under the most" else 1), ended.stderr
    assert "Traceback" not in ended.stderr
    assert len(ended.stdout.splitlines()) < 500
    assert int(ended.stderr.split()[-1]) < MEGABYTES * 1024  # kilobytes on Linux
