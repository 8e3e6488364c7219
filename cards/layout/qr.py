"""QR codes as rows of modules (ISO/IEC 18004), error correction M."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import chain, zip_longest

import qrcode
from qrcode import LUT
from qrcode.base import gexp, glog, rs_blocks
from qrcode.constants import ERROR_CORRECT_M
from qrcode.util import MODE_8BIT_BYTE, PAD0, PAD1, BitBuffer, QRData, length_in_bits

MASKS = 8
"""Masks of which the one is taken that leaves fewest modules in line (7.8)."""

_EYE = 0b10111010000
"""What could be taken for a corner of the code."""


@lru_cache(maxsize=64)
def qr_modules(payload: str) -> int:
    """Modules on a side, without the quiet zone; far quicker to know than the rows."""
    return 17 + 4 * int(_code(payload).version)


@lru_cache(maxsize=64)
def qr_rows(payload: str) -> tuple[str, ...]:
    """Rows of "1" (dark) and "0", without the quiet zone. Same payload, same rows.

    The mask is the one that the library would take. It lays out each mask anew and counts module
    by module; what a mask changes is the same for every payload of a size, and kept.
    """
    code = _code(payload)
    code.data_cache = _words(code)
    plain = _laid(code, 0, test=True)
    masks = _masks(int(code.version))
    side = len(plain)
    rows, columns = _number(plain), _number(_turned(plain))
    lost = [
        penalty(rows ^ tried, columns ^ turned, side)
        for tried, turned in zip(masks.tried, masks.turned, strict=True)
    ]
    best = f"{rows ^ masks.done[lost.index(min(lost))]:0{side * side}b}"
    return tuple(best[start : start + side] for start in range(0, side * side, side))


def penalty(rows: int, columns: int, side: int) -> int:
    """Points lost by modules in line (7.8.3), all rows one after the other in one number.

    ``columns`` are the same modules turned about the diagonal.
    """
    whole = side * side
    every = (1 << whole) - 1
    starts = _starts(side, side - 1)
    lost = 0
    for modules in (rows, columns):
        same = ~(modules ^ modules >> 1) & starts
        four = same & same >> 1 & same >> 2 & same >> 3
        lost += four.bit_count() + 2 * (four & ~(four << 1)).bit_count()
        for eye in (_EYE, int(f"{_EYE:011b}"[::-1], 2)):
            found = _starts(side, side - 10)
            for place in range(11):
                found &= modules >> place if eye >> place & 1 else ~modules >> place
            lost += 40 * found.bit_count()
    beside = ~(rows ^ rows >> 1) & starts
    below = ~(rows ^ rows >> side) & every >> side
    lost += 3 * (beside & beside >> side & below).bit_count()
    return lost + int(abs(rows.bit_count() / whole * 100 - 50) / 5) * 10


@lru_cache(maxsize=16)
def _starts(side: int, count: int) -> int:
    """The first ``count`` modules of each row."""
    row = (1 << count) - 1
    return sum(row << side * number for number in range(side))


@dataclass(frozen=True, slots=True)
class _Masks:
    """What each mask changes in a code laid out with the first one, on trial and when done."""

    tried: tuple[int, ...]
    turned: tuple[int, ...]
    done: tuple[int, ...]


@lru_cache(maxsize=40)
def _masks(version: int) -> _Masks:
    code = qrcode.QRCode(version=version, error_correction=ERROR_CORRECT_M, border=0)
    code.add_data(b"", optimize=0)
    plain = _laid(code, 0, test=True)
    rows, columns = _number(plain), _number(_turned(plain))
    tried = [_laid(code, mask, test=True) for mask in range(MASKS)]
    return _Masks(
        tuple(rows ^ _number(one) for one in tried),
        tuple(columns ^ _number(_turned(one)) for one in tried),
        tuple(rows ^ _number(_laid(code, mask, test=False)) for mask in range(MASKS)),
    )


def _words(code: qrcode.QRCode) -> list[int]:
    """The code's words (7.4.9 to 7.6): data, filled up, then what corrects them, by turns."""
    buffer = BitBuffer()
    for data in code.data_list:
        buffer.put(data.mode, 4)
        buffer.put(len(data), length_in_bits(data.mode, code.version))
        data.write(buffer)
    blocks = rs_blocks(code.version, ERROR_CORRECT_M)
    room = sum(block.data_count for block in blocks)
    # four bits of nothing end the data, or as many as there is room for
    ended = min(-(-(buffer.length + 4) // 8), room)
    words = [*buffer.buffer, *[0] * (ended - len(buffer.buffer))]
    words += [PAD1 if number % 2 else PAD0 for number in range(room - len(words))]
    given: list[list[int]] = []
    for block in blocks:
        taken = sum(map(len, given))
        given.append(words[taken : taken + block.data_count])
    mending = [
        mended(words, block.total_count - block.data_count)
        for words, block in zip(given, blocks, strict=True)
    ]
    return [*_by_turns(given), *_by_turns(mending)]


def _by_turns(rows: Iterable[Iterable[int]]) -> list[int]:
    return [word for word in chain(*zip_longest(*rows)) if word is not None]


def mended(words: Iterable[int], count: int) -> bytes:
    """``count`` words that correct ``words``: what is left on division by the generator (7.5.2).

    Long division with a row of a table a word; the library makes a polynomial of each step.
    """
    rows, above, left = _multiples(count), 8 * (count - 1), 0
    for word in words:
        top = left >> above
        left = (left ^ top << above) << 8 ^ rows[top ^ word]
    return left.to_bytes(count, "big")


@lru_cache(maxsize=40)
def _multiples(count: int) -> tuple[int, ...]:
    """The generator of ``count`` words, without its first, times each word, as one number."""
    parts = LUT.rsPoly_LUT[count][1:]
    logs = [glog(part) for part in parts]
    times = [bytes([gexp(glog(word) + log) for log in logs]) for word in range(1, 256)]
    return 0, *(int.from_bytes(row, "big") for row in times)


def _laid(code: qrcode.QRCode, mask: int, *, test: bool) -> list[str]:
    """The code's rows with a mask; on trial without the modules that name the mask."""
    code.makeImpl(test, mask)
    return ["".join(["1" if dark else "0" for dark in row]) for row in code.modules]


def _turned(rows: Sequence[str]) -> list[str]:
    return ["".join(column) for column in zip(*rows, strict=True)]


def _number(rows: Sequence[str]) -> int:
    return int("".join(rows), 2)


class _Bytes(QRData):  # type: ignore[misc]
    """Bytes that are put behind the bits of a code at once; the library puts bit by bit."""

    def write(self, buffer: BitBuffer) -> None:
        if self.mode != MODE_8BIT_BYTE:
            super().write(buffer)
            return
        free = -buffer.length % 8
        bits = buffer.buffer[-1] >> free << 8 * len(self.data) | int.from_bytes(self.data, "big")
        buffer.buffer[-1:] = (bits << free).to_bytes(len(self.data) + 1, "big")
        buffer.length += 8 * len(self.data)


def _code(payload: str) -> qrcode.QRCode:
    code = qrcode.QRCode(error_correction=ERROR_CORRECT_M, border=0)
    code.add_data(_Bytes(payload.encode("utf-8")), optimize=0)
    return code
