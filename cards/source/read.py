"""read: a recipe file's text becomes a Recipe."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import PurePosixPath

from cards.diagnostics.diagnostic import Diagnostic, Result, error, first_of, has_errors, warning
from cards.source.faults import validate
from cards.source.model import LANGUAGES, IngredientIn, InsteadIn, RecipeIn, StepIn
from cards.source.nodes import Path, Tree, read_nodes
from cards.source.programme import Programme
from cards.source.recipe import (
    Acceptance,
    Ingredient,
    Instead,
    Part,
    Recipe,
    Step,
    Words,
)
from cards.source.sides import Side, read_side
from cards.source.vocabulary import SIZES_MM, Texture, vocabulary


def digest_of(text: str, *sides: str) -> str:
    """First ten hex digits of the SHA-256 of the text, whatever its line ends.

    Side files with words count too, since the card is made from them as well.
    """
    plain = "\f".join((text, *sides)).replace("\r\n", "\n").replace("\r", "\n")
    return hashlib.sha256(plain.encode("utf-8")).hexdigest()[:10]


def card_digest(text: str, sides: Iterable[str], drafts: Iterable[str]) -> str:
    """The digest a card bears: that of its files' texts, and of the languages marked a draft.

    A card that bears the mark of a draft is another than one without.
    """
    return digest_of(text, *sides, *(f"draft: {code}" for code in drafts))


def read(
    text: str, path: str, programme: Programme, sides: Mapping[str, str] | None = None
) -> Result[Recipe]:
    """Read one recipe. ``path`` is the file's path below the programme's folder.

    ``sides`` are the texts of its side files, by path: words in one language each.
    """
    nodes = read_nodes(text, path)
    if nodes.value is None:
        return Result(None, nodes.diagnostics)
    tree = nodes.value
    known = vocabulary(tuple(programme.measures_ml))
    model, faults = validate(
        RecipeIn,
        tree,
        {
            "measures": known.measures,
            "languages": (*LANGUAGES, *programme.languages, *programme.chosen),
        },
    )
    faults = [*nodes.diagnostics, *faults]
    if model is None or has_errors(faults):
        return Result(None, tuple(faults))
    builder = _Builder(tree, programme)
    for side_path, side_text in (sides or {}).items():
        words = read_side(side_text, side_path)
        faults += words.diagnostics
        if words.value is not None:
            builder.sides.append(words.value)
    if has_errors(faults):
        return Result(None, tuple(faults))
    recipe = builder.recipe(model, digest_of(text, *(sides or {}).values()), path)
    faults += builder.faults
    for side in builder.sides:
        faults += first_of(side.stale(builder.asked, builder.wanting.get(side.language, ())))
    return Result(None if has_errors(faults) else recipe, tuple(faults))


MOST_CHOICES = 24
"""Foods that may be taken instead in one recipe; the dish is summed and judged with each."""


class _Builder:
    """Model to recipe, with places; collects what a model cannot see on its own."""

    def __init__(self, tree: Tree, programme: Programme) -> None:
        self.tree = tree
        self.languages = programme.languages
        self.printed = programme.printed
        self.known = (*programme.languages, *programme.printed, *programme.known)
        self.faults: list[Diagnostic] = []
        self.sides: list[Side] = []
        self.asked: set[str] = set()
        self.wanting: dict[str, list[str]] = {}
        """Texts that a side file does not speak of, by its language."""
        self.choices = 0

    def recipe(self, model: RecipeIn, digest: str, path: str) -> Recipe:
        parts = [
            Part(
                self.words(part.part, ("parts", n, "part")),
                self.ingredients(part.ingredients, ("parts", n, "ingredients")),
                self.steps(part.steps, ("parts", n, "steps")),
                self.tree.place(("parts", n)),
            )
            for n, part in enumerate(model.parts)
        ] or [
            Part(
                {},
                self.ingredients(model.ingredients, ("ingredients",)),
                self.steps(model.steps, ("steps",)),
                self.tree.place(()),
            )
        ]
        recipe = Recipe(
            id=PurePosixPath(path).stem,
            path=path,
            digest=digest,
            title=self.words(model.title, ("title",)),
            age_from=model.ages[0],
            age_to=model.ages[1],
            makes=model.makes,
            piece=self.words(model.piece, ("piece",)) if model.piece else {},
            keep=model.keep,
            ready=model.ready,
            texture=Texture(model.texture) if model.texture else None,
            version=model.version,
            revised=model.revised,
            parts=tuple(parts),
            accepted=tuple(
                Acceptance(a.finding, a.reason, a.role, self.tree.place(("accept", n)))
                for n, a in enumerate(model.accept)
            ),
            statements=tuple(
                (text, self.tree.place(("statements", n)))
                for n, text in enumerate(model.statements)
            ),
            credit=model.credit,
            sources=tuple(model.sources),
            at=self.tree.place(()),
            places={key: self.tree.place((key,)) for key in self.tree.value},
            author=next(iter(model.title)) or self.languages[0],
            signed={
                **{
                    code: replace(sign, at=self.tree.place(("signed", code)))
                    for code, sign in model.signed.items()
                },
                **{side.language: side.signed for side in self.sides if side.signed},
            },
        )
        if model.parts and (model.ingredients or model.steps):
            self.faults.append(
                error(
                    self.tree.key(("parts",)),
                    "parts-mixed",
                    "ingredients or steps stand beside parts",
                    "move them into a part of their own",
                )
            )
        else:
            self._check(recipe)
        return recipe

    def _check(self, recipe: Recipe) -> None:
        if not recipe.ingredients:
            self.faults.append(
                error(
                    recipe.at,
                    "key-missing",
                    "this recipe has no ingredients",
                    "add a line ingredients: and a list below it",
                )
            )
        if not recipe.steps:
            self.faults.append(
                error(
                    recipe.at,
                    "key-missing",
                    "this recipe has no steps",
                    "add a line steps: and a list below it",
                )
            )
        for line in recipe.ingredients:
            if line.amount is None and line.grams is None and line.food.lower() != "water":
                self.faults.append(
                    error(
                        line.at,
                        "amount-missing",
                        f'"{line.food}" has no amount',
                        'only water may be "as needed"',
                    )
                )
        missing = [code for code in self.printed if code not in recipe.title]
        for code in missing:
            self.faults.append(
                error(
                    self.tree.place(("title",)),
                    "language-missing",
                    f'the title has no text in "{code}"',
                    f"add a line {code}: to the title, or a file "
                    f"{PurePosixPath(self.tree.file).stem}.{code}.yaml with the words beside it",
                )
            )

    def words(self, given: Mapping[str, str], path: Path) -> Words:
        """Texts by language; a text without a language is in the programme's first one."""
        found = {code or self.languages[0]: text for code, text in given.items()}
        for code in found:
            if code not in self.known:
                self.faults.append(
                    warning(
                        self.tree.place((*path, code)),
                        "language-unused",
                        f'there are no words for the language "{code}": this is never printed',
                        f"languages here: {', '.join(dict.fromkeys(self.known))}",
                    )
                )
        for side in self.sides:
            if side.language not in found:
                titled = path == ("title",)
                spoken = side.title(found.values()) if titled else side.spoken(found.values())
                if spoken is not None:
                    self.asked.add(spoken)
                    found[side.language] = side.told[spoken][0]
                elif found and not titled:
                    self.wanting.setdefault(side.language, []).append(next(iter(found.values())))
        return found

    def ingredients(self, given: list[IngredientIn], path: Path) -> tuple[Ingredient, ...]:
        return tuple(self.ingredient(line, (*path, n)) for n, line in enumerate(given))

    def ingredient(self, line: IngredientIn, path: Path) -> Ingredient:
        """One ingredient, with what may be taken instead."""
        food = " ".join(line.food.split())
        others = [
            (one, "", (*path, "or") if (*path, "or") in self.tree.places else path)
            for one in line.instead
        ]
        others += [
            (one, season, (*path, "seasons", season)) for season, one in line.seasons.items()
        ]
        self.choices += len(others)
        if self.choices > MOST_CHOICES >= self.choices - len(others):
            self.faults.append(
                error(
                    self.tree.place(path),
                    "value-wrong",
                    f"from here on there are more than {MOST_CHOICES} choices in this recipe",
                    "keep those that the mothers really have",
                )
            )
        return Ingredient(
            food=food,
            amount=line.amount,
            grams=line.grams,
            preps=line.prep,
            optional=line.optional,
            names=self.words(line.words, path),
            at=self.tree.place(path),
            instead=tuple(
                Instead(self.instead(one, line, food, at), season) for one, season, at in others
            ),
            aka=tuple(" ".join(one.food.split()) for one, _, _ in others),
        )

    def instead(self, one: InsteadIn, line: IngredientIn, food: str, at: Path) -> Ingredient:
        """What is taken instead; the amount and preparation of the line hold where it says none."""
        own = one.amount is not None or one.grams is not None
        return Ingredient(
            food=" ".join(one.food.split()),
            amount=one.amount if own else line.amount,
            grams=one.grams if own else (None if line.amount else line.grams),
            preps=one.prep or line.prep,
            optional=line.optional,
            names=self.words(one.words, at),
            at=self.tree.place(at),
            aka=(food, *line.words.values()),
        )

    def steps(self, given: list[StepIn], path: Path) -> tuple[Step, ...]:
        return tuple(self.step(line, (*path, n)) for n, line in enumerate(given))

    def step(self, line: StepIn, path: Path) -> Step:
        """One step."""
        if line.whistles and line.do != "pressure-cook":
            self.faults.append(
                error(
                    self.tree.place((*path, "whistles")),
                    "whistles-without-cooker",
                    "only a pressure cooker whistles",
                    "write do: pressure-cook, or take the whistles out",
                )
            )
        everything = any(u.name.lower() in ("all", "everything") for u in line.use)
        return Step(
            action=line.do,
            uses=tuple(u for u in line.use if u.name.lower() not in ("all", "everything")),
            everything=everything,
            time=line.time,
            flame=line.flame,
            whistles=line.whistles,
            lid=line.lid,
            until=line.until or "",
            size_mm=_size_mm(line.size),
            words=self.words(line.words, path),
            at=self.tree.place(path),
            use_at=self.tree.place((*path, "use")),
            water_kept=None if line.water is None else line.water == "kept",
        )


def _size_mm(text: str | None) -> float | None:
    if text is None:
        return None
    return SIZES_MM[text] if text in SIZES_MM else float(text.removesuffix("mm"))
