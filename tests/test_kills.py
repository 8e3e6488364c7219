"""Builds that are killed, starved of disk, or raced: no half file, no lie, and the next one ends.

The faults are real ones: signals, small and read-only disks, files changed while they are read.
CARDS_KILLS sets how many times a build is killed.
"""

from __future__ import annotations

import os
import random
import shutil
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pypdf
import pytest

from cards.batch import manifest
from cards.source.workspace import open_workspace
from tests.conftest import DEMO_FILES, ROOT
from tests.test_build import digests

KILLS = int(os.environ.get("CARDS_KILLS", "12"))
COUNT = 8


@pytest.fixture(scope="module")
def good(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """What a build that nobody disturbs makes."""
    folder = filled(tmp_path_factory.mktemp("good"))
    ended(folder)
    return digests(folder / "out")


def filled(folder: Path) -> Path:
    """A programme with ``COUNT`` recipes, some of them renamed."""
    (folder / "recipes").mkdir()
    shutil.copy(ROOT / "recipes" / "programme.yaml", folder / "recipes")
    for number in range(COUNT):
        shutil.copy(DEMO_FILES[number % 3], folder / "recipes" / f"dish-{number}.yaml")
    return folder


def begun(folder: Path, *args: str) -> subprocess.Popen[str]:
    """A build, in a group of processes of its own."""
    return subprocess.Popen(
        [sys.executable, "-m", "cards", "make", *args],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        start_new_session=True,
    )


def ended(folder: Path) -> str:
    """A build that nobody stops, to its end; what it said."""
    process = begun(folder)
    said, _ = process.communicate(timeout=120)
    assert process.returncode == 0, said
    return said


def assert_sound(folder: Path) -> None:
    """Every PDF opens, and what the manifest claims is there, byte for byte."""
    out = folder / "out"
    for path in out.glob("*.pdf"):
        assert len(pypdf.PdfReader(path).pages) in (1, 2)
    now = digests(out)
    for entry in manifest.recall(open_workspace(folder)).entries.values():
        for file in entry.files:
            assert now.get(file.name) == file.sha256, file.name


def test_killed_at_any_moment(good: dict[str, str], tmp_path: Path) -> None:
    """Killed at random moments of its run, by one process and by two, all anew each time."""
    folder = filled(tmp_path)
    started = time.monotonic()
    ended(folder)
    whole = time.monotonic() - started
    chance = random.Random(20261125)
    stopped = 0
    for number in range(KILLS):
        process = begun(folder, "--anew", *(["--processes", "2"] if number % 2 else []))
        try:
            process.wait(timeout=chance.uniform(0.05, 1.2 * whole))
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()
            stopped += 1
        assert process.stdout is not None
        process.stdout.close()
        assert_alone(process)
        assert_sound(folder)
    assert stopped > KILLS / 3
    ended(folder)
    assert digests(folder / "out") == good
    assert not list((folder / "out").rglob(".*.part"))


def assert_alone(process: subprocess.Popen[str]) -> None:
    """Nobody of the group goes on for long after the first is gone."""
    for _ in range(100):
        try:
            os.killpg(process.pid, 0)
        except ProcessLookupError:
            return
        time.sleep(0.1)
    raise AssertionError("a process goes on without the first")


@pytest.mark.parametrize("processes", ["1", "2"])
def test_the_keyboard_stops_it_cleanly(
    processes: str, good: dict[str, str], tmp_path: Path
) -> None:
    folder = filled(tmp_path)
    process = begun(folder, "--processes", processes)
    assert process.stdout is not None
    first = process.stdout.readline()
    assert "dish-0" in first
    os.killpg(process.pid, signal.SIGINT)
    said, _ = process.communicate(timeout=60)
    assert process.returncode == 130, said
    assert f"of {COUNT} cards are done" in said
    assert "Traceback" not in said
    assert not list((folder / "out").rglob(".*.part"))
    assert_sound(folder)
    assert "as before" in ended(folder)
    assert digests(folder / "out") == good


@contextmanager
def disk(folder: Path, how: str) -> Iterator[None]:
    """A small disk of its own at ``folder``."""
    folder.mkdir()
    call = ["mount", "-t", "tmpfs", "-o", how, "cards-test", str(folder)]
    if shutil.which("mount") is None or subprocess.run(call, capture_output=True).returncode:
        pytest.skip("no disk can be mounted here")
    try:
        yield
    finally:
        subprocess.run(["umount", str(folder)], check=True)


def test_a_full_disk(good: dict[str, str], tmp_path: Path) -> None:
    """The disk holds a few cards. What is whole stays, and with more room the rest follows."""
    folder = filled(tmp_path)
    with disk(folder / "out", "size=300k"):
        process = begun(folder)
        said, _ = process.communicate(timeout=120)
        assert process.returncode == 1
        assert "No space left" in said
        assert "Traceback" not in said
        assert_sound(folder)
        assert not list((folder / "out").rglob(".*.part"))
        whole = list((folder / "out").glob("*.pdf"))
        assert 0 < len(whole) < len(good)
        remount = ["mount", "-o", "remount,size=8m", str(folder / "out")]
        subprocess.run(remount, check=True)
        ended(folder)
        assert digests(folder / "out") == good


def test_a_disk_that_may_only_be_read(tmp_path: Path) -> None:
    folder = filled(tmp_path)
    with disk(folder / "out", "ro"):
        process = begun(folder)
        said, _ = process.communicate(timeout=120)
    assert process.returncode == 1
    assert said.count("out-unwritable") == 1
    assert "Traceback" not in said


def test_a_recipe_that_changes_while_it_is_read(tmp_path: Path) -> None:
    """Whatever was caught, the next build tells it from what is there now."""
    folder = filled(tmp_path)
    path = folder / "recipes" / "dish-0.yaml"
    texts = [path.read_text(encoding="utf-8")]
    texts.append(texts[0].replace("version: 1", "version: 2"))
    assert texts[0] != texts[1]
    done = threading.Event()

    def change() -> None:
        number = 0
        while not done.is_set():
            number += 1
            path.write_text(texts[number % 2], encoding="utf-8")

    writer = threading.Thread(target=change)
    writer.start()
    process = begun(folder)
    process.communicate(timeout=120)  # it may have read half a file, and say so
    done.set()
    writer.join()
    path.write_text(texts[1], encoding="utf-8")
    assert_sound(folder)
    ended(folder)
    changed = digests(folder / "out")
    shutil.rmtree(folder / "out")
    ended(folder)
    assert digests(folder / "out") == changed


@pytest.mark.parametrize("name", ["दाल-चावल", "ডাল ভাত", "பருப்பு", "دال چاول", "🍚", "x" * 230])
def test_a_file_name_in_any_script(name: str, tmp_path: Path) -> None:
    folder = filled(tmp_path)
    for path in folder.glob("recipes/dish-[0134567].yaml"):
        path.unlink()
    (folder / "recipes" / "dish-2.yaml").rename(folder / "recipes" / f"{name}.yaml")
    ended(folder)
    assert (folder / "out" / f"{name}.pdf").is_file()
    assert "1 of 1 are as before" in ended(folder)


def test_a_path_of_three_hundred_characters(tmp_path: Path, good: dict[str, str]) -> None:
    deep = tmp_path / ("a" * 100) / ("b" * 100) / ("c" * 100)
    deep.mkdir(parents=True)
    folder = filled(deep)
    ended(folder)
    assert digests(folder / "out") == good
