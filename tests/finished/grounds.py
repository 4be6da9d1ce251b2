"""On what letters stand, and what is painted over them: found from the order of painting."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.proof.printed import Box, Colour, Form, Letter, Page, Path, Point

WHITE = (255, 255, 255)


def grounds_of(page: Page) -> Iterator[tuple[Letter, set[Colour | None]]]:
    """Every letter with the colours on which it stands; None is a form or a picture, which are not read."""
    painted = _painted(page)
    for letter in page.ink:
        below = [item for item in painted if item.order < letter.order and item.box.overlaps(letter.box)]
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


def contrast(one: Colour, other: Colour) -> float:
    """The contrast of two colours, from 1 to 21 (WCAG 2, from memory)."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def luminance(colour: Colour) -> float:
    """Relative luminance, from 0 to 1 (WCAG 2, from memory)."""
    red, green, blue = (_linear(part / 255) for part in colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.03928 else float(((part + 0.055) / 1.055) ** 2.4)


def _painted(page: Page) -> list[Path | Form]:
    """What fills areas, in order of painting."""
    filled: list[Path | Form] = [path for path in page.paths if path.fill is not None]
    return sorted([*filled, *page.forms], key=lambda item: item.order)


def _ground(point: Point, below: list[Path | Form]) -> Colour | None:
    for item in reversed(below):
        if covers(item, point):
            return item.fill if isinstance(item, Path) else None
    return WHITE
