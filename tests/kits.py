"""Small kits for tests, built through the model as the loader builds them."""

from __future__ import annotations

import ast
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

from booklet.cutting.cut import cut_kit
from booklet.cutting.model import CutSheet, Piece
from booklet.kit.finding import Finding
from booklet.kit.kit import Kit
from booklet.kit.read import read_data
from booklet.measure.length import Unit
from booklet.sorting.ledger import Ledger, LedgerEntry, keep_ledger, wants

Data = dict[str, Any]

PAPERS: Data = {
    "plain": {"front": {"colours": ["#f4efe6"]}},
    "shingle": {
        "front": {"pattern": "waves", "colours": ["#dfe9ec", "#5d8794"]},
        "back": {"pattern": "stripes", "colours": ["#ffffff", "#c9d8dc"]},
        "edges": {"left": "wave border", "bottom": "selvedge"},
    },
}


def make_kit(
    *sheets: Data, layouts: Sequence[Data] | None = None, unit: Unit = Unit.INCH, **more: Any
) -> Kit:
    """A kit of these sheets.  Without `layouts` one layout lies on a piece that may not exist."""
    used = {one["paper"] for one in (*sheets, *more.get("ready", ()))}
    data: Data = {
        "title": "Low Tide",
        "publisher": "Harbour Paper",
        "unit": unit.value,
        "sheet": "12 x 12" if unit is Unit.INCH else "305 x 305 mm",
        "papers": {name: paper for name, paper in PAPERS.items() if name in used},
        "sheets": list(sheets),
        "layouts": [layout()] if layouts is None else list(layouts),
    }
    return read_data(Kit, data | more, unit)


def sheet(*cuts: Data, id: str = "sheet", paper: str = "plain", **more: Any) -> Data:
    """A sheet with its cuts in order."""
    return {"id": id, "paper": paper, "cuts": list(cuts), **more}


def cut(at: Any, leaves: Any = (), **more: Any) -> Data:
    """One cut step; `take`, `turn` and `tip` as keywords."""
    return {"at": at, "leaves": leaves, **more}


def element(name: str, left: Any, top: Any, size: str = "3 x 3") -> Data:
    """One printed element of a cut-apart."""
    return {"name": name, "left": left, "top": top, "size": size}


def layout(base: str = "base", *places: str, id: str = "low tide", pocket: int | str = 1) -> Data:
    """A layout that lays these pieces on its base, each flush with its top and left."""
    steps = [{"place": name, "left": 0, "top": 0} for name in places]
    return {"id": id, "pocket": pocket, "base": base, "steps": steps}


def ready(name: str, count: int = 1, spare: int = 0, size: str = "4 x 6") -> Data:
    """Ready-cut pieces in the box."""
    return {"name": name, "size": size, "paper": "plain", "count": count, "spare": spare}


def cut_one(one: Data, **more: Any) -> CutSheet:
    """The only sheet of a kit, cut."""
    (done,) = cut_kit(make_kit(one, **more))
    return done


def ledger_of(kit: Kit) -> Ledger:
    """The kit's ledger, with every want of its layouts."""
    return keep_ledger(kit, cut_kit(kit), wants(kit))


def used_by(ledger: Ledger, layout_index: int) -> list[LedgerEntry]:
    """The pieces that a layout uses, in the order in which it uses them."""
    return [entry for entry in ledger.given if entry and entry.use and entry.use.layout_index == layout_index]


def ids(findings: Iterable[Finding]) -> list[str]:
    """The ids of findings, in order."""
    return [finding.id for finding in findings]


def named(pieces: Iterable[Piece], name: str) -> Piece:
    """The one piece of this name."""
    (piece,) = [piece for piece in pieces if piece.name == name]
    return piece


def in_pocket(ledger: Ledger, pocket: int | str) -> list[LedgerEntry]:
    """What a pocket holds: by sheet and letter, then what comes ready-cut."""
    return [entry for entry in ledger.entries if entry.pocket == str(pocket)]


def value_at(kit: Kit, where: Sequence[str | int]) -> Any:
    """What stands at a place in the kit; an edge's or piece's own words where they are keys.

    Raises LookupError or AttributeError where the path leads nowhere.
    """
    value: Any = kit
    for part in where:
        if isinstance(value, tuple):
            value = value[int(part)]
        else:
            value = value[part] if isinstance(value, dict) else getattr(value, str(part))
    return value


def finding_ids(folder: Path) -> set[str]:
    """The ids of all findings that the modules of a folder can make, read off their source."""
    calls = [
        node
        for path in sorted(folder.glob("*.py"))
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call) and node.args
    ]
    makers = {"error", "warning", "note", "report"}
    first = [
        call.args[0] for call in calls if {getattr(call.func, name, "") for name in ("id", "attr")} & makers
    ]
    assert all(isinstance(said, ast.Constant) for said in first), "an id that is not written out"
    return {str(said.value) for said in first if isinstance(said, ast.Constant)}
