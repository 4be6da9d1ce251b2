"""Books of kits that are built in a test."""

from __future__ import annotations

from pathlib import Path

from booklet.drawing.shapes.scale import Scale
from booklet.kit.kit import Kit
from booklet.pages.book import Book, open_book
from tests.drawing.looks import resolved_kit
from tests.pages.front import QUARTER


def book_of_kit(kit: Kit, folder: Path = Path(), scale: Scale = QUARTER) -> Book:
    """The book of a kit; `folder` holds its images."""
    return open_book(resolved_kit(kit, folder), scale)
