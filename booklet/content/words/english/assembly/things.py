"""How a step refers in English to what lies on the page, and to edges, corners and middles."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.content.assembly.lying import Noun, OneOf, Owner, Page, Thing
from booklet.content.spans import Line, Number, Own, Words, line
from booklet.content.words.english.basics import BASICS, and_
from booklet.kit.fields import Edge
from booklet.kit.position import Direction
from booklet.kit.steps import Corner
from booklet.measure.dataclass import replace

_NOUNS = {
    Noun.PHOTO: "the photo",
    Noun.WRITING: "the writing space",
    Noun.ROW: "the row",
    Noun.COLUMN: "the column",
    Noun.BLOCK: "the block",
}
_MANY = {Noun.ROW, Noun.COLUMN, Noun.SEVERAL}
_PLACES = {Direction.ACROSS: ("left", "middle", "right"), Direction.DOWN: ("top", "middle", "bottom")}
_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")


def within(name: Own) -> Own:
    """A name in the middle of a sentence: without its capital, unless it is written in capitals."""
    text = name.text
    return name if text[1:2].isupper() else replace(name, text=text[:1].lower() + text[1:])


def leading(name: Own) -> Own:
    """A name where a line begins."""
    return replace(name, text=name.text[:1].upper() + name.text[1:])


def large(count: Number) -> Number:
    """A count where a line begins."""
    return replace(count, text=count.text[:1].upper() + count.text[1:])


def lowered(said: Line) -> Line:
    """A line within another: its first word without its capital."""
    first, *rest = said
    match first:
        case Words():
            return (Words(first.text[:1].lower() + first.text[1:], first.weight), *rest)
        case Number():
            return (replace(first, text=first.text[:1].lower() + first.text[1:]), *rest)
        case Own():
            return (within(first), *rest)
        case _:
            return said


class EnglishThings:
    """What lies on the page, in a sentence."""

    def the(self, thing: Owner) -> Line:
        """`it`, `the rail ②`, `the middle one of ⑤`, `③ and ⑤`, `the page`."""
        if isinstance(thing, Page):
            return line("the page")
        if thing.is_each:
            return line("each")
        if thing.is_it:
            return line("them" if thing.noun in _MANY else "it")
        rings = BASICS.listed(thing.steps)
        if thing.one_of is not None:
            which = f"the {_which(thing.one_of)}"
            return line(which, " of\u00a0", rings) if rings else line(which)
        if thing.name is not None:
            return line("the ", within(thing.name), "\u00a0" if rings else "", rings)
        if thing.noun is Noun.SEVERAL and rings:
            return rings
        return line(_NOUNS.get(thing.noun, "what lies there"), "\u00a0" if rings else "", rings)

    def ring(self, thing: Owner) -> Line:
        """The same by its ring alone, where that can mean nothing else."""
        if isinstance(thing, Page) or not thing.is_outer or thing.is_it or thing.is_each:
            return self.the(thing)
        return BASICS.listed(thing.steps) or self.the(thing)

    def some(self, count: Number, name: Own) -> Line:
        """So many of a supply: `a brass rivet`, `four foam dots`, `four of the twill`."""
        name = within(name)
        is_plural = _is_plural(name)
        if count.value == 1 and is_plural:
            return line(replace(count, text=_a(name)), " ", replace(name, text=name.text[:-1]))
        return line(count, " ", name) if is_plural else line(count, " of the ", name)

    def of_kind(self, name: Own, *, is_one: bool) -> Line:
        """A supply by its name after so many halves of it: `foam dots`, `foam dot`, `of the twill`."""
        name = within(name)
        if not _is_plural(name):
            return line("of the ", name)
        return line(replace(name, text=name.text[:-1]) if is_one else name)

    def edge_of(self, edge: Edge, owner: Owner, *, is_known: bool = False) -> Line:
        """`the top edge of the rail ②`; of what has just been named, `its top edge`."""
        return self._part_of(f"{edge.value} edge", owner, is_known)

    def ends_of(self, owner: Owner, edges: Sequence[Edge], known: Thing | None) -> Line:
        """Two edges of a thing: `its left and right edges`."""
        return self._part_of(self.edges(edges), owner, owner == known)

    def corner_of(self, corner: Corner, owner: Owner, *, is_known: bool = False) -> Line:
        """`the top left corner of the mat ⑤`."""
        return self._part_of(f"{corner.value} corner", owner, is_known)

    def _part_of(self, part: str, owner: Owner, is_known: bool) -> Line:
        if owner is Page.FACING:
            return line(f"the {part} of the facing page")
        if isinstance(owner, Page):
            return line(f"the {part} of the page")
        if owner.is_it or is_known:
            return line(f"its {part}")
        return line(f"the {part} of ", self.ring(owner))

    def edges(self, edges: Sequence[Edge]) -> str:
        """`right edge`, `top and right edges`."""
        names = and_([edge.value for edge in dict.fromkeys(edges)])
        return f"{names} edge{'s' if len(set(edges)) > 1 else ''}"

    def edges_of(self, edges: Sequence[Edge], thing: Thing) -> Line:
        """`all four edges`, `the left and right edges of the mat ⑤`; of what the sentence is about, bare."""
        said = "all four edges" if len(set(edges)) == len(Edge) else f"the {self.edges(edges)}"
        return self._of(said, thing)

    def corners_of(self, corners: Sequence[Corner], thing: Thing) -> Line:
        """`all four corners`, `the top left and top right corners of the mat ⑤`."""
        return self._of(BASICS.corners(corners), thing)

    def _of(self, parts: str, thing: Thing) -> Line:
        if thing.is_each and thing.name is not None:
            return line(f"{parts} of each ", within(thing.name))
        if thing.is_each or (thing.noun in _MANY and thing.is_it):
            return line(f"{parts} of each")
        if thing.is_it:
            return line(parts)
        if thing.noun in {Noun.ROW, Noun.COLUMN}:
            return line(f"{parts} of each of\u00a0", BASICS.listed(thing.steps))
        return line(f"{parts} of ", self.ring(thing))


def _is_plural(name: Own) -> bool:
    return name.text.endswith("s") and not name.text.endswith("ss")


def _a(noun: Own) -> str:
    return "an" if noun.text[:1].lower() in "aeiou" else "a"


def a(noun: Own) -> Line:
    """`a cream mat`, `an inner mat`."""
    return line(f"{_a(noun)} ", noun)


def _which(one: OneOf) -> str:
    """`left one`, `middle one`, `second from the left`."""
    first, middle, last = _PLACES[one.direction]
    if one.place == 0:
        return f"{first} one"
    if one.place == one.count - 1:
        return f"{last} one"
    if one.count == 3:
        return f"{middle} one"
    nth = _ORDINALS[one.place] if one.place < len(_ORDINALS) else f"{one.place + 1}th"
    return f"{nth} from the {first}"
