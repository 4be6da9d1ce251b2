"""The faces of a page as a part of its style: with the letters that it holds, whatever is installed."""

from __future__ import annotations

from base64 import b64encode
from string import printable

from booklet.drawing.shapes.fonts import Font
from booklet.drawing.writers.web_font import web_font

_RULES = {
    Font.SANS: "font-family:'Booklet Sans';font-weight:400",
    Font.SANS_BOLD: "font-family:'Booklet Sans';font-weight:600",
    Font.SANS_ITALIC: "font-family:'Booklet Sans';font-style:italic",
    Font.SERIF_BOLD: "font-family:'Booklet Serif';font-weight:600",
}


def face_rules(text: str) -> str:
    """Rules that bring every face with the letters of a text, and with those that are typed to search it."""
    letters = sorted({*text, *printable})
    return "".join(
        f"@font-face{{{rule};src:url(data:font/woff;base64,{b64encode(web_font(face, letters)).decode()})}}\n"
        for face, rule in _RULES.items()
    )
