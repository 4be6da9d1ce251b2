"""Which screen each paper of a kit has where there is but black, and which papers bear a letter besides.

Papers about as dark as each other have screens whose marks run in other ways, and those that the eye hardly
parts in grey bear letters.  A face's motifs tell it as well, so that only papers of one pattern are compared
for letters; those of cut-apart sheets alone are told by what is printed on their elements.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from booklet.drawing.shapes.figure import WHITE, Colour
from booklet.drawing.shapes.screens import Screen, Weave, lettered, lightness, nearest
from booklet.kit.fields import Face
from booklet.kit.kit import Kit
from booklet.kit.paper import Pattern
from booklet.measure.dataclass import dataclass

# Lighter papers than this are white, from 0 (black) to 1 (white); and those whose motifs tell them.
_WHITE, _WHITE_BEHIND_MOTIFS = 0.94, 0.8
# Papers nearer to each other than this differ in the way of their marks; nearer than the second, or than the
# first under motifs alike, they bear letters.
_NEIGHBOUR, _ALIKE = 0.16, 0.06
# In this order papers take to them; lines down, as cuts are, come last.
_WEAVES = (Weave.DOTS, Weave.ACROSS, Weave.FALLING, Weave.CROSS, Weave.DOWN)
# No ground is darker: what lies on it casts a shadow.
_DARKEST = 0.76
# A screen this much off what is wanted is taken only where no other is free.
_OFF = 0.08


@dataclass(frozen=True)
class _Ground:
    """The ground of a face, and how light it is, from 0 to 1."""

    paper: str
    face: Face
    pattern: Pattern
    light: float

    @property
    def is_plain(self) -> bool:
        return self.pattern is Pattern.SOLID


def screens_of(kit: Kit, letters: Mapping[str, str]) -> Mapping[tuple[str, Face], Colour]:
    """What stands for the ground of each face without an image: white, or the colour of its screen.

    A back like its front has the same.
    """
    found: dict[tuple[str, Face], Colour] = {}
    taken: list[tuple[float, Weave]] = []
    weaves = _weaves(kit)
    for ground in sorted(_grounds(kit), key=lambda one: (one.face is Face.BACK, -one.light, one.paper)):
        letter = letters.get(ground.paper, "") if ground.face is Face.FRONT else ""
        if ground.face is Face.BACK and _is_like_front(kit, ground.paper):
            found[ground.paper, ground.face] = found[ground.paper, Face.FRONT]
        elif not letter and ground.light >= (_WHITE if ground.is_plain else _WHITE_BEHIND_MOTIFS):
            found[ground.paper, ground.face] = WHITE
        else:
            screen = _free_screen(ground.light, taken, weaves)
            taken.append((ground.light, screen.weave))
            found[ground.paper, ground.face] = lettered(screen, letter).colour
    return found


def _free_screen(light: float, taken: Sequence[tuple[float, Weave]], weaves: Sequence[Weave]) -> Screen:
    """The screen that fits a tone, of the weave that fewest of its neighbours have."""
    wanted = min(1.0 - light, _DARKEST)
    near = [weave for other, weave in taken if abs(other - light) < _NEIGHBOUR]
    screens = (nearest(weave, wanted) for weave in weaves)
    return min(screens, key=lambda one: (near.count(one.weave), abs(one.coverage - wanted) > _OFF))


def _weaves(kit: Kit) -> tuple[Weave, ...]:
    """The weaves that are no print of the kit's own."""
    printed = {paper.face(face).pattern for paper in kit.papers.values() for face in Face}
    crossed = printed & {Pattern.GRID, Pattern.CHECKS}
    return tuple(weave for weave in _WEAVES if weave is not Weave.CROSS or not crossed)


def _grounds(kit: Kit) -> Iterator[_Ground]:
    for name, paper in kit.papers.items():
        for face in Face:
            printed = paper.face(face)
            if printed.image is None:
                yield _Ground(name, face, printed.pattern, lightness(Colour(printed.colours[0])))


def _is_like_front(kit: Kit, paper: str) -> bool:
    front, back = kit.papers[paper].front, kit.papers[paper].back
    return front.image is None and front.colours[0] == back.colours[0]


def letters_of(kit: Kit) -> Mapping[str, str]:
    """The letter, in the lower case, of each paper that is told from another by it."""
    fronts = [ground for ground in _grounds(kit) if ground.face is Face.FRONT and _is_seen(kit, ground.paper)]
    letters: dict[str, str] = {}
    for front in fronts:
        if any(_are_alike(front, other) for other in fronts):
            title = kit.papers[front.paper].title or front.paper
            letters[front.paper] = _letter_of(title, list(letters.values()))
    return {paper: letter for paper, letter in letters.items() if letter}


def _is_seen(kit: Kit, paper: str) -> bool:
    """Whether a paper is seen without printed elements."""
    sheets = [sheet for sheet in kit.sheets if sheet.paper == paper]
    return not sheets or not all(sheet.is_cut_apart for sheet in sheets)


def _are_alike(one: _Ground, other: _Ground) -> bool:
    near = _ALIKE if one.is_plain else _NEIGHBOUR
    same = one.pattern is other.pattern and abs(one.light - other.light) < near
    return same and one.paper != other.paper


def _letter_of(title: str, taken: Sequence[str]) -> str:
    """The first letter of a title that no other paper has, or any that is free; none where all are taken."""
    own = [letter for letter in title.lower() if "a" <= letter <= "z"]
    alphabet = [chr(code) for code in range(ord("a"), ord("z") + 1)]
    return next((letter for letter in (*own, *alphabet) if letter not in taken), "")
