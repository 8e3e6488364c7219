"""Where a page lies on another page: turned, mirrored and moved, in points with y upwards."""

from __future__ import annotations

Matrix = tuple[float, float, float, float, float, float]
"""(a, b, c, d, e, f) as PDF writes it: x' = a x + c y + e, y' = b x + d y + f."""

STILL: Matrix = (1, 0, 0, 1, 0, 0)
"""Leaves everything where it is."""


def moved(dx: float, dy: float) -> Matrix:
    """A move."""
    return (1, 0, 0, 1, dx, dy)


def across(width: float) -> Matrix:
    """Left and right change places on something ``width`` wide, as when a page is turned."""
    return (-1, 0, 0, 1, width, 0)


def upended(height: float) -> Matrix:
    """Top and bottom change places on something ``height`` high, as when a calendar is turned."""
    return (1, 0, 0, -1, 0, height)


def quarter(height: float) -> Matrix:
    """A quarter turn against the clock that brings a page ``height`` high back to the corner."""
    return (0, 1, -1, 0, height, 0)


def then(first: Matrix, *later: Matrix) -> Matrix:
    """One after the other, the first first."""
    a, b, c, d, e, f = first
    for a2, b2, c2, d2, e2, f2 in later:
        a, b, c, d, e, f = (
            a * a2 + b * c2,
            a * b2 + b * d2,
            c * a2 + d * c2,
            c * b2 + d * d2,
            e * a2 + f * c2 + e2,
            e * b2 + f * d2 + f2,
        )
    return (a, b, c, d, e, f)


def at(matrix: Matrix, x: float, y: float) -> tuple[float, float]:
    """Where a point comes to lie."""
    a, b, c, d, e, f = matrix
    return a * x + c * y + e, b * x + d * y + f
