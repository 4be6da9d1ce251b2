"""Finished files broken on purpose: what alters a number, a length or an order is caught."""

from __future__ import annotations

import pytest

from booklet.measure.length import Unit
from booklet.proof.proof import prove
from booklet.proof.reader import read_pages
from tests.finished.kits import PLAIN
from tests.tampering.kinds import KINDS, Of
from tests.tampering.paths import HALF_MARK
from tests.tampering.proved import Made, caught_by, made, missed, page_read_back, proof_of, sheets_of, some
from tests.tampering.record import Tampering, rewritten, tampered
from tests.tampering.streams import edited

# What is tampered with on pages of a demo: a sheet whose two figures share no reading, a layout.
DEMO, DEMO_PAGES = "roof-garden", {12, 18}
IN_PAGES = (
    *("digit", "readings exchanged", "letter", "ring renumbered", "row dropped", "text dropped"),
    *("cut line", "cut line dropped", "flag", "flag dropped", "figure stretched"),
)
OF_WHOLE_FILES = (
    *("pages exchanged", "page doubled", "page dropped", "page turned"),
    *("halves exchanged", "sides exchanged", "side dropped", "digit on a side"),
)


@pytest.mark.parametrize("kind", [*IN_PAGES, *OF_WHOLE_FILES])
def test_a_tampering_of_a_small_kit_is_caught(kind: str) -> None:
    booklet = made(PLAIN)
    assert missed(booklet, KINDS[kind], in_figures(booklet, kind)[:1]) == []


@pytest.mark.thorough
@pytest.mark.parametrize("kind", [*IN_PAGES, *OF_WHOLE_FILES])
def test_tamperings_from_all_over_a_small_kit_are_caught(kind: str) -> None:
    booklet = made(PLAIN)
    assert missed(booklet, KINDS[kind], some(in_figures(booklet, kind), 5)) == []


@pytest.mark.thorough
@pytest.mark.parametrize("kind", IN_PAGES)
def test_a_tampering_of_a_demo_s_page_is_caught(kind: str) -> None:
    booklet = made(DEMO)
    found = [each for each in booklet.tamperings(KINDS[kind]) if each.page in DEMO_PAGES]
    assert missed(booklet, KINDS[kind], some(found, 4)) == []


def in_figures(booklet: Made, kind: str) -> list[Tampering]:
    """Every tampering of a kind; of those that drop a cut line, none before the pages of sheets."""
    found = booklet.tamperings(KINDS[kind])
    return [each for each in found if each.page > 3] if kind == "cut line dropped" else found


# No false alarm.


@pytest.mark.parametrize(
    "kit", [pytest.param(PLAIN, id="plain"), pytest.param(DEMO, id=DEMO, marks=pytest.mark.thorough)]
)
def test_a_file_that_is_parsed_and_written_again_holds(kit: str) -> None:
    booklet = made(kit)
    reading, printed = (rewritten(booklet.files[of]) for of in (Of.READING, Of.PRINT))
    assert reading != booklet.files[Of.READING]
    proof = prove(booklet.expected, reading, printed)
    assert caught_by(proof) == ()
    assert proof.holds


def test_every_form_of_a_page_written_again_holds() -> None:
    booklet = made(PLAIN)
    for sheet in sheets_of(booklet, Of.READING):
        for forms in sheet.streams:
            same = Tampering(sheet.number, "nothing", edited(sheet.number, forms, {}))
            assert proof_of(booklet, KINDS["digit"], same).holds


# A tampering does what it says, as the reader of the proof finds it.


def test_a_changed_digit_is_one_letter_of_its_page() -> None:
    booklet = made(PLAIN)
    for tampering in some(booklet.tamperings(KINDS["digit"]), 8):
        before = booklet.pages[tampering.page - 1]
        after = page_read_back(tampered(booklet.files[Of.READING], tampering), tampering.page)
        changed = [
            one.text
            for one, other in zip(before.letters, after.letters, strict=True)
            if one.text != other.text
        ]
        assert len(changed) == 1
        assert changed[0] in tampering.words.partition("' of ")[0]


def test_a_moved_cut_line_lies_half_a_mark_of_its_figure_farther() -> None:
    booklet = made(PLAIN)
    tampering = booklet.tamperings(KINDS["cut line"])[0]
    before = booklet.pages[tampering.page - 1]
    after = page_read_back(tampered(booklet.files[Of.READING], tampering), tampering.page)
    moved = [
        other.box.left - one.box.left
        for one, other in zip(before.paths, after.paths, strict=True)
        if one.box != other.box
    ]
    # The sheets of this kit are drawn at 1:6.
    assert moved == [pytest.approx(HALF_MARK[Unit.INCH] / 6, abs=0.001)]


def test_only_the_page_of_a_tampering_changes() -> None:
    booklet = made(PLAIN)
    before = [page.text for page in booklet.pages]
    for kind in ("digit", "ring renumbered", "row dropped"):
        tampering = booklet.tamperings(KINDS[kind])[-1]
        after = [page.text for page in read_pages(tampered(booklet.files[Of.READING], tampering))]
        differ = [
            number for number, (one, other) in enumerate(zip(before, after, strict=True), 1) if one != other
        ]
        assert differ == [tampering.page]
