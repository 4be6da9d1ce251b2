"""What a spec says in short, written out in the words that every later stage knows.

The loader does this once, when every value has been read: a base that names only its paper becomes a sheet.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from booklet.kit.finding import SpecPath
from booklet.kit.kit import MOST_SHEETS, Kit, paper_title
from booklet.kit.sheet import MOST_ALIKE, Sheet
from booklet.kit.tree import Complaint

_LONGEST_NAME = 60


@dataclass(frozen=True)
class WrittenOut:
    """A kit in which nothing is said in short, and what cannot be written out.

    `typed` leads from each place that was added or moved to the place where the spec says it.
    """

    kit: Kit
    typed: Mapping[SpecPath, SpecPath]
    complaints: tuple[Complaint, ...] = ()


def write_out(kit: Kit) -> WrittenOut:
    """The kit with a sheet for every base that is asked for by its paper, last among the sheets."""
    sheets, layouts, typed = list(kit.sheets), list(kit.layouts), dict[SpecPath, SpecPath]()
    for paper, indexes in _bases_by_paper(kit):
        title = paper_title(kit, paper) if paper in kit.papers else None
        sheet = Sheet(id=_free_name(paper, sheets, kit), paper=paper, title=title, count=len(indexes))
        typed["sheets", len(sheets)] = ("layouts", indexes[0], "base")
        sheets.append(sheet)
        for index in indexes:
            base = replace(layouts[index].base, piece=sheet.id, paper=None)
            layouts[index] = replace(layouts[index], base=base)
    if len(sheets) > MOST_SHEETS:
        found = f"{len(sheets)} sheets, with those of the bases"
        return WrittenOut(kit, {}, (Complaint(("sheets",), found, f"at most {MOST_SHEETS}"),))
    return WrittenOut(replace(kit, sheets=tuple(sheets), layouts=tuple(layouts)), typed)


def _bases_by_paper(kit: Kit) -> Iterator[tuple[str, list[int]]]:
    """The layouts by index whose bases are whole sheets of one paper, as many as one sheet may count."""
    papers = [layout.base.paper for layout in kit.layouts]
    for paper in dict.fromkeys(paper for paper in papers if paper is not None):
        indexes = [index for index, other in enumerate(papers) if other == paper]
        for start in range(0, len(indexes), MOST_ALIKE):
            yield paper, indexes[start : start + MOST_ALIKE]


def _free_name(paper: str, sheets: list[Sheet], kit: Kit) -> str:
    """The paper's own name for a sheet of it, or one like it where a sheet or a piece is called that."""
    taken = {sheet.id for sheet in sheets} | {piece.name for piece in kit.ready}
    for sheet in sheets:
        taken |= {name for cut in sheet.cuts or () for name in cut.leaves}
        taken |= {*sheet.sizes, *(element.name for element in sheet.elements)}
    names = [paper, *(f"whole {paper}{'' if n == 1 else f' {n}'}"[-_LONGEST_NAME:] for n in range(1, 99))]
    return next(name for name in names if name not in taken)
