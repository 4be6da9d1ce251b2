"""Figures brought to a PDF by another route: as SVG, set on a page by Typst, which shares no code with us."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import typst

from booklet.proof.printed import Page
from booklet.proof.reader import read_pages

FONTS = Path(__file__).parents[2] / "fonts"


def typeset(figures: Sequence[tuple[str, str]], number: int) -> Page:
    """A page of this number with figures one under the other, each an SVG and the words below it."""
    source, files = ["#set page(width: auto, height: auto, margin: 24pt)"], dict[str, bytes]()
    for at, (svg, words) in enumerate(figures):
        files[f"{at}.svg"] = svg.encode()
        source += [f'#image("{at}.svg")', words]
    files["main.typ"] = "\n\n".join(source).encode()
    compiled = typst.compile(dict(files), font_paths=[FONTS], ignore_system_fonts=True)
    assert isinstance(compiled, bytes)
    (page,) = read_pages(compiled)
    return Page(number, page.width, page.height, page.letters, page.paths, page.forms)
