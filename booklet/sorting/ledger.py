"""The ledger: every piece from its cut, or from the box, to its pocket and its layout.

Nothing is filed that no layout uses, used that nothing makes, used twice, or left over without being listed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import field
from functools import cached_property

from booklet.cutting.labels import check_name
from booklet.cutting.model import CutSheet, Fate, Piece
from booklet.kit.finding import Finding, SpecPath, error, note, warning
from booklet.kit.kit import Kit, paper_title
from booklet.kit.layout import Layout
from booklet.kit.pockets import nearest_pocket
from booklet.kit.sheet import OutlineShape
from booklet.kit.spreads import pockets_of, spreads
from booklet.kit.table_work import SnipWork, worked_on
from booklet.kit.used import PieceUse, uses
from booklet.kit.words import any_of, nearest, quoted
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size
from booklet.measure.words import exact_size

# A path as long as this leads to a step of a layout: ("layouts", 0, "steps", 0).
_STEP_DEPTH = 4


@dataclass(frozen=True)
class LedgerEntry:
    """One piece in the ledger.

    It comes from a sheet (`piece`) or ready-cut from the box (`ready_index`), and goes to a layout, or is
    spare.  `use` is the layout's want that it meets.  A base that is a whole sheet has no pocket unless its
    sheet states one.
    """

    name: str
    size: Size
    where: SpecPath
    piece: Piece | None = None
    ready_index: int | None = None
    spare: bool = False
    use: PieceUse | None = None
    pocket: str | None = None

    @property
    def label(self) -> str:
        """Sheet number and letter; nothing for a piece that comes ready-cut."""
        return self.piece.label if self.piece else ""

    @property
    def source(self) -> tuple[str, int]:
        """Where it comes from: `("sheets", index)` or `("ready", index)`."""
        if self.piece is not None:
            return ("sheets", self.piece.sheet_index)
        assert self.ready_index is not None
        return ("ready", self.ready_index)

    @property
    def waits_in_pile(self) -> bool:
        """Whether its layout takes it from the pile of sheets, where it was left whole."""
        return self.use is not None and self.pocket is None

    @property
    def is_free(self) -> bool:
        """Whether a layout may still have it."""
        return self.use is None and not self.spare


@dataclass(frozen=True)
class Ledger:
    """Every piece of the kit, in the order in which it is cut or listed, and what does not balance.

    `given` holds the entry that meets each want, in the order of the wants; None where none does.  `check`
    finds what does not balance.
    """

    entries: tuple[LedgerEntry, ...]
    given: tuple[LedgerEntry | None, ...] = ()
    check: Callable[[], Iterable[Finding]] = field(default=tuple, compare=False, repr=False)

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What does not balance, looked for when somebody asks first."""
        return tuple(self.check())

    def of_piece(self, piece: Piece) -> LedgerEntry | None:
        """The entry of a piece that was cut."""
        return self._by_piece.get(piece.key)

    def of_use(self, layout_index: int, number: int) -> LedgerEntry | None:
        """The entry that meets a layout's want, by its index among the layout's uses."""
        return self._by_use.get((layout_index, number))

    @cached_property
    def _by_piece(self) -> dict[tuple[int, int, ExactRect], LedgerEntry]:
        return {e.piece.key: e for e in reversed(self.entries) if e.piece is not None}

    @cached_property
    def _by_use(self) -> dict[tuple[int, int], LedgerEntry]:
        found = [e for e in reversed(self.given) if e is not None]
        return {(e.use.layout_index, e.use.number): e for e in found if e.use is not None}


def wants(kit: Kit) -> tuple[PieceUse, ...]:
    """Every piece that the layouts want, in the order of the spec."""
    return tuple(
        use for index, layout in enumerate(kit.layouts) for use in uses(layout, index) if use.part_of is None
    )


def made_pieces(kit: Kit, cut: Sequence[CutSheet]) -> tuple[LedgerEntry, ...]:
    """Everything that the kit gives: pieces by sheet number and letter, then what comes ready-cut."""
    by_number = sorted(cut, key=lambda sheet: sheet.number)
    cut_entries = [
        LedgerEntry(piece.name, piece.size, piece.where, piece=piece, spare=piece.fate is Fate.SPARE)
        for sheet in by_number
        for piece in sorted(_useful(sheet), key=lambda p: (len(p.label), p.label, p.copy))
    ]
    ready_entries = [
        LedgerEntry(
            ready.name, ready.size, ("ready", index), ready_index=index, spare=n >= ready.count - ready.spare
        )
        for index, ready in enumerate(kit.ready)
        for n in range(ready.count)
    ]
    return tuple(cut_entries + ready_entries)


def _useful(sheet: CutSheet) -> list[Piece]:
    return [piece for piece in sheet.pieces if piece.fate in {Fate.KEPT, Fate.SPARE}]


def sizes_by_name(entries: Sequence[LedgerEntry]) -> dict[str, Size]:
    """The size that a name stands for."""
    return {entry.name: entry.size for entry in reversed(entries)}


def keep_ledger(kit: Kit, cut: Sequence[CutSheet], wanted: Sequence[PieceUse]) -> Ledger:
    """Give each want the next unused piece of its name, and find every imbalance."""
    entries = list(made_pieces(kit, cut))
    free = _free_by_name(entries)
    met: list[int | None] = []
    for use in wanted:
        number = free[use.name].pop() if free.get(use.name) else None
        met.append(number)
        if number is not None:
            stays = _stays_in_pile(kit, cut, entries[number], use)
            pocket = None if stays else kit.layouts[use.layout_index].pocket
            entries[number] = replace(entries[number], use=use, pocket=pocket)
    unmet = [use for use, number in zip(wanted, met, strict=True) if number is None]
    given = tuple(None if number is None else entries[number] for number in met)
    return Ledger(tuple(entries), given, lambda: _check(kit, cut, entries, unmet))


def _stays_in_pile(kit: Kit, cut: Sequence[CutSheet], entry: LedgerEntry, use: PieceUse) -> bool:
    """Whether a layout's base is a whole sheet, of which its sheet does not say that it is filed."""
    if use.step is not None or entry.piece is None:
        return False
    index = entry.piece.sheet_index
    is_whole = any(entry.piece in sheet.whole for sheet in cut if sheet.index == index)
    return is_whole and entry.name not in kit.sheets[index].pockets


def _free_by_name(entries: Sequence[LedgerEntry]) -> dict[str, list[int]]:
    """The indexes of the free entries of each name, the next to give last."""
    free: dict[str, list[int]] = {}
    for number in reversed(range(len(entries))):
        if entries[number].is_free:
            free.setdefault(entries[number].name, []).append(number)
    return free


def _check(
    kit: Kit, cut: Sequence[CutSheet], entries: Sequence[LedgerEntry], unmet: Sequence[PieceUse]
) -> Iterator[Finding]:
    yield from check_pieces(kit, entries)
    if not kit.layouts:
        cure = "add layouts, or ask for the sheets alone: booklet check --sheets"
        yield error("layouts-missing", ("layouts",), "the kit has no layouts", cure)
        return
    cut_on = {piece.name for sheet in cut for stage in sheet.stages for piece in stage.taken}
    cut_on |= {
        worked_on(work.step) for sheet in cut for work in sheet.works if isinstance(work.step, SnipWork)
    }
    explained = _explained(kit, cut)
    for wanted in _by_step(unmet):
        name = wanted[0].name
        if name not in explained:
            named = [entry for entry in entries if entry.name == name]
            yield _unmet(kit, named, entries, cut_on, wanted)
    yield from _check_left_over(kit, cut, entries)
    yield from _check_pockets(kit, entries, explained)
    yield from _check_pocket_tips(kit)
    yield from _check_facing(kit)


def check_pieces(kit: Kit, entries: Iterable[LedgerEntry]) -> Iterator[Finding]:
    """What is wrong with the pieces whatever the layouts make of them: names, sizes, what is spare."""
    yield from _check_ready(kit)
    yield from _check_names(kit, entries)


def _explained(kit: Kit, cut: Sequence[CutSheet]) -> set[str]:
    """The names of pieces that a layout may miss for a reason that is reported elsewhere."""
    unmade = {name for sheet in cut for name in sheet.unmade}
    return unmade | {ready.name for ready in kit.ready if ready.spare > ready.count}


def _by_step(unmet: Iterable[PieceUse]) -> list[list[PieceUse]]:
    """Wants that are not met, those of one name in one step together."""
    groups: dict[tuple[str, SpecPath], list[PieceUse]] = {}
    for use in unmet:
        groups.setdefault((use.name, use.where[:_STEP_DEPTH]), []).append(use)
    return list(groups.values())


def _check_ready(kit: Kit) -> Iterator[Finding]:
    for index, ready in enumerate(kit.ready):
        if ready.outline is OutlineShape.CIRCLE and ready.size.width != ready.size.height:
            found = f"{quoted(ready.name)}, a circle, is {exact_size(ready.size, kit.unit)}"
            cure = "say one size for both sides, or leave it where it is an oval"
            yield note("ready-not-round", ("ready", index, "size"), found, cure)
        yield from check_name(ready.name, ("ready", index, "name"))
        if ready.spare > ready.count:
            found = f"{ready.spare} of {ready.count} {quoted(ready.name)} are said to be spare"
            yield error("spare-too-many", ("ready", index, "spare"), found, f"say at most {ready.count}")


def _check_names(kit: Kit, entries: Iterable[LedgerEntry]) -> Iterator[Finding]:
    """A name stands for pieces of one size from one place, done alike, or no reader could tell them apart."""
    first: dict[str, LedgerEntry] = {}
    said: set[tuple[str, tuple[str, int], Size | None]] = set()
    for entry in entries:
        known = first.setdefault(entry.name, entry)
        differs = known.source != entry.source
        if not differs and known.size == entry.size:
            yield from _two_finishes(known, entry)
            continue
        fault = (entry.name, entry.source, None if differs else entry.size)
        if fault not in said:
            said.add(fault)
            yield _two_sources(kit, known, entry) if differs else _two_sizes(kit, known, entry)


def _two_sources(kit: Kit, known: LedgerEntry, entry: LedgerEntry) -> Finding:
    places = f"{_source_words(kit, known)} and {_source_words(kit, entry)}"
    found = f"{quoted(entry.name)} comes from {places}"
    return error("name-on-two", entry.where, found, "give one of them another name")


def _two_sizes(kit: Kit, known: LedgerEntry, entry: LedgerEntry) -> Finding:
    sizes = f"{exact_size(known.size, kit.unit)} and {exact_size(entry.size, kit.unit)}"
    found = f"{quoted(entry.name)} is cut as {sizes}"
    return error("name-of-two-sizes", entry.where, found, "give each size a name of its own")


def _two_finishes(known: LedgerEntry, entry: LedgerEntry) -> Iterator[Finding]:
    """Pieces of one name of which some are rounded or punched at the cutting table, and some are not."""
    if known.piece is not None and entry.piece is not None and known.piece.finish != entry.piece.finish:
        found = f"{quoted(entry.name)} is rounded or punched in one piece and not alike in another"
        cure = "do the work once all of them are cut, or give them names of their own"
        yield error("name-of-two-finishes", entry.where, found, cure)


def _source_words(kit: Kit, entry: LedgerEntry) -> str:
    kind, index = entry.source
    if kind == "ready":
        return f"ready-cut item {index + 1}"
    return f"sheet {quoted(kit.sheets[index].id)}"


def _unmet(
    kit: Kit,
    named: Sequence[LedgerEntry],
    entries: Sequence[LedgerEntry],
    cut_on: set[str],
    wanted: Sequence[PieceUse],
) -> Finding:
    """Why wants of one step are not met; `named` are the entries of their name, none of them free."""
    use = wanted[0]
    name, layout = quoted(use.name), quoted(kit.layouts[use.layout_index].id)
    if not named and use.name in cut_on:
        cure = "use one of the pieces that it is cut into"
        return error("piece-not-made", use.where, f"{name} is cut into other pieces", cure)
    if not named:
        near = nearest(use.name, dict.fromkeys(entry.name for entry in entries))
        cure = f"did you mean {quoted(near)}?" if near else "cut it, or list it under ready"
        return error("piece-not-made", use.where, f"nothing in the kit gives a piece {name}", cure)
    if any(entry.spare for entry in named):
        found = f"{layout} uses {name}, and what there is left of it is said to be spare"
        return error("piece-spare-used", use.where, found, "say fewer of it to be spare")
    layouts = dict.fromkeys(quoted(kit.layouts[e.use.layout_index].id) for e in named if e.use)
    more = "one" if len(wanted) == 1 else len(wanted)
    found = f"{layout} wants {more} more {name} than the kit gives"
    count = "the only one is" if len(named) == 1 else f"all {len(named)} are"
    return error("piece-used-twice", use.where, found, f"{count} used already, by {', '.join(layouts)}")


def _check_left_over(kit: Kit, cut: Sequence[CutSheet], entries: Sequence[LedgerEntry]) -> Iterator[Finding]:
    """What no layout uses and is not listed as spare: one finding for each name and source.

    A piece that was to be cut on, which failed, is reported there.
    """
    uncut = {(name, ("sheets", sheet.index)) for sheet in cut for name in sheet.uncut}
    groups: dict[tuple[str, tuple[str, int]], list[LedgerEntry]] = {}
    for entry in entries:
        if entry.is_free and (entry.name, entry.source) not in uncut:
            groups.setdefault((entry.name, entry.source), []).append(entry)
    for (name, source), left in groups.items():
        labels = ", ".join(dict.fromkeys(entry.label for entry in left if entry.label))
        shown = f" ({labels})" if labels else ""
        verb = "are" if len(left) > 1 else "is"
        found = f"{len(left)} {quoted(name)}{shown} {verb} used by no layout"
        yield error("piece-left-over", left[0].where, found, _left_over_cure(kit, name, source, len(left)))


def _left_over_cure(kit: Kit, name: str, source: tuple[str, int], left: int) -> str:
    kind, index = source
    if kind == "ready":
        return f"place it on a layout, or say spare: {kit.ready[index].spare + left}"
    times = "once for each" if left > 1 else "once more" if name in kit.sheets[index].spare else ""
    return f"place it on a layout, or list it under spare {times}".rstrip()


def _check_pockets(kit: Kit, entries: Sequence[LedgerEntry], explained: set[str]) -> Iterator[Finding]:
    """Compare the pockets that sheets state with those that follow from the layouts.

    A piece of an `explained` name is reported elsewhere.
    """
    filed: dict[tuple[str, tuple[str, int]], set[str]] = {}
    order = pockets_of(kit)
    for entry in entries:
        if entry.pocket is not None:
            filed.setdefault((entry.name, entry.source), set()).add(entry.pocket)
    for index, sheet in enumerate(kit.sheets):
        for name, stated in sheet.pockets.items():
            where = ("sheets", index, "pockets", name)
            follows = filed.get((name, ("sheets", index)), set())
            if not follows and name in explained:
                continue
            if not follows:
                found = f"no piece {quoted(name)} of this sheet is filed"
                cure = "correct the name, or place the piece on a layout"
                yield error("pocket-of-nothing", where, found, cure)
            elif follows != set(stated):
                pockets = " and ".join(sorted(follows, key=order.index))
                said = " and ".join(stated)
                found = (
                    f"{quoted(name)} is stated to go to pocket {said}, by its layouts it goes to {pockets}"
                )
                yield error("pocket-differs", where, found, "correct the pocket here or at the layout")


def _check_pocket_tips(kit: Kit) -> Iterator[Finding]:
    """A tip for a pocket that serves no layout would be printed nowhere."""
    pockets = pockets_of(kit)
    for pocket in kit.pocket_tips:
        if pocket not in pockets:
            near = nearest_pocket(pocket, pockets) or nearest(pocket, pockets)
            found = f"no layout has its pieces in pocket {pocket}"
            cure = f"did you mean {near}?" if near else f"give it to pocket {any_of(list(pockets))}"
            yield error("pocket-tip-of-nothing", ("pocket_tips", pocket), found, cure)


def _check_facing(kit: Kit) -> Iterator[Finding]:
    """Pages that face each other are made together, so that what they need lies in one pocket."""
    for left, right in (spread for spread in spreads(kit) if len(spread) == 2):
        one, other = kit.layouts[left], kit.layouts[right]
        if one.pocket != other.pocket:
            found = (
                f"{quoted(other.id)} has its pieces in pocket {other.pocket}, and {quoted(one.id)}, which it"
                f" faces, in pocket {one.pocket}"
            )
            where = ("layouts", right, "pocket")
            yield warning("facing-pockets-differ", where, found, "give both the same pocket")
        papers = [_base_paper(kit, kit.layouts[index]) for index in (left, right)]
        if None not in papers and papers[0] != papers[1]:
            found = (
                f"the base of {quoted(other.id)} is of {papers[1]}, that of {quoted(one.id)}, which it faces,"
                f" of {papers[0]}"
            )
            yield note("facing-bases-differ", ("layouts", right, "base"), found, "leave it where it is meant")


def _base_paper(kit: Kit, layout: Layout) -> str | None:
    """The paper of a base that is a whole sheet, by its title; None for a piece."""
    papers = (sheet.paper for sheet in kit.sheets if sheet.id == layout.base.name and sheet.cuts == ())
    return next((paper_title(kit, paper) for paper in papers), None)
