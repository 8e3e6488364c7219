"""Checking many files: files a second, memory, growth."""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from cards.batch.memory import check_all
from cards.diagnostics.diagnostic import has_errors
from tests.bench.recipes import ROOT, opened, peak_kib, write_folder

SIZES = (100, 1_000, 10_000)
"""How many recipes are checked where no count is given."""


def check(counts: list[int]) -> None:
    """A line a size: files a second, peak memory, and what each more file costs.

    Milliseconds are of the processor, which other work on the machine sways little.
    """
    print("  files  a second  seconds  ms a file  peak MiB  opening s  with errors  growth")
    before: dict[str, float] | None = None
    for count in counts:
        with tempfile.TemporaryDirectory() as folder:
            write_folder(Path(folder), count)
            call = [sys.executable, "-m", "tests.bench", "check-folder", folder]
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


def check_folder(folder: Path) -> dict[str, float]:
    """Check all recipes of a folder as the command does, and keep the messages."""
    workspace, kit, opening = opened(folder)
    started, processor = time.perf_counter(), time.process_time()
    files = workspace.recipe_files()
    found = [checked.diagnostics for checked in check_all(files, workspace, kit)]
    return {
        "opening": opening,
        "seconds": time.perf_counter() - started,
        "processor": time.process_time() - processor,
        "errors": sum(map(has_errors, found)),
        "peak": peak_kib(),
    }
