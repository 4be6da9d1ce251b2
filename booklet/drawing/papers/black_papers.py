"""The kit's papers as one ink prints them: grounds in screens, motifs in black and white on them."""

from __future__ import annotations

from collections.abc import Mapping

from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.papers.paper_screens import letters_of, screens_of
from booklet.drawing.papers.patterns import pattern_colours
from booklet.drawing.shapes.figure import BLACK, WHITE, Cap, Colour, Motifs, Path, Shape, Stroke
from booklet.drawing.shapes.screens import Weave, lightness, nearest
from booklet.kit.fields import Face
from booklet.kit.paper import Pattern, Print
from booklet.measure.cache import cached_on
from booklet.measure.dataclass import replace

# A printed element's ground is at most so dark that small words are read on it, or it is black: lighter than
# the first it is white, darker than the second black, from 0 (black) to 1 (white).
_ELEMENT, _ELEMENT_WHITE, _ELEMENT_BLACK = nearest(Weave.FINE, 0.125), 0.94, 0.62
# A ground lighter than this has dark motifs, a darker one light motifs.
_LIGHT_GROUND = 0.6
# On a light ground motifs are black up to this much lighter than the darkest, if they are not pale.
_WITH_DARKEST, _PALE = 0.2, 0.8
# On a dark ground motifs are white up to this much darker than the lightest.
_WITH_LIGHTEST = 0.1
# What is neither black nor white among motifs: a screen, and for lines dashes, in points at full size.
_BETWEEN = nearest(Weave.ACROSS, 0.5).colour
_DASHES = (4.0, 5.0)


class BlackPapers(KitPapers):
    """The papers of a kit in black and white and screens."""

    piece_edge = Stroke(BLACK, 0.4)
    has_casings = True

    @property
    @cached_on
    def letters(self) -> Mapping[str, str]:
        """The letter of each paper that bears one, by the paper's name in the spec."""
        return letters_of(self.kit)

    def face_colours(self, paper: str, face: Face) -> tuple[Colour, ...]:
        """The ground's screen, then what stands out from it for each motif."""
        printed = self.kit.papers[paper].face(face)
        ground = self._screens[paper, face]
        return (ground,) if printed.pattern is Pattern.SOLID else (ground, *_motifs(printed, ground))

    def border_colour(self, colour: Colour, ground: Colour) -> Colour:
        """White on a dark ground, black on a light one, or a screen if it is pale."""
        if lightness(ground) < _LIGHT_GROUND:
            return WHITE
        return BLACK if lightness(colour) < _PALE else _BETWEEN

    def element_colours(self, ground: Colour, ink: Colour) -> tuple[Colour, Colour]:  # noqa: ARG002
        """A ground that small words are read on, and black or white words."""
        light = lightness(ground)
        if light < _ELEMENT_BLACK:
            return BLACK, WHITE
        return WHITE if light >= _ELEMENT_WHITE else _ELEMENT.colour, BLACK

    def painted(self, paper: str, face: Face, width: float, height: float) -> tuple[Shape, ...]:
        """A face's print; a line that stays light is dashed."""
        return tuple(map(_dashed, super().painted(paper, face, width, height)))

    @property
    @cached_on
    def _screens(self) -> Mapping[tuple[str, Face], Colour]:
        return screens_of(self.kit, self.letters)


def _dashed(shape: Shape) -> Shape:
    if isinstance(shape, Path | Motifs) and shape.stroke is not None and shape.stroke.colour == _BETWEEN:
        return replace(shape, stroke=replace(shape.stroke, colour=BLACK, dash=_DASHES, cap=Cap.BUTT))
    return shape


def _motifs(printed: Print, ground: Colour) -> tuple[Colour, ...]:
    """Black, white and what lies between for the colours of a pattern after its ground."""
    own, *motifs = map(lightness, pattern_colours(printed))
    if lightness(ground) > _LIGHT_GROUND:
        most = min(min(motifs) + _WITH_DARKEST, _PALE)
        return tuple(BLACK if light < most else _BETWEEN for light in motifs)
    least = max(motifs) - _WITH_LIGHTEST
    between = WHITE.mixed(ground, 0.5)
    return tuple(BLACK if light < own else WHITE if light > least else between for light in motifs)
