"""What `booklet proof` tells, as lines or as JSON: what is wrong, what has changed, what is to be read."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from booklet.cli.claims_table import COLUMNS, claim_row, said, typed
from booklet.cli.file_check_words import check_lines, checks_as_json, fault_lines
from booklet.kit.errors import place_text

if TYPE_CHECKING:
    from booklet.kit.source import Source
    from booklet.proof.claim import Claim
    from booklet.proof.editions import Changes
    from booklet.proof.measured import Drawn
    from booklet.proof.proof import Proof

# A file that is wholly wrong is told by its first lines.
_MOST_LINES = 40


def change_lines(changes: Changes | None) -> Iterator[str]:
    """What is different from an earlier edition: numbers by their keys, then the pages to be read again."""
    if changes is None:
        return
    yield from (f"renamed: {old} is now {new}" for old, new in changes.renamed.items())
    for one in changes.changed:
        yield f"changed: {one.key}: {one.before} is now {one.now}"
    yield from (f"new: {key}" for key in changes.came)
    yield from (f"gone: {key}" for key in changes.went)
    for number, then in changes.moved.items():
        yield f"p. {number} is p. {then} of the earlier edition"
    pages = ", ".join(map(str, changes.again))
    yield f"to be read again: p. {pages}" if pages else "no page is to be read again"


def proof_lines(proved: Proof, source: Source) -> Iterator[str]:
    """What is wrong, the author's own numbers, and the sums."""
    wrong = list(wrong_lines(proved, source))
    yield from wrong[:_MOST_LINES]
    if len(wrong) > _MOST_LINES:
        yield f"and {len(wrong) - _MOST_LINES} more"
    own = [claim for claim in proved.numbers if _is_own(claim)]
    if own:
        yield "Numbers in the author's own words, for a person to read:"
        yield from (f"  p. {claim.page}: {said(claim)}  ({_place(claim, source)})" for claim in own)
    count = sum(page.found for page in proved.pages)
    yield f"{len(proved.pages)} pages, {len(proved.numbers)} claims, {count} numbers found as claimed"
    farthest = max((length.off or 0.0 for length in proved.lengths), default=0.0)
    yield f"{len(proved.lengths)} lengths measured, the farthest {farthest:.4f} mm from its number"
    yield from check_lines(proved.checks)
    failed = [page.page for page in proved.pages if not page.holds]
    if failed:
        yield f"failed: p. {', '.join(map(str, failed))}"
    if not all(length.holds for length in proved.lengths):
        yield f"failed: {sum(not length.holds for length in proved.lengths)} lengths"
    if proved.unread_sides:
        yield f"failed: side {', '.join(map(str, proved.unread_sides))} of the print file"
    if proved.misplaced:
        yield f"failed: {len(proved.misplaced)} places of the print file"
    if count := sum(not check.holds for check in proved.checks):
        yield f"failed: {count} checks of the files"
    if proved.holds:
        yield "nothing wrong"


def wrong_lines(proved: Proof, source: Source) -> Iterator[str]:
    """Everything that is not as it is to be, a line each."""
    for lost in proved.unlaid:
        yield f"on no page: {lost.what}  ({lost.section})"
    unread = {page.page for page in proved.pages if not page.is_read}
    for page in proved.pages:
        if page.page in unread:
            yield f"p. {page.page} cannot be read: part of it is damaged or is not in the file"
            continue
        for claim in page.missing:
            yield f"p. {page.page}: not printed: {said(claim)}  ({_place(claim, source)})"
        for value in page.unclaimed:
            yield f"p. {page.page}: printed, but nothing of the kit says so: {typed(value)}"
        for claim in page.misprinted:
            meant = " x ".join(map(typed, claim.value))
            yield f"p. {page.page}: says {said(claim)}, the kit says {meant}  ({_place(claim, source)})"
    for claim in proved.untraced:
        yield f"p. {claim.page}: from nothing in the spec: {said(claim)}  ({claim.key})"
    for length in proved.lengths:
        if not length.holds and length.claim.page not in unread:
            off = "nowhere" if length.off is None else f"{length.off:.2f} mm beside its place"
            drawn = length.claim
            yield f"p. {drawn.page}: drawn {off}: {said(drawn)}  ({_place(drawn, source)})"
    for number in proved.unread_sides:
        yield f"side {number} of the print file cannot be read: part of it is damaged or is not in the file"
    for wrong in proved.misplaced:
        found = f"page {wrong.found}" if wrong.found else "no page of the booklet"
        found += ", upside down" if wrong.is_upside_down else ""
        expected = f"page {wrong.wanted}" if wrong.wanted else "nothing"
        yield f"side {wrong.side} of the print file, {wrong.place}: {found}, expected {expected}"
    yield from fault_lines(proved.checks)


def _is_own(claim: Claim) -> bool:
    from booklet.proof.claim import Kind

    return claim.kind is Kind.OWN


def _place(claim: Claim | Drawn, source: Source) -> str:
    if claim.source is None:
        return claim.key
    return f"{place_text(source.name, source.line(claim.source))}, {claim.key}"


def _drawn(drawn: Drawn, source: Source) -> dict[str, Any]:
    line = source.line(drawn.source) if drawn.source is not None else None
    return {"key": drawn.key, "said": said(drawn), "page": drawn.page, "line": line}


def proof_json(proved: Proof, source: Source) -> dict[str, Any]:
    """What was found, for a program."""

    def told(claim: Claim) -> dict[str, Any]:
        return dict(zip(COLUMNS, claim_row(claim, source), strict=True))

    return {
        "pages": len(proved.pages),
        "claims": len(proved.numbers),
        "found": sum(page.found for page in proved.pages),
        "pages that cannot be read": [page.page for page in proved.pages if not page.is_read],
        "sides that cannot be read": list(proved.unread_sides),
        "not printed": [told(claim) for page in proved.pages for claim in page.missing],
        "printed, not claimed": [
            {"page": page.page, "text": typed(value)} for page in proved.pages for value in page.unclaimed
        ],
        "misprinted": [told(claim) for page in proved.pages for claim in page.misprinted],
        "from nothing in the spec": [told(claim) for claim in proved.untraced],
        "on no page": [asdict(lost) for lost in proved.unlaid],
        "lengths": len(proved.lengths),
        "drawn elsewhere": [
            _drawn(length.claim, source) | {"millimetres": length.off}
            for length in proved.lengths
            if not length.holds
        ],
        "wrong places": [asdict(wrong) for wrong in proved.misplaced],
        "checks": checks_as_json(proved.checks),
        "the author's words": [told(claim) for claim in proved.numbers if _is_own(claim)],
    }
