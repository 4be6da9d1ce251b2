"""On what letters stand, and what is painted over them: found from the order of painting."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from math import hypot

from booklet.proof.printed import Box, Colour, Form, Letter, Page, Path, Point, Stroke

WHITE = (255, 255, 255)
# A letter may stand on a stroke that is wider than this, in points; a finer one runs behind it.
_WIDE = 3.0


def grounds_of(page: Page) -> Iterator[tuple[Letter, set[Colour | None]]]:
    """Every letter with the colours on which it stands.

    None is what is not read: a form or a picture below the letter, or the form of which it is part.
    """
    lines = [path for path in page.paths if path.fill is None and _is_wide(path)]
    painted = sorted([*_painted(page), *lines], key=lambda item: item.order)
    reaches = [(item, _reach(item)) for item in painted]
    for letter in page.ink:
        if letter.order < 0:
            yield letter, {None}
            continue
        below = [item for item, box in reaches if item.order < letter.order and box.overlaps(letter.box)]
        yield letter, {_ground(point, below) for point in points_in(letter.box)}


def painted_over(page: Page) -> Iterator[tuple[Letter, Path | Form]]:
    """Letters of which a part is painted over afterwards, and what covers it."""
    painted = _painted(page)
    for letter in page.ink:
        above = [item for item in painted if item.order > letter.order >= 0 and item.box.overlaps(letter.box)]
        for item in above:
            if any(covers(item, point) for point in points_in(letter.box)):
                yield letter, item
                break


def points_in(box: Box) -> tuple[Point, ...]:
    """The middle of a box, and four places near its corners."""
    x, y = box.centre
    dx, dy = 0.4 * box.width, 0.4 * box.height
    return (x, y), (x - dx, y - dy), (x + dx, y - dy), (x - dx, y + dy), (x + dx, y + dy)


def covers(item: Path | Form, point: Point) -> bool:
    """Whether something that is painted fills a point."""
    return item.covers(point) if isinstance(item, Path) else item.box.holds_point(point)


@cache
def contrast(one: Colour, other: Colour) -> float:
    """The contrast of two colours, from 1 to 21 (WCAG 2.2, "contrast ratio"; from memory)."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def luminance(colour: Colour) -> float:
    """Relative luminance, from 0 to 1 (WCAG 2.2, "relative luminance"; from memory)."""
    red, green, blue = (_linear(part / 255) for part in colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.04045 else float(((part + 0.055) / 1.055) ** 2.4)


def _painted(page: Page) -> list[Path | Form]:
    """What fills areas, in order of painting."""
    filled: list[Path | Form] = [path for path in page.paths if path.fill is not None]
    return sorted([*filled, *page.forms], key=lambda item: item.order)


def _reach(item: Path | Form) -> Box:
    """The box of all that it paints, a wide stroke's halves outside its outlines among it."""
    return item.box.grown(item.width / 2) if isinstance(item, Path) and _is_wide(item) else item.box


def _is_wide(path: Path) -> bool:
    return path.stroke is not None and path.width > _WIDE


def _ground(point: Point, below: list[Path | Form]) -> Colour | None:
    for item in reversed(below):
        if isinstance(item, Form):
            if item.box.holds_point(point):
                return None
        elif _is_wide(item) and _is_on_stroke(item, point):
            return item.stroke
        elif item.covers(point):
            return item.fill
    return WHITE


def _is_on_stroke(path: Path, point: Point) -> bool:
    return any(_distance(point, stroke) <= path.width / 2 for stroke in path.strokes())


def _distance(point: Point, stroke: Stroke) -> float:
    """From a point to the nearest of a straight stroke."""
    (x, y), (u, v) = stroke.start, stroke.end
    dx, dy = u - x, v - y
    along = (point[0] - x) * dx + (point[1] - y) * dy
    share = min(max(along / (dx * dx + dy * dy), 0.0), 1.0) if dx or dy else 0.0
    return hypot(point[0] - x - share * dx, point[1] - y - share * dy)
