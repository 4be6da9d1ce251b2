"""A kit with one page, written as its steps stand in a spec, and a plain table of pieces."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, TypeVar

from booklet.cutting.finish import NOTHING_DONE, Finish
from booklet.kit.fields import Edge
from booklet.kit.finding import Severity
from booklet.kit.kit import Kit
from booklet.kit.read import read_data
from booklet.kit.tree import plain, read_tree
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size, Unit, parse_length, parse_size
from booklet.placing.axis import ConstraintKind
from booklet.placing.details import Held
from booklet.placing.model import Placed, PlacedLayout
from booklet.placing.place_layouts import place_layouts
from booklet.placing.state import BASE_ID

T = TypeVar("T")

PIECES = {
    "base": "12 x 12",
    "other base": "12 x 12",
    "mat": "6 1/4 x 4 1/4",
    "tall mat": "4 1/4 x 6 1/4",
    "big mat": "4 1/2 x 6 1/2",
    "strip": "12 x 1",
    "half strip": "6 x 1",
    "tag": "2 x 3",
    "small tag": "1 x 2",
    "banner": "8 x 3",
    "badge": "2 x 2",
}


SUPPLIES = [
    {"id": "twill", "kind": "ribbon", "width": "1/2", "length": "100"},
    {"id": "rope tape", "kind": "tape", "width": "1/2", "length": "100"},
    {"id": "net", "kind": "stencil", "size": "6 x 6", "repeat": "1 1/2 x 1"},
    {"id": "sea ink", "kind": "ink"},
    {"id": "foam bits", "kind": "foam", "count": "40"},
    {"id": "brass", "kind": "brads", "count": "20", "size": "1/4 x 1/4"},
    {"id": "glue dots", "kind": "dots", "count": "100"},
    {"id": "brass keys", "kind": "metal charm", "outline": "drop", "size": "1/2 x 3/4", "count": "20"},
]


@dataclass(frozen=True)
class Pieces:
    """The sizes of pieces by name, and what was done to them before they were filed."""

    sizes: Mapping[str, Size]
    finishes: Mapping[str, Finish] = field(default_factory=dict)

    def size_of(self, name: str) -> Size | None:
        return self.sizes.get(name)

    def finish_of(self, name: str) -> Finish:
        return self.finishes.get(name, NOTHING_DONE)


def pieces(sizes: Mapping[str, str] = PIECES, unit: Unit = Unit.INCH) -> Pieces:
    return Pieces({name: parse_size(size, unit) for name, size in sizes.items()})


def kit_of(*layouts: Mapping[str, Any], unit: Unit = Unit.INCH, **more: Any) -> Kit:
    """A kit of these layouts, each with a base of 12 x 12 unless it says otherwise."""
    spec = {
        "title": "Harbour days",
        "publisher": "The Paper Dory",
        "unit": unit.value,
        "sheet": "12 x 12 in",
        "papers": {"plain": {"front": {}}},
        "sheets": [{"id": "one", "paper": "plain"}],
        "supplies": [{**one, **_metric(one, unit)} for one in SUPPLIES],
        "layouts": [
            {"id": f"page-{n}", "pocket": n, "base": "base", **layout}
            for n, layout in enumerate(layouts, start=1)
        ],
        **more,
    }
    kit: Kit = read_data(Kit, spec, unit)
    return kit


def _metric(supply: Mapping[str, str], unit: Unit) -> dict[str, str]:
    """The lengths of a supply are inches, whatever the kit's unit."""
    if unit is Unit.INCH:
        return {}
    keys = ("width", "length", "size", "repeat")
    return {key: f"{value} in" for key, value in supply.items() if key in keys}


def steps_of(text: str) -> list[dict[str, Any]]:
    steps: list[dict[str, Any]] = plain(read_tree(text, "a kit spec")[0])
    return steps


def page(text: str, unit: Unit = Unit.INCH, sizes: Mapping[str, str] = PIECES, **more: Any) -> PlacedLayout:
    """The page that these steps, typed in YAML, make."""
    kit = kit_of({"steps": steps_of(text)}, unit=unit, **more)
    (only,) = place_layouts(kit, pieces(sizes, unit))
    return only


def pages(*layouts: Mapping[str, Any], **more: Any) -> tuple[PlacedLayout, ...]:
    """Several pages, the steps of each typed in YAML."""
    read = [{**layout, "steps": steps_of(layout["steps"])} for layout in layouts]
    return place_layouts(kit_of(*read, **more), pieces())


def named(layout: PlacedLayout, name: str) -> Placed:
    """The only item of this name."""
    (item,) = [item for item in layout.items if name in (item.called, item.name, item.piece)]
    return item


def rect(text: str, unit: Unit = Unit.INCH) -> ExactRect:
    """`1, 1/2, 6 x 4`: left, top and size."""
    left, top, size = (part.strip() for part in text.split(","))
    shown = parse_size(size, unit)
    return ExactRect(parse_length(left, unit), parse_length(top, unit), shown.width, shown.height)


def ids(layout: PlacedLayout) -> list[str]:
    """The ids of everything found."""
    return [finding.id for finding in layout.findings]


def serious(layout: PlacedLayout) -> list[str]:
    """The ids of all that is more than good to know."""
    return [finding.id for finding in layout.findings if finding.severity is not Severity.NOTE]


def detail(layout: PlacedLayout, number: int, kind: type[T]) -> T:
    """The only detail of this kind of a step."""
    (found,) = [one for one in layout.steps[number - 1].details if isinstance(one, kind)]
    return found


def measured_from_page(layout: PlacedLayout) -> Iterator[tuple[int, Edge, Fraction]]:
    """Each distance that a step states from an edge of the page: its number, the edge, how far in."""
    for step in layout.steps:
        for held in (one for one in step.details if isinstance(one, Held)):
            for one in (*held.across, *held.down):
                if one.kind is ConstraintKind.DISTANCE and BASE_ID in one.against and one.at != one.start:
                    yield step.number, Edge(one.key), abs(one.at - one.start)


def finding_of(layout: PlacedLayout, id: str) -> Any:
    """The only finding of this id."""
    (finding,) = [finding for finding in layout.findings if finding.id == id]
    return finding


def stacked(layout: PlacedLayout) -> Sequence[str]:
    """The names of what lies on the page, from the bottom upwards."""
    return [item.name for item in layout.items]
