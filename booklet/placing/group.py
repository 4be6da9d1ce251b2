"""Several things moved as one block."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from booklet.cutting.orientation import quarters_of
from booklet.kit.fields import Face
from booklet.kit.finding import error
from booklet.kit.steps import PlaceGroup, Step
from booklet.kit.words import quoted
from booklet.measure.dataclass import replace
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactPoint, ExactRect
from booklet.placing.apart import check_under
from booklet.placing.details import Moved
from booklet.placing.model import Placed
from booklet.placing.nesting import check_larger
from booklet.placing.position import solve_position
from booklet.placing.put import ids_over, overs
from booklet.placing.state import (
    BASE_ID,
    PlacingState,
    StepHandler,
    add_detail,
    find,
    name_block,
    rect_of_ids,
)

Move = Callable[[ExactPoint], ExactPoint]


def lay_group(state: PlacingState, step: PlaceGroup) -> None:
    """Lay or move the things named and all that is mounted on them; their places to each other stay."""
    members = _members(state, step)
    if members is None:
        return
    ids = members.items
    if step.tilt or step.face is Face.BACK or step.loose or step.spread:
        key = next(key for key in ("tilt", "face", "loose", "spread") if getattr(step, key))
        found = "a group is moved and turned by quarter turns, nothing else"
        state.report("group-not-so", found, "say it of each piece", key)
    turn = quarters_of(step.turn)
    block = rect_of_ids(state, ids)
    size = block.size.turned if turn % 2 else block.size
    solved = solve_position(state, step, size.width, size.height)
    if solved is None:
        return
    if set(ids) & {id for constraint in solved.constraints for id in constraint.against}:
        found = "the group is to lie by a piece of its own"
        state.report("group-by-itself", found, "measure it from something else")
        return
    check_larger(state, step, step.called or step.group[0], size, solved.frame)
    move = _mover(block, solved.rect, turn)
    for id in ids:
        state.items[id] = _moved_item(state.items[id], move, turn)
    above = overs(state, step)
    _restack(state, ids, ids_over(above))
    for id in ids:
        within = (over for over in state.tucked.get(id, ()) if set(over) <= set(ids))
        state.tucked[id] = (*within, *(over.ids for over in above))
        state.loose.pop(id, None)
    check_under(state, [state.items[id] for id in ids], above)
    if step.called:
        name_block(state, step.called, ids)
    add_detail(state, members)
    add_detail(state, solved.held(ids, tuple(over.ids for over in above)))


def _members(state: PlacingState, step: PlaceGroup) -> Moved | None:
    """What is named, and everything that lies on it; None where something is not there."""
    ids: set[int] = set()
    for index, name in enumerate(step.group):
        reference = find(state, name, "group", index)
        if reference is None:
            return None
        if BASE_ID in reference.ids:
            state.report("under-the-page", "the page itself is not moved", "name a piece", "group", index)
            return None
        ids.update(reference.ids)
    for item in state.items:
        if any(parent in ids for parent in state.mounted.get(item.id, ())):
            ids.add(item.id)
    return Moved(tuple(sorted(ids)))


def _mover(old: ExactRect, new: ExactRect, turn: int) -> Move:
    """Where a point of the old block lies in the new one, after quarter turns clockwise about the centre."""

    def move(point: ExactPoint) -> ExactPoint:
        """The point turned about the old centre, then carried over to the new one."""
        right, down = point.x - old.centre.x, point.y - old.centre.y
        for _ in range(turn):
            right, down = -down, right
        return ExactPoint(new.centre.x + right, new.centre.y + down)

    return move


def _moved_item(item: Placed, move: Move, turn: int) -> Placed:
    centre = move(item.rect.centre)
    size = item.rect.size.turned if turn % 2 else item.rect.size
    half = Fraction(1, 2)
    rect = ExactRect(centre.x - size.width * half, centre.y - size.height * half, size.width, size.height)
    pivot = move(item.pivot) if item.pivot is not None else None
    return replace(
        item,
        rect=rect,
        turn=(item.turn + turn) % 4,
        turn_in_block=(item.turn_in_block + turn) % 4,
        pivot=pivot,
        finish=item.finish.turned(turn, item.rect.size),
    )


def _restack(state: PlacingState, ids: Sequence[int], under: Sequence[int]) -> None:
    """The block comes to lie on top, or beneath what it is tucked under, in its own order."""
    moving = set(ids)
    block = [id for id in state.stack if id in moving]
    rest = [id for id in state.stack if id not in moving]
    where = min((rest.index(id) for id in under if id in rest), default=len(rest))
    state.stack = rest[:where] + block + rest[where:]


def check_loose(state: PlacingState) -> None:
    """Take off the page what no group has laid on it, and say so."""
    left = sorted(state.loose)
    for id in left:
        if state.loose[id] == id:
            item = state.items[id]
            cure = "lay it on the page with a group: step"
            state.findings.append(error("left-loose", item.path, f"{quoted(item.name)} is left loose", cure))
    state.stack = [id for id in state.stack if id not in state.loose]
    for number, details in state.details.items():
        state.details[number] = [one for one in details if not set(one.ids) & set(state.loose)]


HANDLERS: dict[type[Step], StepHandler] = {PlaceGroup: lay_group}
