"""The state of a layout while it is placed: what lies where so far, its names, and the findings."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any, TypeVar

from booklet.cutting.finish import NOTHING_DONE, Finish
from booklet.cutting.orientation import quarters_of
from booklet.kit.finding import Finding, SpecPath, error, note
from booklet.kit.kit import Kit
from booklet.kit.layout import Layout
from booklet.kit.sheet import OutlineShape
from booklet.kit.steps import Column, Row, Step
from booklet.kit.used import PieceUse, series, uses
from booklet.kit.words import nearest, quoted
from booklet.measure.dataclass import replace
from booklet.measure.geometry import ExactRect, rect_at_origin
from booklet.measure.length import Size
from booklet.placing.details import Detail
from booklet.placing.geometry import hull
from booklet.placing.model import ItemKind, PieceSource, Placed, SupplyUse

S = TypeVar("S", bound=Step)

PAGE = "page"
BASE_ID = 0


@dataclass
class PlacingState:
    """The working state of one layout; only functions of this stage touch it.

    `items` are in the order of placing and an item's id is its index; `stack` are ids from the base upwards;
    `names` maps a name to the blocks of ids it has stood for, the latest last.  `missing` are names whose
    items could not be placed, for a reason that is reported already.  `spread` is this page and the facing
    one, where it has one to its right.  `part_sizes` are the sizes of parts by the use of the whole piece and
    the part's name, `trimmed` the sizes after trimming by the use of a piece or part, `finishes` by name what
    is done to a piece before it is laid; its corners and edges are those of the piece as it will lie, its
    holes lie on the upright piece.  `mounted` says on which items an item lies, `tucked` under which things,
    `loose` with which first item it is put together on the table.  `details` are by step number, and so are
    the steps that are `settled`: what they leave open followed from where they lie.  `carried` are parts of
    pieces as they lie on the facing page, `arriving` those that come from there.  `stencilled` counts the
    repeats of all stencils.  `number` is that of the step that is being done, from 1.
    """

    kit: Kit
    index: int
    layout: Layout
    pieces: PieceSource
    page: ExactRect
    spread: ExactRect | None
    uses: tuple[PieceUse, ...]
    part_sizes: dict[tuple[int, str], list[Size]] = field(default_factory=dict)
    trimmed: dict[int, Size] = field(default_factory=dict)
    items: list[Placed] = field(default_factory=list)
    stack: list[int] = field(default_factory=list)
    names: dict[str, list[tuple[int, ...]]] = field(default_factory=dict)
    missing: set[str] = field(default_factory=set)
    finishes: dict[str, Finish] = field(default_factory=dict)
    mounted: dict[int, tuple[int, ...]] = field(default_factory=dict)
    tucked: dict[int, tuple[tuple[int, ...], ...]] = field(default_factory=dict)
    loose: dict[int, int] = field(default_factory=dict)
    details: dict[int, list[Detail]] = field(default_factory=dict)
    supply_uses: list[SupplyUse] = field(default_factory=list)
    settled: dict[int, Step] = field(default_factory=dict)
    carried: list[Placed] = field(default_factory=list)
    arriving: tuple[Placed, ...] = ()
    findings: list[Finding] = field(default_factory=list)
    stencilled: int = 0
    number: int = 0

    @property
    def path(self) -> SpecPath:
        """The way in the spec to the step that is being done."""
        return step_path(self, self.number)

    def report(
        self, code: str, found: str, cure: str, *keys: str | int, kind: Callable[..., Finding] = error
    ) -> None:
        """Note a finding in the step that is being done, at these keys of it."""
        self.findings.append(kind(code, (*self.path, *keys), found, cure))


# What does a step of one kind.
StepHandler = Callable[[PlacingState, Any], None]


@dataclass(frozen=True)
class Reference:
    """Something that a position refers to: the items it is made of, and the rectangle round them."""

    ids: tuple[int, ...]
    rect: ExactRect


def base_size(kit: Kit, layout: Layout, pieces: PieceSource) -> Size:
    """The size of a page as it is turned.

    A base that nothing makes is the ledger's to report; the page then has the size of the kit's sheets.
    """
    size = pieces.size_of(layout.base.name) or kit.sheet
    return size.turned if quarters_of(layout.base.turn) % 2 else size


def _spread(kit: Kit, layout: Layout, pieces: PieceSource, page: ExactRect) -> ExactRect | None:
    facing = next((other for other in kit.layouts if other.id == layout.facing), None)
    if facing is None:
        return None
    return ExactRect(page.x, page.y, page.width + base_size(kit, facing, pieces).width, page.height)


def initial_state(kit: Kit, index: int, pieces: PieceSource) -> PlacingState:
    """An empty page: only the base of the layout lies there."""
    layout = kit.layouts[index]
    turn = quarters_of(layout.base.turn)
    page = rect_at_origin(base_size(kit, layout, pieces))
    state = PlacingState(
        kit, index, layout, pieces, page, _spread(kit, layout, pieces, page), uses(layout, index)
    )
    base = Placed(
        BASE_ID, 0, layout.base.name, None, ItemKind.BASE, page, ("layouts", index, "base"),
        piece=layout.base.name, use=0, turn=turn, face=layout.base.face,
    )  # fmt: skip
    put(state, base)
    name_block(state, PAGE, (BASE_ID,))
    return state


def put(state: PlacingState, item: Placed, beneath: Sequence[int] = ()) -> Placed:
    """Lay an item on top of the stack, or right beneath the lowest of these; it is known by its names."""
    placed = replace(item, id=len(state.items), finish=item.finish.with_more(finish_in_hand(state, item)))
    state.items.append(placed)
    where = min((state.stack.index(id) for id in beneath), default=len(state.stack))
    state.stack.insert(where, placed.id)
    for name in item.names:
        name_block(state, name, (placed.id,))
    return placed


def finish_in_hand(state: PlacingState, item: Placed) -> Finish:
    """What was done to an item before it was laid, as it then lies."""
    filed = state.pieces.finish_of(item.piece) if item.piece is not None else NOTHING_DONE
    done = NOTHING_DONE
    for name in item.names:
        done = done.with_more(state.finishes.get(name, NOTHING_DONE))
    if done.holes:
        holes = tuple(hole.as_laid(item.face, item.turn, item.upright_size) for hole in done.holes)
        done = replace(done, holes=holes)
    return filed.as_laid(item.face, item.turn, item.upright_size).with_more(done)


def tilted_with(item: Placed, host: Placed) -> Placed:
    """An item that turns with what it lies on or runs along, about the same point."""
    return replace(item, tilt=host.tilt, pivot=host.pivot or host.rect.centre) if host.tilt else item


def name_block(state: PlacingState, name: str, ids: tuple[int, ...]) -> None:
    """Let a name stand for these items from now on."""
    state.names.setdefault(name, []).append(ids)
    state.missing.discard(name)


def mark_missing(state: PlacingState, *names: str | None) -> None:
    """Note that nothing of these names could be placed, for a reason that is reported already."""
    state.missing.update(name for name in names if name is not None)


def step_path(state: PlacingState, number: int) -> SpecPath:
    """The way to a step in the spec; steps are numbered from 1."""
    return ("layouts", state.index, "steps", number - 1)


def add_detail(state: PlacingState, detail: Detail) -> None:
    """Note what the step does that is being done."""
    state.details.setdefault(state.number, []).append(detail)


def settle(state: PlacingState, step: S) -> S:
    """Let this stand for the step that is being done, as the words and the figures are to know it."""
    state.settled[state.number] = step
    return step


def rect_of_ids(state: PlacingState, ids: Sequence[int]) -> ExactRect:
    """The rectangle round these items."""
    return hull([state.items[id].rect for id in ids])


def find(state: PlacingState, name: str, *keys: str | int) -> Reference | None:
    """What a name at these keys refers to: the latest thing placed of that name, or a piece of it.

    None where there is none; that is a finding, unless the reason has been reported already.
    """
    blocks = state.names.get(name, [])
    if not blocks:
        if name not in state.missing:
            state.report(*_unknown(state, name), *keys)
        return None
    if len(blocks) > 1:
        step = max(state.items[id].step_number for id in blocks[-1])
        found = f"{len(blocks)} things so far are called {quoted(name)}; the latest is meant, of step {step}"
        state.report("reference-repeated", found, "say called: to tell them apart", *keys, kind=note)
    return Reference(blocks[-1], rect_of_ids(state, blocks[-1]))


def _unknown(state: PlacingState, name: str) -> tuple[str, str, str]:
    """What is wrong with a name that nothing has so far: the finding's id, what was found, its cure."""
    later = _placed_later(state, name)
    if later == state.number:
        found = f"{quoted(name)} is what this step lays itself"
        return "reference-later", found, "refer to something placed earlier"
    if later is not None:
        found = f"{quoted(name)} is placed only in step {later}"
        return "reference-later", found, "refer to something placed earlier, or change the order"
    close = nearest(name, state.names)
    if state.pieces.size_of(name) is not None:
        found = f"{quoted(name)} is a piece of this kit that no step of this layout places"
        return "reference-unknown", found, "place it in an earlier step"
    cure = f"did you mean {quoted(close)}?" if close else f"one of: {', '.join(state.names)}"
    return "reference-unknown", f"nothing placed so far is called {quoted(name)}", cure


def _placed_later(state: PlacingState, name: str) -> int | None:
    for number, step in enumerate(state.layout.steps, start=1):
        things = series(step) if isinstance(step, Row | Column) else ()
        laid = {getattr(step, "place", None), *(thing.place for thing in things)}
        if name in laid | {step.called, *(thing.called for thing in things)}:
            return number
    return None


def outline_of(kit: Kit, piece: str) -> OutlineShape:
    """The outline of a piece: that of a ready-cut one, else a rectangle."""
    return next((ready.outline for ready in kit.ready if ready.name == piece), OutlineShape.RECTANGLE)
