"""Whole builds of many recipes: by one process and by two, and again when nothing has changed."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

from tests.bench.painting import exponent
from tests.bench.recipes import ROOT, write_folder

SIZES = (100, 1_000)
"""How many recipes are built where no count is given."""


@dataclass(frozen=True)
class Taken:
    """What one command took: seconds on the clock, of the processor, and the most memory (MiB)."""

    clock: float
    processor: float
    peak: float


def build(counts: list[int]) -> None:
    """A line a size and number of processes. Each makes two-sided bilingual cards and sheets."""
    print(
        "recipes  processes  cards a second  ms of processor a card  peak MiB  again, s  % of all"
    )
    for processes in ("1", "2"):
        times: list[float] = []
        for count in counts:
            with tempfile.TemporaryDirectory() as folder:
                write_folder(Path(folder), count)
                first = command(folder, "--processes", processes)
                made = len(list((Path(folder) / "out").glob("*-sheet.pdf")))
                again = command(folder)
            times.append(first.processor)
            print(
                f"{count:>7} {processes:>10} {made / first.clock:>15.1f}"
                f" {first.processor / made * 1000:>23.1f} {first.peak:>9.0f}"
                f" {again.clock:>9.2f} {again.clock / first.clock * 100:>9.2f}",
                flush=True,
            )
        if len(counts) > 1:
            growth = exponent(counts, times)
            print(f"{processes} processes: time grows with the number of recipes to {growth:.3f}")


def command(folder: str, *args: str) -> Taken:
    """Run ``cards make``; the memory is that of its largest process."""
    started = time.perf_counter()
    process = subprocess.Popen(
        [sys.executable, "-m", "cards", "make", *args],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    _, _, used = os.wait4(process.pid, 0)
    clock = time.perf_counter() - started
    return Taken(clock, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)
