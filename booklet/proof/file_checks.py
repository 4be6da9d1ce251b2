"""A finished file as print needs it: sizes of pages, fonts, pictures, lines, type, contrast, margins."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from enum import Enum
from types import MappingProxyType

from booklet.binding.sides import Box as PressBox
from booklet.binding.sides import ImposedSide, box_of
from booklet.measure.dataclass import dataclass
from booklet.measure.length import Size
from booklet.proof.file_reader import FinishedFile, PageBox, PageFacts, colours_under
from booklet.proof.grounds import WHITE, contrast, grounds_of
from booklet.proof.printed import POINTS_PER_MM, Box, Colour, Letter, Page


class CheckId(Enum):
    """The checks; their ids never change."""

    PAGE_BOXES = "page-boxes"
    FONTS_EMBEDDED = "fonts-embedded"
    IMAGE_RESOLUTION = "image-resolution"
    LINE_WIDTH = "line-width"
    TYPE_SIZE = "type-size"
    CONTRAST = "contrast"
    SAFE_MARGIN = "safe-margin"


class FileKind(Enum):
    """Which of the finished files is looked at."""

    READING = "reading file"
    PRINT = "print file"


class Measure(Enum):
    """What a quantity is measured in."""

    POINT = "pt"
    MILLIMETRE = "mm"
    DOTS_PER_INCH = "dpi"
    DEGREE = "°"
    TO_ONE = ":1"


@dataclass(frozen=True)
class Quantity:
    """A number with what it is measured in."""

    value: float
    measure: Measure


# What is found at fault: a number, a box of a page, or the name of a typeface.
Datum = Quantity | PageBox | str


@dataclass(frozen=True)
class Fault:
    """What was found, on which page (from 1) and where on it, in points from its top left corner.

    The place is None where it is the page as a whole.
    """

    page: int
    place: Box | None
    found: Datum


@dataclass(frozen=True)
class FileCheck:
    """A check of a finished file.

    `looked_at` is how many things it held against its limit, `worst` what came nearest to a fault or went
    farthest beyond the limit, and `limit` that one's limit, each None where nothing is measured.  Notes are
    of what prints, though not as well as is wanted.  `unchecked` is how many things could not be looked at.
    """

    id: CheckId
    file: FileKind
    looked_at: int
    worst: Quantity | None
    limit: Quantity | PageBox | None
    faults: tuple[Fault, ...]
    notes: tuple[Fault, ...] = ()
    unchecked: int = 0

    @property
    def holds(self) -> bool:
        """Whether everything was looked at, and nothing is at fault."""
        return not (self.faults or self.unchecked)


# A tenth of a point: what writers of PDF round a page's sides by (as binding.write has it).
_SIDE_TOLERANCE = 0.1
# Pictures want 300 dots to the inch at the size at which they are printed; under 200 they are seen to be
# coarse (common practice of print shops, no source).
WANTED_DOTS, LEAST_DOTS = 300.0, 200.0
# The finest line that print shops take, and the smallest type of this project's booklets, in points (common
# practice, no source).
LEAST_LINE, LEAST_TYPE = 0.25, 9.0
# WCAG 2.2, 1.4.3 (from memory): text wants 4.5:1, large text 3:1; large is 18 pt, or 14 pt in bold.
TEXT_CONTRAST, LARGE_CONTRAST = 4.5, 3.0
_LARGE, _LARGE_BOLD = 18.0, 14.0
# Trimming is off by no more than this, in millimetres (common practice of print shops, 3 to 5; no source).
SAFE_MARGIN = 3.0
# What rounding in a file may take off: of a line or of type in points, of dots, of millimetres.
_LINE_SLACK, _TYPE_SLACK, _DOTS_SLACK, _MARGIN_SLACK = 0.001, 0.011, 0.01, 0.001

# A thing that is measured: its page, its place, its number.
_Measured = tuple[int, Box | None, float]


def reading_checks(file: FinishedFile, page: Size) -> tuple[FileCheck, ...]:
    """The checks of a file in reading order; `page` is its trimmed size in points."""
    return (*_checks_of_all(file, FileKind.READING, page), _contrast(file), _safe_margin(file))


def print_checks(file: FinishedFile, sides: Sequence[ImposedSide]) -> tuple[FileCheck, ...]:
    """The checks of a print file, whose sides are to be these.

    Its pages are those of the reading file, whose contrast and margins are looked at there.
    """
    special = {
        (number, name): box
        for number, side in enumerate(sides, 1)
        for name, box in (("TrimBox", side.trim), ("BleedBox", side.bleed))
    }
    return _checks_of_all(file, FileKind.PRINT, sides[0].size, special)


# Boxes that are not to be the whole page, by the number of their page and their name, in points.
_Special = Mapping[tuple[int, str], PressBox]


def _checks_of_all(
    file: FinishedFile, kind: FileKind, page: Size, special: _Special = MappingProxyType({})
) -> tuple[FileCheck, ...]:
    return (
        _page_boxes(file, kind, page, special),
        _fonts_embedded(file, kind),
        _image_resolution(file, kind),
        _line_width(file, kind),
        _type_size(file, kind),
    )


def _unread(file: FinishedFile) -> int:
    """How many things were not looked into; each page where that is not known."""
    return len(file.pages) if file.unread is None else file.unread


# The page and what it is made of.


def _page_boxes(file: FinishedFile, kind: FileKind, page: Size, special: _Special) -> FileCheck:
    wanted = _page_box("page", box_of(page))
    own = {key: _page_box(key[1], box) for key, box in special.items()}
    measured = [
        (facts.number, box, _off(box, own.get((facts.number, box.name), wanted)))
        for facts in file.facts
        for box in facts.boxes
    ]
    faults = [Fault(number, None, box) for number, box, off in measured if off > _SIDE_TOLERANCE]
    faults += [
        Fault(facts.number, None, Quantity(facts.turn, Measure.DEGREE)) for facts in file.facts if facts.turn
    ]
    return FileCheck(
        CheckId.PAGE_BOXES,
        kind,
        sum(bool(facts.boxes) for facts in file.facts),
        Quantity(max((off for *_, off in measured), default=0.0), Measure.POINT),
        wanted,
        tuple(sorted(faults, key=lambda fault: fault.page)),
        unchecked=sum(not facts.boxes for facts in file.facts),
    )


def _page_box(name: str, box: PressBox) -> PageBox:
    return PageBox(name, (float(box.left), float(box.bottom), float(box.right), float(box.top)))


def _off(box: PageBox, wanted: PageBox) -> float:
    """By how much a box lies beside where it is wanted, in points."""
    return max(abs(one - other) for one, other in zip(box.sides, wanted.sides, strict=True))


def _fonts_embedded(file: FinishedFile, kind: FileKind) -> FileCheck:
    fonts = [(facts.number, font) for facts in file.facts for font in facts.fonts]
    faults = [Fault(number, font.box, font.name) for number, font in fonts if not font.is_embedded]
    names = {font.name for _, font in fonts}
    unchecked = _unread(file)
    return FileCheck(CheckId.FONTS_EMBEDDED, kind, len(names), None, None, tuple(faults), unchecked=unchecked)


def _image_resolution(file: FinishedFile, kind: FileKind) -> FileCheck:
    dots = [(facts.number, picture.box, picture.dots) for facts in file.facts for picture in facts.pictures]
    limit = Quantity(LEAST_DOTS, Measure.DOTS_PER_INCH)
    faults, coarse = _below(dots, limit, _DOTS_SLACK), _below(dots, _WANTED, _DOTS_SLACK)
    notes = tuple(fault for fault in coarse if fault not in faults)
    worst = _least(dots, limit.measure)
    unchecked = _unread(file)
    return FileCheck(CheckId.IMAGE_RESOLUTION, kind, len(dots), worst, limit, faults, notes, unchecked)


_WANTED = Quantity(WANTED_DOTS, Measure.DOTS_PER_INCH)


def _line_width(file: FinishedFile, kind: FileKind) -> FileCheck:
    widths = [(facts.number, line.box, line.width) for facts in file.facts for line in facts.lines]
    return _at_least(
        CheckId.LINE_WIDTH,
        kind,
        widths,
        Quantity(LEAST_LINE, Measure.POINT),
        _LINE_SLACK,
        unchecked=_unread(file),
    )


def _type_size(file: FinishedFile, kind: FileKind) -> FileCheck:
    sizes = [(page.number, letter.box, letter.size) for page in file.pages for letter in page.ink]
    limit = Quantity(LEAST_TYPE, Measure.POINT)
    return _at_least(CheckId.TYPE_SIZE, kind, sizes, limit, _TYPE_SLACK, unchecked=_unread(file))


def _safe_margin(file: FinishedFile) -> FileCheck:
    """Letters, and strokes of the page itself: pictures and grounds may run to the trim."""
    margins = [
        (page.number, box, _margin(page, box) / POINTS_PER_MM)
        for page in file.pages
        for box in _kept_clear(page)
    ]
    limit = Quantity(SAFE_MARGIN, Measure.MILLIMETRE)
    return _at_least(CheckId.SAFE_MARGIN, FileKind.READING, margins, limit, _MARGIN_SLACK, _unread(file))


def _kept_clear(page: Page) -> Iterator[Box]:
    yield from (letter.box for letter in page.ink)
    yield from (path.box.grown(path.width / 2) for path in page.paths if path.stroke is not None)


def _margin(page: Page, box: Box) -> float:
    """From a box to the nearest edge of its page, in points; less than 0 for what reaches beyond."""
    return min(box.left, box.top, page.width - box.right, page.height - box.bottom)


# What letters stand on.


@dataclass(frozen=True)
class _Standing:
    """A letter as it stands out: its contrast to the worst of its grounds, and what that is to be."""

    page: int
    letter: Letter
    contrast: float

    @property
    def limit(self) -> float:
        letter = self.letter
        is_large = letter.size >= _LARGE or (letter.size >= _LARGE_BOLD and _is_bold(letter.font))
        return LARGE_CONTRAST if is_large else TEXT_CONTRAST


def _contrast(file: FinishedFile) -> FileCheck:
    standing = [
        each
        for page, facts in zip(file.pages, file.facts, strict=True)
        for each in _stand_out(file, page, facts)
    ]
    worst = min(standing, key=lambda each: each.contrast / each.limit, default=None)
    return FileCheck(
        CheckId.CONTRAST,
        FileKind.READING,
        len(standing),
        Quantity(worst.contrast, Measure.TO_ONE) if worst else None,
        Quantity(worst.limit if worst else TEXT_CONTRAST, Measure.TO_ONE),
        tuple(
            Fault(each.page, each.letter.box, Quantity(each.contrast, Measure.TO_ONE))
            for each in standing
            if each.contrast < each.limit
        ),
        unchecked=sum(facts.unlike for facts in file.facts),
    )


def _stand_out(file: FinishedFile, page: Page, facts: PageFacts) -> Iterator[_Standing]:
    """Each letter with its contrast: to the colours painted below it, or, on what is more than a colour, to
    those that are seen there.
    """
    seen: list[Letter] = []
    for letter, grounds in grounds_of(page):
        colours = {ground for ground in grounds if ground is not None}
        if file.unread != 0 or len(colours) < len(grounds) or _shows_through(letter, facts):
            seen.append(letter)
        else:
            yield _Standing(page.number, letter, _least_contrast(letter, colours))
    if seen:
        under = colours_under(file.data, page.number, [letter.box for letter in seen])
        for letter, colours_seen in zip(seen, under, strict=True):
            yield _Standing(page.number, letter, _least_contrast(letter, colours_seen))


def _shows_through(letter: Letter, facts: PageFacts) -> bool:
    return any(box.overlaps(letter.box) for box in facts.transparent)


def _least_contrast(letter: Letter, grounds: Iterable[Colour]) -> float:
    """The contrast of a letter to the worst of its grounds; off the page it stands on white."""
    return min(
        (contrast(letter.colour, ground) for ground in grounds), default=contrast(letter.colour, WHITE)
    )


def _is_bold(font: str) -> bool:
    """Whether a face is bold by its name; a half-bold one is not."""
    name = font.lower()
    return "bold" in name and not ("semi" in name or "demi" in name)


# Numbers against a limit.


def _at_least(
    check: CheckId,
    kind: FileKind,
    measured: Sequence[_Measured],
    limit: Quantity,
    slack: float,
    unchecked: int,
) -> FileCheck:
    worst, faults = _least(measured, limit.measure), _below(measured, limit, slack)
    return FileCheck(check, kind, len(measured), worst, limit, faults, unchecked=unchecked)


def _least(measured: Sequence[_Measured], measure: Measure) -> Quantity | None:
    return Quantity(min(value for *_, value in measured), measure) if measured else None


def _below(measured: Sequence[_Measured], limit: Quantity, slack: float) -> tuple[Fault, ...]:
    return tuple(
        Fault(page, place, Quantity(value, limit.measure))
        for page, place, value in measured
        if value < limit.value - slack
    )
