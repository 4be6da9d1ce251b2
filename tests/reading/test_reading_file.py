"""What a reader at a screen has of the reading file: bookmarks, names, links, facts, the kit itself."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from io import BytesIO
from itertools import chain
from typing import Any
from xml.etree import ElementTree

import pikepdf
import pypdf
import pypdfium2
import pytest
from PIL import Image

from booklet.binding.binding import home_binding
from booklet.binding.print_file import print_file
from booklet.content.things import ThingKind
from booklet.kit.load import parse_kit
from booklet.kit.own_trimmer import load_trimmer
from booklet.pages.booklet import write_booklet
from booklet.pages.places import anchored_pages
from booklet.pages.things import things_of
from tests.finished.kits import PLAIN
from tests.reading.made import made, made_of, with_image
from tests.spec_data import SPECS, WHOLE_DEMOS

_XML = {
    "dc": "{http://purl.org/dc/elements/1.1/}",
    "pdf": "{http://ns.adobe.com/pdf/1.3/}",
    "xmp": "{http://ns.adobe.com/xap/1.0/}",
}


def read(file: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(BytesIO(file))


def links_of(reader: pypdf.PdfReader, number: int) -> list[tuple[Any, int]]:
    """The links of a page, from 1: where each lies, and the page that it leads to."""
    found = []
    for note in reader.pages[number - 1].get("/Annots", []):
        link = note.get_object()
        assert link["/Subtype"] == "/Link"
        goal = reader.get_page_number(link["/Dest"][0].get_object())
        assert goal is not None
        found.append((link["/Rect"], goal + 1))
    return found


def words_of(file: bytes, number: int) -> str:
    """What stands on a page, as pypdfium2 reads it, which learns the typefaces of a file only once."""
    words: str = pypdfium2.PdfDocument(file)[number - 1].get_textpage().get_text_range()
    return words


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_the_file_is_sound_by_the_rules_of_another_library(kit: str) -> None:
    with pikepdf.open(BytesIO(made(kit).file)) as document:
        assert document.check_pdf_syntax() == []


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_every_sheet_that_is_cut_and_every_layout_has_a_bookmark(kit: str) -> None:
    reader, one = read(made(kit).file), made(kit)

    def titles(outline: list[Any]) -> list[str]:
        return [
            title
            for each in outline
            for title in (titles(each) if isinstance(each, list) else [str(each.title)])
        ]

    marked = titles(reader.outline)
    for section in one.laid.setup.document.sections:
        said = "".join(getattr(span, "text", "") for span in section.title)
        if any(part.section.anchor == section.anchor for page in one.laid.pages for part in page.parts):
            numbered = f"{section.number}  {said}" if section.number else said
            assert numbered in marked, said
    assert sum(title != "" for title in marked) == len(marked)
    assert marked.count("Welcome") == 1


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_the_pages_bear_the_numbers_that_are_printed_and_the_covers_are_named(kit: str) -> None:
    labels = read(made(kit).file).page_labels
    count = len(made(kit).laid.pages)
    assert labels == ["Front cover", *map(str, range(2, count)), "Back cover"]


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_a_line_of_the_contents_leads_to_the_page_that_it_names(kit: str) -> None:
    one = made(kit)
    reader = read(one.file)
    goals = {goal for _, goal in links_of(reader, 2)}
    numbered = {number for number, page in enumerate(one.laid.pages, 1) if page.parts[0].begins}
    assert len(goals) > 8
    assert goals <= numbered


def sheet_pages(kit: str) -> dict[str, list[int]]:
    return pages_by_anchor(kit, "sheet-")


def pages_by_anchor(kit: str, start: str) -> dict[str, list[int]]:
    found: dict[str, list[int]] = {}
    for number, page in enumerate(made(kit).laid.pages, 1):
        for part in page.parts:
            if part.section.anchor.startswith(start):
                found.setdefault(part.section.anchor.removeprefix(start), []).append(number)
    return found


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_a_sheet_leads_to_the_layouts_that_take_its_pieces_and_they_lead_back(kit: str) -> None:
    one, reader = made(kit), read(made(kit).file)
    sheets, layouts = sheet_pages(kit), pages_by_anchor(kit, "layout-")
    numbers = range(1, len(reader.pages) + 1)
    goals = {number: {goal for _, goal in links_of(reader, number)} for number in numbers}
    words = {number: words_of(one.file, number) for number in chain(*layouts.values())}
    pieces = [thing for thing in things_of(one.resolved, one.laid) if thing.kind is ThingKind.PIECE]
    cut = {label: set(thing.cut) for thing in pieces for label in thing.labels}
    held = 0
    for entry in one.resolved.ledger.entries:
        if entry.piece is None or entry.use is None:
            continue
        sheet = one.resolved.kit.sheets[entry.piece.sheet_index].id
        layout = one.resolved.kit.layouts[entry.use.layout_index].id
        if sheet not in sheets:
            continue
        there = {goal for number in sheets[sheet] for goal in goals[number]}
        back = {goal for number in layouts[layout] for goal in goals[number]}
        assert layouts[layout][0] in there, entry.label
        assert back & set(sheets[sheet]) & cut[entry.label], entry.label
        assert any(entry.label in words[number] for number in layouts[layout]), entry.label
        held += 1
    assert held > 30


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_the_sorting_table_leads_to_every_sheet_and_every_layout_and_sheets_lead_to_it(kit: str) -> None:
    reader = read(made(kit).file)
    sorting = pages_by_anchor(kit, "pockets")[""]
    goals = {goal for number in sorting for _, goal in links_of(reader, number)}
    assert all(goals & set(pages) for pages in sheet_pages(kit).values())
    assert goals >= {pages[0] for pages in pages_by_anchor(kit, "layout-").values()}
    for pages in sheet_pages(kit).values():
        assert {goal for number in pages for _, goal in links_of(reader, number)} & set(sorting)


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_the_index_at_the_edge_of_a_layout_leads_to_each_pocket_of_the_sorting_table(kit: str) -> None:
    one, reader = made(kit), read(made(kit).file)
    for layout in one.resolved.kit.layouts:
        (page, *_) = pages_by_anchor(kit, "layout-")[layout.id]
        goals = {goal for _, goal in links_of(reader, page)}
        assert goals >= set(anchored_pages(one.laid.pages, f"pocket-{layout.pocket}")[:1])


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_no_link_leads_to_the_page_that_it_stands_on_or_lies_off_it(kit: str) -> None:
    reader = read(made(kit).file)
    for number, page in enumerate(reader.pages, 1):
        for (left, bottom, right, top), goal in links_of(reader, number):
            assert goal != number
            assert 0 <= left < right <= page.mediabox.width
            assert 0 <= bottom < top <= page.mediabox.height


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_the_information_and_the_metadata_of_the_file_say_the_same(kit: str) -> None:
    reader = read(made(kit).file)
    info, root = reader.metadata, reader.trailer["/Root"]
    assert info is not None
    tree = ElementTree.fromstring(root["/Metadata"].get_data().decode("utf-8"))  # type: ignore[index]

    def said(key: str) -> str:
        space, name = key.split(":")
        found = next(tree.iter(f"{_XML[space]}{name}"))
        return (found.text or "").strip() or next("".join(each.itertext()) for each in found[0])

    assert said("dc:title") == info.title
    assert said("dc:creator") == info.author
    assert said("dc:description") == info.subject
    assert said("pdf:Producer") == info.producer
    assert said("pdf:Keywords") == str(info["/Keywords"])
    assert said("xmp:CreatorTool") == info.creator
    assert said("dc:language") == root["/Lang"] == "en"  # type: ignore[index]
    assert str(info["/CreationDate"]).startswith("D:20000101000000")
    assert said("xmp:CreateDate") == "2000-01-01T00:00:00Z"


def test_words_that_xml_has_a_use_for_are_kept() -> None:
    named = PLAIN.replace("title: A Week Outdoors", 'title: "Salt & <Sea> “Ø”"')
    found = read(made(named).file).xmp_metadata
    assert found is not None
    assert found.dc_title is not None
    assert found.dc_title["x-default"].startswith("Salt & <Sea> “Ø”")


# The kit itself.


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_the_spec_is_attached_as_it_was_typed(kit: str) -> None:
    one = made(kit)
    attached = read(one.file).attachments
    assert attached[f"{kit}.yaml"] == [one.loaded.typed[0].data]
    with pikepdf.open(BytesIO(one.file)) as document:
        spec = document.attachments[f"{kit}.yaml"]
        held = spec.get_file()
        assert held.read_bytes() == one.loaded.typed[0].data
        assert held.md5 == hashlib.md5(held.read_bytes()).digest()
        assert held.size == len(held.read_bytes())
        assert spec.relationship == pikepdf.Name("/Source")
        assert held.creation_date is None


def size_of_attachments(file: bytes) -> tuple[int, int]:
    """The size of a file written with what is attached, and without, in one way of writing."""
    sizes = []
    for keys in ((), ("/Names", "/AF")):
        with pikepdf.open(BytesIO(file)) as document:
            for key in keys:
                del document.Root[key]
            document.remove_unreferenced_resources()
            out = BytesIO()
            document.save(out, compress_streams=False, deterministic_id=True)
            sizes.append(len(out.getvalue()))
    return sizes[0], sizes[1]


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_the_kit_makes_its_file_a_twentieth_larger_at_most(kit: str) -> None:
    with_kit, without = size_of_attachments(made(kit).file)
    assert 0 < with_kit - without <= without / 20


def test_a_picture_whose_bytes_are_drawn_is_in_the_file_once() -> None:
    one = with_image("tide.jpg")
    (picture,) = (file.data for file in one.laid.files if file.name == "tide.jpg")
    assert one.file.count(picture) == 1


def test_an_image_that_two_sheets_bear_is_attached_once() -> None:
    attached = read(with_image("tide.png").file).attachments
    assert list(attached) == ["tide.png", "tide.yaml"]
    assert len(attached["tide.png"]) == 1
    assert Image.open(BytesIO(attached["tide.png"][0])).size == (60, 60)


def test_a_draft_carries_its_kit_and_says_that_it_is_one() -> None:
    one = made("roof-garden")
    reader = read(write_booklet(one.laid, is_draft=True))
    assert list(reader.attachments) == ["roof-garden.yaml"]
    assert reader.metadata is not None
    assert str(reader.metadata["/Keywords"]) == f"edition {one.laid.edition}, draft"


def test_a_person_s_trimmer_is_attached_where_the_kit_was_made_for_it(tmp_path: Any) -> None:
    mine = tmp_path / "mine.yaml"
    mine.write_text("unit: in\nblade: 13\n")
    loaded = parse_kit(PLAIN, "plain.yaml", SPECS, load_trimmer(mine, "mine.yaml"))
    attached = read(made_of(loaded).file).attachments
    assert attached["trimmer.yaml"] == [mine.read_bytes()]


def test_the_name_of_the_spec_alone_decides_what_it_is_attached_as() -> None:
    one = made("roof-garden")
    assert one.file == write_booklet(one.laid)
    renamed = replace(one.laid, files=tuple(replace(file, name="other.yaml") for file in one.laid.files))
    assert list(read(write_booklet(renamed)).attachments) == ["other.yaml"]


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_the_print_file_carries_neither_links_nor_the_kit(kit: str) -> None:
    one = made(kit)
    printed = print_file(one.file, home_binding(one.resolved.kit.page))
    with pikepdf.open(BytesIO(printed)) as document:
        assert "/AF" not in document.Root
        assert "/Names" not in document.Root
        assert all("/Annots" not in page.obj for page in document.pages)
        kinds = {str(each.get("/Type", "")) for each in document.objects if isinstance(each, pikepdf.Stream)}
        assert "/EmbeddedFile" not in kinds
