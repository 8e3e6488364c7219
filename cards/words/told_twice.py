"""Numbers told twice, by two languages or by the words and the step, have to agree."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from cards.diagnostics.diagnostic import Diagnostic, error, warning
from cards.source.amounts import Duration
from cards.source.recipe import Step
from cards.words.figures import Figures, Told, bears_out, differing, figures
from cards.words.language import Language
from cards.words.numbers import number, number_range


def check_numbers(steps: Iterable[Step], languages: Sequence[Language]) -> Iterator[Diagnostic]:
    """The numbers in each step's own words against each other and the step's time and whistles."""
    for step in steps:
        found = {
            lang.code: figures(step.words[lang.code], lang.lists)
            for lang in languages
            if lang.lists is not None and lang.code in step.words
        }
        yield from _between_languages(step, found)
        yield from _against_time(step, found)
        yield from _against_whistles(step, found)


def _between_languages(step: Step, found: Mapping[str, Figures]) -> Iterator[Diagnostic]:
    codes = list(found)
    for other in codes[1:]:
        one, two = unlike(found[codes[0]], found[other])
        if one or two:
            yield error(
                step.at,
                "numbers-differ",
                f"the numbers in the words differ: {codes[0]} says {named(one)}, "
                f"{other} says {named(two)}",
                "say the same number in both languages",
            )


def named(texts: Sequence[str]) -> str:
    """Numbers as a message quotes them."""
    return ", ".join(f'"{text}"' for text in texts) or "no such number"


def unlike(one: Figures, two: Figures) -> tuple[list[str], list[str]]:
    """What either text tells and the other does not. A number word alone is no difference:
    many are no numbers, as the "a" of "a cup"; it counts where the other side has a number."""
    left: list[str] = []
    right: list[str] = []
    for mine, yours in ((one.times, two.times), (one.whistles, two.whistles)):
        only_mine, only_yours = differing(mine, yours)
        if (only_mine and only_yours) or any(not t.spoken for t in (*only_mine, *only_yours)):
            left += [t.text for t in only_mine]
            right += [t.text for t in only_yours]
    lost, extra = one.digits - two.digits, two.digits - one.digits
    # a digit may stand for a number word on the other side
    if (lost - two.spoken) or (extra - one.spoken):
        left += _texts(lost)
        right += _texts(extra)
    return left, right


def _texts(values: Counter[Fraction]) -> list[str]:
    return [number(value) for value in values.elements()]


def _against_time(step: Step, found: Mapping[str, Figures]) -> Iterator[Diagnostic]:
    if step.action == "serve":  # "within 2 hours" is no time the step takes
        return
    for told in found.values():
        if not told.times or (step.time is not None and bears_out(told, step.time)):
            continue
        text = " and ".join(t.text for t in told.times)
        says = f"time: says {_time_text(step.time)}" if step.time else "the step has no time:"
        yield warning(
            step.at,
            "numbers-differ",
            f'the words say "{text}", but {says}',
            "write one time: for the whole step, the same as in the words",
        )
        return  # the other language tells the same, or has been told of


def _against_whistles(step: Step, found: Mapping[str, Figures]) -> Iterator[Diagnostic]:
    for told in found.values():
        wrong = next((t for t in told.whistles if not _same_count(t, step.whistles)), None)
        if wrong is None:
            continue
        says = "the step has no whistles:"
        if step.whistles:
            low, high = (Fraction(n) for n in step.whistles)
            says = f"whistles: says {number_range(low, high)}"
        yield warning(
            step.at,
            "numbers-differ",
            f'the words say "{wrong.text}", but {says}',
            f"write whistles: {number_range(wrong.low, wrong.high)} in this step, "
            "or mend the words",
        )
        return


def _same_count(told: Told, whistles: tuple[int, int] | None) -> bool:
    return whistles is not None and told.low == whistles[0] and told.high == whistles[1]


def _time_text(time: Duration) -> str:
    if time.overnight:
        return "overnight"
    for name, minutes in (("days", 1440), ("hours", 60)):
        if time.low >= minutes and (time.low / minutes).denominator <= 2:
            return f"{number_range(time.low / minutes, time.high / minutes)} {name}"
    return f"{number_range(time.low, time.high)} minutes"
