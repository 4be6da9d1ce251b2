"""Changes to whole pages, to the sides of a print file, and to pictures."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from pikepdf import Matrix, Name, Pdf, PdfImage, parse_content_stream

from tests.tampering.record import Tampering
from tests.tampering.streams import Forms, Sheet

# A picture of so many dots each way is coarse at any size that shows what it is.
_COARSE = 60


def pages_exchanged(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each page with the next."""
    for number in range(1, len(sheets)):
        words = f"pages {number} and {number + 1}"
        yield Tampering(number, words, _exchanging(number))


def _exchanging(number: int) -> Callable[[Pdf], None]:
    def change(pdf: Pdf) -> None:
        page = pdf.pages[number - 1]
        pdf.pages.insert(number + 1, page)
        del pdf.pages[number - 1]

    return change


def pages_doubled(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each page twice."""
    for sheet in sheets:
        words = f"page {sheet.number} twice"
        yield Tampering(sheet.number, words, _doubling(sheet.number))


def _doubling(number: int) -> Callable[[Pdf], None]:
    return lambda pdf: pdf.pages.insert(number, pdf.pages[number - 1])


def pages_dropped(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each page left out."""
    for sheet in sheets:
        words = f"page {sheet.number} left out"
        yield Tampering(sheet.number, words, _dropping(sheet.number))


def _dropping(number: int) -> Callable[[Pdf], None]:
    def change(pdf: Pdf) -> None:
        del pdf.pages[number - 1]

    return change


def pages_turned(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each page upside down: by its entry /Rotate, or by what it draws, in turn."""
    for sheet in sheets:
        ways = {"by its entry": _turning, "in its stream": _turning_content}
        for how, way in ways.items():
            words = f"page {sheet.number} upside down {how}"
            yield Tampering(sheet.number, words, way(sheet.number))


def _turning(number: int) -> Callable[[Pdf], None]:
    return lambda pdf: pdf.pages[number - 1].rotate(180, relative=True)


def _turning_content(number: int) -> Callable[[Pdf], None]:
    def change(pdf: Pdf) -> None:
        page = pdf.pages[number - 1]
        left, bottom, right, top = map(float, page.mediabox)
        turned = Matrix(-1, 0, 0, -1, left + right, bottom + top).encode()
        page.contents_add(b"q " + turned + b" cm", prepend=True)
        page.contents_add(b"Q")

    return change


# The print file.


def halves_exchanged(sides: Sequence[Sheet]) -> Iterator[Tampering]:
    """The two halves of each press side."""
    for side in sides:
        words = f"the halves of side {side.number}"
        yield Tampering(side.number, words, _exchanging_halves(side.number))


def _exchanging_halves(number: int) -> Callable[[Pdf], None]:
    def change(pdf: Pdf) -> None:
        held = pdf.pages[number - 1].resources.XObject
        left, right = _shown(pdf, number)
        held[left], held[right] = held[right], held[left]

    return change


def _shown(pdf: Pdf, number: int) -> list[str]:
    """The names of the pages on a side, the left one first."""
    painted = parse_content_stream(pdf.pages[number - 1], "Do")
    return [str(each.operands[0]) for each in painted]


def halves_of_two_sides(sides: Sequence[Sheet]) -> Iterator[Tampering]:
    """The left half of each press side with that of the next."""
    for number in range(1, len(sides)):
        words = f"the left halves of sides {number} and {number + 1}"
        yield Tampering(number, words, _exchanging_left(number))


def _exchanging_left(number: int) -> Callable[[Pdf], None]:
    def change(pdf: Pdf) -> None:
        one, other = (pdf.pages[at].resources.XObject for at in (number - 1, number))
        (left, _), (other_left, _) = _shown(pdf, number), _shown(pdf, number + 1)
        one[left], other[other_left] = other[other_left], one[left]

    return change


# Pictures.


def pictures_coarsened(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each picture of a page in few dots, wherever in the file it is painted."""
    for sheet in sheets:
        for picture in dict.fromkeys(sheet.pictures):
            words = f"picture {picture.name} in {_COARSE} dots each way"
            change = _coarsening(sheet.number, picture.forms, picture.name)
            yield Tampering(sheet.number, words, change)


def _coarsening(number: int, forms: Forms, name: str) -> Callable[[Pdf], None]:
    def change(pdf: Pdf) -> None:
        held: Any = pdf.pages[number - 1].resources
        for form in forms:
            held = held.XObject[form].Resources
        picture = held.XObject[name]
        picture.write(_few_dots(picture))
        picture.Width = picture.Height = _COARSE
        picture.BitsPerComponent, picture.ColorSpace = 8, Name.DeviceRGB

    return change


def _few_dots(picture: Any) -> bytes:
    """The dots of a picture drawn again in few, as RGB."""
    image = PdfImage(picture).as_pil_image().convert("RGB")
    return image.resize((_COARSE, _COARSE)).tobytes()
