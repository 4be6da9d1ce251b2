"""Where copies of a sheet stand on a press sheet: side by side, over one another, turned if that helps."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import NoReturn

from booklet.binding.binding import Binding, Flip, Folded
from booklet.binding.errors import StockTooSmallError
from booklet.binding.sides import Box
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Size
from booklet.measure.words import plain_length

HALF_TURN = 2
QUARTER_TURNS = 4


@dataclass(frozen=True)
class Copy:
    """Where one copy lies on a side of the press sheet, and its quarter turns anticlockwise."""

    box: Box
    turn: int


@dataclass(frozen=True)
class _Block:
    """Copies in columns and rows, all turned alike."""

    columns: int
    rows: int
    turn: int

    @property
    def room(self) -> int:
        return self.columns * self.rows


def open_size(binding: Binding) -> Size:
    """A sheet as it is cut, before it is folded: two pages, or one that stays flat; in points."""
    page = binding.page.upright
    return Size(page.width * 2, page.height) if isinstance(binding.style, Folded) else page


def copies_of(binding: Binding) -> tuple[Copy, ...]:
    """Where the copies lie on the fronts, row by row from the top left; together in the middle of the sheet.

    Bleed keeps them apart by twice its width.  Of the ways in which all stand, that with the fewest places
    left empty is taken, upright before turned.  Raises StockTooSmallError where they do not fit, with by how
    much.
    """
    if binding.copies is not None and binding.copies < 1:
        raise StockTooSmallError(f"{binding.copies} copies on a press sheet: expected at least 1")
    upright, turned = (_most(binding, turn) for turn in (0, 1))
    if not upright.room and not turned.room:
        _refuse(binding)
    return tuple(_placed(binding, _block(binding, upright, turned)))


def _most(binding: Binding, turn: int) -> _Block:
    """As many as fit, turned so."""
    size, apart = _as_turned(open_size(binding), turn), binding.bleed * 2
    across = binding.sheet.width // (size.width + apart)
    down = binding.sheet.height // (size.height + apart)
    return _Block(int(across), int(down), turn)


def _as_turned(size: Size, turn: int) -> Size:
    return size.turned if turn % HALF_TURN else size


def _block(binding: Binding, upright: _Block, turned: _Block) -> _Block:
    if binding.copies is None:
        return turned if turned.room > upright.room else upright
    fitting = [
        _Block(columns, rows, most.turn)
        for most in (upright, turned)
        for columns, rows in product(range(1, most.columns + 1), range(1, most.rows + 1))
        if columns * rows >= binding.copies
    ]
    if not fitting:
        most = max(upright.room, turned.room)
        raise StockTooSmallError(
            f"{binding.copies} copies do not fit on a sheet of {binding.press.title}: expected at most {most}"
        )
    return min(fitting, key=lambda block: (block.room, block.turn, block.rows))


def _placed(binding: Binding, block: _Block) -> Iterator[Copy]:
    size, apart = _as_turned(open_size(binding), block.turn), binding.bleed * 2
    step = Size(size.width + apart, size.height + apart)
    left = (binding.sheet.width - step.width * block.columns + apart) / 2
    top = (binding.sheet.height + step.height * block.rows - apart) / 2
    count = block.room if binding.copies is None else binding.copies
    for place in range(count):
        row, column = divmod(place, block.columns)
        x, y = left + step.width * column, top - step.height * row
        yield Copy(Box(x, y - size.height, x + size.width, y), block.turn)


def behind(copy: Copy, sheet: Size, flip: Flip) -> Copy:
    """Where the back of a copy lies on the back of the press sheet, seen once it is turned over.

    About an upright axis the sheet is mirrored across, and so is a quarter turn; about a level one it is
    also turned by half.  The short edge of a sheet that lies on its long side is upright.
    """
    is_upright_axis = (flip is Flip.SHORT_EDGE) is (sheet.width >= sheet.height)
    box = copy.box
    if is_upright_axis:
        mirrored = Box(sheet.width - box.right, box.bottom, sheet.width - box.left, box.top)
        return Copy(mirrored, -copy.turn % QUARTER_TURNS)
    mirrored = Box(box.left, sheet.height - box.top, box.right, sheet.height - box.bottom)
    return Copy(mirrored, (HALF_TURN - copy.turn) % QUARTER_TURNS)


def _refuse(binding: Binding) -> NoReturn:
    """Refuse a press sheet that is too small, with by how much, in the unit of the paper."""
    press, page, needed = binding.press, binding.page.upright, open_size(binding)
    bleed = binding.bleed * 2
    wide, high = needed.width + bleed - binding.sheet.width, needed.height + bleed - binding.sheet.height

    def said(points: Fraction) -> str:
        return f"{plain_length(points / press.unit.points, press.unit)} {press.unit.value}"

    if wide > 0 and isinstance(binding.style, Folded):
        raise StockTooSmallError(
            f"2 pages of {said(page.width)} need {said(needed.width + bleed)}; {press.title} is "
            f"{said(binding.sheet.width)}: {said(wide)} too narrow"
        )
    if wide > 0:
        raise StockTooSmallError(
            f"a page of {said(page.width)} needs {said(needed.width + bleed)}; {press.title} is "
            f"{said(binding.sheet.width)}: {said(wide)} too narrow"
        )
    raise StockTooSmallError(
        f"pages {said(page.height)} high need {said(needed.height + bleed)}; {press.title} is "
        f"{said(binding.sheet.height)}: {said(high)} too low"
    )
