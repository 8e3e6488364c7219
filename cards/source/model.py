"""The shape of a recipe file, as pydantic models: every fault at once, unknown keys are faults."""

from __future__ import annotations

import re
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field, ValidationInfo, field_validator, model_validator

from cards.source import fields
from cards.source.fields import (
    AgesField,
    AmountField,
    DurationField,
    GramsField,
    MakesField,
    PrepsField,
    SwitchField,
    UsesField,
    WhistlesField,
    WordsField,
    fault,
)
from cards.source.vocabulary import ENDS, SIZES_MM, Flame, Texture, actions

FORMAT = 1
"""The newest format version this program reads."""

ActionName = Annotated[str, fields.one_of(actions(), "action-unknown", "a thing a step can do")]
FlameField = Annotated[Flame, fields.one_of(Flame, "value-wrong", "a flame")]
TextureField = Annotated[Texture, fields.one_of(Texture, "value-wrong", "a texture")]
EndSign = Annotated[str, fields.one_of(ENDS, "end-unknown", "a sign that a step is done")]


class Strict(BaseModel):
    """Unknown keys are faults; texts are stripped."""

    model_config = ConfigDict(extra="forbid", str_strip_whitespace=True, frozen=True)


class LanguageLines(Strict):
    """A model that also takes a line for each language: ``en:``, ``hi:`` and so on."""

    words: WordsField = Field(default_factory=dict)

    @model_validator(mode="before")
    @classmethod
    def _gather(cls, data: Any) -> Any:
        if not isinstance(data, dict):
            return data
        lines = {k: v for k, v in data.items() if re.fullmatch(r"[a-z]{2}", k) and k != "do"}
        if not lines:
            return data
        rest = {k: v for k, v in data.items() if k not in lines}
        return {**rest, "words": {**(rest.get("words") or {}), **lines}}


class IngredientIn(LanguageLines):
    """One ingredient: keys, or a line such as ``4 tbsp (60 g) moong dal, washed``."""

    food: str = Field(min_length=1)
    amount: AmountField | None = None
    grams: GramsField | None = None
    as_needed: bool = False
    prep: PrepsField = ()
    optional: SwitchField = False

    @model_validator(mode="before")
    @classmethod
    def _line(cls, data: Any, info: ValidationInfo) -> Any:
        if isinstance(data, str):
            return _from_line(data, info)
        if isinstance(data, dict) and isinstance(data.get("amount"), str):
            if data["amount"].strip().lower() == "as needed":
                return {**{k: v for k, v in data.items() if k != "amount"}, "as_needed": True}
            outer, inner = fields.split_brackets(data["amount"])
            if inner and "grams" not in data:
                return {**data, "amount": outer, "grams": inner}
        return data

    @model_validator(mode="after")
    def _has_amount(self) -> IngredientIn:
        if self.amount is None and self.grams is None and not self.as_needed:
            raise fault(
                "amount-missing",
                f'"{self.food}" has no amount',
                'write how much: amount: 2 tbsp (only water may be "as needed")',
            )
        return self


def _from_line(text: str, info: ValidationInfo) -> dict[str, Any]:
    """The keys an ingredient line stands for."""
    from cards.source import amounts  # local: the name is used in this one place

    head, _, prep = (part.strip() for part in text.partition(","))
    found: dict[str, Any] = {}
    if prep.lower() == "as needed" or head.lower().startswith("as needed "):
        return {"food": re.sub(r"(?i)^as needed\s+", "", head), "as_needed": True}
    if prep:
        found["prep"] = prep
    outer, inner = fields.split_brackets(head)
    if inner:
        found["grams"] = fields.parse_grams(inner, info)
    try:
        found["amount"], food = amounts.read_amount(outer, (info.context or {})["measures"])
    except amounts.Unreadable as trouble:
        kind = "amount-missing" if outer[:1].isalpha() else trouble.kind
        raise fault(kind, str(trouble), 'write the amount first, like "2 tbsp rice"') from None
    if not food:
        raise fault("key-missing", f'"{text}" names no food', 'write it like "2 tbsp rice"')
    found["food"] = food
    return found


class StepIn(LanguageLines):
    """One step."""

    do: ActionName
    use: UsesField = ()
    time: DurationField | None = None
    flame: FlameField | None = None
    whistles: WhistlesField | None = None
    lid: SwitchField | None = None
    until: EndSign | None = None
    size: str | None = None

    @field_validator("size")
    @classmethod
    def _size(cls, value: str | None) -> str | None:
        if value is not None and value not in SIZES_MM and not re.fullmatch(r"\d+ ?mm", value):
            raise fault(
                "value-wrong",
                f'"{value}" is not a size of pieces',
                f"choose from {', '.join(SIZES_MM)}, or write millimetres like 5 mm",
            )
        return value


class PartIn(Strict):
    """A named part with its own ingredients and steps."""

    part: WordsField
    ingredients: list[IngredientIn] = Field(default_factory=list)
    steps: list[StepIn] = Field(default_factory=list)


class AcceptIn(Strict):
    """A safety finding the trainer accepts."""

    finding: str = Field(min_length=1)
    reason: str = Field(min_length=8)
    role: str = Field(min_length=3)


class RecipeIn(Strict):
    """A recipe file."""

    recipe: str
    title: WordsField
    ages: AgesField = (6, 23)
    makes: MakesField = ()
    keep: DurationField | None = None
    texture: TextureField | None = None
    version: str = "1"
    revised: str = ""
    ingredients: list[IngredientIn] = Field(default_factory=list)
    steps: list[StepIn] = Field(default_factory=list)
    parts: list[PartIn] = Field(default_factory=list)
    accept: list[AcceptIn] = Field(default_factory=list)
    credit: str = ""
    notes: str = ""

    @field_validator("recipe")
    @classmethod
    def _format(cls, value: str) -> str:
        if not value.isdigit():
            raise fault("format-unknown", f'"{value}" is no format version', "write recipe: 1")
        if int(value) > FORMAT:
            raise fault(
                "format-newer",
                f"this file is in format {value}; this program reads up to {FORMAT}",
                "install a newer version of the program",
            )
        return value

    @field_validator("revised")
    @classmethod
    def _date(cls, value: str) -> str:
        if value and not re.fullmatch(r"\d{4}-\d{2}-\d{2}", value):
            raise fault("value-wrong", f'"{value}" is not a date', "write it like 2026-11-25")
        return value
