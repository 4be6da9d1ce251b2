"""Pages of a booklet, each put on a side of paper of its own, as they are drawn."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from typing import TYPE_CHECKING

from booklet.binding.numbers import number
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Size

if TYPE_CHECKING:
    from pikepdf import Page, Pdf

_NAME = "/Booklet"


@dataclass(frozen=True)
class PageOnPaper:
    """A page, by its number from 1, with its lower left corner at a place of the paper, in a size."""

    page: int
    size: Size
    left: Fraction
    bottom: Fraction
    scale: Fraction


def put_on_paper(papers_pdf: bytes, read_pdf: bytes, placed: Sequence[PageOnPaper]) -> bytes:
    """The papers, one side after another, with a page of the booklet on each, drawn and not copied as dots.

    The page's box is the trim box of its side.  The same input gives the same bytes.
    """
    import pikepdf

    out = BytesIO()
    with pikepdf.open(BytesIO(papers_pdf)) as papers, pikepdf.open(BytesIO(read_pdf)) as booklet:
        for paper, one in zip(papers.pages, placed, strict=True):
            _put(papers, paper, booklet.pages[one.page - 1], one)
        papers.remove_unreferenced_resources()
        papers.save(out, deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    return out.getvalue()


def _put(papers: Pdf, paper: Page, page: Page, one: PageOnPaper) -> None:
    """Draw a page below what stands on the paper already: nothing of that lies within it."""
    import pikepdf

    form = papers.copy_foreign(page.as_form_xobject())
    paper.add_resource(form, pikepdf.Name.XObject, pikepdf.Name(_NAME))
    scale, left, bottom = (number(value) for value in (one.scale, one.left, one.bottom))
    width, height = one.size.width, one.size.height
    frame = f"0 0 {number(width)} {number(height)} re W n"
    operators = f"q {scale} 0 0 {scale} {left} {bottom} cm {frame} {_NAME} Do Q\n"
    paper.contents_add(operators.encode("ascii"), prepend=True)
    corners = (one.left, one.bottom, one.left + one.scale * width, one.bottom + one.scale * height)
    paper.trimbox = pikepdf.Array([pikepdf.Object.parse(number(each).encode()) for each in corners])
