"""What binding can refuse.

BindingError
├── PageCountError        the pages do not fill whole press sheets, or a signature has no sheets
├── StockError            a press sheet of a name or size that is none
├── StockTooSmallError    the pages, or so many copies of them, do not fit on the press sheet
├── CreepError            a caliper or a fold factor that cannot be, or creep that would eat the page
├── BleedError           a bleed that no cutter needs or no sheet has room for
├── InkLimitError        a limit of ink that letters on a colour would pass, or that limits nothing
├── ConditionError       a print condition that is not registered
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


class BleedError(BindingError):
    """Pages cannot be printed so far beyond their trim."""


class InkLimitError(BindingError):
    """So much or so little ink is no limit."""


class ConditionError(BindingError):
    """No print condition is registered by that name."""


class PageSizeError(BindingError):
    """A page of the booklet differs from the page size that was stated."""


class UnreadablePagesError(BindingError):
    """The bytes in reading order are not a PDF that can be read."""
