"""Pages written as a PDF: folios, running titles, bookmarks, references, the draft's mark, the same bytes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from io import BytesIO

import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader
from pypdf.generic import ArrayObject, Destination

from booklet.drawing.shapes.fonts import Font, pdf_font_name
from booklet.drawing.shapes.style import TEAL
from booklet.kit.kit import PageFormat
from booklet.pages.flow import PageReference
from booklet.pages.grid import GRIDS, Grid
from booklet.pages.page import Laid, Page
from booklet.pages.write import Imprint, write_pages
from tests.pages.front import text_boxes

GRID = GRIDS[PageFormat.HALF_LETTER]
IMPRINT = Imprint("Low Tide, June", "Harbour Paper", "Cutting and assembly")


def written(pages: Sequence[Page], grid: Grid = GRID, draft: bool = False) -> bytes:
    return write_pages(pages, grid, TEAL, IMPRINT, draft)


def reference(anchor: str, at: float = 0.0) -> Laid:
    flowable = PageReference(anchor, pdf_font_name(Font.SANS), 10.0, TEAL.ink)
    width, height = flowable.wrap(100.0, 100.0)
    return Laid(flowable, 0.0, at, width, height)


def texts(pdf: bytes) -> list[str]:
    document = pypdfium2.PdfDocument(pdf)
    return [" ".join(page.get_textpage().get_text_range().split()) for page in document]


def test_the_same_pages_give_the_same_bytes() -> None:
    def pages() -> list[Page]:
        return [Page((reference("b"),), "one", "One", anchor="a"), Page((), "two", "Two", 1, anchor="b")]

    assert written(pages()) == written(pages())
    assert written(pages(), draft=True) == written(pages(), draft=True)


def test_nothing_in_a_file_that_is_no_draft_is_transparent() -> None:
    pages = [Page((reference("a"),), "one", anchor="a")]
    assert b"/ca " not in written(pages)
    assert "ExtGState" not in str(PdfReader(BytesIO(written(pages))).pages[0]["/Resources"])


@pytest.mark.parametrize("grid", list(GRIDS.values()))
def test_a_draft_says_so_on_every_page_bare_ones_too(grid: Grid) -> None:
    pages = [Page((), "cover", bare=True), Page((), "one"), Page((), "two"), Page((), "back", bare=True)]
    assert [text.count("DRAFT") for text in texts(written(pages, grid, draft=True))] == [1, 1, 1, 1]
    assert [text.count("DRAFT") for text in texts(written(pages, grid))] == [0, 0, 0, 0]


@pytest.mark.parametrize("grid", list(GRIDS.values()))
def test_numbers_stand_at_the_outer_edge_and_running_titles_at_the_fold(grid: Grid) -> None:
    document = pypdfium2.PdfDocument(
        written([Page((), "Ebb"), Page((), "Flow"), Page((), "Bare", bare=True)], grid)
    )
    assert document[2].get_textpage().count_chars() == 0
    odd, even = (sorted(text_boxes(document[n]), key=lambda box: box.left) for n in (0, 1))
    assert texts(written([Page((), "Ebb"), Page((), "Flow")], grid)) == ["Ebb 1", "2 Flow"]
    # An odd page lies to the right of the fold: its outer edge is at its right.
    assert odd[-1].right == pytest.approx(grid.width - grid.outer, abs=1)
    assert odd[0].left == pytest.approx(grid.inner, abs=1)
    assert even[0].left == pytest.approx(grid.outer, abs=1)
    assert even[-1].right == pytest.approx(grid.width - grid.inner, abs=1)


@given(st.text("Wiml fj,é", min_size=1, max_size=400).map(str.strip).filter(bool))
@settings(max_examples=30)
def test_a_running_title_leaves_room_for_the_number_however_long_it_is(title: str) -> None:
    document = pypdfium2.PdfDocument(written([Page((), title), Page((), title)]))
    for at in range(2):
        boxes = sorted(text_boxes(document[at]), key=lambda box: box.left)
        left = GRID.left(at + 1)
        assert boxes[0].left >= left - 1
        assert boxes[-1].right <= left + GRID.text_width + 1
        number = boxes[-1] if at == 0 else boxes[0]
        for other in boxes:
            assert other is number or not other.grown(4).overlaps(number)


@pytest.mark.parametrize("title", ["W" * 2000, "W" * 40 + " " + "i" * 300, "harbour " * 200])
def test_the_longest_running_titles_keep_to_their_line(title: str) -> None:
    for grid in GRIDS.values():
        page = pypdfium2.PdfDocument(written([Page((), title)], grid))[0]
        for box in text_boxes(page):
            assert box.left >= grid.inner - 1
            assert box.right <= grid.inner + grid.text_width + 1


def test_a_long_running_title_is_cut_at_a_word_and_says_so() -> None:
    title = "The day that the harbour froze and everybody walked across it to the island and back again"
    (said, _) = texts(written([Page((), title), Page((), "short")]))
    shown = said.removesuffix(" 1")
    assert shown.endswith("…")
    assert title.startswith(shown[:-1])
    assert title[len(shown) - 1] == " "


# References and bookmarks.


@given(st.lists(st.booleans(), min_size=1, max_size=8), st.randoms(use_true_random=False))
@settings(max_examples=30)
def test_a_reference_says_the_number_of_its_page_and_leads_there(
    anchored: list[bool], random: object
) -> None:
    del random
    names = [f"page {at}" if is_so else None for at, is_so in enumerate(anchored)]
    wanted = [name for name in names if name]
    first = Page(tuple(reference(name, 20.0 * at) for at, name in enumerate(wanted)), "contents", bare=True)
    pages = [first, *(Page((), "", anchor=name, bare=True) for name in names)]
    pdf = written(pages)
    expected = [number for number, name in enumerate(names, start=2) if name]
    text = pypdfium2.PdfDocument(pdf)[0].get_textpage()
    rows = [(-text.get_charbox(at)[1], text.get_text_range(at, 1)) for at in range(text.count_chars())]
    assert [said for _, said in sorted(rows) if said.strip()] == [str(number) for number in expected]
    assert list(link_targets(pdf)) == expected


def link_targets(pdf: bytes) -> Iterator[int]:
    """The numbers of the pages to which the first page's links lead, from the top."""
    reader = PdfReader(BytesIO(pdf))
    links = [note.get_object() for note in reader.pages[0].get("/Annots", ArrayObject())]
    links.sort(key=lambda link: -float(link["/Rect"][1]))
    numbers = {page.indirect_reference: number for number, page in enumerate(reader.pages, start=1)}
    for link in links:
        target = link["/Dest"] if "/Dest" in link else link["/A"]["/D"]
        if isinstance(target, str):
            target = reader.named_destinations[target].dest_array
        yield numbers[target[0] if hasattr(target[0], "idnum") else target[0].indirect_reference]


def test_bookmarks_are_nested_as_sections_and_pages_are() -> None:
    pages = [
        Page((), "", "Cover", anchor="cover"),
        Page((), "", "Shingle", 1, section="Cutting"),
        Page((), "", "Sand", 1, anchor="sand"),
        Page((), ""),
        Page((), "", "Ebb", 1, "ebb", section="Layouts"),
        Page((), "", "Printing"),
    ]
    reader = PdfReader(BytesIO(written(pages)))
    assert told(reader, reader.outline) == [
        ("Cover", 1),
        ("Cutting", 2),
        [("Shingle", 2), ("Sand", 3)],
        ("Layouts", 5),
        [("Ebb", 5)],
        ("Printing", 6),
    ]


def told(reader: PdfReader, outline: object) -> object:
    """The bookmarks' words and pages, nested ones in lists."""
    if isinstance(outline, Destination):
        number = reader.get_destination_page_number(outline)
        assert number is not None
        return outline.title, number + 1
    assert isinstance(outline, list)
    return [told(reader, each) for each in outline]


def test_the_document_says_whose_it_is() -> None:
    reader = PdfReader(BytesIO(written([Page((), "one")])))
    assert reader.metadata is not None
    assert (reader.metadata.title, reader.metadata.author) == ("Low Tide, June", "Harbour Paper")
    assert reader.viewer_preferences is not None
    assert reader.viewer_preferences["/DisplayDocTitle"]
