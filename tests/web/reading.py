"""A page of HTML as a person and a machine read it, with the parser of the standard library."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from html.parser import HTMLParser

# Elements that stand within a line of words.
_INLINE = {"a", "b", "em", "span", "strong", "label", "abbr"}
_VOID = {"br", "hr", "img", "input", "link", "meta"}
# What is no part of what the booklet says: it is the same in the other unit, or what the page adds.
_UNSAID = {"other-unit", "aloud"}
# A browser shows none of it.
_UNSHOWN = {"style", "script", "title"}


@dataclass
class Page(HTMLParser):
    """What a page holds: words, measures, elements with their attributes, and what ends out of place."""

    words: list[str] = field(default_factory=list)
    measures: Counter[str] = field(default_factory=Counter)
    elements: list[tuple[str, dict[str, str | None]]] = field(default_factory=list)
    raw: dict[str, list[str]] = field(default_factory=dict)
    faults: list[str] = field(default_factory=list)
    _open: list[tuple[str, str]] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = dict(attrs)
        self.elements.append((tag, named))
        if tag not in _INLINE:
            self.words.append(" ")
        if tag == "a" and any(each == "a" for each, _ in self._open):
            self.faults.append("a link in a link")
        if tag not in _VOID:
            self._open.append((tag, named.get("class") or ""))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        if tag not in _INLINE:
            self.words.append(" ")
        if not self._open or self._open[-1][0] != tag:
            self.faults.append(tag)
            return
        self._open.pop()

    def handle_data(self, data: str) -> None:
        tags = {tag for tag, _ in self._open}
        kinds = {kind for _, kinds in self._open for kind in kinds.split()}
        for tag in tags & _UNSHOWN:
            self.raw.setdefault(tag, []).append(data)
        if tags & _UNSHOWN or kinds & _UNSAID:
            return
        if "measure" in kinds:
            self.measures[plain(data)] += 1
        self.words.append(data)

    @property
    def text(self) -> str:
        return plain("".join(self.words))

    def all_of(self, name: str) -> list[str]:
        """The values of an attribute, in order."""
        return [value for _, named in self.elements if (value := named.get(name)) is not None]


def plain(text: str) -> str:
    """A text with single plain spaces."""
    return " ".join(text.split())


def read_page(html: bytes) -> Page:
    page = Page()
    page.feed(html.decode())
    page.close()
    return page
