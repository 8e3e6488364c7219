"""Questions about softness and size of pieces."""

from __future__ import annotations

from cards.safety.predicate import NO, Answer, predicate
from cards.safety.subject import Subject, Verdict


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
    if mashed is Verdict.YES:
        return NO
    if subject.added_whole:
        foods = " and ".join(line.food.name for line in subject.added_whole)
        texture = f"mashed, but for the {foods} that goes in later"
        return Answer(Verdict.YES, {"texture": texture}, subject.added_whole[0].ingredient.at)
    return Answer(Verdict.YES, {"texture": texture}, subject.recipe.at_key("texture"))


@predicate
def pieces_over_mm(subject: Subject, limit: float) -> Answer:
    """A step leaves pieces longer than ``limit`` mm, and nothing mashes or grinds them later."""
    if subject.mashed is Verdict.YES:
        return NO
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
    cut = any(s.action == "chop" and s.size_mm is not None for s in subject.recipe.steps)
    if pieces and not cut and subject.recipe.age_from < 12 and subject.recipe.texture is None:
        return Answer(
            Verdict.UNKNOWN,
            {},
            subject.recipe.at_key("makes"),
            "the dish comes in pieces and does not say how soft or small the child gets them; "
            "write texture: chopped, or a last step do: chop with size: pea",
        )
    return NO


@predicate
def texture_is(subject: Subject, texture: str) -> Answer:
    """The dish reaches the child with this texture, as the recipe says."""
    said = subject.recipe.texture
    if said is None or str(said) != texture:
        return NO
    return Answer(Verdict.YES, {}, subject.recipe.at_key("texture"))
