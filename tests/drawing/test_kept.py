"""What is made of a thing is made once, by what else is said, and goes when the thing goes."""

from __future__ import annotations

import gc
import weakref
from dataclasses import dataclass

from booklet.measure.cache import cached_on, remember


@dataclass(frozen=True, eq=False)
class Sheet:
    """Anything of which something is made."""

    name: str


class Drawing:
    """What is made of it; it knows its sheet, as drawings do."""

    def __init__(self, sheet: Sheet, scale: int) -> None:
        self.sheet, self.scale = sheet, scale


@cached_on
def drawn(sheet: Sheet, scale: int = 1) -> Drawing:
    """The sheet drawn."""
    return Drawing(sheet, scale)


@cached_on
def numbered(sheet: Sheet, scale: int = 1) -> str:
    """Another thing made of the same."""
    return f"{sheet.name} {scale}"


def test_what_is_asked_for_twice_is_made_once() -> None:
    sheet = Sheet("fern")
    assert drawn(sheet, 5) is drawn(sheet, 5)
    assert drawn(sheet, 5) is not drawn(sheet, 4)
    assert numbered(sheet, 5) == "fern 5"  # not what another function made of it


def test_what_was_made_elsewhere_is_not_made_again() -> None:
    sheet = Sheet("fern")
    made = Drawing(sheet, 5)
    remember(drawn, made, sheet, 5)
    assert drawn(sheet, 5) is made
    assert drawn(sheet, 4) is not made


def test_two_sheets_alike_keep_each_their_own() -> None:
    assert drawn(Sheet("fern"), 5) is not drawn(Sheet("fern"), 5)


def test_what_is_kept_goes_with_its_sheet() -> None:
    gc.freeze()  # what other tests keep is not searched
    sheet = Sheet("fern")
    gone = weakref.ref(drawn(sheet))
    del sheet
    gc.collect()
    assert gone() is None
