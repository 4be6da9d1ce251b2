"""The values on the rulers along a page: the distances from its edges that its steps tell of."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.content.assembly.things import LayoutContext, facing_left
from booklet.content.figures import Flag
from booklet.content.spans import Length, Role
from booklet.kit.fields import Edge
from booklet.kit.finding import SpecPath
from booklet.measure.exact import Fraction
from booklet.placing.axis import ConstraintKind
from booklet.placing.details import CutAtGutter, Detail, Held, Stencilled
from booklet.placing.model import PlacedStep
from booklet.placing.state import BASE_ID


def flags_of(context: LayoutContext) -> tuple[Flag, ...]:
    """The flags of a layout, ruler by ruler, each from the end that it counts from.

    Distances from the left stand on the ruler along the top, from the right on that along the foot; those
    from top and foot on the outer side of the page, away from one that faces it.
    """
    found: dict[tuple[Edge, Fraction], tuple[SpecPath, list[int]]] = {}
    for step in context.layout.steps:
        for edge, distance, source in _distances(context, step):
            _, rings = found.setdefault((edge, distance), (source, []))
            rings.append(context.numbers[step.number - 1])
    ordered = sorted(found, key=lambda key: (list(Edge).index(key[0]), key[1]))
    return tuple(_flag(context, edge, distance, *found[edge, distance]) for edge, distance in ordered)


def _flag(context: LayoutContext, edge: Edge, distance: Fraction, source: SpecPath, rings: list[int]) -> Flag:
    value: Length = context.length(distance, Role.DISTANCE, source)
    return Flag(_ruler(context, edge), edge, value, tuple(sorted(set(rings))))


def _ruler(context: LayoutContext, edge: Edge) -> Edge:
    """Along which edge the ruler lies on which a distance from this edge is read."""
    if not edge.is_upright:
        return Edge.LEFT if facing_left(context) is None else Edge.RIGHT
    return Edge.TOP if edge is Edge.LEFT else Edge.BOTTOM


def _distances(context: LayoutContext, step: PlacedStep) -> Iterator[tuple[Edge, Fraction, SpecPath]]:
    """How far in from an edge of the page a step's sentences put something."""
    unsaid = {edge for detail in step.details for edge in _unsaid(detail)}
    for held in (one for one in step.details if isinstance(one, Held)):
        for constraint in held.constraints:
            if constraint.kind is not ConstraintKind.DISTANCE or BASE_ID not in constraint.against:
                continue
            if constraint.inwards > 0 and Edge(constraint.key) not in unsaid:
                yield Edge(constraint.key), constraint.inwards, (*step.path, constraint.key)
    for item in context.layout.of_step(step.number):
        if item.from_facing and item.rect.y > 0:
            yield Edge.TOP, item.rect.y, step.path


def _unsaid(detail: Detail) -> tuple[Edge, ...]:
    """From which edges no distance is told: the fold, or a pencil line, says where it lies that way."""
    match detail:
        case CutAtGutter():
            return (Edge.LEFT, Edge.RIGHT)
        case Stencilled() if detail.guideline is not None:
            return (detail.guideline.opposite,)
        case _:
            return ()
