"""judge: a Recipe and its Analysis become Findings and the cautions to print."""

from __future__ import annotations

from collections.abc import Iterable, Set
from dataclasses import dataclass, replace

from cards.diagnostics.diagnostic import Diagnostic, Place, Result, Severity, error, warning
from cards.diagnostics.nearest import did_you_mean
from cards.nutrition.analysis import Analysis
from cards.safety.predicate import Answer
from cards.safety.predicates import PREDICATES
from cards.safety.rules import Caution, Question, Rule, cautions, rules
from cards.safety.subject import Subject, Verdict
from cards.source.programme import Programme
from cards.source.recipe import Acceptance, Recipe


@dataclass(frozen=True, slots=True)
class Finding:
    """A rule that is broken, or of which it cannot be told; accepted or not."""

    rule: Rule
    told: bool
    message: str
    hint: str
    place: Place
    accepted: Acceptance | None

    @property
    def severity(self) -> Severity:
        """An unknown is a warning; an accepted finding is a note."""
        if self.accepted:
            return Severity.NOTE
        return self.rule.severity if self.told else Severity.WARNING


@dataclass(frozen=True, slots=True)
class Findings:
    """All findings on a dish and the cautions for its card, most serious first."""

    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]

    def in_order(self, cautions: Iterable[Caution]) -> tuple[Caution, ...]:
        """Most serious first; what was found in this very dish before what holds for every dish."""
        broken = {f.rule.name for f in self.findings}
        return tuple(sorted(cautions, key=lambda c: (c.rule not in broken, c.rank)))


def judge(recipe: Recipe, analysis: Analysis, programme: Programme) -> Result[Findings]:
    """Ask every rule. Findings come back as diagnostics too; errors stop the card."""
    subject = Subject(recipe, analysis, programme)
    accepted = {a.finding: a for a in recipe.accepted}
    found: list[Finding] = []
    for rule in rules().values():
        finding = _ask(rule, subject, accepted.get(rule.name))
        if finding:
            found.append(finding)
    spoken = {(f.rule.name, f.place) for f in found}
    causes = {f.rule.name for f in found}
    found = [
        f
        for f in found
        if not any((r, f.place) in spoken for r in f.rule.yields_to)
        and causes.isdisjoint(f.rule.follows)
    ]
    shown = [
        replace(c, general=False) if c.own and _holds(c.own, subject)[0] is Verdict.YES else c
        for c in cautions()
        if _holds(c.when, subject)[0] is Verdict.YES
    ]
    findings = Findings(tuple(found), ())
    return Result(
        replace(findings, cautions=findings.in_order(shown)), tuple(_diagnostic(f) for f in found)
    )


def _holds(when: Iterable[Question], subject: Subject) -> tuple[Verdict, list[Answer]]:
    """All questions together: one no is a no, else one unknown is an unknown."""
    answers: list[Answer] = []
    for name, given in when:
        answer = PREDICATES[name](subject, given)
        if answer.verdict is Verdict.NO:
            return Verdict.NO, []
        answers.append(answer)
    unknown = any(a.verdict is Verdict.UNKNOWN for a in answers)
    return (Verdict.UNKNOWN if unknown else Verdict.YES), answers


def _ask(rule: Rule, subject: Subject, accepted: Acceptance | None) -> Finding | None:
    verdict, answers = _holds(rule.when, subject)
    if verdict is Verdict.NO:
        return None
    facts: dict[str, str] = {}
    for answer in answers:
        facts.update(answer.facts)
    place = next((a.place for a in answers if a.place), subject.recipe.at)
    if verdict is Verdict.UNKNOWN:
        why = "; ".join(a.unknown for a in answers if a.unknown)
        subjects = f" ({facts['foods']})" if "foods" in facts else ""
        return Finding(rule, False, f"cannot tell{subjects}: {why}", rule.cure, place, accepted)
    return Finding(rule, True, rule.says.format_map(facts), rule.cure, place, accepted)


def _diagnostic(finding: Finding) -> Diagnostic:
    message, hint = finding.message, finding.hint
    if finding.accepted:
        message = f"{message}; accepted by {finding.accepted.role}: {finding.accepted.reason}"
        hint = ""
    source = f"{finding.rule.source} ({finding.rule.known})"
    return Diagnostic(finding.place, finding.rule.name, finding.severity, message, hint, source)


def acceptances(recipe: Recipe, broken: Set[str]) -> Iterable[Diagnostic]:
    """What is accepted and no rule says, of the recipe or of one of its choices."""
    for given in recipe.accepted:
        if given.finding not in rules():
            yield error(
                given.at,
                "accept-unknown",
                f'there is no rule "{given.finding}"',
                did_you_mean(given.finding, rules()),
            )
        elif given.finding not in broken:
            yield warning(
                given.at,
                "accept-unused",
                f'"{given.finding}" is accepted here, but nothing was found',
                "take the acceptance out",
            )
