"""The whole kit in one picture, through which a script follows one thing: a piece, a sheet, a pocket, a page.

Every thing to follow is a button with words to it; pointing at the picture does the same.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.content.artist import Room
from booklet.content.overview import Followed, Overview, rows_to_follow
from booklet.content.spans import Line, plain_text
from booklet.web.markup import Element, element
from booklet.web.setting import Setting

_ROOM = Room(720.0)


def overview_view(setting: Setting, overview: Overview) -> Element:
    """The view of the whole kit."""
    words = setting.language.overview
    return element(
        "section",
        element("h1", setting.say(overview.title)),
        element("p", setting.say(overview.lead), " ", setting.say(words.how_to_follow), class_="note"),
        _picture(setting, overview),
        element("ul", _pieces(overview.pieces), class_="told", aria_live="polite"),
        element("div", _buttons(setting, overview), class_="followed"),
        id="view-kit",
        class_="view",
        hidden=True,
    )


def _picture(setting: Setting, overview: Overview) -> Element:
    """The picture, which a narrow screen shows in parts: keys move it, too."""
    name = plain_text(overview.title)
    picture = setting.picture(overview.picture, _ROOM)
    return element("div", picture, class_="flow", tabindex=0, role="group", aria_label=name)


def _buttons(setting: Setting, overview: Overview) -> Iterator[Element]:
    """What can be followed, a row for each kind of thing; and a way back to all of it."""
    said = setting.say(setting.language.overview.all)
    yield element("button", said, type="button", data_follow="", aria_pressed="true")
    for title, things in rows_to_follow(overview, setting.language):
        yield element("h2", setting.say(title))
        yield element("div", map(_button, things), class_="things")


def _button(thing: Followed) -> Element:
    said = plain_text(thing.name)
    return element("button", said, type="button", data_follow=thing.tag, aria_pressed="false")


def _pieces(pieces: Sequence[Line]) -> Iterator[Element]:
    for number, said in enumerate(pieces):
        yield element("li", plain_text(said), data_piece=number)
