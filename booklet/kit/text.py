"""The text of a file that a person typed, read within limits."""

from __future__ import annotations

import re
from pathlib import Path

from booklet.kit.errors import MissingError, SpecError, UsageError
from booklet.kit.source import Source
from booklet.kit.tree import Complaint, Spot
from booklet.kit.words import nearest, shown

# A spec is typed by hand: the largest is some ten thousand letters.
MAX_BYTES = 1 << 20
# What YAML does not allow in a text (YAML 1.2.2, section 5.1, from memory).
_UNPRINTABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\x80-\x84\x86-\x9f\ud800-\udfff\ufeff\ufffe\uffff]")


def read_text(file: Path, name: str, what: str) -> str:
    """The text of a file; `name` is the file's and `what` says what it holds, both for messages.

    Raises UsageError where there is no such file, SpecError at the first byte or letter that it may not hold.
    """
    return decode_text(_read(file, what), name)


def _read(file: Path, what: str) -> bytes:
    try:
        if file.is_dir():
            raise UsageError(f"{shown(file.name)} is a folder, expected {what} in it")
        if not file.is_file():
            raise MissingError(_missing(file))
        with file.open("rb") as stream:
            data = stream.read(MAX_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else "not a file name"
        raise UsageError(f"cannot read {shown(file.name)}: {reason}") from None
    if len(data) > MAX_BYTES:
        raise UsageError(f"{shown(file.name)} is larger than {what} can be ({MAX_BYTES >> 10} KiB)")
    return data


def _missing(file: Path) -> str:
    try:
        beside = sorted(other.name for other in file.parent.iterdir() if other.is_file())
    except OSError:
        beside = []
    close = nearest(file.name, beside)
    return f"there is no file {shown(file.name)}" + (f" (nearest: {shown(close)})" if close else "")


def decode_text(data: bytes, name: str) -> str:
    """The text of a file's bytes; `name` is the file's, for messages.

    Raises SpecError at the first byte or letter that a spec cannot hold.
    """
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        spot = _spot_after(data[: error.start].decode("utf-8", "replace"))
        complaint = Complaint((), "a byte that is not UTF-8", "a text file saved as UTF-8", spot=spot)
        raise SpecError([Source(name, None, ()).problem(complaint)]) from None
    match = _UNPRINTABLE.search(text)
    if match:
        found, spot = f"the control character U+{ord(match[0]):04X}", _spot_after(text[: match.start()])
        complaint = Complaint((), found, "text only", spot=spot)
        raise SpecError([Source(name, None, ()).problem(complaint)])
    return text


def _spot_after(text: str) -> Spot:
    return Spot(text.count("\n") + 1, len(text) - text.rfind("\n"))
