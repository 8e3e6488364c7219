"""The shape of a recipe file, as pydantic models: every fault at once, unknown keys are faults."""

from __future__ import annotations

import re
from typing import Annotated, Any

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    ValidationInfo,
    WithJsonSchema,
    field_validator,
    model_validator,
)

from cards.data import load
from cards.source import amounts, fields
from cards.source.fields import (
    AgesField,
    AmountField,
    DurationField,
    GramsField,
    KeepField,
    MakesField,
    PrepsField,
    SwitchField,
    UsesField,
    WhistlesField,
    WordsField,
    fault,
)
from cards.source.signed import SignatureField, is_date
from cards.source.vocabulary import ENDS, SEASONS, SIZES_MM, WATERS, Flame, Texture, actions

FORMAT = 1
"""The newest format version this program reads."""

ActionName = Annotated[
    str,
    fields.one_of(actions(), "action-unknown", "a thing a step can do"),
    WithJsonSchema({"enum": list(actions())}),
]
FlameField = Annotated[Flame, fields.one_of(Flame, "value-wrong", "a flame")]
TextureField = Annotated[Texture, fields.one_of(Texture, "value-wrong", "a texture")]
WaterField = Annotated[
    str,
    fields.one_of(WATERS, "value-wrong", "what becomes of the water"),
    WithJsonSchema({"enum": list(WATERS)}),
]
SeasonName = Annotated[
    str,
    fields.one_of(SEASONS, "season-unknown", "a season"),
    WithJsonSchema({"enum": list(SEASONS)}),
]
EndSign = Annotated[
    str,
    fields.one_of(ENDS, "end-unknown", "a sign that a step is done"),
    WithJsonSchema({"enum": list(ENDS)}),
]


LanguageCode = Annotated[str, Field(pattern="^[a-z]{2,3}$")]
LANGUAGES: tuple[str, ...] = tuple(load.mapping("languages.yaml")["known"])
"""Languages a recipe may speak whatever the programme prints."""

MOST_INGREDIENTS, MOST_STEPS, MOST_PARTS = 40, 40, 6
"""More than any home recipe has; a longer list is a slip, and would only be slow to refuse."""


MOST_IN_PART = 20
"""Ingredients, and steps, of one part of a dish."""

MOST_ACCEPTED = 40
"""Findings a person may stand by in one recipe."""


class Strict(BaseModel):
    """Unknown keys are faults; texts are stripped."""

    model_config = ConfigDict(extra="forbid", str_strip_whitespace=True, frozen=True)


class LanguageLines(Strict):
    """A model that also takes a line for each language: ``en:``, ``hi:`` and so on."""

    # the alias is one that nobody writes: the words come from the language lines alone
    words: WordsField = Field(default_factory=dict, alias=" words")

    @model_validator(mode="before")
    @classmethod
    def _gather(cls, data: Any, info: ValidationInfo) -> Any:
        if not isinstance(data, dict):
            return data
        known = (info.context or {}).get("languages", LANGUAGES)
        lines = {k: v for k, v in data.items() if k in known}
        if not lines:
            return data
        return {**{k: v for k, v in data.items() if k not in lines}, " words": lines}


class InsteadIn(LanguageLines):
    """What may be taken instead: a food alone, or a whole ingredient line."""

    food: str = Field(min_length=1, max_length=120)
    amount: AmountField | None = None
    grams: GramsField | None = None
    prep: PrepsField = ()

    @model_validator(mode="before")
    @classmethod
    def _line(cls, data: Any, info: ValidationInfo) -> Any:
        if isinstance(data, str):
            data = _one_line(data)
            return _from_line(data, info) if data[:1].isdigit() else _bare(data)
        return _with_brackets(data)


MOST_INSTEAD = 8
"""More choices than a cook keeps in mind."""


def _split_choices(data: Any) -> Any:
    """Choices written on one line, with commas or "or" between."""
    if isinstance(data, str):
        return [part.strip() for part in re.split(r",| or ", _one_line(data)) if part.strip()]
    return data


InsteadsField = Annotated[
    list[InsteadIn],
    Field(max_length=MOST_INSTEAD),
    BeforeValidator(_split_choices, json_schema_input_type=str | list[InsteadIn]),
]


class IngredientIn(LanguageLines):
    """One ingredient: keys, or a line such as ``4 tbsp (60 g) moong dal, washed``."""

    food: str = Field(min_length=1, max_length=120)
    amount: AmountField | None = None
    grams: GramsField | None = None
    as_needed: bool = Field(default=False, alias=" as needed")
    prep: PrepsField = ()
    optional: SwitchField = False
    instead: InsteadsField = Field(default_factory=list, alias="or")
    seasons: dict[SeasonName, InsteadIn] = Field(default_factory=dict)

    @model_validator(mode="before")
    @classmethod
    def _line(cls, data: Any, info: ValidationInfo) -> Any:
        if isinstance(data, str):
            return _from_line(_one_line(data), info)
        if isinstance(data, dict) and isinstance(data.get("amount"), str):
            fields.check_length(data["amount"])
            _refuse_taste(data["amount"])
            if data["amount"].strip().lower() == "as needed":
                return {**{k: v for k, v in data.items() if k != "amount"}, " as needed": True}
        return _with_brackets(data)

    @model_validator(mode="after")
    def _has_amount(self) -> IngredientIn:
        if self.amount is None and self.grams is None and not self.as_needed:
            raise fault(
                "amount-missing",
                f'"{self.food}" has no amount',
                'write how much: amount: 2 tbsp (only water may be "as needed")',
            )
        return self


def _one_line(text: str) -> str:
    """The text with single spaces; the searches below may then look at each of them once."""
    return " ".join(fields.check_length(text).split())


def _bare(text: str) -> dict[str, Any]:
    """A food without an amount, and what is done to it before."""
    food, _, prep = (part.strip() for part in text.partition(","))
    return {"food": food, "prep": prep} if prep else {"food": food}


def _with_brackets(data: Any) -> Any:
    """Keys with the grams in brackets after the amount taken out."""
    if isinstance(data, dict) and isinstance(data.get("amount"), str):
        outer, inner = fields.split_brackets(data["amount"])
        if inner and "grams" not in data:
            return {**data, "amount": outer, "grams": inner}
    return data


def _refuse_taste(text: str) -> None:
    """Refuse an amount that leaves it to the tongue: salt above all."""
    if re.search(r"(?i)\b(?:to|as per|for) (?:your )?taste\b", text):
        raise fault(
            "amount-to-taste",
            f'"{text.strip()[:40]}" is no amount, and cannot be summed',
            "leave salt and sugar out for the child; of anything else write how much, like 1 pinch",
        )


def _refuse_comma(text: str) -> None:
    """Refuse a decimal comma, which would be taken for the comma before a preparation."""
    if re.match(r"\s*\d+,\d", text):
        raise fault(
            "amount-unreadable", f'"{text[:40]}" has a comma in its number', "write a point: 1.5"
        )


def _from_line(text: str, info: ValidationInfo) -> dict[str, Any]:
    """The keys an ingredient line stands for."""
    _refuse_comma(text)
    _refuse_taste(text)
    head, _, prep = (part.strip() for part in text.partition(","))
    found: dict[str, Any] = {}
    if prep.lower() == "as needed" or head.lower().startswith("as needed "):
        return {"food": re.sub(r"(?i)^as needed\s+", "", head), " as needed": True}
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
    found["food"], *others = food.split(" or ")
    if others:
        found["or"] = others
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
    water: WaterField | None = None

    @field_validator("size")
    @classmethod
    def _size(cls, value: str | None) -> str | None:
        if value is None or value in SIZES_MM:
            return value
        found = re.fullmatch(r"([0-9]{1,3}) ?mm", value)
        if not found or not 1 <= int(found[1]) <= 200:
            raise fault(
                "value-wrong",
                f'"{value}" is not a size of pieces',
                f"choose from {', '.join(SIZES_MM)}, or write millimetres like 5 mm",
            )
        return value


Source = Annotated[str, Field(min_length=3, max_length=400)]
Statement = Annotated[str, Field(min_length=3, max_length=80)]
Ingredients = Annotated[list[IngredientIn], Field(max_length=MOST_INGREDIENTS)]
Steps = Annotated[list[StepIn], Field(max_length=MOST_STEPS)]


class PartIn(Strict):
    """A named part with its own ingredients and steps."""

    part: WordsField
    ingredients: Ingredients = Field(default_factory=list, max_length=MOST_IN_PART)
    steps: Steps = Field(default_factory=list, max_length=MOST_IN_PART)


class AcceptIn(Strict):
    """A safety finding the trainer accepts."""

    finding: str = Field(min_length=1, max_length=80)
    reason: str = Field(min_length=8, max_length=400)
    role: str = Field(min_length=3, max_length=160)


class RecipeIn(Strict):
    """A recipe file."""

    recipe: str
    title: WordsField
    ages: AgesField = (6, 23)
    makes: MakesField = ()
    piece: WordsField = Field(default_factory=dict)
    texture: TextureField | None = None
    keep: KeepField | None = None
    ready: DurationField | None = None
    version: Annotated[str, Field(max_length=20), AfterValidator(fields.check_text)] = "1"
    revised: str = ""
    ingredients: Ingredients = Field(default_factory=list)
    steps: Steps = Field(default_factory=list)
    parts: Annotated[list[PartIn], Field(max_length=MOST_PARTS)] = Field(default_factory=list)
    accept: Annotated[list[AcceptIn], Field(max_length=MOST_ACCEPTED)] = Field(default_factory=list)
    statements: Annotated[list[Statement], Field(max_length=12)] = Field(default_factory=list)
    credit: Annotated[str, Field(max_length=400)] = ""
    sources: Annotated[list[Source], Field(max_length=20)] = Field(default_factory=list)
    signed: Annotated[
        dict[LanguageCode, SignatureField], Field(max_length=fields.MOST_LANGUAGES)
    ] = Field(default_factory=dict)
    notes: str = ""

    @field_validator("recipe")
    @classmethod
    def _format(cls, value: str) -> str:
        if not re.fullmatch("[1-9][0-9]{0,3}", value):
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
        if not value:
            return value
        if not is_date(value):
            raise fault("value-wrong", f'"{value}" is not a date', "write it like 2026-11-25")
        return value
