"""The closed list of questions a rule may ask. Each answers yes, no or cannot tell."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from cards.diagnostics.diagnostic import Place
from cards.nutrition import feeding
from cards.nutrition.feeding import Band
from cards.nutrition.flow import minutes_of
from cards.nutrition.line import Line
from cards.safety.subject import COOKED_BEFORE, Subject, Verdict
from cards.source.vocabulary import heating


@dataclass(frozen=True, slots=True)
class Answer:
    """A verdict, the facts a message may name, and where in the file it stands."""

    verdict: Verdict
    facts: Mapping[str, str] = field(default_factory=dict)
    place: Place | None = None
    unknown: str = ""
    """What would have to be known, when the verdict is "cannot tell"."""


Predicate = Callable[[Subject, Any], Answer]
PREDICATES: dict[str, Predicate] = {}


def predicate(function: Predicate) -> Predicate:
    """Enter a function in the list under its own name."""
    PREDICATES[function.__name__] = function
    return function


def _told(holds: bool, **facts: str) -> Answer:
    return Answer(Verdict.YES if holds else Verdict.NO, facts)


def _foods(lines: tuple[Line, ...]) -> str:
    return " and ".join(dict.fromkeys(line.food.name for line in lines))


def _about(lines: tuple[Line, ...], verdict: Verdict = Verdict.YES, unknown: str = "") -> Answer:
    if not lines:
        return Answer(Verdict.NO)
    return Answer(verdict, {"foods": _foods(lines)}, lines[0].ingredient.at, unknown)


@predicate
def always(subject: Subject, given: bool) -> Answer:
    """Holds for every dish."""
    return _told(bool(given))


@predicate
def feeds_below(subject: Subject, months: int) -> Answer:
    """The dish is for children younger than so many months."""
    return _told(subject.recipe.age_from < months, age=str(subject.recipe.age_from))


@predicate
def has_food(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """A food with one of the flags, in one of the forms where forms are given."""
    return _about(subject.lines(given["flags"], given.get("forms", ())))


@predicate
def has_allergen(subject: Subject, given: bool) -> Answer:
    """A food that commonly causes allergy."""
    return _about(tuple(line for line in subject.analysis.lines if line.food.allergens))


@predicate
def has_step(subject: Subject, action: str) -> Answer:
    """A step with this action."""
    return _told(any(step.action == action for step in subject.recipe.steps))


@predicate
def untouched(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """A food with one of the flags and forms that none of the actions reaches.

    ``preps`` name what may have been done before the recipe begins instead;
    ``or_heat`` lets any cooking count, ``or_mashed`` a dish that is mashed whole.
    """
    names = [*given["actions"]]
    if given.get("or_heat"):
        names += heating()
    if given.get("or_mashed") and subject.mashed is Verdict.YES:
        return Answer(Verdict.NO)
    return _about(
        tuple(
            line
            for line in subject.lines(given["flags"], given.get("forms", ()))
            if set(given["preps"]).isdisjoint(line.ingredient.preps)
            and not subject.flow.reaching(line, names)
        )
    )


@predicate
def steps_short(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """A food with one of the flags that the actions work on for less than so many minutes."""
    short = []
    for line in subject.lines(given["flags"]):
        if line.food.has("ready") or not COOKED_BEFORE.isdisjoint(line.ingredient.preps):
            continue
        if "soaked" in line.ingredient.preps and "soak" in given["actions"]:
            continue
        steps = subject.flow.reaching(line, given["actions"])
        if sum(minutes_of(step) for step in steps) < given["minutes"]:
            short.append(line)
    return _about(tuple(short))


@predicate
def never_cooked_after(subject: Subject, action: str) -> Answer:
    """A part with a step of this action and no cooking after it, there or where the part goes."""
    hot = [n for n, s in enumerate(subject.recipe.steps) if s.action in heating()]
    for number, step in enumerate(subject.recipe.steps):
        if step.action == action and not any(n > number for n in hot):
            return Answer(Verdict.YES, {}, step.at)
    return Answer(Verdict.NO)


@predicate
def waits_over_minutes(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """One step of the action lasts longer than so many minutes."""
    for step in subject.recipe.steps:
        if step.action == given["action"] and step.time and step.time.high > given["minutes"]:
            return Answer(Verdict.YES, {"time": f"{float(step.time.high) / 60:g} hours"}, step.at)
    return Answer(Verdict.NO)


@predicate
def portion_over_share(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """The larger portion holds more than a share of the day's limit of its age band."""
    tag = given["tag"]
    total = subject.analysis.totals[tag]
    for portion in subject.analysis.portions:
        amount = portion.per_portion[tag]
        limit = given["limits"][portion.band] * given["share"]
        if amount > limit:
            facts = {"amount": f"{amount:.0f}", "limit": f"{limit:g}", "band": portion.band}
            return Answer(Verdict.YES, facts)
    if not total.judgeable:
        return Answer(Verdict.UNKNOWN, {}, None, f"no figure for {', '.join(total.missing)}")
    return Answer(Verdict.NO)


@predicate
def groups_under(subject: Subject, least: int) -> Answer:
    """The dish brings fewer food groups than ``least``."""
    groups = subject.analysis.groups
    return _told(len(groups) < least, groups=", ".join(groups) or "none")


@predicate
def not_cooked(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """A food with one of the flags that no heat reaches."""
    lines = [line for line in subject.lines(given["flags"]) if not line.food.has("ready")]
    verdicts = {line: subject.cooked(line) for line in lines}
    raw = tuple(line for line, verdict in verdicts.items() if verdict is Verdict.NO)
    if raw:
        return _about(raw)
    unsure = tuple(line for line, verdict in verdicts.items() if verdict is Verdict.UNKNOWN)
    return _about(
        unsure,
        Verdict.UNKNOWN,
        "no step says it takes this food; name it in use: of the step that cooks it",
    )


@predicate
def no_end_sign(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """A food with one of the flags that is cooked, but no cooking step has one of the end signs."""
    open_ended = []
    for line in subject.lines(given["flags"]):
        steps = subject.flow.reaching(line, heating())
        if steps and not any(step.until in given["until"] for step in steps):
            open_ended.append(line)
    return _about(tuple(open_ended))


@predicate
def no_step(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """No step has the action, and no ingredient has been so prepared before."""
    done = any(step.action == given["action"] for step in subject.recipe.steps)
    before = any(given["prep"] in line.ingredient.preps for line in subject.analysis.lines)
    return _told(not done and not before)


@predicate
def not_mashed(subject: Subject, given: bool) -> Answer:
    """The dish does not reach the child mashed."""
    mashed = subject.mashed
    texture = str(subject.recipe.texture or "not said to be mashed")
    if mashed is Verdict.UNKNOWN:
        return Answer(
            Verdict.UNKNOWN,
            {"texture": texture},
            subject.recipe.at,
            "no step mashes the dish and no texture: is given",
        )
    return _told(mashed is Verdict.NO, texture=texture)


@predicate
def pieces_over_mm(subject: Subject, limit: float) -> Answer:
    """A step leaves pieces longer than ``limit`` mm, and nothing mashes or grinds them later."""
    if subject.mashed is Verdict.YES:
        return Answer(Verdict.NO)
    for step in subject.recipe.steps:
        if step.action in ("chop", "shape") and step.size_mm is not None and step.size_mm > limit:
            return Answer(Verdict.YES, {"size": f"{step.size_mm:g} mm"}, step.at)
    for step in subject.recipe.steps:
        if step.action == "chop" and step.size_mm is None:
            return Answer(
                Verdict.UNKNOWN,
                {},
                step.at,
                "the step does not say how small; write size: fine or size: pea",
            )
    pieces = any(amount.unit == "piece" for amount in subject.recipe.makes)
    if pieces and subject.recipe.age_from < 12 and subject.recipe.texture is None:
        return Answer(
            Verdict.UNKNOWN,
            {},
            subject.recipe.at_key("makes"),
            "the dish comes in pieces and does not say how soft or small the child gets them; "
            "write texture: chopped, or a last step do: chop with size: pea",
        )
    return Answer(Verdict.NO)


@predicate
def portion_over(subject: Subject, given: Mapping[str, Any]) -> Answer:
    """The largest portion holds more of a component than the limit, in the component's unit."""
    tag, limit = given["tag"], given["limit"]
    total = subject.analysis.totals[tag]
    most = max((p.per_portion[tag] for p in subject.analysis.portions), default=0.0)
    if most > given.get("unless_over", float("inf")):
        return Answer(Verdict.NO)
    if most > limit:
        source = max(
            subject.analysis.lines,
            key=lambda li: (
                li.edible_g * (li.food.figures[tag].value if tag in li.food.figures else 0.0)
            ),
        )
        times = int(7 * 600 // most)
        word = "once" if times == 1 else f"{times} times"
        return Answer(
            Verdict.YES,
            {"amount": f"{most:.0f}", "times": word, "foods": source.food.name},
            source.ingredient.at,
        )
    if total.missing and subject.lines(("liver",)):
        return Answer(Verdict.UNKNOWN, {}, None, f"no figure for {', '.join(total.missing)}")
    return Answer(Verdict.NO)


@predicate
def keeps_over_minutes(subject: Subject, limit: int) -> Answer:
    """The recipe lets the cooked dish wait longer than the limit."""
    keep = subject.recipe.keep
    if keep is None or keep.high <= limit:
        return Answer(Verdict.NO)
    hours = Fraction(keep.high, 60)
    told = "overnight" if keep.overnight else f"{float(hours):g} hours"
    return Answer(Verdict.YES, {"time": told}, subject.recipe.at_key("keep"))


@predicate
def meals_over(subject: Subject, most: int) -> Answer:
    """The dish is so thin that a band would need more than ``most`` meals a day.

    Where the density is not known, ``meals_over_published`` says so once for both.
    """
    if subject.analysis.energy_density is None:
        return Answer(Verdict.NO)
    return _thin(subject, lambda band, needed: needed > most)


@predicate
def meals_over_published(subject: Subject, unless_over: int) -> Answer:
    """A band would need more meals than the published most, but not over ``unless_over``."""
    if meals_over(subject, unless_over).verdict is Verdict.YES:
        return Answer(Verdict.NO)
    return _thin(subject, lambda band, needed: needed > band.meals[1])


def _thin(subject: Subject, too_many: Callable[[Band, int], bool]) -> Answer:
    density = subject.analysis.energy_density
    if density is None:
        return Answer(Verdict.UNKNOWN, {}, None, "too little of the dish has a known energy")
    for portion in subject.analysis.portions:
        band = feeding.bands()[portion.band]
        if density <= 0 or too_many(band, band.whole_meals(density)):
            meals = f"{band.meals_needed(density):.1f}" if density > 0 else "endless"
            facts = {"density": f"{density:.2f}", "band": portion.band, "meals": meals}
            return Answer(Verdict.YES, facts, subject.recipe.at_key("makes"))
    return Answer(Verdict.NO)
