"""The ledger: every piece from its cut, or from the box, to its pocket and its layout.

Nothing is filed that no layout uses, used that nothing makes, used twice, or left over unsaid.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches
from itertools import groupby

from booklet.cutting.model import CutSheet, Fate, Piece
from booklet.kit.finding import Finding, SpecPath, error
from booklet.kit.kit import Kit
from booklet.measure.length import Size
from booklet.measure.words import plain_size


@dataclass(frozen=True)
class Use:
    """A layout's want of one piece, by name, and where in the spec it is said."""

    layout_index: int
    name: str
    where: SpecPath


@dataclass(frozen=True)
class Entry:
    """One piece in the ledger.

    It comes from a sheet (`piece`) or ready-cut from the box (`ready_index`), and goes to a layout, or is
    spare.  `use` is the layout's want that it meets.
    """

    name: str
    size: Size
    where: SpecPath
    piece: Piece | None = None
    ready_index: int | None = None
    spare: bool = False
    use: Use | None = None
    pocket: int | None = None

    @property
    def label(self) -> str:
        """Sheet number and letter; nothing for a piece that comes ready-cut."""
        return self.piece.label if self.piece else ""


@dataclass(frozen=True)
class Ledger:
    """Every piece of the kit, in the order in which it is cut or listed, and what does not balance."""

    entries: tuple[Entry, ...]
    findings: tuple[Finding, ...]

    def of_layout(self, layout_index: int) -> tuple[Entry, ...]:
        """The pieces that a layout uses, in the order in which it uses them."""
        mine = [e for e in self.entries if e.use and e.use.layout_index == layout_index]
        return tuple(sorted(mine, key=lambda e: e.use.where if e.use else ()))

    def of_piece(self, piece: Piece) -> Entry | None:
        """The entry of a piece that was cut."""
        return next((e for e in self.entries if e.piece is not None and e.piece.key == piece.key), None)

    def at(self, where: SpecPath) -> Entry | None:
        """The entry that meets the want at this place in the spec."""
        return next((e for e in self.entries if e.use and e.use.where == where), None)

    def in_pocket(self, pocket: int) -> tuple[Entry, ...]:
        """What a pocket holds, by label."""
        return tuple(e for e in self.entries if e.pocket == pocket)


def made_pieces(kit: Kit, cut: Sequence[CutSheet]) -> tuple[Entry, ...]:
    """Everything that the kit gives: pieces by sheet number and letter, then what comes ready-cut."""
    by_number = sorted(cut, key=lambda sheet: sheet.number)
    cut_entries = [
        Entry(piece.name, piece.size, piece.where, piece=piece, spare=piece.fate is Fate.SPARE)
        for sheet in by_number
        for piece in sorted(_useful(sheet), key=lambda p: (len(p.label), p.label, p.copy))
    ]
    ready_entries = [
        Entry(
            ready.name, ready.size, ("ready", index), ready_index=index, spare=n >= ready.count - ready.spare
        )
        for index, ready in enumerate(kit.ready)
        for n in range(ready.count)
    ]
    return tuple(cut_entries + ready_entries)


def _useful(sheet: CutSheet) -> list[Piece]:
    return [piece for piece in sheet.pieces if piece.fate in {Fate.KEPT, Fate.SPARE}]


def sizes_by_name(entries: Sequence[Entry]) -> dict[str, Size]:
    """The size that a name stands for."""
    return {entry.name: entry.size for entry in reversed(entries)}


def keep_ledger(kit: Kit, cut: Sequence[CutSheet], uses: Sequence[Use]) -> Ledger:
    """Give each want the next unused piece of its name, and find every imbalance."""
    entries = list(made_pieces(kit, cut))
    findings = list(_check_names(kit, entries))
    for use in uses:
        free = next(
            (i for i, e in enumerate(entries) if e.name == use.name and not e.use and not e.spare), None
        )
        if free is None:
            findings.append(_unmet(kit, entries, use))
            continue
        pocket = kit.layouts[use.layout_index].pocket
        entries[free] = replace(entries[free], use=use, pocket=pocket)
    findings += _check_left_over(entries)
    findings += _check_pockets(kit, entries)
    return Ledger(tuple(entries), tuple(findings))


def _is_free(entry: Entry, name: str) -> bool:
    return entry.name == name and entry.use is None and not entry.spare


def _check_names(kit: Kit, entries: Sequence[Entry]) -> Iterator[Finding]:
    """A name stands for pieces of one size from one place, or no reader could tell them apart."""
    first: dict[str, Entry] = {}
    for entry in entries:
        known = first.setdefault(entry.name, entry)
        if _source(known) != _source(entry):
            found = f"{entry.name!r} comes from {_source_words(kit, known)} and {_source_words(kit, entry)}"
            yield error("name-on-two", entry.where, found, "give one of them another name")
        elif known.size != entry.size:
            sizes = f"{plain_size(known.size, kit.unit)} and {plain_size(entry.size, kit.unit)}"
            cure = "give each size a name of its own"
            yield error("name-of-two-sizes", entry.where, f"{entry.name!r} is cut as {sizes}", cure)


def _source(entry: Entry) -> tuple[str, int]:
    if entry.piece is not None:
        return ("sheets", entry.piece.sheet_index)
    assert entry.ready_index is not None
    return ("ready", entry.ready_index)


def _source_words(kit: Kit, entry: Entry) -> str:
    kind, index = _source(entry)
    return f"sheet {kit.sheets[index].id!r}" if kind == "sheets" else "the ready-cut pieces"


def _unmet(kit: Kit, entries: Sequence[Entry], use: Use) -> Finding:
    named = [entry for entry in entries if entry.name == use.name]
    layout = kit.layouts[use.layout_index].id
    if not named:
        near = get_close_matches(use.name, list(dict.fromkeys(e.name for e in entries)), 1)
        cure = f"did you mean {near[0]!r}?" if near else "cut it, or list it under ready"
        return error("piece-not-made", use.where, f"no sheet gives a piece {use.name!r}", cure)
    if all(entry.spare for entry in named):
        found = f"{layout!r} uses {use.name!r}, which is said to be spare"
        return error("piece-spare-used", use.where, found, "take it off the spare list")
    layouts = ", ".join(kit.layouts[e.use.layout_index].id for e in named if e.use)
    found = f"{layout!r} wants one more {use.name!r} than the kit gives"
    return error("piece-used-twice", use.where, found, f"{_count(named)} used already, by {layouts}")


def _count(named: Sequence[Entry]) -> str:
    usable = sum(not entry.spare for entry in named)
    return "the only one is" if usable == 1 else f"all {usable} are"


def _check_left_over(entries: Sequence[Entry]) -> Iterator[Finding]:
    left = [entry for entry in entries if not entry.use and not entry.spare]
    for (name, _), group in groupby(left, key=lambda e: (e.name, _source(e))):
        entries_left = list(group)
        ready = entries_left[0].ready_index is not None
        count = len(entries_left)
        labels = ", ".join(entry.label for entry in entries_left if entry.label)
        shown = f" ({labels})" if labels else ""
        cure = "say spare: and how many" if ready else "place it on a layout, or list it under spare"
        verb = "are" if count > 1 else "is"
        found = f"{count} {name!r}{shown} {verb} used by no layout"
        yield error("piece-left-over", entries_left[0].where, found, cure)


def _check_pockets(kit: Kit, entries: Sequence[Entry]) -> Iterator[Finding]:
    """Compare the pockets that sheets state with those that follow from the layouts."""
    for index, sheet in enumerate(kit.sheets):
        for name, stated in sheet.pockets.items():
            where = ("sheets", index, "pockets", name)
            mine = [e for e in entries if e.name == name and e.piece and e.piece.sheet_index == index]
            filed = Counter(entry.pocket for entry in mine if entry.pocket is not None)
            if not filed:
                cure = "correct the name, or place the piece on a layout"
                yield error("pocket-of-nothing", where, f"no piece {name!r} of this sheet is filed", cure)
            elif set(filed) != {stated}:
                follows = ", ".join(str(pocket) for pocket in sorted(filed))
                found = f"{name!r} is stated to go to pocket {stated}, its layout's is {follows}"
                yield error("pocket-differs", where, found, "correct the pocket here or at the layout")
