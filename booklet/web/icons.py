"""The signs on the buttons, drawn in the colour of their words."""

from __future__ import annotations

from booklet.web.markup import Element, element

_SQUARE = "0 0 24 24"
# Strokes on that square.
_STROKES = {
    "back": "M15 4 7 12l8 8",
    "next": "M9 4l8 8-8 8",
    "speak": "M4 9v6h4l6 5V4L8 9zM17.5 8.5a5 5 0 0 1 0 7M20 6a9 9 0 0 1 0 12",
    "print": "M7 8V3h10v5M7 17H4v-7h16v7h-3M7 14h10v7H7z",
}


def icon(name: str) -> Element:
    """A sign by the name of what it stands for; its words stand beside it."""
    return element(
        "svg", element("path", d=_STROKES[name]), class_="icon", viewBox=_SQUARE, aria_hidden="true"
    )
