"""Signs on a page, found from what is drawn: numbers in rings and discs, scales at true size."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from booklet.proof.figures import cut_figures
from booklet.proof.printed import Box, Letter, Page, Path
from booklet.proof.scales import DrawnScale, scales_on

WHITE = (255, 255, 255)
# Rings and discs about numbers have radii between these.
_LEAST_RADIUS, _MOST_RADIUS = 4.5, 14.0


@dataclass(frozen=True)
class Numbered:
    """A number in a circle: a ring on white, or a filled disc."""

    circle: Path
    letters: tuple[Letter, ...]

    @property
    def number(self) -> int:
        return int("".join(letter.text for letter in self.letters))

    @property
    def is_disc(self) -> bool:
        """Whether it is filled with a colour."""
        return self.circle.fill is not None and sum(self.circle.fill) < 3 * 235


@cache
def numbered(page: Page) -> tuple[Numbered, ...]:
    """Every number in a circle, each letter in the smallest circle about it."""
    circles = [path for path in page.circles if _LEAST_RADIUS <= path.box.width / 2 <= _MOST_RADIUS]
    inside: dict[int, list[Letter]] = {}
    for letter in page.ink:
        about = [at for at, circle in enumerate(circles) if _is_within(letter, circle)]
        if about and letter.text.isdecimal():
            smallest = min(about, key=lambda at: circles[at].box.width)
            inside.setdefault(smallest, []).append(letter)
    return tuple(
        Numbered(circles[at], tuple(sorted(letters, key=lambda letter: letter.box.left)))
        for at, letters in inside.items()
    )


def _is_within(letter: Letter, circle: Path) -> bool:
    (x, y), (cx, cy) = letter.box.centre, circle.box.centre
    return (x - cx) ** 2 + (y - cy) ** 2 < (circle.box.width / 2) ** 2


@cache
def encircled(page: Page) -> frozenset[int]:
    """The letters of a page that stand in circles, by identity."""
    return frozenset(id(letter) for each in numbered(page) for letter in each.letters)


def letters_right_of(page: Page, box: Box, room: float) -> list[Letter]:
    """The letters right of a box on its line, but for those in circles, from left to right."""
    signs = encircled(page)
    found = [
        letter
        for letter in page.ink
        if box.right <= letter.box.left < box.right + room
        and box.centre[1] < letter.baseline < box.bottom + 1.0
        and id(letter) not in signs
    ]
    return sorted(found, key=lambda letter: letter.box.left)


@cache
def lens_scales(page: Page) -> tuple[DrawnScale, ...]:
    """The scales of a page that lie on a tinted band and stand on no outline."""
    figures = cut_figures(page)
    bands = [path.box for path in page.paths if path.fill not in (None, WHITE) and path.box.height > 12.0]
    return tuple(
        scale
        for scale in scales_on(page)
        if all(scale is not figure.scale for figure in figures)
        and any(band.holds(scale.box, 1.0) for band in bands)
    )
