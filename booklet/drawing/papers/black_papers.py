"""The kit's papers as one ink prints them, told apart by screens, and by a letter where papers look alike.

Each plain face has a screen about as dark as the paper.  Papers that are about as dark as each other have
screens whose marks run in other ways.  A printed face has a ground that its motifs stand out from.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.papers.patterns import pattern_colours
from booklet.drawing.shapes.figure import BLACK, WHITE, Cap, Colour, Path, Shape, Stroke
from booklet.drawing.shapes.screens import Screen, Weave, lettered, lightness, nearest
from booklet.kit.fields import Face
from booklet.kit.kit import Kit
from booklet.kit.paper import Pattern, Print
from booklet.measure.cache import cached_on

# Lighter papers than this are white, from 0 (black) to 1 (white).
_WHITE = 0.94
# Papers nearer to each other than this differ in the way of their marks; those nearer than the second, which
# the eye hardly parts in grey, bear a letter as well.
_NEIGHBOUR, _ALIKE = 0.16, 0.06
# In this order papers take to them, from light to dark; lines down, as cuts are, come last.
_WEAVES = (Weave.DOTS, Weave.ACROSS, Weave.FALLING, Weave.CROSS, Weave.DOWN)
# No ground is darker: what lies on it casts a shadow.
_DARKEST = 0.76
# A printed element's ground is so light that small words are read on it, or so dark.
_ELEMENT_LIGHT, _ELEMENT_DARK, _BETWEEN = 0.16, 1.0, 0.62
# Of a motif: a ground lighter than this has dark motifs; motifs within this of the darkest are black as well.
# A motif lighter than the third is not black on any ground.
_LIGHT_GROUND, _WITH_DARKEST, _PALE_MOTIF = 0.6, 0.2, 0.8
# A line that is neither black nor white, in points at full size: drawn, left out.
_DASHES = (4.0, 5.0)
_MOTIF = nearest(Weave.ACROSS, 0.5)


@dataclass(frozen=True)
class _PlainFace:
    paper: str
    face: Face
    light: float


class BlackPapers(KitPapers):
    """The papers of a kit in black and white and screens."""

    piece_edge = Stroke(BLACK, 0.4)
    has_casings = True

    @property
    @cached_on
    def letters(self) -> Mapping[str, str]:
        """The letter of each paper that bears one, by the paper's name in the spec."""
        return _letters(self.kit)

    def face_colours(self, paper: str, face: Face) -> tuple[Colour, ...]:
        """The ground's screen, then what stands out from it for each motif."""
        printed = self.kit.papers[paper].face(face)
        ground = self._ground(paper, face)
        if printed.pattern is Pattern.SOLID:
            return (ground,)
        ground = WHITE if lightness(ground) > 0.8 else ground
        return (ground, *_motifs(printed, ground))

    def border_colour(self, colour: Colour, ground: Colour) -> Colour:
        """Black on a light ground, white on a dark one, but for a border about as light as a white ground."""
        return WHITE if lightness(ground) < 0.5 else _mark(colour)

    def element_colours(self, ground: Colour, ink: Colour) -> tuple[Colour, Colour]:  # noqa: ARG002
        """A ground that small words are read on, and black or white words."""
        light = lightness(ground)
        if light >= _WHITE:
            return WHITE, BLACK
        if light < _BETWEEN:
            return BLACK, WHITE
        return nearest(Weave.FINE, min(1.0 - light, _ELEMENT_LIGHT)).colour, BLACK

    def painted(self, paper: str, face: Face, width: float, height: float) -> tuple[Shape, ...]:
        """A face's print; a line that stays light is dashed."""
        return tuple(map(_dashed, super().painted(paper, face, width, height)))

    def _ground(self, paper: str, face: Face) -> Colour:
        return _grounds(self.kit)[paper, face]


def _dashed(shape: Shape) -> Shape:
    if isinstance(shape, Path) and shape.stroke is not None and shape.stroke.colour == _MOTIF.colour:
        return replace(shape, stroke=replace(shape.stroke, colour=BLACK, dash=_DASHES, cap=Cap.BUTT))
    return shape


def _mark(colour: Colour) -> Colour:
    return BLACK if lightness(colour) < 0.75 else _MOTIF.colour


def _motifs(printed: Print, ground: Colour) -> tuple[Colour, ...]:
    """Black, grey and white for the colours of a pattern after its ground, as they differ from it."""
    wanted = pattern_colours(printed)
    base, motifs = lightness(wanted[0]), [lightness(colour) for colour in wanted[1:]]
    if lightness(ground) > _LIGHT_GROUND:
        darkest = min(motifs)
        most = min(darkest + _WITH_DARKEST, _PALE_MOTIF)
        return tuple(BLACK if light < most else _MOTIF.colour for light in motifs)
    lightest = max(motifs)
    return tuple(
        WHITE
        if light > base and light > lightest - 0.1
        else WHITE.mixed(ground, 0.5)
        if light > base
        else BLACK
        for light in motifs
    )


# Which screen is whose.


def _faces(kit: Kit) -> Iterator[_PlainFace]:
    """Every face without an image, the lightest first; a back like its front goes with it."""
    for name, paper in kit.papers.items():
        for face in (Face.FRONT, Face.BACK):
            printed = paper.face(face)
            if printed.image is None:
                yield _PlainFace(name, face, lightness(Colour(printed.colours[0])))


def _grounds(kit: Kit) -> Mapping[tuple[str, Face], Colour]:
    letters = _letters(kit)
    found: dict[tuple[str, Face], Colour] = {}
    taken: list[tuple[float, Weave]] = []
    ordered = sorted(_faces(kit), key=lambda one: (one.face is Face.BACK, -one.light, one.paper))
    for each in ordered:
        front = kit.papers[each.paper].front
        back = kit.papers[each.paper].back
        if (
            each.face is Face.BACK
            and (each.paper, Face.FRONT) in found
            and front.colours[0] == back.colours[0]
        ):
            found[each.paper, Face.BACK] = found[each.paper, Face.FRONT]
            continue
        letter = letters.get(each.paper, "") if each.face is Face.FRONT else ""
        if each.light >= _WHITE and not letter:
            found[each.paper, each.face] = WHITE
            continue
        near = [weave for light, weave in taken if abs(light - each.light) < _NEIGHBOUR]
        screen = min(
            (_screen(each.light, weave) for weave in _WEAVES),
            key=lambda one: (near.count(one.weave), abs(one.coverage - _wanted(each.light)) > 0.08),
        )
        taken.append((each.light, screen.weave))
        found[each.paper, each.face] = lettered(screen, letter).colour
    return found


def _wanted(light: float) -> float:
    return min(1.0 - light, _DARKEST)


def _screen(light: float, weave: Weave) -> Screen:
    return nearest(weave, _wanted(light))


def _letters(kit: Kit) -> Mapping[str, str]:
    """Letters of their names for papers whose plain fronts the eye hardly parts in grey."""
    apart = {sheet.paper for sheet in kit.sheets if sheet.is_cut_apart}
    apart -= {sheet.paper for sheet in kit.sheets if not sheet.is_cut_apart}
    plain = [
        (name, lightness(Colour(paper.front.colours[0])))
        for name, paper in kit.papers.items()
        if paper.front.image is None and paper.front.pattern is Pattern.SOLID and name not in apart
    ]
    alike = [
        name
        for name, light in plain
        if any(other != name and abs(light - its) < _ALIKE for other, its in plain)
    ]
    letters: dict[str, str] = {}
    for name in alike:
        letter = _letter_of(kit.papers[name].title or name, list(letters.values()))
        if letter:
            letters[name] = letter
    return letters


def _letter_of(name: str, taken: Sequence[str]) -> str:
    """The first letter of a name that no other paper has, or any that is free; none where all are taken."""
    usual = [letter for letter in name.lower() if "a" <= letter <= "z"]
    alphabet = [chr(code) for code in range(ord("a"), ord("z") + 1)]
    return next((letter for letter in (*usual, *alphabet) if letter not in taken), "")
