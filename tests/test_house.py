"""The project's own order: who imports whom, how long rooms grow, what messages mean."""

from __future__ import annotations

import ast
import re
import statistics
from pathlib import Path

import pytest

from cards.data import load
from cards.safety.rules import rules
from tests.conftest import ROOT

PACKAGE = ROOT / "cards"
MODULES = sorted(PACKAGE.rglob("*.py"))

# rooms in the order data flows; a room imports from its own or from earlier ones
FLOW = (
    "diagnostics",
    "data",
    "source",
    "foods",
    "nutrition",
    "method",
    "safety",
    "words",
    "card",
    "plan",
    "text",
    "icons",
    "layout",
    "pdf",
    "batch",
    "cli",
    "__main__",
)


def room(module: str) -> str:
    parts = module.split(".")
    return parts[1] if len(parts) > 1 else "__init__"


def imports(path: Path) -> list[str]:
    found: list[str] = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("cards"):
            deeper = [f"{node.module}.{a.name}" for a in node.names]
            found += deeper if node.module == "cards" else [node.module]
        elif isinstance(node, ast.Import):
            found += [a.name for a in node.names if a.name.startswith("cards")]
    return found


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(ROOT)))
def test_imports_never_go_back(path: Path) -> None:
    relative = path.relative_to(ROOT).with_suffix("")
    own = room(".".join(relative.parts))
    if own == "__init__":
        return
    for target in imports(path):
        name = room(target)
        if name in FLOW:
            assert FLOW.index(name) <= FLOW.index(own), f"{relative} imports {target}"


def test_only_the_pdf_room_knows_how_files_are_written() -> None:
    for path in MODULES:
        if re.search(r"(?m)^(from|import) (zlib|pypdf|reportlab)", path.read_text("utf-8")):
            assert path.parent.name == "pdf", path


def test_only_loader_and_writer_touch_files() -> None:
    """House rule: files are read in the workspace loader and font opener, written in the writer."""
    allowed = {"workspace.py", "write.py", "load.py", "faces.py"}
    for path in MODULES:
        text = path.read_text(encoding="utf-8")
        touches = re.search(
            r"\.read_text\(|\.read_bytes\(|(?<!Image\.)\bopen\(|\.write_bytes\(|\.write_text\(",
            text,
        )
        assert not touches or path.name in allowed, path


def test_rooms_stay_small() -> None:
    lengths = {p: len(p.read_text(encoding="utf-8").splitlines()) for p in MODULES}
    assert max(lengths.values()) <= 400, max(lengths, key=lambda p: lengths[p])
    assert statistics.median(lengths.values()) < 180


_CALLS = {"error": 1, "warning": 1, "note": 1, "fault": 0, "fail": 0, "one_of": 1, "missing": 0}
"""Where each of these functions takes the kind."""


def raised() -> set[str]:
    """Kinds raised anywhere, read off the calls."""
    kinds: set[str] = set()
    for path in MODULES:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call):
                name = getattr(node.func, "attr", getattr(node.func, "id", ""))
                index = _CALLS.get(name)
                if index is not None and len(node.args) > index:
                    kinds |= {
                        leaf.value
                        for leaf in ast.walk(node.args[index])
                        if isinstance(leaf, ast.Constant) and isinstance(leaf.value, str)
                    }
            if isinstance(node, ast.Assign) and getattr(node.targets[0], "id", "") == "kind":
                kinds |= {
                    leaf.value
                    for leaf in ast.walk(node.value)
                    if isinstance(leaf, ast.Constant) and isinstance(leaf.value, str)
                }
    return kinds


def test_every_kind_is_explained_and_raised() -> None:
    explained = set(load.mapping("kinds.yaml"))
    assert explained <= raised(), explained - raised()
    told = {k for k in raised() if re.fullmatch(r"[a-z]+(-[a-z]+)+", k)}
    assert told - explained - set(rules()) == set()


def test_every_kind_is_shown_in_a_test() -> None:
    tests = "\n".join(
        p.read_text(encoding="utf-8") for p in Path(__file__).parent.glob("test_*.py")
    )
    shown = set(re.findall(r"[a-z]+(?:-[a-z]+)*", tests))
    missing = {*load.mapping("kinds.yaml"), *rules()} - shown
    assert missing == set()


def test_every_kind_says_what_and_cure() -> None:
    for kind, facts in load.mapping("kinds.yaml").items():
        assert set(facts) == {"what", "cure"}, kind
        assert all(facts.values())


def test_every_feeding_figure_names_its_source() -> None:
    data = load.mapping("feeding.yaml")
    for band in data["bands"].values():
        for figure in band.values():
            if isinstance(figure, dict):
                assert figure["source"] in data["sources"]
                assert figure["known"] in ("seen", "memory", "computed")
                assert figure["known"] != "computed" or figure["note"]
