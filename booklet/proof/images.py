"""Images beside the spec, against what they are printed over: their proportions, and how fine they are."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from booklet.kit.finding import Finding, SpecPath, warning
from booklet.kit.images import ImageLook, look_at_image
from booklet.kit.kit import Kit, sheet_size
from booklet.kit.words import quoted, shown
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit, convert
from booklet.measure.words import exact_size
from booklet.placing.resolved import ResolvedKit

# A difference that no eye sees, such as a bleed on two sides only (common practice, no source).
_STRETCH = Fraction(1, 50)
# Pixels to an inch of what is drawn: a quarter of the 300 to an inch of print that a press asks for (common
# practice, no source), since a booklet draws sheets and pages at about a quarter of their size.
_FINE = 75


@dataclass(frozen=True)
class _PrintedOver:
    """What an image is printed over: its name for a message and its size, in the kit's unit."""

    name: str
    size: Size


def check_images(resolved: ResolvedKit) -> Iterator[Finding]:
    """Each image that is drawn out of its proportions, or too coarse for its size."""
    for where, name, overs in _uses(resolved):
        if overs:
            image = look_at_image(resolved.images, name)
            yield from _check(image, overs, resolved.kit.unit, where)


def _uses(resolved: ResolvedKit) -> Iterator[tuple[SpecPath, str, list[_PrintedOver]]]:
    """Every image by where it is named, with all that it is printed over."""
    for name, paper in resolved.kit.papers.items():
        for face, printed in (("front", paper.front), ("back", paper.back)):
            if printed.image is not None:
                yield ("papers", name, face, "image"), printed.image, _of_paper(resolved.kit, name)
    for index, sheet in enumerate(resolved.kit.sheets):
        if sheet.artwork is not None:
            over = _PrintedOver(f"sheet {quoted(sheet.id)}", sheet_size(resolved.kit, sheet))
            yield ("sheets", index, "artwork"), sheet.artwork, [over]
    for index, (layout, placed) in enumerate(zip(resolved.kit.layouts, resolved.layouts, strict=True)):
        if layout.photograph is not None:
            over = _PrintedOver(f"the page {quoted(layout.id)}", placed.size)
            yield ("layouts", index, "photograph"), layout.photograph, [over]


def _of_paper(kit: Kit, paper: str) -> list[_PrintedOver]:
    sheets = [
        _PrintedOver(f"sheet {quoted(it.id)}", sheet_size(kit, it)) for it in kit.sheets if it.paper == paper
    ]
    return sheets + [_PrintedOver(quoted(it.name), it.size) for it in kit.ready if it.paper == paper]


def _check(image: ImageLook, overs: list[_PrintedOver], unit: Unit, where: SpecPath) -> Iterator[Finding]:
    pixels = f"{shown(image.name)}, {image.width} x {image.height} pixels,"
    stretched = next((over for over in overs if _is_stretched(image, over.size)), None)
    if stretched:
        found = f"{pixels} is stretched over {stretched.name}, {exact_size(stretched.size, unit)}"
        yield warning("image-stretched", where, found, "give an image of the same proportions")
    largest = max(overs, key=lambda over: over.size.area)
    least = [ceil(_FINE * convert(side, unit, Unit.INCH)) for side in _sides(largest.size)]
    if image.width < least[0] or image.height < least[1]:
        found = f"{pixels} is coarse for {largest.name}, {exact_size(largest.size, unit)}"
        yield warning("image-coarse", where, found, f"give one of at least {least[0]} x {least[1]} pixels")


def _sides(size: Size) -> tuple[Fraction, Fraction]:
    return size.width, size.height


def _is_stretched(image: ImageLook, size: Size) -> bool:
    """Whether the image's proportions differ from those of what it is printed over."""
    one, other = image.width * size.height, image.height * size.width
    return abs(one - other) > _STRETCH * max(one, other)
