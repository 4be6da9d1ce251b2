"""The name of an edition: the same for the same kit, images and words, another for any others."""

from __future__ import annotations

from hashlib import sha256

from booklet.content.blocks import Document
from booklet.kit.images import load_image
from booklet.kit.references import image_names
from booklet.placing.resolved import ResolvedKit

_FIGURES = 12
# What follows the name where an edition is printed in black alone.
IN_BLACK = "-black"


def edition_keywords(edition: str, *, is_draft: bool = False) -> str:
    """How a file states its edition among its keywords; nothing where it has none."""
    draft = ", draft" if is_draft else ""
    return f"edition {edition}{draft}" if edition else ""


def edition_name(resolved: ResolvedKit, said: Document) -> str:
    """Twelve hexadecimal figures of what the kit is and what its booklet says: no clock, no path, no remark,
    no note of a camera.

    Both are plain data, which Python writes down alike on each run; a later version of this program may name
    the same kit otherwise.  Raises PictureError for an image that can no longer be read.
    """
    digest = sha256(repr((resolved.kit, said)).encode())
    for _, name in image_names(resolved.kit):
        digest.update(sha256(load_image(resolved.images, name).data).digest())
    return digest.hexdigest()[:_FIGURES]
