"""What a person at home does with the files to print: through the printer, and what comes after."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from booklet.binding.binding import Binding, Flip, Folded
    from booklet.binding.print_file import OutputStack


def names_by_hand(stem: str) -> tuple[str, str]:
    """How the fronts and the backs for a printer of one side are called."""
    return f"{stem}-print-fronts.pdf", f"{stem}-print-backs.pdf"


def print_lines(binding: Binding, stack: OutputStack | None, stem: str, pages: int) -> tuple[str, ...]:
    """What to do with the files to print of a booklet of so many pages, in order.

    `stack` is how a printer of one side lays down its sheets; None for one that prints both.
    """
    finished = " ".join(_finish(binding, pages))
    if stack is None:
        flip = f"flipped on the {binding.flip.value} edge"
        first = f"Print {stem}-print.pdf on both sides of {binding.press.title} at 100 %, {flip}."
        return (first, finished)
    return (*_by_hand(binding, stack, stem), f"4. {finished}")


def _by_hand(binding: Binding, stack: OutputStack, stem: str) -> Iterator[str]:
    from booklet.binding.print_file import OutputStack

    fronts, backs = names_by_hand(stem)
    is_face_down = stack is OutputStack.FACE_DOWN
    yield f"1. Print {fronts} on one side of {binding.press.title} at 100 %."
    if is_face_down:
        yield "2. Put the printed stack back in as it lies, the last sheet on top."
    else:
        yield "2. Turn the printed stack over as one, the first sheet on top, and put it back in."
    other = _other(binding.flip).value
    yield (
        f"3. Print {backs} onto the blank sides at 100 %. Printers take paper in differently: print one back "
        "first, and see that it belongs to its front; if it is upside down, make the files with "
        f"--flip {other}."
    )


def _other(flip: Flip) -> Flip:
    from booklet.binding.binding import Flip

    return Flip.LONG_EDGE if flip is Flip.SHORT_EDGE else Flip.SHORT_EDGE


def _finish(binding: Binding, pages: int) -> Iterator[str]:
    """What is done with the printed sheets."""
    from booklet.binding.binding import Folded
    from booklet.binding.copies import copies_of
    from booklet.binding.lay import impose
    from booklet.binding.marks import is_cut_marked
    from booklet.binding.signature import PAGES_PER_SHEET

    if is_cut_marked(impose(pages, binding)[0].front):
        count = len(copies_of(binding))
        yield "Cut the pile at the black marks" + (f": {count} copies." if count > 1 else ".")
    if isinstance(binding.style, Folded):
        yield from _fold(binding.style, ceil(pages / PAGES_PER_SHEET))
    else:
        yield "Punch or bind the leaves along the left of page 1."


def _fold(style: Folded, sheets: int) -> Iterator[str]:
    from booklet.binding.signature import MOST_FOLDED, USUAL_SIGNATURE

    outside = "in the middle, the ticks outside"
    each = min(style.sheets_in_signature or sheets, sheets)
    if sheets == 1:
        yield f"Fold the sheet {outside}."
    elif each == 1:
        yield f"Fold each sheet {outside}, and bind them behind one another, in order."
    elif each < sheets:
        yield f"Fold {each} sheets at a time {outside}, staple each on the fold, and lay them in order."
    else:
        yield f"Keep the sheets in order, fold the pile {outside}, and staple it on the fold."
    if each > MOST_FOLDED:
        yield (
            f"{each} sheets are more than the {MOST_FOLDED} or so of 80 g paper that can be folded as one: "
            f"fold fewer with --sheets-in-signature {USUAL_SIGNATURE}, or bind flat leaves with --flat."
        )
    if style.creep is not None:
        yield "Trim the open side once it is folded."
