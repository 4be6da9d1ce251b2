"""Names within a spec that must mean something: papers, edges, layouts, sheets, image files.

Names of pieces are not looked up here: which pieces there are is known only after cutting.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import accumulate

from booklet.kit.element import MOST_ELEMENTS, printed_count
from booklet.kit.errors import PictureError
from booklet.kit.fields import Edge
from booklet.kit.finding import SpecPath
from booklet.kit.images import Images, look_at_image
from booklet.kit.kit import Kit
from booklet.kit.paper import Paper
from booklet.kit.supply import KIND_WORDS, SupplyKind
from booklet.kit.tree import Complaint
from booklet.kit.words import any_of, nearest, quoted, shown
from booklet.measure.length import A_SIZE

# Longer lists of names are cut short in a message; the nearest one is named as well.
_MANY_NAMES = 12


def check_references(kit: Kit, images: Images) -> list[Complaint]:
    """Every name that refers to nothing, every id given twice, every image that cannot be used."""
    return [
        *_paper_names(kit),
        *_ids(kit),
        *_check_edge_words(kit),
        *_lays(kit),
        *_elements(kit),
        *_facing(kit),
        *_pile(kit),
        *_supplies(kit),
        *_artwork(kit),
        *_images(kit, images),
    ]


def _paper_names(kit: Kit) -> Iterator[Complaint]:
    for index, sheet in enumerate(kit.sheets):
        yield from _known(("sheets", index, "paper"), sheet.paper, kit.papers, "a paper of this kit")
    for index, piece in enumerate(kit.ready):
        yield from _known(("ready", index, "paper"), piece.paper, kit.papers, "a paper of this kit")


def _ids(kit: Kit) -> Iterator[Complaint]:
    yield from _unique("sheets", (sheet.id for sheet in kit.sheets))
    yield from _unique("supplies", (supply.id for supply in kit.supplies))
    yield from _unique("layouts", (layout.id for layout in kit.layouts))


def _check_edge_words(kit: Kit) -> Iterator[Complaint]:
    """A member's word for an edge must mean one edge."""
    for name, paper in kit.papers.items():
        seen: dict[str, Edge] = {edge.value: edge for edge in Edge}
        for edge, word in paper.edges.items():
            if seen.setdefault(word, edge) is not edge:
                found = f"{quoted(word)} for the {edge.value} edge and for the {seen[word].value} edge"
                yield Complaint(("papers", name, "edges", edge.value), found, "another word for each edge")


def _lays(kit: Kit) -> Iterator[Complaint]:
    for index, sheet in enumerate(kit.sheets):
        if sheet.paper in kit.papers:
            words = edge_words(kit.papers[sheet.paper])
            for place, word in sheet.lay.said.items():
                where: SpecPath = ("sheets", index, "lay", place.value)
                yield from _known(where, word, words, "an edge of this paper")
            for name, edge in sheet.wishes.edge.items():
                yield from _known(
                    ("sheets", index, "wishes", "edge", name), edge, words, "an edge of this paper"
                )


def _elements(kit: Kit) -> Iterator[Complaint]:
    """Rows and columns stand for no more elements than a sheet may have one by one."""
    for index, sheet in enumerate(kit.sheets):
        counts = list(accumulate(map(printed_count, sheet.elements)))
        number = next((at for at, count in enumerate(counts) if count > MOST_ELEMENTS), None)
        if number is not None:
            where: SpecPath = ("sheets", index, "elements", number)
            yield Complaint(where, f"{counts[-1]} elements", f"at most {MOST_ELEMENTS} on a sheet")


def edge_words(paper: Paper) -> dict[str, Edge]:
    """Every word that means an edge of this paper's front."""
    return {edge.value: edge for edge in Edge} | {word: edge for edge, word in paper.edges.items()}


def _facing(kit: Kit) -> Iterator[Complaint]:
    """A layout faces one other, and lies in one spread."""
    ids = [layout.id for layout in kit.layouts]
    partner: dict[str, str] = {}
    for index, layout in enumerate(kit.layouts):
        if layout.facing is None:
            continue
        path, left, right = ("layouts", index, "facing"), layout.id, layout.facing
        yield from _known(
            path, right, [other for other in ids if other != left], "another layout of this kit"
        )
        taken = next((name for name in (left, right) if name in partner), None)
        if taken:
            found = f"{shown(right)}, while {shown(taken)} lies in a spread with {shown(partner[taken])}"
            yield Complaint(path, found, "each layout in one spread, said by its left one")
        partner |= {left: right, right: left}


def _pile(kit: Kit) -> Iterator[Complaint]:
    ids = [sheet.id for sheet in kit.sheets]
    seen: set[str] = set()
    for index, name in enumerate(kit.pile or ()):
        yield from _known(("pile", index), name, ids, "a sheet of this kit")
        if name in seen:
            yield Complaint(("pile", index), f"{shown(name)} twice", "each sheet once")
        seen.add(name)


# What is laid by length, or is no thing to be put on, has no outline.
_WITHOUT_OUTLINE = {SupplyKind.RIBBON, SupplyKind.TAPE, SupplyKind.STENCIL, SupplyKind.INK}


def _supplies(kit: Kit) -> Iterator[Complaint]:
    """A kind of the maker's own says its outline and its size; else it is a known word mistyped."""
    for index, supply in enumerate(kit.supplies):
        where: SpecPath = ("supplies", index)
        if supply.kind is SupplyKind.OWN and supply.outline is None:
            expected = f"{any_of([*KIND_WORDS])}, or a kind of your own with its outline"
            yield Complaint((*where, "kind"), shown(supply.word), expected, nearest(supply.word, KIND_WORDS))
        elif supply.kind is SupplyKind.OWN and supply.size is None:
            yield Complaint(where, 'no key "size"', f"size: {A_SIZE}, of one {shown(supply.word)}")
        elif supply.kind in _WITHOUT_OUTLINE and supply.outline is not None:
            expected = "none, which only has what is put on one by one"
            yield Complaint((*where, "outline"), f"the outline of {supply.kind.value}", expected)


def _artwork(kit: Kit) -> Iterator[Complaint]:
    """The artwork of a sheet is cut apart between its elements; other prints are those of papers."""
    for index, sheet in enumerate(kit.sheets):
        if sheet.artwork is not None and not sheet.elements:
            expected = "the places of its elements with it, or the image as the front of its paper"
            yield Complaint(("sheets", index, "artwork"), "artwork of a sheet without elements", expected)


def _images(kit: Kit, images: Images) -> Iterator[Complaint]:
    refused: dict[str, PictureError | None] = {}
    for path, name in image_names(kit):
        if name not in refused:
            refused[name] = _refusal(images, name)
        error = refused[name]
        if error:
            yield Complaint(path, error.found, error.expected, error.nearest)


def image_names(kit: Kit) -> Iterator[tuple[SpecPath, str]]:
    """Every image of a kit by where it is named; one that is named twice comes twice."""
    for name, paper in kit.papers.items():
        for face, printed in (("front", paper.front), ("back", paper.back)):
            if printed.image is not None:
                yield ("papers", name, face, "image"), printed.image
    for index, sheet in enumerate(kit.sheets):
        if sheet.artwork is not None:
            yield ("sheets", index, "artwork"), sheet.artwork
    for index, layout in enumerate(kit.layouts):
        if layout.photograph is not None:
            yield ("layouts", index, "photograph"), layout.photograph


def _refusal(images: Images, name: str) -> PictureError | None:
    try:
        look_at_image(images, name)
    except PictureError as error:
        return error
    return None


def _known(path: SpecPath, name: str, known: Iterable[str], what: str) -> Iterator[Complaint]:
    names = list(known)
    if name in names:
        return
    listed = any_of([shown(one) for one in names[:_MANY_NAMES]])
    expected = f"{what}: {listed}" if names else f"{what}, and there is none"
    yield Complaint(path, shown(name), expected, nearest(name, names))


def _unique(key: str, ids: Iterable[str]) -> Iterator[Complaint]:
    first: dict[str, int] = {}
    for index, name in enumerate(ids):
        if first.setdefault(name, index) != index:
            yield Complaint(
                (key, index, "id"), f"{shown(name)} twice", f"an id of its own for each of the {key}"
            )
