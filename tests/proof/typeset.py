"""Figures brought to a PDF by another route: as SVG, set on a page by Typst, which shares no code with us."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

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
    compile_files: Any = typst.compile  # its types know one file alone
    (page,) = read_pages(compile_files(files, font_paths=[FONTS], ignore_system_fonts=True))
    return Page(number, page.width, page.height, page.letters, page.paths, page.forms)
