"""The sheet to sign: its sums, and the same as a PDF and as one HTML file."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

import pytest

from booklet.binding.binding import home_binding
from booklet.content.words.language import ENGLISH
from booklet.drawing.shapes.figure import Colour
from booklet.kit.load import parse_kit
from booklet.pages.report import write_report
from booklet.placing.resolved import resolve_kit
from booklet.proof.findings import kit_findings
from booklet.proof.proof import Proof, expected_of, prove
from booklet.proof.reader import read_pages
from booklet.proof.sign import SignReport, sign_report
from booklet.proof.sign_document import Told, sign_document
from booklet.proof.sign_html import sign_html
from tests.finished.kits import PLAIN
from tests.once import laid_once, written_once
from tests.proof.finished import finished
from tests.spec_data import WHOLE_DEMOS

# A title that would be markup, if it went in as it is.
SHARP = re.sub("^title: .*$", "title: <script>alert(1)</script> & more", PLAIN, flags=re.MULTILINE)


class Sheet:
    """A booklet that was proved, and what is signed of it."""

    def __init__(self, spec: str) -> None:
        self.loaded = parse_kit(spec, "plain.yaml", Path())
        self.resolved = resolve_kit(self.loaded)
        self.laid = laid_once(self.resolved)
        self.file = written_once(self.laid)
        binding = home_binding(self.resolved.kit.page)
        expected = expected_of(self.laid, self.resolved, self.loaded.source.words, binding)
        self.proof = prove(expected, self.file, None)


@cache
def sheet(spec: str = PLAIN) -> Sheet:
    return Sheet(spec)


def report(made: Sheet, proof: Proof | None = None) -> SignReport:
    return sign_report(
        made.resolved, proof or made.proof, kit_findings(made.resolved), {"plain-read.pdf": made.file}
    )


def html(made: Sheet, proof: Proof | None = None) -> str:
    proved = proof or made.proof
    told = Told(made.laid.edition, [])
    document = sign_document(made.resolved, report(made, proved), told, made.loaded.source, ENGLISH)
    return sign_html(document, proved, made.loaded.source, ENGLISH).decode()


def pdf(made: Sheet) -> bytes:
    told = Told(made.laid.edition, [])
    document = sign_document(made.resolved, report(made), told, made.loaded.source, ENGLISH)
    return write_report(document, made.resolved.kit.page, Colour(made.resolved.kit.accent))


def with_failure(proof: Proof) -> Proof:
    """A proof that has found one number on page 5 that nothing claims."""
    page = proof.pages[4]
    at = next(at for at, one in enumerate(page.printed) if one.holds)
    wrong = replace(page.printed[at], claim=None, holds=False)
    printed = (*page.printed[:at], wrong, *page.printed[at + 1 :])
    changed = replace(page, printed=printed, unclaimed=(wrong.token,))
    return replace(proof, pages=(*proof.pages[:4], changed, *proof.pages[5:]))


# What is summed up.


def test_nothing_is_hidden_what_held_what_failed_and_what_was_not_checked() -> None:
    topics = {(topic.id, topic.file): topic for topic in report(sheet()).topics}
    numbers = topics["numbers", ""]
    assert (numbers.looked_at, numbers.held, numbers.failed) == (len(sheet().proof.numbers),) * 2 + (0,)
    halves = topics["halves", ""]
    # There was no print file.
    assert (halves.held, halves.failed, halves.unchecked) == (0, 0, 8)
    assert topics["contrast", "reading file"].held > 1000
    assert (report(sheet()).failed, report(sheet()).unchecked) == (0, 8)


def test_each_sheet_and_each_layout_has_its_line() -> None:
    made = report(sheet())
    sheets, layouts = [part.name.text for part in made.sheets], [part.name.text for part in made.layouts]
    resolved = sheet().resolved
    assert len(sheets) == sum(bool(one.stages) for one in resolved.sheets)
    assert layouts == ["Morning", "Evening"]
    for part in (*made.sheets, *made.layouts):
        assert part.matched == part.numbers > 10
        assert part.farthest is not None
        assert part.farthest < 0.005
        assert part.pages


def test_one_wrong_number_fails_the_sheet_to_sign() -> None:
    made = report(sheet(), with_failure(sheet().proof))
    assert made.failed == 1
    assert next(topic.failed for topic in made.topics if topic.id == "numbers") == 1


def test_the_files_are_told_by_their_digests() -> None:
    (file,) = report(sheet()).files
    assert (file.name, file.leaves, len(file.digest)) == ("plain-read.pdf", 8, 64)


def test_the_authors_own_numbers_are_listed_to_be_read() -> None:
    own = [claim.said for claim in report(Sheet(PLAIN.replace("a little way", "3/8 in"))).own]
    assert any("³⁄₈ in above" in said for said in own)


# On paper.


def test_the_pdf_says_what_the_report_says_and_is_the_same_each_time() -> None:
    pages = read_pages(pdf(sheet()))
    said = " ".join(page.text for page in pages)
    assert "Nothing failed, but not all could be checked." in said
    assert str(len(sheet().proof.numbers)) in said
    assert report(sheet()).files[0].digest in said.replace("\n", "").replace("\r", "")
    assert pdf(sheet()) == pdf(sheet())
    # An upright sheet of the paper that the booklet is printed on: Letter (ASME Y14.1).
    assert {(page.width, page.height) for page in pages} == {(612.0, 792.0)}
    for page in pages:
        assert all(letter.size >= 8.99 for letter in page.ink)


# As one HTML file.


class Elements(HTMLParser):
    """The elements of a page with their attributes, and whether they nest."""

    VOID = frozenset({"meta", "input", "img"})

    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str]]] = []
        self.open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, {name: value or "" for name, value in attrs}))
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def elements(text: str) -> list[tuple[str, dict[str, str]]]:
    reader = Elements()
    reader.feed(text)
    assert reader.open == []
    return reader.found


def test_the_html_file_asks_for_nothing_from_elsewhere() -> None:
    found = elements(html(sheet()))
    asked = [
        value for _, attrs in found for name, value in attrs.items() if name in ("src", "href", "action")
    ]
    assert asked
    assert all(value.startswith("data:image/jpeg;base64,") for value in asked)
    policies = [
        attrs["content"] for tag, attrs in found if attrs.get("http-equiv") == "Content-Security-Policy"
    ]
    assert policies
    assert "default-src 'none'" in policies[0]
    assert not any(tag in ("script", "link", "iframe", "object") for tag, _ in found)


def test_words_of_the_spec_never_become_markup() -> None:
    text = html(Sheet(SHARP))
    assert "<script" not in text
    assert "&lt;script&gt;alert(1)&lt;/script&gt; &amp;" in text


def test_every_page_is_shown_with_each_of_its_numbers_marked() -> None:
    found = elements(html(sheet()))
    figures = [attrs["id"] for tag, attrs in found if tag == "figure"]
    assert figures == [f"page-{number}" for number in range(1, 9)]
    held = [attrs for tag, attrs in found if tag == "rect" and attrs["class"] == "held"]
    assert len(held) == sum(page.found for page in sheet().proof.pages)
    assert any(tag == "rect" and attrs["class"] == "drawn" for tag, attrs in found)
    assert not any(attrs.get("class") == "failed" for _, attrs in found)


def test_what_fails_is_marked_by_more_than_a_colour() -> None:
    text = html(sheet(), with_failure(sheet().proof))
    found = elements(text)
    assert sum(attrs.get("class") == "failed" for tag, attrs in found if tag == "rect") == 1
    assert text.count("\u2717</text>") == 1
    assert "1 failed." in text


def test_every_box_to_tick_has_a_name() -> None:
    text = html(sheet())
    boxes = [attrs for tag, attrs in elements(text) if attrs.get("type") == "checkbox"]
    assert len(boxes) >= 3 * 4
    unnamed = sum("aria-label" not in attrs for attrs in boxes)
    assert unnamed == text.count('<label><input type="checkbox">')


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_the_demos_have_a_line_for_each_sheet_and_layout(kit: str) -> None:
    made = finished(kit)
    proof = prove(made.expected, made.file, None)
    found = sign_report(made.resolved, proof, [], {"read.pdf": made.file})
    assert len(found.layouts) == len(made.resolved.layouts)
    assert all(one.closes for part in (*found.sheets, *found.layouts) for one in part.sums)
    assert found.failed == 0
