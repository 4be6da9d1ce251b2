"""A canvas as every file of this program begins: the same bytes for the same drawing, and who made it."""

from __future__ import annotations

from io import BytesIO
from typing import Any, TypeVar

from reportlab import rl_config

from booklet import PROGRAM, VERSION
from booklet.content.spans import Line, plain_text
from booklet.drawing.shapes.fonts import Font
from booklet.drawing.writers.pdf_fonts import pdf_font_name
from booklet.pages.canvas import BookletCanvas

Made = TypeVar("Made", bound=BookletCanvas)


def open_canvas(make_canvas: type[Made], out: BytesIO, language: str, **options: Any) -> Made:
    """A canvas that writes to `out`: no clock, packed, in our letters; `options` are those of its class."""
    rl_config.useA85 = 0
    usual: dict[str, Any] = {
        "invariant": 1,
        "pageCompression": 1,
        "initialFontName": pdf_font_name(Font.SANS),
    }
    canvas = make_canvas(out, lang=language, **usual | options)
    canvas.setCreator(f"{PROGRAM} {VERSION}")
    return canvas


def set_titles(canvas: BookletCanvas, title: Line, author: Line, subject: Line) -> None:
    """What the file is called, whose it is, and what it is about."""
    canvas.setTitle(plain_text(title))
    canvas.setAuthor(plain_text(author))
    canvas.setSubject(plain_text(subject))


def ask_for_true_size(canvas: BookletCanvas, duplex: str | None = None) -> None:
    """Ask viewers to show the title and to print at 100 %, on the sides that `duplex` says.

    PrintScaling None and the words of Duplex: ISO 32000-1, table 150 (from memory).
    """
    preferences = {"DisplayDocTitle": "true", "PrintScaling": "None"}
    if duplex is not None:
        preferences["Duplex"] = duplex
    for key, value in preferences.items():
        canvas.setViewerPreference(key, value)
