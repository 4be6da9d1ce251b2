"""The whole kit in one picture, of which a script lets one thing be followed: a piece, a sheet, a pocket, a page.

Every thing to follow is a button with words to it; pointing at the picture does the same.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.content.artist import Room
from booklet.content.overview import Follow, Overview
from booklet.content.spans import Line
from booklet.web.markup import Element, element
from booklet.web.setting import Setting

_ROOM = Room(720.0)


def overview_view(setting: Setting, overview: Overview) -> Element:
    """The view of the whole kit."""
    words = setting.language.overview
    return element(
        "section",
        element("h2", setting.say(overview.title)),
        element("p", setting.say(overview.lead), " ", setting.say(words.how_to_follow), class_="note"),
        element("div", setting.picture(overview.picture, _ROOM), class_="flow"),
        element("div", _buttons(setting, overview), class_="followed"),
        element("ul", _pieces(setting, overview.pieces), class_="told", aria_live="polite"),
        id="view-kit",
        class_="view",
        hidden=True,
    )


def _buttons(setting: Setting, overview: Overview) -> Iterator[Element]:
    """What can be followed, a row for each kind of thing; and a way back to all of it."""
    words = setting.language.overview
    yield element("button", setting.say(words.all), type="button", data_follow="", aria_pressed="true")
    for title, things in ((words.sheets, overview.sources), (words.pockets, overview.pockets), (words.layouts, overview.layouts)):
        yield element("h3", setting.say(title))
        yield element("div", [_button(setting, thing) for thing in things], class_="things")


def _button(setting: Setting, thing: Follow) -> Element:
    said = setting.speaker.plain(thing.name)
    return element("button", said, type="button", data_follow=thing.tag, aria_pressed="false")


def _pieces(setting: Setting, pieces: Sequence[Line]) -> Iterator[Element]:
    for number, said in enumerate(pieces):
        yield element("li", setting.say(said), data_piece=number)
