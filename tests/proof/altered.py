"""Finished files, altered by other hands than those that made them."""

from __future__ import annotations

import re
from collections.abc import Callable
from io import BytesIO
from typing import Any

import pikepdf


def saved(file: bytes, change: Callable[[pikepdf.Pdf], None], **how: Any) -> bytes:
    """A file after a change, saved as `how` asks."""
    out = BytesIO()
    with pikepdf.open(BytesIO(file)) as document:
        change(document)
        document.save(out, **how)
    return out.getvalue()


def with_content(file: bytes, number: int, pattern: str, instead: str) -> bytes:
    """A file with the first match in the content of a page replaced, as `re.sub` does it."""

    def change(document: pikepdf.Pdf) -> None:
        page = document.pages[number - 1]
        old = page.Contents.read_bytes().decode("latin-1")
        new, count = re.subn(pattern, instead, old, count=1)
        assert count == 1
        page.Contents = document.make_stream(new.encode("latin-1"))

    return saved(file, change)


def encrypted(file: bytes, user: str) -> bytes:
    """A file that opens with a user's password; an empty one is asked for by no reader."""
    return saved(file, lambda _: None, encryption=pikepdf.Encryption(user=user, owner="the publisher's own"))


def with_stream(file: bytes, number: int, data: bytes, **packed: Any) -> bytes:
    """A file with other bytes for the content of a page, which say that they are packed as `packed` tells."""

    def change(document: pikepdf.Pdf) -> None:
        document.pages[number - 1].Contents.write(data, **packed)

    return saved(file, change)


def content_of(file: bytes, number: int) -> bytes:
    """The content of a page as it is packed."""
    with pikepdf.open(BytesIO(file)) as document:
        return bytes(document.pages[number - 1].Contents.read_raw_bytes())


def without_object(file: bytes, number: int, key: str) -> bytes:
    """A file from which a page, or what it names by `key`, is gone: its place holds no object."""
    with pikepdf.open(BytesIO(file)) as document:
        page = document.pages[number - 1].obj
        lost = page[key] if key else page
        if key == "/Resources":
            lost = next(iter(lost["/Font"].values()))
        name = f"\n{lost.objgen[0]} 0 obj".encode()
    assert file.count(name) == 1
    return file.replace(name, name[:-3] + b"xxx")
