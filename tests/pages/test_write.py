"""The PDF of a document: bookmarks, links, language, drafts."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from io import BytesIO

import pypdf
import pypdfium2 as pdfium
import pytest

from booklet.content.artist import Room
from booklet.content.blocks import Arrangement, Beside, Contents, ContentsEntry, Heading
from booklet.content.figures import FigureRequest, FinishedPages, PieceMap, PocketFigure
from booklet.content.spans import line
from booklet.drawing.shapes.figure import Figure
from booklet.kit.kit import PageFormat
from booklet.kit.tree import plain, read_tree
from booklet.pages.booklet import figures_of, lay_out, write_booklet
from booklet.proof.reader import read_pages
from tests.content.specs import SMALL, SPECS, resolved_spec
from tests.once import laid_once
from tests.pages.documents import (
    PALETTE,
    document,
    laid,
    measured,
    picture,
    said_on,
    section,
    sketch,
    words,
)

SECTIONS = (
    section("cover", picture(FinishedPages((0,))), arrangement=Arrangement.FRONT_COVER, part=line("Cover")),
    section(
        "welcome",
        Contents(((ContentsEntry(line("Box"), "box"), ContentsEntry(line("Rail"), "rail")),)),
    ),
    section("box", words(2), Heading(line("In the box"), "inside"), part=line("Before cutting")),
    section("rail", words(2)),
    section("tag", words(2), part=line("Layouts")),
)
MADE = document(*SECTIONS)


def written(is_draft: bool = False) -> bytes:
    return write_booklet(laid(MADE), is_draft)


def test_the_same_document_gives_the_same_bytes() -> None:
    assert written() == written()


def test_bookmarks_name_the_parts_and_their_sections() -> None:
    with pdfium.PdfDocument(written()) as pdf:
        marks = [(mark.level, mark.get_title(), mark.get_dest().get_index() + 1) for mark in pdf.get_toc()]
    assert marks[:5] == [
        (0, "Cover", 1),
        (1, "Welcome", 2),
        (0, "Before cutting", 3),
        (1, "Box", 3),
        (1, "Rail", 4),
    ]


def test_numbers_of_pages_lead_there() -> None:
    reader = pypdf.PdfReader(BytesIO(written()))
    notes = reader.pages[1]["/Annots"]
    pages = [note.get_object()["/Dest"][0].get_object() for note in notes]  # type: ignore[attr-defined]
    assert [reader.get_page_number(page) for page in pages] == [2, 3]
    assert "Box 3 Rail 4" in said_on(read_pages(written())[1])


def test_the_document_says_what_it_is_and_in_which_language() -> None:
    reader = pypdf.PdfReader(BytesIO(write_booklet(laid(document(section("eins", words(1)), language="de")))))
    assert str(reader.root_object["/Lang"]) == "de"
    assert reader.metadata is not None
    assert (reader.metadata.title, reader.metadata.author, reader.metadata.subject) == (
        "Low Tide",
        "Harbour Paper",
        "How to",
    )


def test_a_draft_says_so_on_every_page_in_the_document_s_words() -> None:
    assert all("DRAFT" in page.text for page in read_pages(written(is_draft=True)))
    assert not any("DRAFT" in page.text for page in read_pages(written()))


def test_a_page_has_its_trimmed_size() -> None:
    assert {(page.width, page.height) for page in read_pages(written())} == {(396.0, 612.0)}


def test_figures_that_are_drawn_to_a_scale_are_given_once_each() -> None:
    def scaled(request: FigureRequest, room: Room) -> Figure:
        scale = "Scale 1:4" if isinstance(request, PieceMap) else ""
        return replace(sketch(request, room), name=str(request), scale=scale)

    sheets = Beside(picture(PieceMap(1)), (words(2),))
    made = document(
        section("one", picture(PieceMap(0)), sheets, picture(PocketFigure("1"))), section("two", sheets)
    )
    booklet = lay_out(made, PageFormat.HALF_LETTER, PALETTE, scaled, measured)
    assert [figure.name for figure in figures_of(booklet)] == [str(PieceMap(0)), str(PieceMap(1))]


def test_a_designer_s_words_are_set_by_a_typesetter_wherever_they_stand() -> None:
    spec = (SPECS / "roof-garden.yaml").read_text(encoding="utf-8")
    spec = re.sub(r"\b(title|story|tip|say|month|publisher|do): (?=\w)", r"\1: Gran's 4 x 6 ", spec)
    spec = re.sub(r"\b(mat|panel|label|board)\b(?=[],:}\n])", r"gran's 4 x 6 \1", spec)
    made = write_booklet(laid_once(resolved_spec(spec)))
    with pdfium.PdfDocument(made) as pdf:
        marks = [mark.get_title() for mark in pdf.get_toc()]
        said = [*marks, *pdf.get_metadata_dict().values(), *(page.text for page in read_pages(made))]
    printed = [one.replace("\u00a0", " ") for one in said]
    assert sum(len(re.findall("ran’s 4 ?× ?6", one)) for one in printed) > 100
    assert [one for one in printed if re.search(r"ran's|4 x 6", one)] == []


SMALL_WITH_ALL = (
    SMALL
    + """
ready: [{name: card, size: 4 x 6, paper: sand, count: 2, spare: 2}]
supplies: [{id: net, kind: stencil, size: 6 x 2}, {id: glue, kind: adhesive}]
"""
)


@pytest.mark.parametrize(
    "spec",
    [
        pytest.param(SMALL_WITH_ALL, id="a small kit"),
        pytest.param(
            (SPECS / "roof-garden.yaml").read_text(encoding="utf-8"),
            id="roof-garden",
            marks=pytest.mark.thorough,
        ),
    ],
)
def test_every_tip_that_a_spec_may_bear_is_printed_once(spec: str) -> None:
    data = plain(read_tree(spec, "a kit spec")[0])
    sheets, layouts = data["sheets"], data["layouts"]
    bearers = [*sheets, *data["ready"], *data["supplies"], *layouts]
    bearers += [step for one in sheets for step in one.get("cuts", ()) if one["cuts"] != "plan"]
    bearers += [step for one in layouts for step in one["steps"]]
    for number, bearer in enumerate(bearers):
        bearer["tip"] = f"Tip{number}tip"
    pockets = sorted({int(one["pocket"]) for one in layouts})
    data["pocket_tips"] = {pocket: f"Tip{len(bearers) + pocket}tip" for pocket in pockets}
    made = write_booklet(laid_once(resolved_spec(json.dumps(data))))
    said = "".join(re.sub(r"\s", "", page.text) for page in read_pages(made))
    printed = sorted(int(number) for number in re.findall(r"Tip(\d+)tip", said))
    assert printed == [*range(len(bearers)), *(len(bearers) + pocket for pocket in pockets)]
