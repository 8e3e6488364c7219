"""compose: Recipe, Analysis and Findings become a Card."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from cards.card import sentences
from cards.card.allergen_words import allergen_names
from cards.card.digits import in_digits
from cards.card.drafts import draft_marks, drafts_of
from cards.card.measure_icons import TooMany, counted, measure_icons, prep_icons
from cards.card.model import (
    Card,
    CardMeta,
    Foot,
    Heading,
    IconUse,
    Lead,
    Marked,
    NeedList,
    NeedRow,
    NeedSection,
    SafetyBox,
    Said,
    StepList,
    StepRow,
    StepSection,
    Text,
)
from cards.card.need_words import need_words
from cards.card.origin import Origin
from cards.card.portion_table import AGE_ICONS, measure_word, portion_table
from cards.card.step_pictures import hours_label, part_mark, parts_taken, step_marks, step_picture
from cards.diagnostics.diagnostic import Diagnostic, Place, Result, error, has_errors, note
from cards.method.lead import LeadTime, lead_time
from cards.nutrition.analysis import Analysis
from cards.nutrition.flow import Flow
from cards.nutrition.line import Line
from cards.safety.judge import Findings
from cards.safety.rules import Caution
from cards.source.amounts import PORTION, Amount
from cards.source.programme import Programme
from cards.source.recipe import Part, Recipe, Step
from cards.words.language import Language
from cards.words.numbers import number_range

SELDOM = "liver-seldom"
"""The caution of a dish that is not for every day; the portion table must not speak against it."""


def compose(
    recipe: Recipe,
    analysis: Analysis,
    findings: Findings,
    programme: Programme,
    languages: Sequence[Language],
) -> Result[Card]:
    """The card's words and pictures. Errors: amounts too many to draw."""
    writer = _Writer(recipe, analysis, languages)
    needs = writer.needs()
    steps = writer.steps()
    lead = writer.lead(lead_time(recipe))
    words = Card(
        meta=card_meta(recipe, programme),
        heading=writer.heading(),
        lead=lead,
        needs=needs,
        portions=portion_table(
            analysis.portions,
            writer.say,
            recipe.piece,
            seldom=any(c.name == SELDOM for c in findings.cautions),
        ),
        steps=steps,
        safety=writer.safety(findings),
        foot=writer.foot(programme),
    )
    card = in_digits(words, languages)
    if not programme.link:
        writer.faults.append(
            note(
                programme.at,
                "link-missing",
                "the QR code carries the file's name, but no web address",
                "make a file recipes/programme.yaml with link: https://.../; see the README",
            )
        )
    if len(card.foot.qr) > LONGEST_CODE:
        writer.faults.append(
            error(
                Place(recipe.path),
                "name-too-long",
                f"link, folders and name of this file make {len(card.foot.qr)} characters, "
                f"too many for a QR code that a telephone can read",
                f"give file and folders shorter names; {LONGEST_CODE} characters may be",
            )
        )
    faults = tuple(writer.faults)
    return Result(None if has_errors(faults) else card, faults)


LONGEST_CODE = 350
"""Characters of a QR code of 73 modules (computed), a quarter of an A5 card's width."""


def source_code(recipe: Recipe, programme: Programme) -> str:
    """What the QR code says: link base, path of the recipe file, digest of its text."""
    return recipe_origin(recipe, programme).code


def recipe_origin(recipe: Recipe, programme: Programme) -> Origin:
    """What every page made from the recipe is of, but for the words of its version."""
    told = ", ".join(part for part in (f"version {recipe.version}", recipe.revised) if part)
    return Origin(recipe.id, told, recipe.digest, programme.address(recipe.path))


def card_meta(recipe: Recipe, programme: Programme) -> CardMeta:
    """What a file made from the recipe says of itself."""
    first = programme.printed[0]
    return CardMeta(
        title=" / ".join(recipe.title[c] for c in programme.printed if c in recipe.title),
        author=programme.said(programme.name),
        language=first,
        subject=f"{recipe.path}, version {recipe.version}, digest {recipe.digest}",
        revised=recipe.revised,
        path=recipe.path,
        keywords=f"{recipe.id}, {recipe.digest}",
        code=source_code(recipe, programme),
    )


class _Writer:
    """Says things in every language of the card and collects what cannot be said."""

    def __init__(self, recipe: Recipe, analysis: Analysis, languages: Sequence[Language]) -> None:
        self.recipe, self.analysis, self.languages = recipe, analysis, languages
        self.flow = Flow(recipe, analysis.lines)
        self.faults: list[Diagnostic] = []

    def say(self, make: Callable[[Language], str], at: Place | None = None) -> Said:
        """The text ``make`` gives for each language; its own words file where no place is named."""
        return tuple(
            Text(lang.code, make(lang), at or Place(f"templates/words/{lang.code}.yaml"))
            for lang in self.languages
        )

    def phrase(self, name: str, at: Place | None = None, **values: object) -> Said:
        """A phrase that needs no choice by language."""
        return self.say(lambda lang: lang.phrase(name, **values), at)

    def marked(self, icon: str, said: Said, label: str = "", **params: float | str) -> Marked:
        """An icon with words, its alt text in the first language."""
        return Marked(IconUse(icon, tuple(params.items()), label, said[0].text), said)

    def heading(self) -> Heading:
        recipe = self.recipe
        ages, months = f"{recipe.age_from}–{recipe.age_to}", self.phrase("months")
        return Heading(
            title=self.say(lambda lang: recipe.title.get(lang.code, ""), recipe.at_key("title")),
            age_icon=IconUse(
                AGE_ICONS[0]
                if recipe.age_from < 9
                else AGE_ICONS[1]
                if recipe.age_from < 12
                else AGE_ICONS[2],
                alt=f"{ages} {months[0].text}",
            ),
            ages=ages,
            months=months,
            one_of=self.phrase("one-of", number="{number}", count="{count}"),
        )

    def lead(self, time: LeadTime) -> Lead:
        items: list[Marked] = []
        if time.days:
            when = self.phrase("start-day")
            if time.days > 1:
                when = self.phrase("start-days", days=time.days)
            items.append(self.marked("moon", when))
        elif time.evening:
            items.append(
                self.marked("moon", self.phrase("start-day" if time.late else "start-evening"))
            )
        elif time.hours:
            items.append(
                self.marked(
                    "hours",
                    self.phrase("start-hours", hours=time.hours),
                    label=str(time.hours),
                    hours=float(time.hours),
                )
            )
        name = "then-work" if items else "time-in-all"
        minutes = time.work if time.work < 100 else 30 * -(-time.work // 30)
        work = self.say(lambda lang: lang.phrase(name, time=sentences.minutes_words(minutes, lang)))
        if minutes < 100:
            clock = self.marked("clock", work, str(minutes), minutes=float(min(minutes, 60)))
        else:
            clock = self.marked("hours", work, hours_label(minutes), hours=minutes / 60)
        items.append(clock)
        made = sorted(self.recipe.makes, key=lambda amount: amount.unit == PORTION)
        if made:
            items.append(self.made(made[0]))
        return Lead(tuple(items))

    def made(self, amount: Amount) -> Marked:
        """How much the dish makes, in its first measure."""
        number = number_range(amount.low, amount.high)
        of = {"of": "pieces"} if counted(amount) else {}
        return self.marked(
            "makes-cups" if amount.unit == "cup" else "makes",
            self.say(lambda lang: lang.phrase("makes", amount=_spoken(amount, self.recipe, lang))),
            label=number if len(number) <= 3 else "",
            **of,
        )

    def needs(self) -> NeedList:
        return NeedList(
            tuple(
                NeedSection(
                    self.part_heading(part),
                    tuple(self.need_row(li) for li in self._of(part)),
                    part_mark(self.recipe, part),
                )
                for part in self.recipe.parts
                if part.ingredients
            )
        )

    def _of(self, part: Part) -> list[Line]:
        return [li for li in self.analysis.lines if li.ingredient in part.ingredients]

    def part_heading(self, part: Part) -> Said:
        if not part.name:
            return ()
        return self.say(
            lambda lang: part.name.get(lang.code) or next(iter(part.name.values())), part.at
        )

    def need_row(self, line: Line) -> NeedRow:
        given = line.ingredient
        amount = line.amount or given.grams
        said = self.say(lambda lang: need_words(line, lang), given.at)
        number = number_range(amount.low, amount.high) if amount else ""
        first = self.languages[0]
        unit = first.unit(amount.unit, amount.high) if amount else ""
        told = first.amount(amount.low, amount.high, unit) if amount else ""
        alt = f"{told} {said[0].text.replace('*', '')}".strip()
        try:
            icons = measure_icons(amount, line.food, alt, given.preps)
        except TooMany as trouble:
            icons = ()
            self.faults.append(
                error(
                    given.at,
                    "amount-too-many",
                    f"{trouble.amount} cannot be shown as pictures that people count",
                    "use a larger measure: cups for many spoons, handfuls for many leaves",
                )
            )
        return NeedRow(icons, number, said, prep_icons(given.preps, alt))

    def steps(self) -> StepList:
        sections: list[StepSection] = []
        count = 0
        for part in self.recipe.parts:
            rows: list[StepRow] = []
            before: Step | None = None
            for step in part.steps:
                count += 1
                rows.append(self.step_row(count, step, before))
                before = step
            if rows:
                sections.append(
                    StepSection(self.part_heading(part), tuple(rows), part_mark(self.recipe, part))
                )
        return StepList(tuple(sections))

    def step_row(self, number: int, step: Step, before: Step | None) -> StepRow:
        said = self.say(
            lambda lang: sentences.step_sentence(step, self.recipe, self.analysis, lang), step.at
        )
        picture = step_picture(step, before, self.flow, said[0].text)
        marks = step_marks(step, self.languages[0])
        return StepRow(str(number), picture, said, marks, parts_taken(step, self.flow))

    def safety(self, findings: Findings) -> SafetyBox:
        def words(name: str, lang: Language) -> str:
            values: dict[str, object] = {}
            if name == "eat-soon":
                keep = self.recipe.keep
                values["time"] = sentences.minutes_words(self._eaten_within(), lang)
                values["covered"] = bool(keep and keep.covered)
            if name == "fridge" and self.recipe.keep:
                minutes = int(self.recipe.keep.time.high)
                values["time"] = sentences.minutes_words(minutes, lang)
            if name == "little-first":
                values["allergens"] = lang.listed(allergen_names(self.analysis, lang))
            return lang.phrase(name, **values)

        def item(caution: Caution) -> Marked:
            said = self.say(lambda lang: words(caution.name, lang))
            if caution.name == "eat-soon":
                minutes = self._eaten_within()
                return self.marked(caution.icon, said, hours_label(minutes), hours=minutes / 60)
            return self.marked(caution.icon, said)

        # a general caution that this very dish has run against is the dish's own
        broken = {f.rule.name for f in findings.findings}
        own = [c for c in findings.cautions if not c.general or c.rule in broken]
        drawn = {c.icon for c in own}
        rest = [c for c in findings.cautions if c not in own and c.icon not in drawn]
        return SafetyBox(
            own=tuple(item(c) for c in own),
            general=tuple(item(c) for c in rest),
        )

    def _eaten_within(self) -> int:
        """Minutes in which the dish has to be eaten: as the recipe says, two hours at most."""
        keep = self.recipe.keep
        return min(120, int(keep.time.high)) if keep else 120

    def _group_icon(self, group: str) -> str:
        """The group's icon; of flesh foods only what is in the dish, since some eat but one."""
        if group != "flesh":
            return f"group-{group}"
        flesh = [line.food for line in self.analysis.lines if line.food.group == "flesh"]
        if all(food.has("fish") for food in flesh):
            return "fish"
        return "group-flesh" if any(food.has("fish") for food in flesh) else "group-meat"

    def foot(self, programme: Programme) -> Foot:
        recipe = self.recipe
        origin = recipe_origin(recipe, programme)

        def who(lang: Language) -> str:
            told = (programme.said(words, lang.code) for words in (programme.name, programme.place))
            return lang.enumerated(part for part in told if part)

        def which(lang: Language) -> str:
            version = lang.phrase("version", version=recipe.version, date=recipe.revised)
            return replace(origin, version=version).words(lang)

        traces = [self.say(make, Place("")) for make in (who, which)]
        return Foot(
            brings=self.phrase("dish-brings"),
            groups=tuple(
                self.marked(self._group_icon(g), self.phrase(f"group-{g}"))
                for g in self.analysis.groups
            ),
            guidance=self.marked("health-worker", self.phrase("guidance")),
            qr=origin.code,
            trace=tuple(said for said in traces if said[0].text),
            drafts=draft_marks(drafts_of(recipe, self.languages)),
        )


def _spoken(amount: Amount, recipe: Recipe, language: Language) -> str:
    """An amount with its measure, as people say it."""
    unit = measure_word(amount.unit, amount.high, recipe.piece, language)
    return language.measured(amount.low, amount.high, unit)
