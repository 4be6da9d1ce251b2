"""What binding can refuse.

BindingError
├── PageCountError        the pages do not fill whole press sheets, or a signature has no sheets
├── StockError            a press sheet of a name or size that is none
├── StockTooSmallError    the pages, or so many copies of them, do not fit on the press sheet
├── CreepError            a caliper or a fold factor that cannot be, or creep that would eat the page
├── PageSizeError         a page of the booklet is not the size it was said to be, or lacks its bleed
└── UnreadablePagesError  the booklet in reading order is no PDF that can be read
"""

from __future__ import annotations

from booklet.kit.errors import BookletError


class BindingError(BookletError):
    """The booklet cannot be bound as asked."""


class PageCountError(BindingError):
    """The number of pages is not a positive multiple of four."""


class StockError(BindingError):
    """No press sheet is called so, or has such a size."""


class StockTooSmallError(BindingError):
    """The press sheet cannot hold the pages that belong on a side of it."""


class CreepError(BindingError):
    """The paper cannot be so thick, its folds not take so much, or the page would lose print to creep."""


class PageSizeError(BindingError):
    """A page of the booklet differs from the page size that was stated."""


class UnreadablePagesError(BindingError):
    """The bytes in reading order are not a PDF that can be read."""
