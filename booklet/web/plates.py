"""The figures of a page, drawn as it asks for them and written together: what they share is written once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from booklet.content.artist import Artist, Room, draw
from booklet.content.blocks import Picture
from booklet.content.spans import plain_text
from booklet.drawing.shapes.figure import Figure
from booklet.drawing.writers.svg_writer import svg_parts
from booklet.measure.dataclass import replace
from booklet.web.markup import Drawn, Element, Node, element

_PREFIX = "drawn-"
# The attribute that holds the place of a figure, by its number.
_PLACE = "data-figure"


class Plates:
    """The figures that a page has asked for so far: it holds a place for each until all are known."""

    def __init__(self, artist: Artist, figures: list[Figure] | None = None) -> None:
        self.artist = artist
        self._figures = [] if figures is None else figures
        self._places: dict[tuple[object, Room], int] = {}

    def by(self, artist: Artist) -> Plates:
        """Figures of the same page that another artist draws."""
        return Plates(artist, self._figures)

    def picture(self, picture: Picture, room: Room) -> Element:
        """A picture as a figure that a screen reader tells in words."""
        return self.figure(self._number(picture, room), plain_text(picture.alt))

    def decoration(self, picture: Picture, room: Room) -> Element:
        """A picture beside words that say the same."""
        return self.figure(self._number(picture, room), "")

    def figure(self, number: int, alt: str) -> Element:
        """The place of a figure, by its number; one without words to it is passed over."""
        told = {"role": "img", "aria_label": alt} if alt else {"aria_hidden": "true"}
        return element("svg", data_figure=number, **told)

    def add(self, figure: Figure) -> int:
        """Take up a figure that is drawn already, and give its number."""
        self._figures.append(figure)
        return len(self._figures) - 1

    def _number(self, picture: Picture, room: Room) -> int:
        key = picture.figure, room
        if key not in self._places:
            self._places[key] = self.add(draw(self.artist, picture.figure, room))
        return self._places[key]

    def filled(self, page: Element) -> Element:
        """The page with every figure in its place, and before all else in its body what they share.

        A figure that has more than one place is drawn there, too, and used.
        """
        defined, parts = svg_parts(self._figures, _PREFIX)
        count = Counter(_numbers_in(page))
        drawn: list[tuple[tuple[tuple[str, str], ...], Node]] = []
        again: list[Element] = []
        for number, part in enumerate(parts):
            within: Node = Drawn(part.elements)
            if count[number] > 1:
                name = f"{_PREFIX}figure-{number}"
                within = element("use", href=f"#{name}")
                again.append(element("g", Drawn(part.elements), id=name))
            room = (
                ("viewBox", part.view_box),
                ("width", f"{part.box.width:.0f}pt"),
                ("height", f"{part.box.height:.0f}pt"),
            )
            drawn.append((room, within))

        def fill(node: Node) -> Node:
            if not isinstance(node, Element):
                return node
            named = dict(node.attributes)
            if (number := named.pop(_PLACE, None)) is not None:
                room, within = drawn[int(number)]
                return replace(node, attributes=(*named.items(), *room), children=(within,))
            return replace(node, children=tuple(map(fill, node.children)))

        shared = element(
            "svg",
            Drawn(defined),
            element("defs", again),
            class_="shared",
            width=0,
            height=0,
            aria_hidden="true",
            focusable="false",
        )
        body = fill(page)
        assert isinstance(body, Element)
        return replace(body, children=(shared, *body.children))


def _numbers_in(node: Node) -> Iterator[int]:
    """The number of each figure that has its place in a node, as often as it has one."""
    if not isinstance(node, Element):
        return
    if (number := dict(node.attributes).get(_PLACE)) is not None:
        yield int(number)
    for child in node.children:
        yield from _numbers_in(child)
