"""Whether pages of a given file show what the same pages of another one show."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from typing import TYPE_CHECKING

import pypdfium2 as pdfium

from booklet.proof.reader import opened_page

if TYPE_CHECKING:
    from typing import Any

    from numpy.typing import NDArray

# Dots to a point, 144 to the inch: the strokes of a numeral of 9 pt are two of them wide.
_DOTS = 2.0
# Another program that saves a file may round its numbers otherwise, which moves the tone of an edge a little;
# another numeral turns black to white (tones run from 0 to 255).
_TONES = 64


def pages_unlike(given: bytes, made: bytes, numbers: Sequence[int]) -> tuple[int, ...]:
    """Those of some pages, by their numbers from 1, that look otherwise in a given file than as made.

    Of a file that cannot be opened none looks as it is to.
    """
    try:
        one = pdfium.PdfDocument(BytesIO(given))
    except pdfium.PdfiumError:
        return tuple(numbers)
    other = pdfium.PdfDocument(BytesIO(made))
    try:
        return tuple(number for number in numbers if not _is_alike(one, other, number))
    finally:
        one.close()
        other.close()


def _is_alike(one: pdfium.PdfDocument, other: pdfium.PdfDocument, number: int) -> bool:
    import numpy as np

    seen, wanted = _picture(one, number), _picture(other, number)
    if seen is None or wanted is None or seen.shape != wanted.shape:
        return False
    return bool(np.abs(seen.astype(np.int16) - wanted.astype(np.int16)).max() < _TONES)


def _picture(document: pdfium.PdfDocument, number: int) -> NDArray[Any] | None:
    """A page as it is seen, with what is noted on it; None for one that cannot be opened."""
    page = opened_page(document, number - 1)
    if page is None:
        return None
    picture: NDArray[Any] = page.render(scale=_DOTS, rev_byteorder=True).to_numpy()
    return picture
