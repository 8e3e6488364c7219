"""A session file with everything it names: kits by language, dishes by language, charts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from cards.batch.kit import Kit, kit_in
from cards.batch.run import Run
from cards.batch.stages import run_file
from cards.card.drafts import drafts_of
from cards.diagnostics.diagnostic import Diagnostic, Place, Severity, error, has_errors
from cards.diagnostics.nearest import did_you_mean
from cards.nutrition.analysis import Analysis
from cards.source.grounds import session_grounds
from cards.source.recipe import Recipe
from cards.source.session import FEEDING, Chart, Session, read_session
from cards.source.workspace import Workspace, read_text

Codes = tuple[str, ...]


@dataclass
class Order:
    """What is to be packed. ``session`` is None where the file cannot be read."""

    name: str
    texts: dict[str, str] = field(default_factory=dict)
    faults: list[Diagnostic] = field(default_factory=list)
    session: Session | None = None
    kits: dict[Codes, Kit] = field(default_factory=dict)
    runs: dict[tuple[str, Codes], Run] = field(default_factory=dict)
    """Dishes by name and languages, on the programme's layout."""
    charts: dict[Chart, Run | None] = field(default_factory=dict)
    """Charts with the dish they show; None for feeding by age."""
    carried: Mapping[str, str] = field(default_factory=dict)
    """Texts that the papers carry, of what they rest on."""

    def dishes(self, codes: Codes) -> list[tuple[Recipe, Analysis]]:
        """The dishes in the session's order."""
        found = []
        for name, _ in self.session.recipes if self.session else ():
            run = self.runs[name, codes]
            assert run.recipe is not None
            assert run.analysis is not None
            found.append((run.recipe, run.analysis))
        return found


def order(path: Path, workspace: Workspace, kit: Kit) -> Order:
    """Read a session file, and check every dish in every language it goes out in."""
    name = workspace.name(path)
    found = Order(name)
    text = read_text(path, name)
    found.faults += text.diagnostics
    if text.value is None:
        return found
    found.texts[name] = text.value
    session = read_session(text.value, name, kit.programme)
    found.faults += session.diagnostics
    if session.value is None:
        return found
    found.session = session.value
    _Gathering(found, session.value, workspace, kit).gather()
    if not has_errors(found.faults):
        _ground(found, session.value, text.value, kit)
    return found


def _ground(order: Order, session: Session, text: str, kit: Kit) -> None:
    """The digest over all that the session's papers rest on, and which words are drafts."""
    drafts = {lang.code for lang in kit.languages if lang.state.is_draft}
    for recipe, _ in order.dishes(kit.programme.languages):
        drafts |= {lang.code for lang in drafts_of(recipe, kit.languages)}
    grounds = session_grounds(session, text, kit.shelf, kit.programme.languages)
    told = tuple(code for code in kit.programme.languages if code in drafts)
    order.carried = grounds.carried
    order.session = replace(session, digest=grounds.digest(told), drafts=told)


class _Gathering:
    """Fills an order; what is wrong is told once, where the session file names it."""

    def __init__(self, order: Order, session: Session, workspace: Workspace, kit: Kit) -> None:
        self.order, self.session, self.workspace, self.kit = order, session, workspace, kit
        self.unsound: set[str] = set()

    def gather(self) -> None:
        own = self.kit.programme.languages
        for language in self.kit.languages:
            if not language.has_sessions:
                self.error(
                    self.session.at,
                    "words-missing",
                    f'the papers of a training day have no words in "{language.code}"',
                    f"add a section sessions: to templates/words/{language.code}.yaml",
                )
        wanted: dict[Codes, Place] = {own: self.session.at}
        for village in self.session.villages:
            wanted.setdefault(village.languages, village.at)
        for chart in self.session.charts:
            wanted.setdefault(chart.languages, chart.at)
        for codes, at in wanted.items():
            self.speak(codes, at)
        paths = self.known()
        for name, at in self.session.recipes:
            if name not in paths:
                self.unknown(name, paths, at)
                continue
            needed = {own, *(village.languages for village in self.session.villages)}
            for codes in sorted(needed & self.order.kits.keys()):
                self.order.runs[name, codes] = self.run(paths[name], self.order.kits[codes], at)
        for chart in self.session.charts:
            self.chart(chart, paths)

    def known(self) -> Mapping[str, Path]:
        """Recipe files by name."""
        return {path.stem: path for path in self.workspace.recipe_files()}

    def speak(self, codes: Codes, at: Place) -> None:
        for code in codes:
            if self.workspace.template("words", f"{code}.yaml") is None:
                self.error(
                    at,
                    "language-unknown",
                    f'there are no words for the language "{code}"',
                    f"write templates/words/{code}.yaml, or choose en or hi",
                )
                return
        if codes == self.kit.programme.languages:
            self.order.kits[codes] = self.kit
            return
        opened = kit_in(self.workspace, self.kit, codes)
        self.order.faults += opened.diagnostics
        if opened.value is not None:
            self.order.kits[codes] = opened.value
            self.order.texts |= opened.value.sources

    def chart(self, chart: Chart, paths: Mapping[str, Path]) -> None:
        if chart.of == FEEDING:
            self.order.charts[chart] = None
            return
        if chart.of not in paths:
            self.unknown(chart.of, [FEEDING, *paths], chart.at)
            return
        if chart.languages not in self.order.kits:
            return
        layout = f"wall-chart-{chart.size}"
        opened = kit_in(self.workspace, self.kit, chart.languages, layout)
        self.order.faults += opened.diagnostics
        if opened.value is not None:
            self.order.charts[chart] = self.run(paths[chart.of], opened.value, chart.at)

    def run(self, path: Path, kit: Kit, at: Place) -> Run:
        """A dish taken through its stages; a dish that fails stops the pack, told once.

        What only warns is told too: nobody else would see it before the cards are handed out.
        """
        run = run_file(path, self.workspace, kit)
        if not run.stopped:
            self.order.faults += [
                told
                for told in run.diagnostics
                # a village has fewer languages than the recipe: so it is meant
                if told.severity is Severity.WARNING and told.kind != "language-unused"
                if told not in self.order.faults
            ]
            self.order.texts |= run.sources
        if run.stopped and path.stem not in self.unsound:
            self.unsound.add(path.stem)
            first = next(d for d in run.diagnostics if d.severity is Severity.ERROR)
            self.error(
                at,
                "recipe-unsound",
                f"{run.name} does not pass its check in {' and '.join(kit.programme.languages)}: "
                f"{first.message} ({first.place})",
                f"mend it first: cards check {run.name}; or leave it out",
            )
        return run

    def unknown(self, name: str, known: Iterable[str], at: Place) -> None:
        self.error(
            at,
            "recipe-unknown",
            f'there is no recipe "{name[:60]}"',
            did_you_mean(name, known, "write the name of a recipe file, without .yaml"),
        )

    def error(self, at: Place, kind: str, message: str, hint: str) -> None:
        self.order.faults.append(error(at, kind, message, hint))
