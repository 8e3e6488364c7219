"""Recipes that no two are alike, and the kit to check them with."""

from __future__ import annotations

import re
import resource
import shutil
import sys
import time
from pathlib import Path

from cards.batch.kit import Kit, open_kit
from cards.cli.common import settle
from cards.source.workspace import PROGRAMME, Workspace, open_workspace

ROOT = Path(__file__).resolve().parents[2]


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


def write_folder(folder: Path, count: int) -> None:
    """A programme's folder with ``count`` recipes, no two alike."""
    demo = open_workspace(ROOT)
    recipes = folder / "recipes"
    recipes.mkdir()
    shutil.copy(ROOT / "recipes" / PROGRAMME, recipes)
    texts = [path.read_text(encoding="utf-8") for path in demo.recipe_files()]
    for n in range(count):
        text = distinct(texts[n % len(texts)], n)
        (recipes / f"r{n:05}.yaml").write_text(text, encoding="utf-8")


def opened(folder: Path) -> tuple[Workspace, Kit, float]:
    started = time.perf_counter()
    workspace = open_workspace(folder)
    kit = open_kit(workspace).value
    assert kit is not None
    settle()  # as the command does
    return workspace, kit, time.perf_counter() - started


def peak_kib() -> float:
    """The most memory this process has had, in KiB (Linux counts in KiB, macOS in bytes)."""
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most / 1024 if sys.platform == "darwin" else most
