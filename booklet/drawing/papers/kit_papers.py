"""The kit's papers as symbols: each face of a sheet drawn once at full size, then used wherever it shows."""

from __future__ import annotations

from io import BytesIO
from typing import ClassVar

from booklet.drawing.papers.elements import ElementPaint, artwork_boxes, element_shapes, words_box
from booklet.drawing.papers.patterns import BorderPaint, FacePaint, paint_face
from booklet.drawing.shapes.affine import Box, box_about
from booklet.drawing.shapes.figure import (
    WHITE,
    Colour,
    Group,
    Image,
    ImageSource,
    Shape,
    Stroke,
    Symbol,
    colour_from_rgb,
    image_from_bytes,
)
from booklet.kit.element import PrintedElement
from booklet.kit.fields import Face
from booklet.kit.images import Images, load_image
from booklet.kit.kit import Kit, sheet_size
from booklet.measure.cache import cached_on
from booklet.measure.dataclass import dataclass
from booklet.measure.length import Size, to_points
from booklet.measure.typography import typographic

# How finely an image is looked at for its tone, in pixels across and down.
_COARSE = (16, 16)
_WHOLE = (0.0, 0.0, 1.0, 1.0)
# What is printed on an element of an image lies about its middle, in this share of its sides (no source).
_MOTIF = 0.7


@dataclass(frozen=True, eq=False)
class KitPapers:
    """Finds or makes the symbol of a face; two sheets of one paper and size share it.

    A symbol lies in points at full size, as that face is seen upright: the back as when the sheet is turned
    over like a page.  `images` are the kit's images.
    """

    kit: Kit
    images: Images

    # The line about a piece that lies among others, where it needs one to be seen.
    piece_edge: ClassVar[Stroke | None] = None
    # Whether writing on a paper is kept clear of its print.
    has_casings: ClassVar[bool] = False

    @cached_on
    def sheet(self, index: int, face: Face) -> Symbol:
        """One face of a sheet of the kit, with its printed elements if it is a cut-apart sheet."""
        sheet = self.kit.sheets[index]
        paper = self.paper(sheet.paper, face, sheet_size(self.kit, sheet))
        if face is Face.BACK or not sheet.elements:
            return paper
        drawn = [one for one in sheet.printed if sheet.artwork is None or one.is_drawn]
        paints = map(self._element_paint, drawn)
        printed = tuple(shape for paint in paints for shape in element_shapes(paint))
        ground = paper.shapes
        if sheet.artwork is not None:
            ground = (Image(self._image(sheet.artwork), Box(0.0, 0.0, paper.width, paper.height)),)
        key = f"cut-apart {sheet.id}"
        return Symbol(key, (*ground, Group(printed)), paper.width, paper.height)

    @cached_on
    def artwork(self, index: int) -> tuple[Box, ...]:
        """Where the pictures and words of a cut-apart sheet's elements lie on its front, at full size."""
        sheet = self.kit.sheets[index]
        return tuple(
            box
            for element in sheet.printed
            for box in self._artwork_of(element, is_image=sheet.artwork is not None and not element.is_drawn)
        )

    def _artwork_of(self, element: PrintedElement, *, is_image: bool) -> tuple[Box, ...]:
        paint = self._element_paint(element)
        if not is_image:
            return artwork_boxes(paint)
        width, height = paint.box.width, paint.box.height
        return (box_about(paint.box.centre, width * _MOTIF, height * _MOTIF),)

    def words(self, element: PrintedElement) -> Box | None:
        """Where the words of an element lie on the front of its sheet, at full size; None without any."""
        return words_box(self._element_paint(element))

    @cached_on
    def paper(self, paper: str, face: Face, size: Size) -> Symbol:
        """One face of a paper cut to a size: a sheet, a ready-cut piece, a swatch."""
        key = f"{paper} {face.value} {size.width} {size.height}"
        width, height = self._points(size)
        return Symbol(key, self.painted(paper, face, width, height), width, height)

    @cached_on
    def tone(self, paper: str, face: Face) -> Colour:
        """The tone that a face has from afar: its ground, or the mean of its image."""
        printed = self.kit.papers[paper].face(face)
        if printed.image is None:
            return self.face_colours(paper, face)[0]
        return _mean_colour(self._image(printed.image).read())

    def face_colours(self, paper: str, face: Face) -> tuple[Colour, ...]:
        """The colours of a face as they are drawn, the ground first."""
        return tuple(Colour(colour) for colour in self.kit.papers[paper].face(face).colours)

    def border_colour(self, colour: Colour, ground: Colour) -> Colour:  # noqa: ARG002
        """The colour of a printed border as it is drawn on a ground."""
        return colour

    def element_colours(self, ground: Colour, ink: Colour) -> tuple[Colour, Colour]:
        """The ground and the ink of a printed element as they are drawn."""
        return ground, ink

    @cached_on
    def element_tone(self, index: int, number: int) -> Colour:
        """The tone of one of a sheet's elements from afar: its ground, or its mean in an image."""
        sheet = self.kit.sheets[index]
        element, whole = sheet.printed[number], sheet_size(self.kit, sheet)
        if sheet.artwork is None or element.is_drawn:
            return self.element_colours(Colour(element.ground), Colour(element.ink))[0]
        place = element.rect
        part = (
            float(place.x / whole.width),
            float(place.y / whole.height),
            float(place.right / whole.width),
            float(place.bottom / whole.height),
        )
        return _mean_colour(self._image(sheet.artwork).read(), part)

    def _points(self, size: Size) -> tuple[float, float]:
        return to_points(size.width, self.kit.unit), to_points(size.height, self.kit.unit)

    def painted(self, paper: str, face: Face, width: float, height: float) -> tuple[Shape, ...]:
        """What is printed on a face of a size in points."""
        unit, printed = self.kit.unit, self.kit.papers[paper].face(face)
        colours = self.face_colours(paper, face) if printed.image is None else (WHITE,)
        borders = tuple(
            BorderPaint(
                border.edge,
                to_points(border.width, unit),
                self.border_colour(Colour(border.colour), colours[0]),
                border.style,
            )
            for border in printed.borders
        )
        painted = FacePaint(
            pattern=printed.pattern,
            colours=colours,
            repeat=to_points(printed.repeat, unit) if printed.repeat else None,
            borders=borders,
            image=self._image(printed.image) if printed.image else None,
        )
        return paint_face(painted, width, height)

    @cached_on
    def _image(self, name: str) -> ImageSource:
        """An image beside the spec; it was opened once before, when the spec was loaded."""

        return image_from_bytes(load_image(self.images, name).data)

    def _element_paint(self, element: PrintedElement) -> ElementPaint:
        unit, rect = self.kit.unit, element.rect
        left, top = to_points(rect.x, unit), to_points(rect.y, unit)
        width, height = self._points(rect.size)
        ground, ink = self.element_colours(Colour(element.ground), Colour(element.ink))
        return ElementPaint(
            box=Box(left, top, left + width, top + height),
            ground=ground,
            ink=ink,
            frame=element.frame,
            words=typographic(element.words) if element.words else None,
            picture=element.picture,
        )


def papers_of(kit: Kit, images: Images, before: KitPapers | None = None) -> KitPapers:
    """The papers of a kit: those of a kit `before`, with all that is drawn of them, where they look alike."""
    if before is not None and images == before.images and _printed(kit) == _printed(before.kit):
        return before
    return KitPapers(kit, images)


def _printed(kit: Kit) -> tuple[object, ...]:
    """All of a kit that its papers are drawn from."""
    sheets = [(each.id, each.paper, each.size, each.elements, each.artwork) for each in kit.sheets]
    return kit.unit, kit.sheet, kit.papers, sheets


def _mean_colour(picture: bytes, part: tuple[float, float, float, float] = _WHOLE) -> Colour:
    """The mean colour of a part of a picture, in shares of its width and height, over a coarse grid."""
    from PIL import Image as Pixels

    with Pixels.open(BytesIO(picture)) as opened:
        if part == _WHOLE:
            opened.draft("RGB", _COARSE)
        wide, high = opened.size
        left, top, right, bottom = part
        box = (left * wide, top * high, right * wide, bottom * high)
        coarse = opened.convert("RGB").resize(_COARSE, Pixels.Resampling.BOX, box)
    parts = [sum(band.tobytes()) / (_COARSE[0] * _COARSE[1] * 255) for band in coarse.split()]
    return colour_from_rgb(*parts)
