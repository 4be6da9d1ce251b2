"""A page of which something cannot be read has failed, whatever is found on it; the others are proved."""

from __future__ import annotations

from collections.abc import Callable

import pikepdf
import pytest

from booklet.binding.binding import home_binding
from booklet.binding.print_file import print_file
from booklet.kit.kit import PageFormat
from booklet.proof.proof import Proof, prove
from tests.cli.runs import SMALL_SPEC
from tests.proof.altered import content_of, saved, with_stream, without_object
from tests.proof.finished import finished

# A page in the middle of the small kit.
PAGE = 4
PACKED = pikepdf.Name.FlateDecode


def damaged_head(file: bytes) -> bytes:
    return with_stream(file, PAGE, b"zz" + content_of(file, PAGE)[2:], filter=PACKED)


def cut_short(file: bytes) -> bytes:
    packed = content_of(file, PAGE)
    return with_stream(file, PAGE, packed[: len(packed) - 40], filter=PACKED)


def emptied(file: bytes) -> bytes:
    def change(document: pikepdf.Pdf) -> None:
        del document.pages[PAGE - 1].obj["/Contents"]

    return saved(file, change)


def no_page(file: bytes) -> bytes:
    def change(document: pikepdf.Pdf) -> None:
        document.Root.Pages.Kids[PAGE - 1] = pikepdf.Dictionary(Type=pikepdf.Name.Page)

    return saved(file, change)


def without_content(file: bytes) -> bytes:
    return without_object(file, PAGE, "/Contents")


def without_page(file: bytes) -> bytes:
    return without_object(file, PAGE, "")


def proved(file: bytes, printed: bytes | None = None) -> Proof:
    made = finished(SMALL_SPEC)
    return prove(made.expected, file, printed)


@pytest.mark.parametrize("damage", [damaged_head, cut_short, emptied, no_page, without_content, without_page])
def test_a_page_that_cannot_be_read_has_failed_alone(damage: Callable[[bytes], bytes]) -> None:
    found = proved(damage(finished(SMALL_SPEC).file))
    assert not found.holds
    assert [page.page for page in found.pages if not page.is_read] == [PAGE]
    assert [page.page for page in found.pages if not page.holds] == [PAGE]
    assert len(found.pages) == len(finished(SMALL_SPEC).laid.pages)


def test_a_page_that_cannot_be_read_has_failed_though_all_its_numbers_are_found() -> None:
    def pad(document: pikepdf.Pdf) -> None:
        page = document.pages[PAGE - 1]
        more = document.make_stream(b"not packed at all")
        more.write(b"not packed at all", filter=PACKED)
        page.obj["/Contents"] = pikepdf.Array([page.obj["/Contents"], more])

    (page,) = (page for page in proved(saved(finished(SMALL_SPEC).file, pad)).pages if not page.holds)
    assert (page.page, page.missing, page.unclaimed, page.is_read) == (PAGE, (), (), False)


def test_content_that_is_garbage_shows_nothing_and_its_claims_are_missing() -> None:
    garbage = b"\x80\xff (((( %%% \xfe" * 30
    found = proved(with_stream(finished(SMALL_SPEC).file, PAGE, garbage))
    (page,) = (page for page in found.pages if not page.holds)
    assert page.page == PAGE
    assert len(page.missing) == sum(claim.page == PAGE for claim in found.claims) > 0


def test_a_font_that_is_gone_fails_every_page_that_is_set_in_it() -> None:
    found = proved(without_object(finished(SMALL_SPEC).file, PAGE, "/Resources"))
    assert PAGE in [page.page for page in found.pages if not page.is_read]


@pytest.mark.thorough
def test_every_page_of_a_whole_booklet_is_read() -> None:
    made = finished("hill-line")
    found = prove(made.expected, made.file, None)
    assert all(page.is_read for page in found.pages)
    assert found.holds


def test_a_side_of_the_print_file_that_cannot_be_read_has_failed() -> None:
    made = finished(SMALL_SPEC)
    printed = print_file(made.file, home_binding(PageFormat.HALF_LETTER))
    assert proved(made.file, printed).holds
    found = proved(made.file, with_stream(printed, 2, b"zz", filter=PACKED))
    assert found.unread_sides == (2,)
    assert not found.holds
