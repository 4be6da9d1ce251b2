"""The booklet for a home duplex printer: two pages to a side, ordered for folding and nesting."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from enum import Enum
from io import BytesIO
from typing import TYPE_CHECKING, Any
from zlib import compress

from booklet.binding.errors import PageSizeError, StockTooSmallError, UnreadablePagesError
from booklet.binding.signature import PressSheet, PressSide, saddle_stitched
from booklet.binding.stock import STOCK_OF
from booklet.kit.kit import PageFormat
from booklet.measure.exact import Fraction, read_exact, round_to
from booklet.measure.length import Size, Unit

if TYPE_CHECKING:
    from pikepdf import Array, Object, Page, Pdf

# A tenth of a point: what writers of PDF round a page's sides by, and far below what a printer resolves.
_SIDE_TOLERANCE = Fraction(1, 10)
# Coordinates in the file, in points: a ten-thousandth is 0.04 micrometres.
_COORDINATE_STEP = Fraction(1, 10_000)
_IDENTITY = [1, 0, 0, 1, 0, 0]

# Fold ticks: 3 mm to be seen beyond the strip along the edge that laser printers leave blank, 1/6 in
# (common practice, no source); as thin as a line may be, 0.18 mm (ISO 128-2, from memory).
_BLANK_EDGE = Fraction(1, 6) * Unit.INCH.points
_TICK_LENGTH = _BLANK_EDGE + 3 * Unit.MILLIMETRE.points
_TICK_WIDTH = Fraction(18, 100) * Unit.MILLIMETRE.points
_TICK_GREY = Fraction(6, 10)


class Flip(Enum):
    """The edge about which the printer turns a landscape sheet over before it prints the back."""

    LONG_EDGE = "long"
    SHORT_EDGE = "short"


# ISO 32000-1, table 150 (from memory).
_DUPLEX = {Flip.LONG_EDGE: "/DuplexFlipLongEdge", Flip.SHORT_EDGE: "/DuplexFlipShortEdge"}


@dataclass(frozen=True)
class _Slot:
    """Where one page goes on a side: the lower left corner of its half, from that of the sheet."""

    name: str
    page: int
    left: Fraction
    bottom: Fraction


@dataclass(frozen=True)
class _Frame:
    """What all sides share: the press sheet and the page, in points."""

    sheet: Size
    page: Size

    @property
    def fold(self) -> Fraction:
        """The fold's distance from the sheet's left edge."""
        return self.sheet.width / 2

    @property
    def bottom(self) -> Fraction:
        """The pages' lower edge above that of the sheet."""
        return (self.sheet.height - self.page.height) / 2


def impose(read_pdf: bytes, press_sheet: Size, page_size: Size, flip: Flip) -> bytes:
    """Arrange a booklet in reading order for printing on both sides, folding and stitching.

    `press_sheet` (landscape) and `page_size` are in points; the pages keep their size, meet at the fold in
    the middle of the sheet, and each is cut off at its own half.  For a printer that turns the sheet about
    its long edge the backs are upside down.  Returns a PDF with the front and the back of each sheet in
    turn, outermost sheet first, its bytes the same for the same input.

    Raises PageCountError, StockTooSmallError, PageSizeError or UnreadablePagesError.
    """
    import pikepdf

    frame = _Frame(press_sheet, page_size)
    _check_stock(frame)
    try:
        with pikepdf.open(BytesIO(read_pdf)) as source:
            return _imposed(source, frame, flip)
    except pikepdf.PdfError as error:
        raise UnreadablePagesError(f"the booklet in reading order cannot be read: {error}") from error


def _check_stock(frame: _Frame) -> None:
    if frame.page.width * 2 > frame.sheet.width or frame.page.height > frame.sheet.height:
        raise StockTooSmallError(
            f"two pages of {_points(frame.page)} do not fit side by side on a sheet of {_points(frame.sheet)}"
        )


def _points(size: Size) -> str:
    return f"{_number(size.width)} x {_number(size.height)} pt"


def _imposed(source: Pdf, frame: _Frame, flip: Flip) -> bytes:
    import pikepdf

    sheets = saddle_stitched(len(source.pages))
    target = pikepdf.new()
    forms = [
        target.copy_foreign(_as_form(page, number, frame.page))
        for number, page in enumerate(source.pages, start=1)
    ]
    for sheet in sheets:
        for content, slots in _sides(sheet, frame, flip):
            _add_side(target, frame, content, {slot.name: forms[slot.page - 1] for slot in slots})
    _set_preferences(target, source, flip)
    return _written(target)


def _as_form(page: Page, number: int, stated: Size) -> Object:
    """A page's trim box as a drawing with its lower left corner at the origin."""
    form = page.as_form_xobject()
    left, bottom, right, top = _numbers(form.BBox)
    found = Size(right - left, top - bottom)
    off = max(abs(found.width - stated.width), abs(found.height - stated.height))
    is_upright = _numbers(form.get("/Matrix", _IDENTITY)) == _IDENTITY
    if off > _SIDE_TOLERANCE or not is_upright:
        raise PageSizeError(
            f"page {number} is not an upright page of {_points(stated)}: found {_points(found)}"
        )
    form.Matrix = _array(1, 0, 0, 1, -left, -bottom)
    _pack(form, page)
    return form


def _pack(form: Object, page: Page) -> None:
    """Pack a form's content; its page's, where that is one stream, as it is packed in the file already."""
    import pikepdf

    content = page.obj.get("/Contents")
    if isinstance(content, pikepdf.Stream) and _is_packed(content):
        packed = content.read_raw_bytes()
    else:
        packed = compress(form.read_bytes())
    form.write(packed, filter=pikepdf.Name("/FlateDecode"))


def _is_packed(content: Object) -> bool:
    """Whether a stream is packed with zlib and nothing else (ISO 32000-1, 7.4.4; from memory)."""
    import pikepdf

    filters = content.get("/Filter")
    names = [str(name) for name in filters] if isinstance(filters, pikepdf.Array) else [str(filters)]
    return names == ["/FlateDecode"] and "/DecodeParms" not in content


def _sides(sheet: PressSheet, frame: _Frame, flip: Flip) -> Iterator[tuple[list[str], tuple[_Slot, _Slot]]]:
    """The operators and slots of a sheet's front, then of its back."""
    ticks = _fold_ticks(frame) if sheet.number == 0 else []
    front = _slots(sheet.front, frame)
    # The ticks lie under the pages: they never cover anything printed.
    yield [*ticks, *_placed(front, frame)], front
    back = _slots(sheet.back, frame)
    upended = [_half_turn(frame.sheet)] if flip is Flip.LONG_EDGE else []
    yield [*upended, *_placed(back, frame)], back


def _slots(side: PressSide, frame: _Frame) -> tuple[_Slot, _Slot]:
    return (
        _Slot("/Left", side.left, frame.fold - frame.page.width, frame.bottom),
        _Slot("/Right", side.right, frame.fold, frame.bottom),
    )


def _placed(slots: tuple[_Slot, _Slot], frame: _Frame) -> list[str]:
    """Each page within its half of the sheet, so that one slightly too wide does not cross the fold."""
    width, height = _number(frame.page.width), _number(frame.page.height)
    return [
        f"q {_number(slot.left)} {_number(slot.bottom)} {width} {height} re W n "
        f"1 0 0 1 {_number(slot.left)} {_number(slot.bottom)} cm {slot.name} Do Q"
        for slot in slots
    ]


def _half_turn(sheet: Size) -> str:
    return f"-1 0 0 -1 {_number(sheet.width)} {_number(sheet.height)} cm"


def _fold_ticks(frame: _Frame) -> list[str]:
    fold, top = _number(frame.fold), _number(frame.sheet.height)
    style = f"q {_number(_TICK_GREY)} G {_number(_TICK_WIDTH)} w"
    lower = f"{fold} 0 m {fold} {_number(_TICK_LENGTH)} l S"
    upper = f"{fold} {top} m {fold} {_number(frame.sheet.height - _TICK_LENGTH)} l S"
    return [style, lower, upper, "Q"]


def _number(value: Fraction) -> str:
    """A coordinate in decimals, rounded once from its exact value."""
    steps = round_to(value, _COORDINATE_STEP)
    return f"{float(steps):.4f}".rstrip("0").rstrip(".")


def _numbers(array: Iterable[Any]) -> list[Fraction]:
    return [read_exact(str(number)) for number in array]


def _array(*numbers: Fraction | int) -> Array:
    import pikepdf

    return pikepdf.Array([Decimal(_number(Fraction(number))) for number in numbers])


def _add_side(target: Pdf, frame: _Frame, content: list[str], forms: dict[str, Object]) -> None:
    import pikepdf

    side = pikepdf.Dictionary(
        Type=pikepdf.Name.Page,
        MediaBox=_array(0, 0, frame.sheet.width, frame.sheet.height),
        Resources=pikepdf.Dictionary(XObject=pikepdf.Dictionary(forms)),
        Contents=target.make_stream("\n".join(content).encode("ascii")),
    )
    target.pages.append(pikepdf.Page(target.make_indirect(side)))


def _set_preferences(target: Pdf, source: Pdf, flip: Flip) -> None:
    import pikepdf

    preferences = pikepdf.Dictionary(Duplex=pikepdf.Name(_DUPLEX[flip]), PrintScaling=pikepdf.Name("/None"))
    if "/Title" in source.docinfo:
        target.docinfo["/Title"] = str(source.docinfo["/Title"])
        preferences["/DisplayDocTitle"] = True
    if named := str(source.docinfo.get("/Keywords", "")):  # the name of the edition
        target.docinfo["/Keywords"] = named
    target.Root["/ViewerPreferences"] = preferences
    if "/Lang" in source.Root:
        target.Root["/Lang"] = str(source.Root["/Lang"])


def _written(target: Pdf) -> bytes:
    from pikepdf import ObjectStreamMode

    out = BytesIO()
    # The pages are packed, and what is not is small: to unpack and pack all of it again would take longest.
    target.save(
        out, deterministic_id=True, compress_streams=False, object_stream_mode=ObjectStreamMode.generate
    )
    return out.getvalue()


def print_at_home(read_pdf: bytes, page: PageFormat, flip: Flip) -> bytes:
    """The booklet two pages to a side, on Letter or A4 as its page format asks, for a duplex printer.

    The pages do not move towards the spine in the inner sheets: what is folded at home is not trimmed after.
    """
    page_stock, sheet_stock = STOCK_OF[page]
    return impose(read_pdf, sheet_stock.landscape, page_stock.upright, flip)
