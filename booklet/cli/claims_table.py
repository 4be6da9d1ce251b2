"""The table of all claims, with a row for each page's digest at its end."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from booklet.cli.csv_text import csv_bytes, csv_rows, length_cell
from booklet.kit.errors import UsageError

if TYPE_CHECKING:
    from booklet.kit.source import Source
    from booklet.measure.exact import Fraction
    from booklet.proof.claim import Claim
    from booklet.proof.editions import Edition
    from booklet.proof.measured import Drawn
    from booklet.proof.proof import Proof

COLUMNS = ("key", "kind", "said", "value", "unit", "page", "line", "place")
_DIGEST = "page digest"


def claims_csv(proved: Proof, source: Source) -> bytes:
    """Every claim in one row in reading order, then what each page shows."""
    claims = (claim_row(claim, source) for claim in proved.numbers)
    pages = (
        (f"page {number}", _DIGEST, picture.digest, "", "", str(number), "", "")
        for number, picture in enumerate(proved.pictures, 1)
    )
    return csv_bytes((COLUMNS, *claims, *pages))


def claim_row(claim: Claim, source: Source) -> tuple[str, ...]:
    """A claim as the texts of its row."""
    return (
        claim.key,
        claim.kind.value,
        said(claim),
        _value_cell(claim.value),
        claim.unit.value if claim.unit else "",
        str(claim.page),
        str(source.line(claim.source)) if claim.source else "",
        source.words(claim.source) if claim.source else "",
    )


def _value_cell(values: Sequence[Fraction | str]) -> str:
    """The values of a claim as they would be typed, a bare fraction so that it is not read as a date."""
    from booklet.measure.length import Unit

    if len(values) == 1 and not isinstance(values[0], str):
        return length_cell(values[0], Unit.INCH)
    return " x ".join(map(typed, values))


def said(claim: Claim | Drawn) -> str:
    """The text as print sets it, its no-break spaces as plain ones."""
    return claim.said.replace("\u00a0", " ")


def typed(value: Fraction | str) -> str:
    """A number as it would be typed, `7 3/4` or `6.3`; a word as it is."""
    from booklet.measure.length import Unit
    from booklet.measure.words import exact_length

    return value if isinstance(value, str) else exact_length(value, Unit.INCH)


def edition_of(proved: Proof) -> Edition:
    """What a booklet says now, as its table has it."""
    from booklet.proof.editions import Edition

    return Edition(
        {claim.key: said(claim) for claim in proved.numbers}, [picture.digest for picture in proved.pictures]
    )


def read_edition(file: Path) -> Edition:
    """What a booklet said when its table was written.  Raises UsageError for what is no such table."""
    from booklet.proof.editions import Edition

    try:
        rows = csv_rows(file.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        raise UsageError(f"cannot read {file.name}: {error}") from None
    if not rows or tuple(rows[0]) != COLUMNS or any(len(row) != len(COLUMNS) for row in rows):
        raise UsageError(f"{file.name} is no table of claims, expected one that `booklet proof` has written")
    pages = [row[2] for row in rows[1:] if row[1] == _DIGEST]
    return Edition({row[0]: row[2] for row in rows[1:] if row[1] != _DIGEST}, pages)
