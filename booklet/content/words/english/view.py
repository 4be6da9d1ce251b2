"""The words of the live look: what stands about the pages on the screen."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType


class EnglishView:
    """The words of the live look in English.

    `page` are those that its page is written with, `told` those that it says by itself: there `{n}` and the
    like stand for a number or a name.
    """

    code = "en"
    page: Mapping[str, str] = MappingProxyType(
        {
            "pages": "The booklet",
            "beside": "Beside the pages",
            "findings": "Findings",
            "changes": "Last save",
            "smaller": "Smaller",
            "larger": "Larger",
            "fit": "Fit",
            "go_to": "Page",
            "no_script": "This page needs JavaScript, which comes from this computer alone.",
            "close": "Close",
            "whole_kit": "Whole kit",
            "keys": "Click anything on a page to see its line, or go to it by Tab and the arrow keys",
        }
    )
    told: Mapping[str, str] = MappingProxyType(
        {
            "current": "Up to date",
            "working": "Working it out",
            "starting": "Laying out the pages",
            "broken": "The spec cannot be used as it is: these are the last good pages",
            "gone": "The spec is not there: these are the last good pages",
            "brokenEmpty": "The spec cannot be used as it is",
            "goneEmpty": "The spec is not there",
            "away": "The program has ended: start it again to go on",
            "full": "Too many windows look at this kit: close one of them",
            "waiting": "Open in five other tabs of this browser: close one of them to see the pages here",
            "page": "page {n}",
            "line": "line {n}",
            "lines": "lines {n}",
            "error": "Error",
            "warning": "Warning",
            "note": "Note",
            "expected": "expected {n}",
            "found": "found {n}",
            "nearest": "nearest: {n}",
            "more": "and {n} more",
            "noFindings": "Nothing found",
            "noChanges": "Nothing has changed yet",
            "sameLook": "No page looks different",
            "pagesNow": "{n} pages, {m} before",
            "alsoIn": "The same in {n}",
            "lastGood": "as it was when the pages were made",
            "of": "of {n}",
            "places": "{n}: what it shows, by its line",
        }
    )
    too_large = "the kit is larger than this computer can work out"

    def fault(self, kind: str) -> str:
        """A fault of the program, of a kind of exception."""
        return f"this is a fault of the program, not of your kit: {kind}"
