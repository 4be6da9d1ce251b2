"""A finished booklet read back: every number that the kit asks for, and no other, stands on its page."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.kit.bundled import find_spec
from booklet.kit.load import load_kit, parse_kit
from booklet.measure.exact import Fraction
from booklet.placing.resolved import resolve_kit
from booklet.proof.claim import Kind
from booklet.proof.content import unlaid
from booklet.proof.numerals import numerals
from booklet.proof.printed import Letter, Page
from booklet.proof.read_back import PageProof, read_back
from tests.content.specs import SMALL
from tests.finished.kits import PLAIN
from tests.once import laid_once
from tests.proof.finished import finished


def failed(proofs: tuple[PageProof, ...]) -> list[int]:
    return [page.page for page in proofs if not page.holds]


@pytest.mark.parametrize(
    "kit", ["hill-line", "roof-garden", PLAIN], ids=["hill-line", "roof-garden", "plain"]
)
def test_every_number_on_the_pages_is_claimed_and_every_claim_is_printed(kit: str) -> None:
    made = finished(kit)
    proofs = read_back(made.claims, made.pages)
    printed = [value for page in made.pages for value in numerals(page.text)]
    assert failed(proofs) == []
    assert sum(page.found for page in proofs) == len(printed) > 100


@pytest.mark.parametrize(
    "title", ["Gran's page, 4 x 6", "Gran's 4 x 6 page and all that the tide leaves on it"]
)
def test_numbers_in_a_title_stand_beside_that_of_its_pocket(title: str) -> None:
    made = finished(SMALL.replace("- id: ebb\n", f"- id: ebb\n    title: {title}\n"))
    assert failed(read_back(made.claims, made.pages)) == []


def test_a_claim_knows_where_in_the_spec_its_number_comes_from() -> None:
    loaded = load_kit(find_spec("hill-line"))
    read = [claim for claim in finished("hill-line").claims if claim.kind.value == "reading"]
    first = next(claim for claim in read if claim.key.startswith("sheet-carriage / cut 1"))
    assert first.key == "sheet-carriage / cut 1 / reading / sheets › carriage › cuts › 1 › at › 1"
    assert (first.said, first.value, first.page) == ("7¹⁄₈", (Fraction(57, 8),), 7)
    assert first.source is not None
    assert "7 1/8" in loaded.source.lines[loaded.source.line(first.source) - 1]


def test_what_no_page_shows_is_found() -> None:
    laid = laid_once(resolve_kit(parse_kit(PLAIN, "plain.yaml", Path())))
    assert list(unlaid(laid)) == []
    page = laid.pages[3]
    shorter = replace(page, column=page.column[:-1])
    found = list(unlaid(replace(laid, pages=(*laid.pages[:3], shorter, *laid.pages[4:]))))
    assert {lost.section for lost in found} <= {part.section.anchor for part in page.parts}
    assert found


def test_keys_tell_all_claims_apart() -> None:
    keys = [claim.key for claim in finished("roof-garden").claims]
    assert len(keys) == len(set(keys))


def test_numbers_in_the_authors_words_are_claims_of_their_own() -> None:
    own = [claim for claim in finished("hill-line").claims if claim.kind is Kind.OWN]
    assert any("³⁄₈ in" in claim.said for claim in own)


# What goes wrong is found on its page.


def digits() -> list[tuple[int, int]]:
    """Where a digit is printed: its page and its letter there."""
    return [
        (page, at)
        for page, read in enumerate(finished(PLAIN).pages)
        for at, letter in enumerate(read.letters)
        if letter.text.isascii() and letter.text.isdecimal()
    ]


def with_letter(page: Page, at: int, letter: Letter) -> Page:
    return replace(page, letters=(*page.letters[:at], letter, *page.letters[at + 1 :]))


@given(st.deferred(lambda: st.sampled_from(digits())), st.integers(1, 9))
@settings(max_examples=60)
def test_a_digit_that_is_printed_wrong_is_found_on_its_page(place: tuple[int, int], more: int) -> None:
    made = finished(PLAIN)
    number, at = place
    page = made.pages[number]
    letter = page.letters[at]
    wrong = replace(letter, text=str((int(letter.text) + more) % 10))
    pages = [*made.pages[:number], with_letter(page, at, wrong), *made.pages[number + 1 :]]
    assert failed(read_back(made.claims, pages)) == [page.number]


def test_two_numbers_that_change_places_in_a_text_are_found() -> None:
    made = finished(PLAIN)
    read = next(page for page in made.pages if "10" in page.text and "6" in page.text and page.number > 2)
    reading, other = (
        next(at for at, letter in enumerate(read.letters) if letter.size > 13 and letter.text == digit)
        for digit in "68"
    )
    one, two = read.letters[reading], read.letters[other]
    letters = list(read.letters)
    letters[reading], letters[other] = replace(one, text=two.text), replace(two, text=one.text)
    pages = [replace(page, letters=tuple(letters)) if page is read else page for page in made.pages]
    assert failed(read_back(made.claims, pages)) == [read.number]


def test_a_page_that_is_not_there_fails_with_all_its_claims() -> None:
    made = finished(PLAIN)
    lost = made.pages[3]
    (page,) = [page for page in read_back(made.claims, [*made.pages[:3], *made.pages[4:]]) if not page.holds]
    assert page.page == lost.number
    assert len(page.missing) == sum(1 for claim in made.claims if claim.page == lost.number)


def test_pages_in_another_order_fail() -> None:
    made = finished(PLAIN)
    one, other = made.pages[3], made.pages[4]
    swapped = [replace(other, number=one.number), replace(one, number=other.number)]
    proofs = read_back(made.claims, [*made.pages[:3], *swapped, *made.pages[5:]])
    assert failed(proofs) == [one.number, other.number]


def test_a_file_of_another_edition_fails_where_the_kit_has_changed() -> None:
    made, changed = finished(PLAIN), finished(PLAIN.replace("photo: 3 x 4", "photo: 3 1/2 x 4"))
    assert changed.claims != made.claims
    assert failed(read_back(changed.claims, made.pages))


@pytest.mark.parametrize(
    "kit", ["hill-line", "roof-garden", PLAIN], ids=["hill-line", "roof-garden", "plain"]
)
def test_every_number_comes_from_a_place_in_the_spec_or_is_none_of_the_kits(kit: str) -> None:
    claimed = finished(kit).claims
    assert [claim.key for claim in claimed if not claim.is_traced] == []
    own = [claim for claim in claimed if claim.has_number and claim.source is None]
    assert {claim.kind for claim in own} == {Kind.PAGE, Kind.WORDS}
    assert len(own) < sum(claim.has_number for claim in claimed) / 5


def test_a_word_that_is_printed_wrong_is_found_on_its_page() -> None:
    made = finished(PLAIN)
    page = next(page for page in made.pages if "left" in page.text)
    at = page.text.index("left")
    wrong = page
    for offset, letter in enumerate("edge"):
        wrong = with_letter(wrong, at + offset, replace(wrong.letters[at + offset], text=letter))
    pages = [wrong if each is page else each for each in made.pages]
    (failing,) = [proof for proof in read_back(made.claims, pages) if not proof.holds]
    assert (failing.page, failing.unclaimed) == (page.number, ("edge",))


def test_the_letter_of_a_piece_that_is_printed_wrong_is_found() -> None:
    made = finished(PLAIN)
    page = next(page for page in made.pages if page.number > 2 and " B " in page.text)
    at = page.text.index(" B ") + 1
    wrong = with_letter(page, at, replace(page.letters[at], text="C"))
    pages = [wrong if each is page else each for each in made.pages]
    assert failed(read_back(made.claims, pages)) == [page.number]


def test_what_prints_another_number_than_it_stands_for_is_found() -> None:
    made = finished(PLAIN)
    at, claim = next((at, one) for at, one in enumerate(made.claims) if one.kind.value == "reading")
    slipped = replace(claim, value=(claim.value[0] + Fraction(1, 8),))
    proofs = read_back([*made.claims[:at], slipped, *made.claims[at + 1 :]], made.pages)
    (page,) = [page for page in proofs if not page.holds]
    assert page.misprinted == (slipped,)
