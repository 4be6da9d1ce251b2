"""Pieces on a sheet as a constraint solver packs them: OR-tools CP-SAT, no two overlapping.

Packing asks less than edge-to-edge cutting.  For a few pieces on a small sheet all packings are gone through,
and each is looked at: can it be taken apart?  Then the solver's answer is to the very question.
"""

from __future__ import annotations

from collections.abc import Sequence

from ortools.sat.python import cp_model

Piece = tuple[int, int, bool]
Rect = tuple[int, int, int, int]
Place = tuple[cp_model.IntVar, cp_model.IntVar, cp_model.IntVar, cp_model.IntVar]


def model_of(pieces: Sequence[Piece], width: int, height: int) -> tuple[cp_model.CpModel, list[Place]]:
    """The packing model, and each piece's left, top, right and bottom."""
    model = cp_model.CpModel()
    places, across, down = [], [], []
    for at, (w, h, turns) in enumerate(pieces):
        sides = sorted({w, h}) if turns else None
        wide = model.new_int_var(sides[0], sides[-1], f"w{at}") if sides else model.new_constant(w)
        tall = model.new_int_var(sides[0], sides[-1], f"h{at}") if sides else model.new_constant(h)
        if sides:
            model.add_allowed_assignments([wide, tall], [(w, h), (h, w)])
        left, top = model.new_int_var(0, width, f"x{at}"), model.new_int_var(0, height, f"y{at}")
        right, bottom = model.new_int_var(0, width, f"r{at}"), model.new_int_var(0, height, f"b{at}")
        across.append(model.new_interval_var(left, wide, right, f"across {at}"))
        down.append(model.new_interval_var(top, tall, bottom, f"down {at}"))
        places.append((left, top, right, bottom))
    model.add_no_overlap_2d(across, down)
    return model, places


def can_be_packed(pieces: Sequence[Piece], width: int, height: int, seconds: float) -> bool | None:
    """Whether the pieces can lie on the sheet at all; None if the solver does not know in that time."""
    if any(min(w, h) > min(width, height) or max(w, h) > max(width, height) for w, h, _ in pieces):
        return False
    model, _ = model_of(pieces, width, height)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 2
    status = solver.solve(model)
    if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return True
    return False if status == cp_model.INFEASIBLE else None


class _Watch(cp_model.CpSolverSolutionCallback):
    """Stops at the first packing that comes apart edge to edge."""

    def __init__(self, places: list[Place]) -> None:
        super().__init__()
        self.places = places
        self.seen = False

    def on_solution_callback(self) -> None:
        rects = [(self.value(a), self.value(b), self.value(c), self.value(d)) for a, b, c, d in self.places]
        if comes_apart_as_it_lies(rects):
            self.seen = True
            self.stop_search()


def some_packing_comes_apart(pieces: Sequence[Piece], width: int, height: int) -> bool:
    """Go through all packings of a few pieces on a small sheet."""
    model, places = model_of(pieces, width, height)
    solver = cp_model.CpSolver()
    solver.parameters.enumerate_all_solutions = True
    solver.parameters.num_workers = 1
    watch = _Watch(places)
    solver.solve(model, watch)
    return watch.seen


def comes_apart_as_it_lies(rects: list[Rect]) -> bool:
    """Whether rectangles (left, top, right, bottom) can be parted one from all others edge to edge."""
    if len(rects) <= 1:
        return True
    for low, high in ((0, 2), (1, 3)):
        for at in sorted({rect[high] for rect in rects}):
            here = [rect for rect in rects if rect[high] <= at]
            there = [rect for rect in rects if rect[low] >= at]
            if there and len(here) + len(there) == len(rects):
                return comes_apart_as_it_lies(here) and comes_apart_as_it_lies(there)
    return False
