"""What the server has to give: the state that is shown, the pictures, the page that shows them."""

from __future__ import annotations

import json
from html import escape
from pathlib import Path
from secrets import token_hex
from string import Template
from typing import Any

from booklet.content.words.english.view import EnglishView
from booklet.drawing.shapes.fonts import Font, font_file
from booklet.kit.kept_path import KeptPath
from booklet.view.lines import file_lines, place_lines
from booklet.view.pictures import Pictures
from booklet.view.shown import Shown
from booklet.view.told import places_told, state_told
from booklet.view.viewers import InView, Viewers
from booklet.view.whole_kit import whole_kit_told

# More windows than anybody looks at; each holds a thread.
_MOST_VIEWERS = 24


class Look:
    """The live look at one kit: written by the session, read by the server."""

    def __init__(self, name: str, words: EnglishView) -> None:
        self.name, self.words = name, words
        # Tells this start of the program from others, to whom a browser may have listened on the same port.
        self.run = token_hex(8)
        self.pictures = Pictures()
        self.viewers = Viewers(_MOST_VIEWERS)
        self.shown = Shown()

    def note(self, name: str, in_view: InView) -> bool:
        """Note what a browser has in view, to tell it what changes there; whether there is such a browser."""
        is_known = self.viewers.look(name, in_view)
        if is_known:
            self.have_ready(in_view)
        return is_known

    def have_ready(self, in_view: InView) -> None:
        """Have the pages at hand that a browser has in view."""
        if in_view.width > 0:
            shown = {page.number: page.digest for page in self.shown.pages}
            digests = [shown[number] for number in in_view.pages if number in shown]
            self.pictures.have_ready(digests, in_view.width)

    def state(self) -> dict[str, Any]:
        """The state as a browser is told it."""
        return state_told(self.shown)

    def places(self, number: int) -> list[dict[str, Any]]:
        """What stands where on a page."""
        return places_told(self.shown, number)

    def lines(self, place: KeptPath) -> dict[str, Any] | None:
        """The lines about a place of the spec; None before there is one."""
        return place_lines(self.shown, place)

    def file_lines(self, line: int) -> dict[str, Any]:
        """The lines about a line of the file as it is."""
        return file_lines(self.shown, line)

    def whole_kit(self) -> dict[str, Any] | None:
        """The picture of the whole kit, worked out when it is asked for; None before there is a kit."""
        shown = self.shown
        if shown.resolved is None or shown.source is None:
            return None
        return whole_kit_told(shown.resolved, shown.source)

    def font(self, name: str) -> bytes | None:
        """The file of a face; None for one that is not ours."""
        found = next((font for font in Font if font.value == name), None)
        return None if found is None else font_file(found).read_bytes()

    def front_page(self, file: Path) -> bytes:
        """The page that shows all, with its words."""
        words = {key: escape(said) for key, said in self.words.page.items()}
        said = escape(json.dumps(dict(self.words.told), ensure_ascii=False))
        page = Template(file.read_text(encoding="utf-8")).substitute(
            words, name=escape(self.name), language=self.words.code, words=said
        )
        return page.encode("utf-8")
