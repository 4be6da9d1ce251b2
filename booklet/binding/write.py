"""Imposed sides as a PDF: each page of the booklet lies in the file once, however often it is shown.

For a press file as for home: `assemble` sets up the sides with their boxes and whatever marks a function
draws; what else a file is to say is put into the Pdf that it returns, before `saved` writes it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from decimal import Decimal
from io import BytesIO
from typing import TYPE_CHECKING, Any
from zlib import compress

from booklet.binding.binding import Binding, Flip
from booklet.binding.errors import PageSizeError, UnreadablePagesError
from booklet.binding.numbers import number
from booklet.binding.sides import Box, ImposedSide, PlacedPage, box_of
from booklet.measure.exact import Fraction, read_exact
from booklet.measure.length import Size

if TYPE_CHECKING:
    from pikepdf import Array, Object, Page, Pdf

# A tenth of a point: what writers of PDF round a page's sides by, and far below what a printer resolves.
_SIDE_TOLERANCE = Fraction(1, 10)
_IDENTITY = [1, 0, 0, 1, 0, 0]
# The marks of a side as operators of a PDF, in points from its lower left corner; they lie under the pages.
Marks = Callable[[ImposedSide], Iterable[str]]


@contextmanager
def opened_pages(read_pdf: bytes) -> Iterator[Pdf]:
    """The booklet in reading order, open.  Raises UnreadablePagesError for what is no PDF."""
    import pikepdf

    try:
        with pikepdf.open(BytesIO(read_pdf)) as source:
            yield source
    except pikepdf.PdfError as error:
        raise UnreadablePagesError(f"the booklet in reading order cannot be read: {error}") from error


def assemble(source: Pdf, sides: Sequence[ImposedSide], binding: Binding, marks: Marks) -> Pdf:
    """A PDF with these sides in this order, each with its marks and the pages of `source` on it.

    A page shows its TrimBox, with `binding.bleed` its surroundings within its BleedBox, cut off where the
    side says so.  Each side has MediaBox, BleedBox and TrimBox.  Marks that need a font or a colour space
    find their side's Resources in the Pdf that is returned, at the place of the side.

    Raises PageSizeError for a page of another size, or with less bleed.
    """
    import pikepdf

    target = pikepdf.new()
    shown = {page.page for side in sides for page in side.pages}
    forms = {
        each: target.copy_foreign(_as_form(page, each, binding))
        for each, page in enumerate(source.pages, start=1)
        if each in shown
    }
    for side in sides:
        content = [*marks(side), *map(_placed, side.pages)]
        target.pages.append(_page(target, side, "\n".join(content), forms))
    return target


def _as_form(page: Page, place: int, binding: Binding) -> Object:
    """What a page shows, as a drawing with the lower left corner of its trim box at the origin."""
    stated = binding.page.upright
    form = page.as_form_xobject()
    trim = _box(form.BBox)
    found = trim.size
    off = max(abs(found.width - stated.width), abs(found.height - stated.height))
    is_upright = _numbers(form.get("/Matrix", _IDENTITY)) == _IDENTITY
    if off > _SIDE_TOLERANCE or not is_upright:
        raise PageSizeError(
            f"page {place} is not an upright page of {_points(stated)}: found {_points(found)}"
        )
    if binding.bleed:
        form.BBox = _array(_bled(page, place, trim, binding.bleed))
    form.Matrix = _decimals(1, 0, 0, 1, -trim.left, -trim.bottom)
    _pack(form, page)
    return form


def _bled(page: Page, place: int, trim: Box, bleed: Fraction) -> Box:
    """The trim box of a page with so much bleed, which its BleedBox is to hold."""
    wanted, there = trim.grown(bleed), _box(page.bleedbox)
    lacking = max(
        there.left - wanted.left,
        there.bottom - wanted.bottom,
        wanted.right - there.right,
        wanted.top - there.top,
    )
    if lacking > _SIDE_TOLERANCE:
        raise PageSizeError(f"page {place} lacks {number(lacking)} pt of the bleed of {number(bleed)} pt")
    return wanted


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


def _name(page: PlacedPage) -> str:
    return f"/Page{page.page}"


def _placed(page: PlacedPage) -> str:
    """A page in its place, turned, and cut off at its clip, so that nothing of it crosses the fold."""
    clip, trim = page.clip, page.trim
    size = clip.size
    matrix = (
        (1, 0, 0, 1, trim.left, trim.bottom),
        (0, 1, -1, 0, trim.right, trim.bottom),
        (-1, 0, 0, -1, trim.right, trim.top),
        (0, -1, 1, 0, trim.left, trim.top),
    )[page.turn]
    return (
        f"q {_said(clip.left, clip.bottom, size.width, size.height)} re W n "
        f"{_said(*matrix)} cm {_name(page)} Do Q"
    )


def _page(target: Pdf, side: ImposedSide, content: str, forms: dict[int, Object]) -> Page:
    import pikepdf

    shown = {_name(page): forms[page.page] for page in side.pages}
    page = pikepdf.Dictionary(
        Type=pikepdf.Name.Page,
        MediaBox=_array(box_of(side.size)),
        BleedBox=_array(side.bleed),
        TrimBox=_array(side.trim),
        Resources=pikepdf.Dictionary(XObject=pikepdf.Dictionary(shown)),
        Contents=target.make_stream(content.encode("ascii")),
    )
    return pikepdf.Page(target.make_indirect(page))


# ISO 32000-1, table 150 (from memory).
_DUPLEX = {Flip.LONG_EDGE: "/DuplexFlipLongEdge", Flip.SHORT_EDGE: "/DuplexFlipShortEdge"}
_ONE_SIDED = "/Simplex"


def describe(target: Pdf, source: Pdf, flip: Flip | None) -> None:
    """Give the sides the title, edition and language of the booklet; ask for both sides, or one without flip.

    They are never scaled to the printer's paper.
    """
    import pikepdf

    duplex = _DUPLEX[flip] if flip is not None else _ONE_SIDED
    preferences = pikepdf.Dictionary(Duplex=pikepdf.Name(duplex), PrintScaling=pikepdf.Name("/None"))
    if "/Title" in source.docinfo:
        target.docinfo["/Title"] = str(source.docinfo["/Title"])
        preferences["/DisplayDocTitle"] = True
    if named := str(source.docinfo.get("/Keywords", "")):  # the name of the edition
        target.docinfo["/Keywords"] = named
    target.Root["/ViewerPreferences"] = preferences
    if "/Lang" in source.Root:
        target.Root["/Lang"] = str(source.Root["/Lang"])


def saved(target: Pdf) -> bytes:
    """The bytes of a PDF, always the same for the same content."""
    from pikepdf import ObjectStreamMode, StreamDecodeLevel

    out = BytesIO()
    # The pages are packed, and what is not is small: to unpack and pack all of it again would take longest.
    target.save(
        out,
        deterministic_id=True,
        compress_streams=False,
        stream_decode_level=StreamDecodeLevel.none,  # earlier versions of pikepdf unpack them otherwise
        object_stream_mode=ObjectStreamMode.generate,
    )
    return out.getvalue()


def _points(size: Size) -> str:
    return f"{number(size.width)} x {number(size.height)} pt"


def _said(*values: Fraction | int) -> str:
    return " ".join(number(Fraction(value)) for value in values)


def _numbers(array: Iterable[Any]) -> list[Fraction]:
    return [read_exact(str(each)) for each in array]


def _box(array: Iterable[Any]) -> Box:
    return Box(*_numbers(array))


def _array(box: Box) -> Array:
    return _decimals(box.left, box.bottom, box.right, box.top)


def _decimals(*values: Fraction | int) -> Array:
    import pikepdf

    return pikepdf.Array([Decimal(number(Fraction(value))) for value in values])
