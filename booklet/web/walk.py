"""A walk: one thing after another on cards, each with its drawing, and a row of all to leap by.

All of it is in the page from the beginning, hidden; a script shows a card and the layers of its drawing.
"""

from __future__ import annotations

from collections.abc import Iterable

from booklet.measure.dataclass import dataclass
from booklet.web.icons import icon
from booklet.web.markup import Element, Node, element
from booklet.web.said import anchor_id, ids_of
from booklet.web.setting import Setting


@dataclass(frozen=True)
class Card:
    """One step: what is told, the board that is shown with it, and up to which cut or step of it.

    `ticks` are what is done with it, by their ids; its own is its key.  A card that only tells has none.
    `kind` says how it is shown: a turn names its way.
    """

    key: str
    told: tuple[Node, ...]
    board: str = ""
    at: int = 0
    ticks: tuple[str, ...] = ()
    kind: str = ""


@dataclass(frozen=True)
class Leap:
    """A sheet or a layout: what stands for it in the row of all, and its cards."""

    name: str
    shown: tuple[Node, ...]
    cards: tuple[Card, ...]


@dataclass(frozen=True)
class Walk:
    """A walk by its name and its title, its leaps in order, and its boards.

    Of those that there are for either side of the trimmer's zero, `zero` is its side.
    """

    name: str
    title: tuple[Node, ...]
    leaps: tuple[Leap, ...]
    leaps_name: str
    boards: tuple[tuple[str, Element], ...]
    last: Card
    zero: str = ""

    @property
    def id(self) -> str:
        """The id of its view."""
        return f"view-{self.name}-{self.zero}" if self.zero else f"view-{self.name}"


def walk_view(setting: Setting, walk: Walk) -> Element:
    """A walk as a part of the page."""
    cards = (*(card for leap in walk.leaps for card in leap.cards), walk.last)
    return element(
        "section",
        element("h1", walk.title, class_="aloud", id=f"{walk.id}-title"),
        element(
            "nav",
            element("ol", (_leap(setting, leap) for leap in walk.leaps)),
            class_="leaps",
            aria_label=walk.leaps_name,
        ),
        element(
            "div",
            element("div", (_board(key, drawn) for key, drawn in walk.boards), class_="boards"),
            _deck(walk, cards),
            class_="bench",
        ),
        _bar(setting),
        id=walk.id,
        class_=("view", "walk"),
        data_walk=walk.name,
        data_zero=walk.zero or None,
        hidden=True,
    )


def _deck(walk: Walk, cards: Iterable[Card]) -> Element:
    """The cards, of which one shows; where its words are many, keys move them."""
    return element(
        "div",
        map(_card, cards),
        class_="deck",
        aria_live="polite",
        tabindex=0,
        role="group",
        aria_labelledby=f"{walk.id}-title",
    )


def _leap(setting: Setting, leap: Leap) -> Element:
    """A button of the row of all: what it shows is for the eye, its name and that it is done for the ear."""
    said = element("span", ", ", setting.say(setting.language.companion.done), class_="aloud")
    done = element(
        "span", element("span", "\u2713", aria_hidden="true"), said, class_="all-done", hidden=True
    )
    shown = element("span", leap.shown, class_="shown", aria_hidden="true")
    name = element("span", leap.name, class_="aloud")
    first = anchor_id(leap.cards[0].key)
    return element("li", element("button", shown, name, done, type="button", data_leap=first))


def _board(key: str, drawn: Element) -> Element:
    return element("div", drawn, class_="board", data_board=anchor_id(key), hidden=True)


def _card(card: Card) -> Element:
    return element(
        "article",
        card.told,
        class_="card",
        data_key=anchor_id(card.key),
        data_board_of=anchor_id(card.board) or None,
        data_at=card.at or None,
        data_ticks=ids_of(card.ticks) or None,
        data_kind=card.kind or None,
        hidden=True,
    )


def _bar(setting: Setting) -> Element:
    words = setting.language.companion
    return element(
        "div",
        _button(setting.say(words.back), "back"),
        _button(setting.say(words.read_aloud), "speak", hidden=True),
        _button(setting.say(words.print_this), "print"),
        element(
            "button", element("span", setting.say(words.done)), type="button", data_do="done", class_="done"
        ),
        _button(setting.say(words.next), "next"),
        class_="bar",
    )


def _button(name: tuple[Node, ...], does: str, *, hidden: bool = False) -> Element:
    return element("button", icon(does), element("span", name), type="button", data_do=does, hidden=hidden)
