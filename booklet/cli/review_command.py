"""What `booklet plan --review` does: cuts as written beside the best found, and what saved paper is worth."""

from __future__ import annotations

from argparse import ArgumentTypeError
from collections.abc import Iterator, Sequence
from decimal import Decimal, InvalidOperation
from typing import TYPE_CHECKING

from booklet.cli.exits import Exit
from booklet.cli.progress import planning_progress
from booklet.kit.words import shown

if TYPE_CHECKING:
    from booklet.cutting.model import CutSheet
    from booklet.cutting.planner.review import PaperReview, SheetReview
    from booklet.kit.kit import Kit
    from booklet.kit.load import LoadedKit

_KITS = 1000
_HEADS = ("sheet", "cuts", "settings", "turns", "scrap", "largest scrap")


def price(typed: str) -> Decimal:
    """What one sheet costs, in any money.  Raises ArgumentTypeError for what is no such number."""
    try:
        value = Decimal(typed)
    except InvalidOperation:
        value = Decimal("NaN")
    if not value.is_finite() or not 0 < value < 1_000_000:
        raise ArgumentTypeError(f"{shown(typed)} is no price such as 0.35")
    return value


def review(loaded: LoadedKit, sheet_price: Decimal | None) -> Exit:
    """Print the comparison of one kit."""
    from booklet.cutting.planner.review import review_papers, review_sheets
    from booklet.placing.resolved import resolve_kit

    with planning_progress(loaded.kit) as begun:
        resolved = resolve_kit(loaded, begun=begun)
    sheets = review_sheets(resolved.kit, resolved.sheets)
    papers = review_papers(resolved.kit, resolved.sheets)
    lines = [
        *_table(resolved.kit, sheets),
        "",
        *_paper_lines(resolved.kit, papers),
        *_worth(papers, sheet_price),
    ]
    print("\n".join(lines))
    return Exit.WELL


def _table(kit: Kit, sheets: Sequence[SheetReview]) -> list[str]:
    """A row for each sheet, its columns in line; what cannot be planned anew comes at the end."""
    rows = [_HEADS, *(_row(kit, one) for one in sheets if one.why is None)]
    widths = [max(len(row[column]) for row in rows) for column in range(len(_HEADS))]
    lines = [
        "  ".join(word.ljust(width) for word, width in zip(row, widths, strict=True)).rstrip() for row in rows
    ]
    return [*lines, *(f"{one.written.sheet.id}: stays; it is {one.why}" for one in sheets if one.why)]


def _row(kit: Kit, one: SheetReview) -> tuple[str, ...]:
    from booklet.cli.plan_words import percent
    from booklet.cutting.model import sheet_work

    written = sheet_work(one.written)
    found = sheet_work(one.found) if one.found else written
    return (
        one.written.sheet.id,
        _change(written.cuts, found.cuts),
        _change(written.settings, found.settings),
        _change(written.turns, found.turns),
        _change(percent(written.scrap_share), percent(found.scrap_share)),
        _change(_largest(kit, one.written), _largest(kit, one.found or one.written)),
    )


def _change(written: object, found: object) -> str:
    return f"{written}" if written == found else f"{written} -> {found}"


def _largest(kit: Kit, cut: CutSheet) -> str:
    from booklet.cli.plan_words import largest_scrap
    from booklet.measure.words import plain_size

    largest = largest_scrap(cut)
    return plain_size(largest, kit.unit) if largest else "none"


def _paper_lines(kit: Kit, papers: Sequence[PaperReview]) -> Iterator[str]:
    """How many sheets of each paper there need be, and the cuts where fewer do."""
    if not papers:
        yield "No paper has more than one sheet that is cut freely: there is no sheet to save."
    for one in papers:
        if one.plan is None:
            proof = "and no fewer can do" if one.proved else "and no fewer were found to do"
            yield f"{one.paper}: {one.sheets} sheets, {proof}"
            continue
        yield f"{one.paper}: {one.sheets} sheets -> {one.plan.metrics.sheets}, cut so:"
        yield from _plan_lines(kit, one)


def _plan_lines(kit: Kit, one: PaperReview) -> Iterator[str]:
    from booklet.cutting.planner.request import as_cuts
    from booklet.kit.typed import block_cuts

    assert one.plan is not None
    for sheet in one.plan.sheets:
        yield f"  # {sheet.stock}" + (f": whole, {sheet.whole}" if sheet.whole else "")
        yield from block_cuts(as_cuts(sheet.steps, 1), kit.unit, 4)


def _worth(papers: Sequence[PaperReview], sheet_price: Decimal | None) -> Iterator[str]:
    from booklet.cli.plan_words import count

    saved = sum(one.saved for one in papers)
    if saved:
        worth = "" if sheet_price is None else f", worth {saved * _KITS * sheet_price:,.2f}"
        yield f"Saved: {count(saved, 'sheet')} in each kit, {saved * _KITS:,} in a thousand kits{worth}."
        if sheet_price is None:
            yield "--price, the price of one sheet, adds what that is worth."
    elif papers:
        yield "Saved: no sheets."
