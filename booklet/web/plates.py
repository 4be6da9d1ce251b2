"""The figures of a page, drawn as it asks for them and written together: what they share is written once."""

from __future__ import annotations

from dataclasses import replace

from booklet.content.artist import Artist, Room, draw
from booklet.content.blocks import Picture
from booklet.content.spans import plain_text
from booklet.drawing.shapes.figure import Figure
from booklet.drawing.writers.svg_writer import svg_parts
from booklet.web.markup import Drawn, Element, Node, element

_PREFIX = "drawn-"


class Plates:
    """The figures that a page has asked for so far: it holds a place for each until all are known."""

    def __init__(self, artist: Artist) -> None:
        self._artist = artist
        self._figures: list[Figure] = []
        self._places: dict[tuple[object, Room], int] = {}

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
            self._places[key] = self.add(draw(self._artist, picture.figure, room))
        return self._places[key]

    def filled(self, page: Element) -> Element:
        """The page with every figure in its place, and before all else in its body what they share."""
        defined, parts = svg_parts(self._figures, _PREFIX)
        drawn = [
            (
                (
                    ("viewBox", part.view_box),
                    ("width", f"{part.box.width:.0f}pt"),
                    ("height", f"{part.box.height:.0f}pt"),
                ),
                Drawn(part.elements),
            )
            for part in parts
        ]

        def fill(node: Node) -> Node:
            if not isinstance(node, Element):
                return node
            if node.tag == "svg":
                named = dict(node.attributes)
                room, within = drawn[int(named.pop("data-figure") or 0)]
                return replace(node, attributes=(*named.items(), *room), children=(within,))
            return replace(node, children=tuple(map(fill, node.children)))

        shared = element(
            "svg", Drawn(defined), class_="shared", width=0, height=0, aria_hidden="true", focusable="false"
        )
        body = fill(page)
        assert isinstance(body, Element)
        return replace(body, children=(shared, *body.children))
