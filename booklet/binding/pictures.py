"""Pictures of a file for the press made no finer than a press can show."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pikepdf import Object, Pdf

# Dots to an inch beyond which a screen of 150 lines shows nothing more (common practice, no source).
MOST_DOTS = 300
# Pictures that are finer by less keep their pixels: little is won, and each change of size blurs.
_WORTH = 1.1
_POINTS_TO_INCH = 72
# The operators that place pictures (ISO 32000-1, annex A, from memory).
_PLACING = " ".join(["q", "Q", "cm", "Do"])
_INKS = {"/DeviceCMYK": "CMYK", "/DeviceGray": "L"}

_Matrix = tuple[float, float, float, float, float, float]
_SAME: _Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
# The pictures of each form that has been read, by the number of its object.
_Known = dict[tuple[int, int], list[tuple["Object", _Matrix]]]


def make_coarser(pdf: Pdf, most_dots: int = MOST_DOTS) -> None:
    """Give each picture of a file no more dots to an inch than this where it is shown largest.

    Pictures are 8 bits deep, in four inks or in grey, as our pages have them.  A pixel is the mean of those
    that it takes the place of, so that no ink becomes more than it was.
    """
    largest: dict[tuple[int, int], tuple[Object, float, float]] = {}
    known: _Known = {}
    for page in pdf.pages:
        for picture, place in _shown(page.obj, known):
            _, widest, highest = largest.get(picture.objgen, (picture, 0.0, 0.0))
            wide, high = hypot(*place[:2]), hypot(*place[2:4])
            largest[picture.objgen] = (picture, max(widest, wide), max(highest, high))
    for picture, wide, high in largest.values():
        _shrink(picture, *(round(side / _POINTS_TO_INCH * most_dots) for side in (wide, high)))


def _shown(holder: Object, known: _Known) -> list[tuple[Object, _Matrix]]:
    """Each picture that a page or a form shows, and how its square of one point comes to lie."""
    import pikepdf

    shown: list[tuple[Object, _Matrix]] = []
    place, saved, things = _SAME, [_SAME], _things(holder)
    for read in pikepdf.parse_content_stream(holder, _PLACING):
        operands: Any = read.operands
        match str(read.operator):
            case "q":
                saved.append(place)
            case "Q":
                place = saved.pop()
            case "cm":
                place = _then(_matrix(operands), place)
            case _:
                thing = things[str(operands[0])]
                shown += [(each, _then(inner, place)) for each, inner in _within(thing, known)]
    return shown


def _within(thing: Object, known: _Known) -> list[tuple[Object, _Matrix]]:
    """The pictures in a form, as it is used; a picture is that one."""
    if thing.Subtype != "/Form":
        return [(thing, _SAME)]
    if thing.objgen not in known:
        own = _matrix(thing.get("/Matrix", _SAME))
        known[thing.objgen] = [(each, _then(inner, own)) for each, inner in _shown(thing, known)]
    return known[thing.objgen]


def _things(holder: Object) -> Any:
    """The forms and pictures that a page or a form names."""
    import pikepdf

    nothing = pikepdf.Dictionary()
    return holder.get("/Resources", nothing).get("/XObject", nothing)


def _matrix(values: Any) -> _Matrix:
    a, b, c, d, e, f = map(float, values)
    return a, b, c, d, e, f


def _then(first: _Matrix, then: _Matrix) -> _Matrix:
    a, b, c, d, e, f = first
    p, q, r, s, t, u = then
    return (a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s, e * p + f * r + t, e * q + f * s + u)


def _shrink(picture: Object, wide: int, high: int) -> None:
    import pikepdf
    from PIL import Image as Pixels

    size = int(picture.Width), int(picture.Height)
    smaller = min(size[0], max(1, wide)), min(size[1], max(1, high))
    if size[0] < smaller[0] * _WORTH and size[1] < smaller[1] * _WORTH:
        return
    pixels = Pixels.frombytes(_INKS[str(picture.ColorSpace)], size, picture.read_bytes())
    mean = pixels.resize(smaller, Pixels.Resampling.BOX)
    picture.write(_packed(mean.tobytes()), filter=pikepdf.Name("/FlateDecode"))
    picture.Width, picture.Height = smaller


def _packed(data: bytes) -> bytes:
    from zlib import compress

    return compress(data)
