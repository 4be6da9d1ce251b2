"""What `booklet proof` does: read the finished booklet back, and hold every number against the kit."""

from __future__ import annotations

import csv
import json
from argparse import Namespace
from collections.abc import Iterator, Sequence
from io import StringIO
from pathlib import Path
from typing import TYPE_CHECKING, Any

from booklet.cli.exits import Exit
from booklet.cli.files import write_files
from booklet.cli.progress import progress
from booklet.kit.errors import UsageError, place_text
from booklet.kit.words import quoted

if TYPE_CHECKING:
    from booklet.kit.source import Source
    from booklet.measure.exact import Fraction
    from booklet.proof.claims import Claim
    from booklet.proof.printed import Page
    from booklet.proof.read_back import PageProof

_COLUMNS = ("key", "kind", "said", "value", "unit", "page", "line", "place")


def proof(options: Namespace) -> Exit:
    """Print what of the booklet's numbers is not as it is to be, and write all of them as a table."""
    from booklet.content.spans import plain_text
    from booklet.kit.bundled import find_spec
    from booklet.kit.load import load_kit
    from booklet.pages.booklet import make_booklet, write_booklet
    from booklet.placing.resolved import resolve_kit
    from booklet.proof.claims import claims
    from booklet.proof.read_back import read_back
    from booklet.proof.reader import read_pages

    spec = find_spec(options.kit)
    with progress() as tell:
        loaded = load_kit(spec)
        laid = make_booklet(resolve_kit(loaded))
        tell("Reading the pages back")
        title = plain_text(laid.setup.document.title)
        pages = _read(options.file, title) if options.file else read_pages(write_booklet(laid))
        claimed = claims(laid, loaded.source.words)
        proofs = read_back(claimed, pages)
    name = f"{spec.stem}-claims.csv"
    write_files(options.out, {name: claims_csv(claimed, loaded.source)})
    if options.json:
        print(json.dumps(_as_json(claimed, proofs, loaded.source), ensure_ascii=False, indent=2))
    else:
        print("\n".join(proof_lines(claimed, proofs, loaded.source)))
        print(f"Every number with its place: {options.out / name}")
    return Exit.WELL if all(page.holds for page in proofs) else Exit.KIT_WRONG


def _read(file: Path, title: str) -> tuple[Page, ...]:
    """The pages of a finished booklet.  Raises UsageError for what is none, or is that of another kit."""
    from pypdfium2 import PdfiumError

    from booklet.proof.reader import read_pages, read_title

    try:
        data = file.read_bytes()
        found = read_title(data)
        if found != title:
            raise UsageError(f"{file.name} is {quoted(found)}, expected the booklet of {quoted(title)}")
        return read_pages(data)
    except OSError as error:
        raise UsageError(f"cannot read {file.name}: {error.strerror}") from None
    except PdfiumError as error:
        raise UsageError(f"{file.name} cannot be read as a PDF: {error}") from None


def proof_lines(claimed: Sequence[Claim], proofs: Sequence[PageProof], source: Source) -> Iterator[str]:
    """The findings page by page, the author's own numbers, and the sums."""
    for page in proofs:
        for claim in page.missing:
            yield f"p. {page.page}: not printed: {_said(claim)}  ({_place(claim, source)})"
        for value in page.unclaimed:
            yield f"p. {page.page}: printed, but nothing of the kit says so: {_typed(value)}"
        for claim in page.misprinted:
            meant = " x ".join(map(_typed, claim.value))
            yield f"p. {page.page}: says {_said(claim)}, the kit says {meant}  ({_place(claim, source)})"
    own = [claim for claim in claimed if _is_own(claim)]
    if own:
        yield "Numbers in the author's own words, for a person to read:"
        yield from (f"  p. {claim.page}: {_said(claim)}  ({_place(claim, source)})" for claim in own)
    found, failed = sum(page.found for page in proofs), [page.page for page in proofs if not page.holds]
    yield f"{len(proofs)} pages, {len(claimed)} claims, {found} numbers found as claimed"
    yield f"failed: p. {', '.join(map(str, failed))}" if failed else "nothing wrong"


def _is_own(claim: Claim) -> bool:
    from booklet.proof.claims import Kind

    return claim.kind is Kind.OWN


def _said(claim: Claim) -> str:
    """The text as print sets it, its no-break spaces as plain ones."""
    return claim.said.replace("\u00a0", " ")


def _place(claim: Claim, source: Source) -> str:
    if claim.source is None:
        return claim.key
    return f"{place_text(source.name, source.line(claim.source))}, {claim.key}"


def _typed(value: Fraction) -> str:
    """A number as it would be typed: `7 3/4`, `6.3`."""
    from booklet.measure.length import Unit
    from booklet.measure.words import exact_length

    return exact_length(value, Unit.INCH)


def claims_csv(claimed: Sequence[Claim], source: Source) -> bytes:
    """Every claim in one row, in reading order; UTF-8, lines end with CR LF."""
    out = StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(_COLUMNS)
    writer.writerows(_row(claim, source) for claim in claimed)
    return out.getvalue().encode()


def _row(claim: Claim, source: Source) -> tuple[str, ...]:
    return (
        claim.key,
        claim.kind.value,
        _said(claim),
        " x ".join(map(_typed, claim.value)),
        claim.unit.value if claim.unit else "",
        str(claim.page),
        str(source.line(claim.source)) if claim.source else "",
        source.words(claim.source) if claim.source else "",
    )


def _as_json(claimed: Sequence[Claim], proofs: Sequence[PageProof], source: Source) -> dict[str, Any]:
    def told(claim: Claim) -> dict[str, str]:
        return dict(zip(_COLUMNS, _row(claim, source), strict=True))

    return {
        "pages": len(proofs),
        "claims": len(claimed),
        "found": sum(page.found for page in proofs),
        "not printed": [told(claim) for page in proofs for claim in page.missing],
        "printed, not claimed": [
            {"page": page.page, "number": _typed(value)} for page in proofs for value in page.unclaimed
        ],
        "misprinted": [told(claim) for page in proofs for claim in page.misprinted],
        "the author's words": [told(claim) for claim in claimed if _is_own(claim)],
    }
