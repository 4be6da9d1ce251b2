"""What `booklet rescue` does: say how spoiled pieces can be cut again."""

from __future__ import annotations

from argparse import Namespace
from collections import Counter
from collections.abc import Sequence
from typing import TYPE_CHECKING

from booklet.cli.asked import load_asked
from booklet.cli.exits import Exit
from booklet.cli.progress import planning_progress

if TYPE_CHECKING:
    from booklet.kit.kit import Kit
    from booklet.placing.resolved import ResolvedKit
    from booklet.sorting.ledger import Ledger, LedgerEntry
    from booklet.sorting.remnants import Remnant
    from booklet.sorting.rescue import Recut


def rescue(options: Namespace) -> Exit:
    """Print, for each spoiled piece, what replaces it and the steps that cut it, or that nothing does."""
    from booklet.placing.resolved import resolve_kit
    from booklet.sorting.rescue import replace_spoiled

    loaded = load_asked(options)
    with planning_progress(loaded.kit) as begun:
        resolved = resolve_kit(loaded, begun=begun)
    spoiled = find_pieces(resolved.ledger, options.spoiled)
    done = replace_spoiled(resolved.kit, resolved.sheets, resolved.ledger, spoiled)
    for recut in done.recuts:
        print("\n".join(_recut_lines(resolved, recut)))
    for entry in done.lost:
        print(_lost_line(resolved.kit, entry))
    return Exit.WELL


def find_pieces(ledger: Ledger, words: Sequence[str]) -> list[LedgerEntry]:
    """The pieces that are meant by labels or names, one for each word: a name said twice means two of them.

    Raises UsageError for a word that means no piece, or none that is left.
    """
    from booklet.kit.errors import UsageError
    from booklet.kit.words import quoted

    meant = [_meant(ledger, word) for word in words]
    found: dict[int, LedgerEntry] = {}
    # A label means one piece only: it has it before a name, which may mean another, whatever is said first.
    for place in sorted(range(len(words)), key=lambda place: len(meant[place])):
        left = [entry for entry in meant[place] if not any(entry is one for one in found.values())]
        if not left:
            pieces = f"such pieces ({len(meant[place])})"
            raise UsageError(f"{quoted(words[place])} is said more often than there are {pieces}")
        found[place] = left[0]
    return [found[place] for place in range(len(words))]


def _meant(ledger: Ledger, word: str) -> list[LedgerEntry]:
    """Every piece that a label or name may mean, those that a layout takes first: they are missed first."""
    from booklet.kit.errors import UsageError
    from booklet.kit.words import nearest, quoted

    meant = [entry for entry in ledger.entries if word.upper() == entry.label or word == entry.name]
    if not meant:
        known = [said for entry in ledger.entries for said in (entry.name, entry.label) if said]
        near = nearest(word, known)
        hint = f" (nearest: {near})" if near else ""
        raise UsageError(f"no piece of this kit is called {quoted(word)}{hint}")
    return sorted(meant, key=lambda entry: entry.use is None)


def _recut_lines(resolved: ResolvedKit, recut: Recut) -> list[str]:
    from booklet.cutting.planner.request import as_cuts
    from booklet.kit.typed import block_cuts

    pieces = ", ".join(
        f"{count} {name}" if count > 1 else name for name, count in Counter(recut.names).items()
    )
    source = _remnant_words(resolved.kit, recut.remnant)
    if recut.remnant.spare in recut.names and not recut.steps:
        return [f"# {pieces}: take {source}"]
    if recut.face is not None:
        source += f"; its {recut.face.value} has the same colour, but it is another paper"
    lines = [f"# {pieces}: from {source}"]
    if recut.unsafe:
        lines.append("# too narrow to hold beside the blade: cut it with scissors, along a pencil line")
    return [*lines, *block_cuts(as_cuts(recut.steps, 1), resolved.kit.unit, 2)]


def _remnant_words(kit: Kit, remnant: Remnant) -> str:
    """`the scrap 6 1/2 x 4 of sheet 1, Fern`."""
    from booklet.kit.kit import paper_title
    from booklet.measure.words import plain_size

    what = "the scrap" if remnant.spare is None else f"the spare {remnant.spare}"
    size = plain_size(remnant.size, kit.unit)
    origin = "from the box" if remnant.number is None else f"of sheet {remnant.number}"
    return f"{what}, {size}, {origin}, {paper_title(kit, remnant.paper)}"


def _lost_line(kit: Kit, entry: LedgerEntry) -> str:
    from booklet.kit.kit import paper_title
    from booklet.measure.words import plain_size
    from booklet.sorting.remnants import can_be_recut, paper_of

    label = f" ({entry.label})" if entry.label else ""
    size = plain_size(entry.size, kit.unit)
    head = f"# {entry.name}{label}: cannot be cut again;"
    if not can_be_recut(kit, entry):
        return f"{head} its print or its outline is its own"
    paper = paper_title(kit, paper_of(kit, entry))
    return f"{head} nothing left over of {paper}, or of another paper of its colour, holds {size}"
