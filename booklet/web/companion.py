"""The companion: the whole booklet of a kit as one HTML file, for a screen on the table.

It asks for nothing from anywhere.  Without a script it is the booklet as a document.
"""

from __future__ import annotations

from collections.abc import Sequence
from importlib.resources import files

from booklet.content.artist import artist_in_colour
from booklet.content.blocks import Document, Heading, Section
from booklet.content.document import document
from booklet.content.edition import edition_name
from booklet.content.spans import plain_text
from booklet.content.words.language import ENGLISH, Language
from booklet.drawing.shapes.style import Palette
from booklet.kit.kit import trimmer_limits
from booklet.measure.dataclass import dataclass
from booklet.placing.resolved import ResolvedKit
from booklet.web.document import document_page, sections_of
from booklet.web.faces import face_rules
from booklet.web.markup import Drawn, Element, element, html_text
from booklet.web.plates import Plates
from booklet.web.policy import policy
from booklet.web.said import Speaker
from booklet.web.setting import Setting
from booklet.web.views import companion_views

_STYLES = ("page.css", "views.css")
# Runs before the page is shown; the others, once all of it is there, in the order in which one needs another.
# As a module their names are their own.
_FIRST = "first.js"
_SCRIPTS = ("store.js", "ticks.js", "speech.js", "walks.js", "search.js", "follow.js", "flow.js", "views.js")


@dataclass(frozen=True)
class Companion:
    """The finished file, and the edition that it is of."""

    html: bytes
    edition: str


def make_companion(resolved: ResolvedKit, language: Language = ENGLISH) -> Companion:
    """The companion of a kit: the same kit gives the same bytes.

    Raises PictureError for an image that can no longer be read.
    """
    said = document(resolved, language)
    edition = edition_name(resolved, said)
    artist = artist_in_colour(resolved, language)
    plates = Plates(artist)
    zero = trimmer_limits(resolved.kit).zero.value
    setting = Setting(plates, Speaker(said.ways, _anchors(said)), language)
    first, script = read_part(_FIRST), "".join(map(read_part, _SCRIPTS))
    head, *views = companion_views(setting, said, resolved)
    main = element("main", views, document_page(setting, said))
    body = plates.filled(element("body", head, main, element("script", Drawn(script), type="module")))
    style = _style(artist.style.palette, html_text(body))
    page = element(
        "html", _head(said, edition, style, (first, script)), body, lang=said.language, data_zero=zero
    )
    return Companion(f"<!DOCTYPE html>\n{html_text(page)}\n".encode(), edition)


def _anchors(said: Document) -> frozenset[str]:
    """What a link may lead to."""
    found: set[str] = set()
    for section in sections_of(said):
        found.add(section.anchor)
        found.update(_within(section))
    return frozenset(found)


def _within(section: Section) -> set[str]:
    found: set[str] = set()
    for block in section.blocks:
        anchors = [getattr(block, "anchor", None)] if isinstance(block, Heading) else []
        anchors += [row.anchor for row in getattr(block, "rows", ())]
        anchors.append(getattr(block, "anchor", None))
        found.update(anchor for anchor in anchors if anchor is not None)
    return found


def _head(said: Document, edition: str, style: str, scripts: Sequence[str]) -> Element:
    return element(
        "head",
        element("meta", charset="utf-8"),
        element("meta", http_equiv="Content-Security-Policy", content=policy([style], scripts)),
        element("meta", name="viewport", content="width=device-width, initial-scale=1"),
        element("meta", name="author", content=plain_text(said.author)),
        element("meta", name="description", content=plain_text(said.subject)),
        element("meta", name="edition", content=edition),
        element("title", plain_text(said.title)),
        element("style", Drawn(style)),
        element("script", Drawn(scripts[0])),
    )


def _style(palette: Palette, text: str) -> str:
    """The style of the page: its faces with the letters of a text, the kit's colours, and all else."""
    colours = (
        f":root{{--accent:{palette.accent.hex};--tint:{palette.accent_tint.hex};--ink:{palette.ink.hex}}}\n"
    )
    return face_rules(text) + colours + "".join(map(read_part, _STYLES))


def read_part(name: str) -> str:
    """A style or a script that comes with the program."""
    return files("booklet.web").joinpath(name).read_text(encoding="utf-8")
