"""What stands about the views of the companion: its head with their names, the start, the settings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.content.artist import Room
from booklet.content.blocks import Document, Picture
from booklet.content.other_unit import other_unit
from booklet.content.spans import Line, plain_text
from booklet.measure.length import Unit
from booklet.web.markup import Element, Node, element
from booklet.web.setting import Setting

_COVER = Room(560.0, 300.0)


def companion_head(setting: Setting, document: Document, names: Sequence[str]) -> Element:
    """The head that stays: the kit, and a link to every view that there is."""
    words = setting.language.companion
    said: dict[str, Line] = {
        "start": words.start,
        "cut": words.cut,
        "pieces": words.pieces,
        "pages": words.pages,
        "booklet": words.booklet,
        "settings": words.settings,
    }
    links = (
        element("li", element("a", setting.say(said[name]), href=f"#/{name}", data_view=name))
        for name in names
    )
    title = element("p", setting.say(document.sections[0].title), class_="kit")
    nav = element("nav", element("ul", links), aria_label=plain_text(words.parts))
    return element("header", title, nav, id="head", hidden=True)


# The start.


def start_view(setting: Setting, document: Document, names: Sequence[str]) -> Element:
    """The view that opens: the finished pages, how far one is, and where to go on."""
    words, cover = setting.language.companion, document.sections[0]
    picture = next((block for block in cover.blocks if isinstance(block, Picture)), None)
    shown = setting.picture(picture, _COVER) if picture is not None else None
    kicker = element("p", setting.say(cover.kicker), class_="kicker")
    ways = (
        _way(setting, name, *said)
        for name, said in {
            "cut": (words.begin_cutting, words.go_on_cutting, words.cuts_done),
            "pieces": (words.pieces, (), words.pieces_filed),
            "pages": (words.begin_pages, words.go_on_pages, words.steps_done),
        }.items()
        if name in names
    )
    read = element("a", setting.say(words.read_first), href="#/booklet", class_=("way", "plain"))
    whole = element("a", setting.say(setting.language.overview.title), href="#/kit", class_=("way", "plain"))
    return element(
        "section",
        element("div", kicker, element("h1", setting.say(cover.title)), shown, class_="hero"),
        element(
            "div",
            ways,
            whole,
            read,
            element("p", setting.say(words.how_to_go_on), class_="note"),
            class_="ways",
        ),
        id="view-start",
        class_="view",
        hidden=True,
    )


def _way(setting: Setting, name: str, begin: Line, go_on: Line, done: Line) -> Element:
    """A way on, with how much of it is done."""
    said: list[Node] = [element("b", setting.say(begin), class_="begin")]
    if go_on:
        said.append(element("b", setting.say(go_on), class_="go-on", hidden=True))
    bar = element("progress", value=0, max=1, data_progress=name, aria_label=plain_text(done))
    count = element("span", setting.say(done), ": ", element("span", data_progress_said=name), class_="count")
    return element("a", said, bar, count, href=f"#/{name}", class_="way")


# The settings.


def settings_view(setting: Setting, unit: Unit, zeros: Sequence[str]) -> Element:
    """The view of the settings; `zeros` are the sides of the trimmer's zero that the companion has."""
    words = setting.language.companion
    other = other_unit(unit)
    units = {"kit": words.in_unit(unit), "other": words.in_unit(other)}
    return element(
        "section",
        element("h1", setting.say(words.settings)),
        _choice(setting, "unit", words.measures, units, words.other_unit_note),
        _zero(setting, zeros),
        element(
            "label", element("input", type="checkbox", id="large-type"), _said(setting, words.large_type)
        ),
        element("div", _clearing(setting), class_="clearing"),
        id="view-settings",
        class_="view",
        hidden=True,
    )


def _said(setting: Setting, said: Line) -> Element:
    return element("span", setting.say(said))


def _choice(
    setting: Setting, name: str, title: Line, choices: dict[str, Line], note: Line, first: str | None = None
) -> Element:
    """A choice of one; the first is chosen, unless another is named."""
    chosen = first or next(iter(choices))
    radios = (
        element(
            "label",
            element("input", type="radio", name=name, value=value, checked=value == chosen),
            _said(setting, said),
        )
        for value, said in choices.items()
    )
    return element(
        "fieldset",
        element("legend", setting.say(title)),
        radios,
        element("p", setting.say(note), class_="note"),
    )


def _zero(setting: Setting, zeros: Sequence[str]) -> Element | None:
    if len(zeros) < 2:
        return None
    words = setting.language.companion
    sides = {"left": words.zero_left, "right": words.zero_right}
    return _choice(setting, "zero", words.zero, sides, words.zero_note, zeros[0])


def _clearing(setting: Setting) -> Iterator[Node]:
    words = setting.language.companion
    yield element("h2", setting.say(words.ticks))
    yield element("p", setting.say(words.not_kept), id="not-kept", hidden=True)
    yield element("button", setting.say(words.clear), type="button", id="clear", class_="plain")
    yield element(
        "div",
        element("p", setting.say(words.really_clear)),
        element("button", setting.say(words.clear_now), type="button", id="clear-now", class_="danger"),
        element("button", setting.say(words.keep), type="button", id="keep", class_="plain"),
        id="really-clear",
        hidden=True,
    )
    yield element("p", setting.say(words.cleared), id="cleared", role="status", hidden=True)
