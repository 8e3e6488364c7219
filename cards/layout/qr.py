"""QR codes as rows of modules (ISO/IEC 18004), error correction M."""

from __future__ import annotations

from functools import lru_cache

import qrcode
from qrcode.constants import ERROR_CORRECT_M


@lru_cache(maxsize=64)
def qr_modules(payload: str) -> int:
    """Modules on a side, without the quiet zone; far quicker to know than the rows."""
    return 17 + 4 * int(_code(payload).version)


@lru_cache(maxsize=64)
def qr_rows(payload: str) -> tuple[str, ...]:
    """Rows of "1" (dark) and "0", without the quiet zone. Same payload, same rows."""
    code = _code(payload)
    code.make(fit=True)
    return tuple("".join("1" if dark else "0" for dark in row) for row in code.get_matrix())


def _code(payload: str) -> qrcode.QRCode:
    code = qrcode.QRCode(error_correction=ERROR_CORRECT_M, border=0)
    code.add_data(payload.encode("utf-8"), optimize=0)
    return code
