"""The checks of the finished files as `booklet proof` tells them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from booklet.proof.file_checks import Datum, Fault, FileCheck

# What is looked at, and what the worst of it is, by the id of the check.
_LOOKED_AT = {
    "page-boxes": ("pages", "the farthest off by"),
    "fonts-embedded": ("typefaces", ""),
    "image-resolution": ("pictures", "the coarsest"),
    "line-width": ("lines", "the finest"),
    "type-size": ("letters", "the smallest"),
    "contrast": ("letters", "the faintest"),
    "safe-margin": ("letters and lines", "the nearest to the edge"),
}


def check_lines(checks: Iterable[FileCheck]) -> Iterator[str]:
    """One line for each check, and one for each page with what prints but not well."""
    for check in checks:
        things, worst = _LOOKED_AT[check.id.value]
        told = [f"{check.looked_at} {things}"]
        told += [f"{worst} {found(check.worst)}"] if check.worst else []
        told += [f"{_limit_word(check)} {found(check.limit)}"] if check.limit else []
        told += [f"{check.unchecked} not checked"] if check.unchecked else []
        result = "held" if check.holds else "failed"
        yield f"{check.id.value}, {check.file.value}: {', '.join(told)}: {result}"
        for fault in _worst_of_pages(check.notes):
            yield f"  {_told(fault)}, prints, but not well"


def _limit_word(check: FileCheck) -> str:
    return "wanted" if check.id.value == "page-boxes" else "at least"


def fault_lines(checks: Iterable[FileCheck]) -> Iterator[str]:
    """One line for each page on which a check fails."""
    for check in checks:
        for fault in _worst_of_pages(check.faults):
            more = sum(other.page == fault.page for other in check.faults) - 1
            others = f", and {more} more" if more else ""
            yield f"{check.id.value}, {check.file.value}, {_told(fault)}{others}"


def _worst_of_pages(faults: Iterable[Fault]) -> Iterator[Fault]:
    for _, of_page in groupby(sorted(faults, key=_page), _page):
        yield min(of_page, key=_size)


def _page(fault: Fault) -> int:
    return fault.page


def _size(fault: Fault) -> float:
    from booklet.proof.file_checks import Quantity

    return fault.found.value if isinstance(fault.found, Quantity) else 0.0


def _told(fault: Fault) -> str:
    place = fault.place
    where = f" at {place.left:.0f}, {place.top:.0f} pt" if place else ""
    return f"p. {fault.page}{where}: {found(fault.found)}"


def found(datum: Datum) -> str:
    """What was found in words: a number with what it is measured in, a box by its name, a typeface."""
    from booklet.proof.file_checks import Quantity

    if isinstance(datum, str):
        return datum
    if isinstance(datum, Quantity):
        gap = "" if datum.measure.value in (":1", "°") else " "
        return f"{_rounded(datum.value)}{gap}{datum.measure.value}"
    left, bottom, right, top = datum.sides
    size = f"{_rounded(right - left)} x {_rounded(top - bottom)} pt"
    return f"{datum.name} {size}" + (f" from {_rounded(left)}, {_rounded(bottom)}" if left or bottom else "")


def _rounded(value: float) -> str:
    return f"{round(value, 3):g}"


def checks_as_json(checks: Iterable[FileCheck]) -> list[dict[str, Any]]:
    """The checks as data for other programs; lengths in points but where it says otherwise."""
    return [
        {
            "check": check.id.value,
            "file": check.file.value,
            "looked at": check.looked_at,
            "worst": _datum(check.worst),
            "limit": _datum(check.limit),
            "holds": check.holds,
            "not checked": check.unchecked,
            "faults": [_fault(fault) for fault in check.faults],
            "notes": [_fault(fault) for fault in check.notes],
        }
        for check in checks
    ]


def _fault(fault: Fault) -> dict[str, Any]:
    place = fault.place
    box = [round(side, 3) for side in (place.left, place.top, place.right, place.bottom)] if place else None
    return {"page": fault.page, "place": box, "found": _datum(fault.found)}


def _datum(datum: Datum | None) -> Any:
    from booklet.proof.file_checks import Quantity

    if datum is None or isinstance(datum, str):
        return datum
    if isinstance(datum, Quantity):
        return {"number": round(datum.value, 4), "measure": datum.measure.value}
    return {"box": datum.name, "sides": [round(side, 4) for side in datum.sides]}
