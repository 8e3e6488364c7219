"""Which recipe a paper comes from, by its code, its file, or a picture of it."""

from __future__ import annotations

import io
import json
import shutil
import subprocess
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from cards.batch.papers import scanned, typed
from cards.cli import command
from tests.conftest import ROOT
from tests.copier import WORN, copied, raster

DISH = "pumpkin-rice-moong"
SIDED = "methi-roti-curd"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A programme of two dishes in a git repository, its cards made, and the working folder."""
    (tmp_path / "recipes").mkdir()
    for name in (f"{DISH}.yaml", f"{SIDED}.yaml", f"{SIDED}.hi.yaml", "programme.yaml"):
        shutil.copy(ROOT / "recipes" / name, tmp_path / "recipes")
    monkeypatch.chdir(tmp_path)
    git("init", "-q")
    commit("first")
    assert run("make").exit_code == 0
    return tmp_path


def git(*words: str) -> None:
    who = ["-c", "user.name=x", "-c", "user.email=x@example.org"]
    subprocess.run(["git", *who, *words], check=True, capture_output=True)


def commit(what: str) -> None:
    git("add", "recipes")
    git("commit", "-q", "-m", what)


def run(*args: str) -> Result:
    result = CliRunner(env={"COLUMNS": "200"}).invoke(command, list(args))
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exc_info
    return result


def code_of(dish: str) -> str:
    shown = run("show", f"recipes/{dish}.yaml", "--stage", "recipe").output
    return (
        str(json.loads(run("trace", f"out/{dish}.pdf", "--json").output)["code"]) if shown else ""
    )


def change(dish: str, old: str, new: str) -> None:
    path = Path("recipes") / f"{dish}.yaml"
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


# what a hand types


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("d865bdc008", "d865bdc008"),
        ("D865BDC008", "d865bdc008"),
        (" d865 bdc0 08 ", "d865bdc008"),
        ("d865bdcoo8", "d865bdc008"),
        ("d865", "d865"),
        ("methi-roti-curd, version 1, 2026-11-24, d865bdc008", "d865bdc008"),
        ("https://two-wells.example/recipes/x%20y.yaml?d=d865bdc008", "d865bdc008"),
    ],
)
def test_codes_as_hands_write_them(text: str, code: str) -> None:
    found = typed(text)
    assert found is not None
    assert found.code == code


@pytest.mark.parametrize("text", ["", "d86", "rice", "d865bdc0088", "-", "नमक"])
def test_what_is_no_code(text: str, folder: Path) -> None:
    assert typed(text) is None
    result = run("trace", text or " ")
    assert result.exit_code == 2
    assert result.output.count("trace-unread") == 1


def test_an_address_tells_the_path() -> None:
    assert (
        scanned("https://a.example/b/recipes/x%20y.yaml?d=0123456789").path == "b/recipes/x y.yaml"
    )
    assert scanned("recipes/x.yaml?d=0123456789").path == "recipes/x.yaml"


# a paper that holds


@pytest.mark.parametrize("dish", [DISH, SIDED])
def test_a_current_paper(dish: str, folder: Path) -> None:
    code = code_of(dish)
    for what in (code, code[:5], code.upper(), f"out/{dish}.pdf"):
        result = run("trace", what)
        assert result.exit_code == 0, result.output
        assert f"recipes/{dish}.yaml" in result.output
        assert "this paper is current" in result.output


def test_every_card_of_a_file_is_told(folder: Path) -> None:
    assert run("make", "--together", "--up").exit_code == 0
    for name in ("cards.pdf", "print-a4.pdf"):
        result = run("trace", f"out/{name}")
        assert result.exit_code == 0, result.output
        assert result.output.count("is current") == 2


def test_a_picture_of_a_worn_copy(folder: Path) -> None:
    """Taken of a third copy, turned by a right angle: the reader is not the writer of the code."""
    pdf = Path(f"out/{DISH}.pdf").read_bytes()
    picture = copied(raster(pdf, 1), WORN).picture.rotate(90, expand=True, fillcolor=255)
    for name in ("photo.png", "photo.jpg"):
        picture.convert("L").save(name)
        result = run("trace", name)
        assert result.exit_code == 0, result.output
        assert f"recipes/{DISH}.yaml" in result.output


def test_a_scan_as_a_pdf(folder: Path) -> None:
    """A PDF of nothing but a picture: its code is read from the page."""
    pdf = Path(f"out/{DISH}.pdf").read_bytes()
    raster(pdf, 1).convert("L").save("scan.pdf", resolution=200)
    result = run("trace", "scan.pdf")
    assert result.exit_code == 0, result.output
    assert "this paper is current" in result.output


@pytest.mark.parametrize(
    "data", [b"%PDF-1.7\n", b"%PDF-1.7\n1 0 obj\n<<>>\nendobj\n%%EOF\n", b"\x89PNG\r\n", b"x" * 99]
)
def test_a_file_without_a_code(data: bytes, folder: Path) -> None:
    Path("odd.bin").write_bytes(data)
    result = run("trace", "odd.bin")
    assert result.exit_code == 2
    assert result.output.count("trace-unread") == 1


# a paper that no longer holds


def test_an_amount_that_changed_is_told(folder: Path) -> None:
    code = code_of(DISH)
    change(DISH, "3 tsp ghee", "2 1/2 tsp ghee")
    result = run("trace", code)
    assert result.exit_code == 1
    assert "out of date" in result.output
    assert "amounts:" in result.output
    assert "ghee" in result.output.split("amounts:")[1]
    # the same from the file's own source, where no history is kept
    shutil.rmtree(".git")
    assert "amounts:" in run("trace", f"out/{DISH}.pdf").output
    alone = run("trace", code)
    assert alone.exit_code == 2
    assert "nor had one" in alone.output


def test_a_code_alone_without_history_says_what_it_can(folder: Path) -> None:
    code = code_of(DISH)
    change(DISH, "version: ", "# seen\nversion: ")
    shutil.rmtree(".git")
    result = run("trace", f"https://two-wells.example/recipes/{DISH}.yaml?d={code}")
    assert result.exit_code == 1
    assert "cannot be compared" in result.output


def test_words_of_a_side_file_that_changed_are_told(folder: Path) -> None:
    code = code_of(SIDED)
    path = Path(f"recipes/{SIDED}.hi.yaml")
    path.write_text(path.read_text("utf-8").replace("6 पतली", "6 छोटी"), encoding="utf-8")
    result = run("trace", code)
    assert result.exit_code == 1
    assert "छोटी" in result.output
    assert "steps:" in result.output


def test_a_warning_added_since_calls_the_paper_back(folder: Path) -> None:
    code = code_of(DISH)
    change(DISH, "\nsteps:", "\n  - 1 tsp peanut powder\nsteps:")
    change(DISH, "use: rice", "use: peanut powder, rice")
    result = run("trace", code)
    assert result.exit_code == 1, result.output
    assert "RECALL THIS CARD: a warning was added since" in result.output
    assert "peanut" in result.output.split("RECALL")[1]


def test_a_file_with_a_warning_taken_off_is_called_back(folder: Path) -> None:
    """Its words are held against today's warnings, whatever its code says."""
    dish = "fish"
    shutil.copy(ROOT / "recipes" / "steamed-fish-potato.yaml", f"recipes/{dish}.yaml")
    assert run("make").exit_code == 0
    import pypdf

    writer = pypdf.PdfWriter()
    pages = pypdf.PdfReader(f"out/{dish}.pdf").pages
    page = writer.add_page(pages[1])
    contents = page.get_contents()
    assert contents is not None
    text = page.extract_text()
    assert "bone" in text
    stream = io.BytesIO()
    writer.write(stream)
    Path("half.pdf").write_bytes(stream.getvalue())
    whole = run("trace", "half.pdf")
    assert whole.exit_code == 0, whole.output
    words = Path(ROOT / "templates" / "words" / "en.yaml").read_text("utf-8")
    own = Path("templates/words")
    own.mkdir(parents=True)
    line = next(x for x in words.splitlines() if x.startswith("  bones-out:"))
    (own / "en.yaml").write_text(words.replace(line, "  bones-out: Look for bones"), "utf-8")
    hindi = Path(ROOT / "templates" / "words" / "hi.yaml").read_text("utf-8")
    line = next(x for x in hindi.splitlines() if x.startswith("  bones-out:"))
    (own / "hi.yaml").write_text(hindi.replace(line, "  bones-out: काँटा देखें"), "utf-8")
    result = run("trace", "half.pdf")
    assert result.exit_code == 1
    assert "a warning is not on this paper: Look for bones" in result.output


def test_a_recipe_that_is_gone(folder: Path) -> None:
    code = code_of(DISH)
    Path(f"recipes/{DISH}.yaml").unlink()
    result = run("trace", code)
    assert result.exit_code == 1
    assert "no longer here" in result.output


def test_a_recipe_under_a_new_name_is_found(folder: Path) -> None:
    """The text is the same, and with it the code."""
    code = code_of(DISH)
    Path(f"recipes/{DISH}.yaml").rename("recipes/pumpkin.yaml")
    result = run("trace", f"https://two-wells.example/recipes/{DISH}.yaml?d={code}")
    assert result.exit_code == 0, result.output
    assert "recipes/pumpkin.yaml" in result.output


def test_a_slip_of_the_hand(folder: Path) -> None:
    code = code_of(DISH)
    wrong = code[:4] + ("0" if code[4] != "0" else "1") + code[5:]
    result = run("trace", wrong)
    assert result.exit_code == 2
    assert f"did you mean: {code}" in result.output


def test_json_lines(folder: Path) -> None:
    found = json.loads(run("trace", f"out/{DISH}.pdf", "--json").output)
    assert found["state"] == "current"
    assert found["recipe"] == f"recipes/{DISH}.yaml"
