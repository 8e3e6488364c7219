"""Numbers as people write them on paper: 2½, not 2.5."""

from __future__ import annotations

from fractions import Fraction

_GLYPHS = {Fraction(1, 4): "¼", Fraction(1, 2): "½", Fraction(3, 4): "¾"}


def number(value: Fraction) -> str:
    """One number; quarters and halves as single signs, others as 1/3 or 1.37."""
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    if rest in _GLYPHS:
        return f"{whole or ''}{_GLYPHS[rest]}"
    if rest.denominator > 8:
        # no one measures thirteenths; what was written as 1.37 stays so
        return f"{float(value):.2f}".rstrip("0").rstrip(".")
    return f"{whole} {rest}" if whole else str(rest)


def number_range(low: Fraction, high: Fraction) -> str:
    """A number or a range with an en dash."""
    return number(low) if low == high else f"{number(low)}–{number(high)}"


def two(value: float) -> str:
    """Two significant figures, whole numbers from 100 up."""
    if value == 0:
        return "0"
    if abs(value) >= 100:
        return f"{value:.0f}"
    return f"{float(f'{value:.2g}'):g}"
