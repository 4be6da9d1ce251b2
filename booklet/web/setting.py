"""What every part of the page is made with."""

from __future__ import annotations

from booklet.content.artist import Room
from booklet.content.blocks import Picture, Section
from booklet.content.spans import Line
from booklet.content.words.language import Language
from booklet.measure.dataclass import dataclass, replace
from booklet.web.markup import Element, Node, element
from booklet.web.plates import Plates
from booklet.web.said import Speaker


@dataclass(frozen=True, eq=False)
class Setting:
    """Who draws figures, who says lines, and the words that the page adds by itself."""

    plates: Plates
    speaker: Speaker
    language: Language

    def say(self, said: Line) -> tuple[Node, ...]:
        """A line as what stands in an element."""
        return self.speaker.say(said)

    def name(self, said: Line) -> tuple[Node, ...]:
        """A line as what stands in a link or a button, without links of its own."""
        return replace(self.speaker, anchors=frozenset()).say(said)

    def picture(self, picture: Picture, room: Room) -> Element:
        """A picture with what it shows in words."""
        return self.plates.picture(picture, room)

    def number(self, section: Section) -> Element | None:
        """The number before the title of a section that has one."""
        return element("span", section.number, " ", class_="number") if section.number else None

    def within(self, section: str) -> Setting:
        """The setting of a section: a link does not lead to where it stands."""
        return replace(self, speaker=replace(self.speaker, section=section))
