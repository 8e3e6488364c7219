"""Times the flow on many distinct recipes. Asserts nothing.

``python -m tests.bench check [COUNT ...]`` checks, each count in a process of its own;
``python -m tests.bench cards [COUNT]`` checks and paints.
"""

from __future__ import annotations

import json
import re
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from cards.batch.kit import Kit, open_kit
from cards.batch.memory import check_all
from cards.batch.stages import run_text
from cards.diagnostics.diagnostic import has_errors
from cards.pdf.paint import paint
from cards.source.workspace import PROGRAMME, Workspace, open_workspace

ROOT = Path(__file__).resolve().parents[2]

SIZES = (100, 1_000, 10_000)
"""How many recipes are checked where no count is given."""


def distinct(text: str, n: int) -> str:
    """A recipe's text made one of its own by the number ``n``.

    The number stands in the title and in each sentence of the author's own; grams and spoons
    differ a little. So no text, sum or page is met twice, and what is kept between recipes is
    no more than a real collection lets be kept: words, icons, foods.
    """
    tenths = n % 89
    halves = n % 3

    def grams(found: re.Match[str]) -> str:
        return f"{found[1]}{int(found[2]) + tenths // 10}.{tenths % 10}{found[3]}"

    def spoons(found: re.Match[str]) -> str:
        number = int(found[2])
        return found[1] + (f"{number}", f"{number} 1/2", f"{number - 1} 1/2")[halves] + found[3]

    text = re.sub(r"(?m)^(  (?:en|hi): .*)$", rf"\1 {n}", text, count=2)
    text = re.sub(r"(?m)^( {4,}(?:en|hi): .*?)([.।]?)$", rf"\1 {n}\2", text)
    text = re.sub(r"(\(|grams: )(\d+)( g\)|\n)", grams, text)
    return re.sub(r"(?m)^( *- )([2-9])( (?:tbsp|tsp) )", spoons, text)


def main() -> None:
    """Print the figures asked for."""
    what, *counts = sys.argv[1:] or ["check"]
    if what == "check":
        _check([int(c) for c in counts] or list(SIZES))
    elif what == "one":
        print(json.dumps(_check_folder(Path(counts[0]))))
    elif what == "cards":
        _cards(int(counts[0]) if counts else 200)
    else:
        sys.exit(__doc__)


def _check(counts: list[int]) -> None:
    """A line a size: files a second, peak memory, and what each more file costs.

    Milliseconds are of the processor, which other work on the machine sways little.
    """
    print("  files  a second  seconds  ms a file  peak MiB  opening s  with errors  growth")
    before: dict[str, float] | None = None
    for count in counts:
        with tempfile.TemporaryDirectory() as folder:
            _write(Path(folder), count)
            call = [sys.executable, "-m", "tests.bench", "one", folder]
            done = subprocess.run(call, cwd=ROOT, check=True, capture_output=True, text=True)
        now: dict[str, float] = {**json.loads(done.stdout), "count": count}
        each = now["processor"] / count * 1000
        print(
            f"{count:>7} {count / now['seconds']:>9.1f} {now['seconds']:>8.2f} {each:>10.2f}"
            f" {now['peak'] / 1024:>9.1f} {now['opening']:>10.2f} {now['errors']:>12}  ",
            end="",
        )
        if before is not None and count > before["count"]:
            slower = each / (before["processor"] / before["count"] * 1000)
            memory = (now["peak"] - before["peak"]) / (count - before["count"])
            print(f"time a file x {slower:.2f}, {memory:.1f} KiB a file more", end="")
        print(flush=True)
        before = now


def _write(folder: Path, count: int) -> None:
    """A programme's folder with ``count`` recipes, no two alike."""
    demo = open_workspace(ROOT)
    recipes = folder / "recipes"
    recipes.mkdir()
    shutil.copy(ROOT / "recipes" / PROGRAMME, recipes)
    texts = [path.read_text(encoding="utf-8") for path in demo.recipe_files()]
    for n in range(count):
        text = distinct(texts[n % len(texts)], n)
        (recipes / f"r{n:05}.yaml").write_text(text, encoding="utf-8")


def _opened(folder: Path) -> tuple[Workspace, Kit, float]:
    started = time.perf_counter()
    workspace = open_workspace(folder)
    kit = open_kit(workspace).value
    assert kit is not None
    return workspace, kit, time.perf_counter() - started


def _check_folder(folder: Path) -> dict[str, float]:
    """Check all recipes of a folder as the command does, and keep the messages."""
    workspace, kit, opening = _opened(folder)
    started, processor = time.perf_counter(), time.process_time()
    files = workspace.recipe_files()
    found = [checked.diagnostics for checked in check_all(files, workspace, kit)]
    return {
        "opening": opening,
        "seconds": time.perf_counter() - started,
        "processor": time.process_time() - processor,
        "errors": sum(map(has_errors, found)),
        "peak": _peak(),
    }


def _cards(count: int) -> None:
    """Cards a second for checking and for painting, and the most memory used."""
    workspace, kit, opening = _opened(ROOT)
    print(f"opening words, fonts and foods: {opening:.2f} s")
    texts = [path.read_text(encoding="utf-8") for path in workspace.recipe_files()]
    recipes = [distinct(texts[n % len(texts)], n) for n in range(count)]
    started = time.perf_counter()
    runs = [run_text(text, f"recipes/r{n}.yaml", kit) for n, text in enumerate(recipes)]
    checked = time.perf_counter() - started
    print(f"checked {count} in {checked:.2f} s: {count / checked:.0f} a second")
    started = time.perf_counter()
    size = sum(len(paint(run.pages, run.sources)) for run in runs if run.pages is not None)
    painted = time.perf_counter() - started
    print(
        f"painted {count} in {painted:.2f} s: {count / painted:.0f} a second, "
        f"{size / count / 1000:.0f} kB each"
    )
    print(f"most memory: {_peak() / 1024:.0f} MiB")


def _peak() -> float:
    """The most memory this process has had, in KiB (Linux counts in KiB, macOS in bytes)."""
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most / 1024 if sys.platform == "darwin" else most


if __name__ == "__main__":
    main()
