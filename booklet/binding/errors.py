"""What binding can refuse.

BindingError
├── PageCountError        the pages do not fill whole press sheets
├── StockTooSmallError    two pages do not fit side by side on the press sheet
├── PageSizeError         a page of the booklet is not the size it was said to be
└── UnreadablePagesError  the booklet in reading order is no PDF that can be read
"""

from __future__ import annotations

from booklet.kit.errors import BookletError


class BindingError(BookletError):
    """The booklet cannot be bound as asked."""


class PageCountError(BindingError):
    """The number of pages is not a positive multiple of four."""


class StockTooSmallError(BindingError):
    """The press sheet cannot hold two pages side by side."""


class PageSizeError(BindingError):
    """A page of the booklet differs from the page size that was stated."""


class UnreadablePagesError(BindingError):
    """The bytes in reading order are not a PDF that can be read."""
