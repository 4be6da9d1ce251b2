"""The pages of a finished booklet as pictures: to be looked at, and to tell whether two show the same."""

from __future__ import annotations

from hashlib import sha256
from io import BytesIO

import pypdfium2 as pdfium

from booklet.measure.dataclass import dataclass
from booklet.proof.reader import opened_page

# A page is shown in so many dots to its point, and as a JPEG of this quality.
_DOTS, _QUALITY = 1.5, 70
# Two pages are compared without the strip of their foot that bears the folio, in points: a page that only
# moves is no other.
_FOOT = 34


@dataclass(frozen=True)
class PagePicture:
    """A page as it is seen: a digest of what it shows above its folio, a JPEG of it all, its size in points.

    The same picture has the same digest.  One that cannot be opened has no JPEG.
    """

    digest: str
    jpeg: bytes
    size: tuple[float, float]


def page_pictures(pdf: bytes) -> tuple[PagePicture, ...]:
    """Every page of a PDF as a picture."""
    document = pdfium.PdfDocument(pdf)
    try:
        return tuple(picture_of(opened_page(document, at)) for at in range(len(document)))
    finally:
        document.close()


def picture_of(page: pdfium.PdfPage | None) -> PagePicture:
    """A page of an open PDF as a picture; None is one that cannot be opened."""
    if page is None:
        return PagePicture("cannot be read", b"", (0.0, 0.0))
    picture = page.render(scale=_DOTS)
    rows = picture.height - round(_FOOT * _DOTS)
    digest = sha256(bytes(picture.buffer)[: rows * picture.stride]).hexdigest()[:16]
    out = BytesIO()
    picture.to_pil().save(out, "JPEG", quality=_QUALITY)
    return PagePicture(digest, out.getvalue(), page.get_size())
