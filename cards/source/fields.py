"""Field types of the file models: text in, exact values out, faults in a person's words."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Annotated, Any

from pydantic import BeforeValidator, PlainValidator, ValidationInfo, WithJsonSchema
from pydantic_core import PydanticCustomError

from cards.diagnostics.blanks import single_blanks
from cards.diagnostics.hidden import is_hidden
from cards.diagnostics.nearest import did_you_mean
from cards.source import amounts
from cards.source.amounts import EACH, PORTION, SHARE, SIZED, Amount, Duration, Unreadable
from cards.source.recipe import Keep, Use
from cards.source.vocabulary import MEANT, PREPS


def fault(kind: str, message: str, hint: str = "") -> PydanticCustomError:
    """A pydantic error that carries our kind and hint.

    Message and hint travel as context, since pydantic would read braces in them.
    """
    return PydanticCustomError(
        "ours", "{message}", {"kind": kind, "message": message, "hint": hint}
    )


LONGEST_LINE = 400
"""Characters of any line of a file that is read; the longest ingredient line has about 80."""


def check_length(text: str) -> str:
    """A text that is short enough to read. Raises our fault."""
    if len(text) > LONGEST_LINE:
        raise fault(
            "value-wrong",
            f"this text has {len(text)} characters",
            f"nothing here is longer than {LONGEST_LINE}; shorten it",
        )
    return text


def _text(value: Any, what: str) -> str:
    if isinstance(value, str):
        return check_length(value)
    if value is None:
        raise fault("value-missing", f"{what} is empty", "write it after the colon")
    raise fault(
        "value-wrong",
        f"{what} should be a single text, not a list or keys",
        "write it on the same line, after the colon",
    )


def _units(info: ValidationInfo) -> dict[str, str]:
    return dict((info.context or {}).get("measures", {}))


def parse_amount(value: Any, info: ValidationInfo) -> Amount:
    """An amount alone, as in ``amount: 1 1/2 tbsp``."""
    if isinstance(value, Amount):
        return value
    units = _units(info)
    try:
        amount, rest = amounts.read_amount(_text(value, "the amount"), units)
    except Unreadable as trouble:
        raise fault(trouble.kind, str(trouble), trouble.hint) from None
    if rest:
        raise fault(
            "unit-unknown",
            f'"{rest}" is not a measure',
            did_you_mean(
                rest, units, "use cup, bowl, tbsp, tsp, pinch, handful, piece, leaf, g or ml"
            ),
        )
    return amount


def parse_grams(value: Any, info: ValidationInfo) -> Amount:
    """A weight: a bare number is grams."""
    if isinstance(value, Amount):
        return value
    text = _text(value, "grams")
    amount = parse_amount(text, info)
    if amount.unit == amounts.EACH and re.fullmatch(r"[^a-zA-Z]*", text):
        return Amount(amount.low, amount.high, "gram")
    if amount.unit not in ("gram", "kilogram"):
        raise fault("value-wrong", f'"{text}" is not a weight', "write grams as a number, like 60")
    return amount


def parse_makes(value: Any, info: ValidationInfo) -> tuple[Amount, ...]:
    """What the recipe makes: "3 cups", "720 g", "12 pieces (480 g)", "2 cups, 4 portions"."""
    text = _text(value, "makes")
    outer, inner = split_brackets(text)
    told = [part.strip() for part in (*outer.split(","), inner) if part.strip()]
    if not told:
        raise fault("amount-unreadable", "makes is empty", 'write it like "3 cups (700 g)"')
    found = [_portions(part) or parse_amount(part, info) for part in told]
    if len({amount.unit for amount in found}) < len(found):
        raise fault("value-wrong", f'"{text}" says the same thing twice', "keep one of each")
    for amount in found:
        if amount.unit in ("piece", PORTION) and amount.high > MOST_PIECES:
            raise fault("value-wrong", f"no home dish makes {amount}", "check the number")
    return tuple(found)


def _portions(text: str) -> Amount | None:
    """How many portions a text promises; None where it speaks of something else."""
    try:
        low, high, rest = amounts.read_range(text)
    except Unreadable:
        return None
    told = re.fullmatch(r"(?:child(?:'s|ren's)? )?(?:portion|meal|serving)s?", rest.lower())
    return Amount(low, high, PORTION) if told else None


def split_brackets(text: str) -> tuple[str, str]:
    """The text outside and inside its one pair of brackets."""
    match = re.search(r"\(([^()]*)\)", text)
    if not match:
        return text.strip(), ""
    return " ".join((text[: match.start()] + " " + text[match.end() :]).split()), match[1].strip()


def parse_duration(value: Any) -> Duration:
    """A time."""
    try:
        return amounts.read_duration(_text(value, "the time"))
    except Unreadable as trouble:
        raise fault("time-unreadable", str(trouble), trouble.hint) from None


def parse_keep(value: Any) -> Keep:
    """How long the dish may wait: "2 hours", "2 hours, covered", "1 day in the fridge"."""
    text = " ".join(_text(value, "keep").split())
    place = re.search(r"[\s,]+(covered|(?:in )?(?:the |a )?fridge)\s*$", text, re.IGNORECASE)
    how = place[1].lower() if place else ""
    time = parse_duration(text[: place.start()] if place else text)
    return Keep(time, fridge="fridge" in how, covered=how == "covered")


def parse_whistles(value: Any) -> tuple[int, int]:
    """A count or range of whistles."""
    text = _text(value, "whistles")
    how = "write a number of whistles, like 3 or 3-4, 12 at most"
    try:
        low, high, rest = amounts.read_range(text)
    except Unreadable as trouble:
        raise fault("value-wrong", str(trouble), how) from None
    whole = low.denominator == high.denominator == 1
    if rest.lower() not in ("", "whistle", "whistles") or not whole or not 1 <= low <= high <= 12:
        raise fault("value-wrong", f'"{text}" is not a count of whistles', how)
    return int(low), int(high)


def parse_ages(value: Any) -> tuple[int, int]:
    """Months: "6-23 months" or "from 9 months"."""
    how = 'write it like "6-23 months" or "from 9 months"'
    text = _text(value, "ages")
    bare = re.sub(r"^\s*from\s+", "", text, flags=re.IGNORECASE)
    try:
        low, high, rest = amounts.read_range(bare)
    except Unreadable:
        raise fault("ages-unreadable", f'"{text}" is no age', how) from None
    rest = re.sub(r"\s+", " ", rest.lower())
    if rest not in ("", "month", "months", "months on", "months up") or low.denominator > 1:
        raise fault("ages-unreadable", f'"{text}" is no age in months', how)
    ranged = low != high or re.search(r"\d\s*(?:[-–—]|to)\s*\d", bare)
    last = int(high) if ranged else 23
    if low < 6:
        raise fault(
            "ages-too-young",
            "before 6 months a child needs breast milk alone",
            "begin at 6 months; see the WHO 2023 guideline on complementary feeding",
        )
    if last > 23 or low > 23:
        raise fault(
            "ages-too-old", "these cards are for children up to 23 months", "end at 23 months"
        )
    return int(low), last


MOST_PIECES = 500
"""More pieces than any kitchen makes for a training."""

LONGEST_TEXT = 160
"""More characters than any line of a card has room for."""


def check_text(text: str) -> str:
    """A text that is to be printed: visible, of one piece, short enough. Raises our fault."""
    check_length(text)
    for character in text:
        if is_hidden(character):
            raise fault(
                "text-hidden",
                f"there is a character here that prints nothing, U+{ord(character):04X}",
                "type the text anew, without copying",
            )
    if "*" in text:
        raise fault("text-hidden", "a star cannot be printed here", "leave the * out")
    if not any(c.isalnum() for c in text):
        raise fault("value-missing", "there are no letters in this text", "write it in words")
    if len(text) > LONGEST_TEXT:
        raise fault(
            "value-wrong",
            f"this text has {len(text)} letters",
            f"no line of a card holds more than {LONGEST_TEXT}; shorten it",
        )
    return single_blanks(text)


def parse_text(value: Any) -> str:
    """One line that is to be printed."""
    return check_text(_text(value, "this"))


MOST_LANGUAGES = 12
"""More languages than any recipe speaks."""


def parse_words(value: Any) -> dict[str, str]:
    """A text in one language, or a text for each language code."""
    if value is None or value == "":
        raise fault("value-missing", "there is no text here", "write it after the colon")
    if isinstance(value, str):
        return {"": check_text(value)}
    if not isinstance(value, dict):
        raise fault(
            "value-wrong",
            "this should be a text, or one text for each language",
            "write en: and hi: on lines of their own",
        )
    if len(value) > MOST_LANGUAGES:
        raise fault(
            "value-wrong",
            f"there are texts in {len(value)} languages here",
            "keep those that your programme prints",
        )
    for code, text in value.items():
        if not re.fullmatch(r"[a-z]{2,3}", code):
            raise fault("language-unknown", f'"{code}" is not a language code', "write en, hi, ...")
        if text is None or text == "":
            raise fault("value-missing", f'the text for "{code}" is empty', "write it or drop it")
        if not isinstance(text, str):
            raise fault("value-wrong", f'"{code}" should be a single text')
    return {code: check_text(text) for code, text in value.items()}


MOST_USES = 40
"""As many foods as a dish may have."""


def parse_uses(value: Any, info: ValidationInfo) -> tuple[Use, ...]:
    """Foods a step takes: a list, or one text with commas; amounts may stand before them."""
    if isinstance(value, str):
        value = [part for part in check_length(value).split(",") if part.strip()]
    if (
        not value
        or not isinstance(value, list)
        or not all(isinstance(v, str) and v.strip() for v in value)
    ):
        raise fault("value-wrong", "use should name foods", "write use: rice, moong dal")
    if len(value) > MOST_USES:
        raise fault(
            "value-wrong",
            f"use names {len(value)} foods",
            f"a step takes at most {MOST_USES}; write use: all",
        )
    return tuple(_use(" ".join(check_length(v).split()), _units(info)) for v in value)


_REST = re.compile(r"(?:the )?(?:rest|remaining|remainder)(?: of)?(?: the)? (.+)", re.IGNORECASE)
_COUNTED = (*SIZED, "leaf", "piece", "slice", "inch")
"""Words that may begin the name of a food as well as an amount."""


def _use(text: str, units: dict[str, str]) -> Use:
    """What one text takes: "ghee", "1/2 tsp ghee", "half of the ghee", "the rest of the ghee"."""
    rest = _REST.fullmatch(text)
    if rest:
        return Use(rest[1], rest=True)
    first = text.split()[0].lower()
    if units.get(first) in (EACH, *_COUNTED):
        return Use(text)
    try:
        part, after = amounts.read_number(text)
        of_all = re.match(r"\s*(?:of the|of|the)\s+(.+)", after)
        if of_all and 0 < part <= 1:
            return Use(of_all[1], Amount(part, part, SHARE))
    except Unreadable:
        if first not in units:
            return Use(text)
    try:
        amount, food = amounts.read_amount(text, units)
    except Unreadable as trouble:
        raise fault(trouble.kind, str(trouble), trouble.hint) from None
    if not food:
        raise fault(
            "value-wrong",
            f'"{text}" names no food',
            "name foods in use:, with commas between: use: rice, 1 tsp ghee",
        )
    return Use(re.sub(r"^the ", "", food), amount)


def parse_preps(value: Any) -> tuple[str, ...]:
    """What was done to an ingredient before: words from the list, with commas between."""
    words = (" ".join(word.split()) for word in _text(value, "prep").split(","))
    found = tuple(word for word in words if word)
    for word in found:
        if word not in PREPS:
            near = did_you_mean(word, PREPS)
            raise fault(
                "prep-unknown",
                f'"{word}" is not a way to prepare',
                f"{near} choose from: {', '.join(PREPS)}".strip(),
            )
    return found


def one_of(choices: Iterable[str], kind: str, what: str) -> BeforeValidator:
    """A validator for a word from a closed list, offering the nearest."""
    known = tuple(choices)

    def check(value: Any) -> Any:
        text = _text(value, what).strip()
        if text not in known:
            choices = f"choose from: {', '.join(known)}"
            meant = MEANT.get(text.lower(), "")
            fits = bool(meant) and meant.split()[0].strip(",") in known
            near = f"write {meant};" if fits else did_you_mean(text, known)
            raise fault(kind, f'"{text}" is not {what}', f"{near} {choices}".strip())
        return text

    return BeforeValidator(check)


def yes_or_no(value: Any) -> bool:
    """A switch, in the words people use."""
    text = _text(value, "this").strip().lower()
    if text in ("yes", "on", "true"):
        return True
    if text in ("no", "off", "false"):
        return False
    raise fault(
        "value-wrong", f'"{text}" should be yes or no', "write yes or no; on or off will do"
    )


def _plain(parse: Any, *, pattern: str = "", also: Any = None, description: str = "") -> Any:
    """A validator with its JSON Schema: a text, a number, or whatever else is taken."""
    text: dict[str, Any] = {"type": ["string", "number"], "description": description}
    if pattern:
        text["pattern"] = pattern
    schema = {"anyOf": [text, also], "description": description} if also else text
    return PlainValidator(parse), WithJsonSchema(schema)


_WORDS = {"type": "object", "additionalProperties": {"type": "string"}}
_NAMES = {"type": "array", "items": {"type": "string"}}

AmountField = Annotated[Amount, *_plain(parse_amount, description="2, 1 1/2 tbsp, 2-3, half")]
GramsField = Annotated[Amount, *_plain(parse_grams, description="grams, as 60")]
MakesField = Annotated[
    tuple[Amount, ...], *_plain(parse_makes, description="3 cups (720 g), 12 pieces (480 g)")
]
DurationField = Annotated[
    Duration, *_plain(parse_duration, description="10-12 minutes, 8 hours, overnight")
]
WhistlesField = Annotated[
    tuple[int, int], *_plain(parse_whistles, description="a count of whistles, as 3")
]
KeepField = Annotated[
    Keep, *_plain(parse_keep, description="2 hours; 2 hours, covered; 1 day in the fridge")
]
AgesField = Annotated[
    tuple[int, int], *_plain(parse_ages, description="6-23 months, from 9 months")
]
TextField = Annotated[str, *_plain(parse_text, description="one line of text")]
WordsField = Annotated[
    dict[str, str], *_plain(parse_words, also=_WORDS, description="a text for each language")
]
PrepsField = Annotated[
    tuple[str, ...], *_plain(parse_preps, description="washed, chopped fine, ...")
]
UsesField = Annotated[
    tuple[Use, ...],
    *_plain(parse_uses, also=_NAMES, description="rice, 1 tsp ghee, half of the milk; or all"),
]
SwitchField = Annotated[
    bool,
    PlainValidator(yes_or_no),
    WithJsonSchema({"enum": ["yes", "no", "on", "off", True, False]}),
]
