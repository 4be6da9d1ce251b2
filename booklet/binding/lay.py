"""From the page count and the binding to the sides of the press sheets: where each page lies.

Every sheet is described once as it lies open, its front and its back each as it is seen, and then set down as
often as there are copies, the backs behind their fronts.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import reduce

from booklet.binding.binding import Binding, Flat, Folded
from booklet.binding.copies import Copy, behind, copies_of, open_size
from booklet.binding.creep import check_room
from booklet.binding.sides import Box, ImposedSheet, ImposedSide, Line, PlacedPage, box_of
from booklet.binding.signature import Leaf, PressSheet, PressSide, flat_leaves, saddle_stitched
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Size


@dataclass(frozen=True)
class _Face:
    """A sheet that lies open, as one of its sides is seen, from its lower left corner before any creep."""

    pages: tuple[PlacedPage, ...]
    trim: Box
    folds: tuple[Line, ...]


@dataclass(frozen=True)
class _OpenSheet:
    """A sheet that lies open: its faces, and its place in the book."""

    front: _Face
    back: _Face
    signature: int
    depth: int


def impose(page_count: int, binding: Binding) -> tuple[ImposedSheet, ...]:
    """The press sheets of a booklet of `page_count` pages, outermost of the first signature first.

    Folded: the order of `signature.saddle_stitched`; the pages meet at the fold, or with creep f*k*t lie
    beyond it by that and are cut off there, so that after folding and trimming every page shows the same;
    the trim of an inner sheet is narrower by twice that.  Flat: page 1 on the front of the first leaf, page 2
    on its back.  Backs lie behind their fronts after the flip, whatever the copies.

    Raises PageCountError, StockTooSmallError or CreepError.
    """
    copies = copies_of(binding)
    backs = tuple(behind(copy, binding.sheet, binding.flip) for copy in copies)
    return tuple(
        ImposedSheet(
            _side(binding, sheet, (number, True), copies), _side(binding, sheet, (number, False), backs)
        )
        for number, sheet in enumerate(_open_sheets(page_count, binding))
    )


def _open_sheets(page_count: int, binding: Binding) -> Iterator[_OpenSheet]:
    if isinstance(binding.style, Flat):
        for number, leaf in enumerate(flat_leaves(page_count)):
            yield _flat_sheet(leaf, number, binding)
        return
    sheets = saddle_stitched(page_count, binding.style.sheets_in_signature)
    _check_creep(sheets, binding.style)
    for sheet in sheets:
        yield _folded_sheet(sheet, binding, binding.style)


def _check_creep(sheets: Sequence[PressSheet], style: Folded) -> None:
    if style.creep is not None:
        check_room(style.creep, max(sheet.number for sheet in sheets) + 1, style.inner_margin)


def _folded_sheet(sheet: PressSheet, binding: Binding, style: Folded) -> _OpenSheet:
    shift = style.creep.shift(sheet.number) if style.creep is not None else Fraction(0)
    front, back = (_folded_face(side, shift, binding) for side in (sheet.front, sheet.back))
    return _OpenSheet(front, back, sheet.signature, sheet.number)


def _folded_face(side: PressSide, shift: Fraction, binding: Binding) -> _Face:
    """Two pages, moved towards the fold between them by the shift and cut off there."""
    page, sheet = binding.page.upright, box_of(open_size(binding))
    fold = page.width
    trim = Box(shift, sheet.bottom, sheet.right - shift, sheet.top)
    bleed = trim.grown(binding.bleed)
    left = Box(shift, sheet.bottom, shift + fold, sheet.top)
    right = Box(fold - shift, sheet.bottom, sheet.right - shift, sheet.top)
    pages = (
        PlacedPage(side.left, left, Box(bleed.left, bleed.bottom, fold, bleed.top), 0),
        PlacedPage(side.right, right, Box(fold, bleed.bottom, bleed.right, bleed.top), 0),
    )
    return _Face(pages, trim, (Line(fold, sheet.bottom, fold, sheet.top),))


def _flat_sheet(leaf: Leaf, number: int, binding: Binding) -> _OpenSheet:
    front, back = (_flat_face(page, binding) for page in (leaf.front, leaf.back))
    return _OpenSheet(front, back, number, 0)


def _flat_face(page: int | None, binding: Binding) -> _Face:
    trim = box_of(open_size(binding))
    pages = (PlacedPage(page, trim, trim.grown(binding.bleed), 0),) if page is not None else ()
    return _Face(pages, trim, ())


def _side(
    binding: Binding, sheet: _OpenSheet, place: tuple[int, bool], copies: Sequence[Copy]
) -> ImposedSide:
    """A face set down at every copy; `place` is the number of its sheet, and whether it is the front."""
    (number, is_front), size, whole = place, binding.sheet, open_size(binding)
    face = sheet.front if is_front else sheet.back
    trims = [_box_on(face.trim, copy, whole) for copy in copies]
    trim = reduce(Box.joined, trims)
    return ImposedSide(
        size=size,
        pages=tuple(_page_on(page, copy, whole) for copy in copies for page in face.pages),
        folds=tuple(_line_on(fold, copy, whole) for copy in copies for fold in face.folds),
        cuts=tuple(_cuts(trims, size)),
        trim=trim,
        bleed=trim.grown(binding.bleed).within(box_of(size)),
        sheet=number,
        signature=sheet.signature,
        depth=sheet.depth,
        is_front=is_front,
    )


def _page_on(page: PlacedPage, copy: Copy, whole: Size) -> PlacedPage:
    return PlacedPage(
        page.page, _box_on(page.trim, copy, whole), _box_on(page.clip, copy, whole), page.turn + copy.turn
    )


def _line_on(line: Line, copy: Copy, whole: Size) -> Line:
    box = _box_on(Box(line.x0, line.y0, line.x1, line.y1), copy, whole)
    return Line(box.left, box.bottom, box.right, box.top)


def _box_on(box: Box, copy: Copy, whole: Size) -> Box:
    """A box of an open sheet where it lies on the press sheet, once the sheet is turned and set down."""
    x, y = copy.box.left, copy.box.bottom
    width, height = whole.width, whole.height
    turned = (
        box,
        Box(height - box.top, box.left, height - box.bottom, box.right),
        Box(width - box.right, height - box.top, width - box.left, height - box.bottom),
        Box(box.bottom, width - box.right, box.top, width - box.left),
    )[copy.turn]
    return Box(turned.left + x, turned.bottom + y, turned.right + x, turned.top + y)


def _cuts(trims: Iterable[Box], size: Size) -> Iterator[Line]:
    """The cuts that part the copies from each other and from the rest, from edge to edge of the sheet."""
    across, down = set[Fraction](), set[Fraction]()
    for trim in trims:
        across |= {trim.left, trim.right}
        down |= {trim.bottom, trim.top}
    nothing = Fraction(0)
    for x in sorted(across):
        if 0 < x < size.width:
            yield Line(x, nothing, x, size.height)
    for y in sorted(down):
        if 0 < y < size.height:
            yield Line(nothing, y, size.width, y)
