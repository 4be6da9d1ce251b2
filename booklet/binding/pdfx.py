"""A PDF made into one for the exchange of what is to be printed: PDF/X-1a:2003 (ISO 15930-4).

Clauses are named from public descriptions of the standard.  That a file keeps to it is seen by `proof.pdfx`.
"""

from __future__ import annotations

from io import BytesIO
from typing import TYPE_CHECKING

from booklet import PROGRAM
from booklet.binding.condition import REGISTRY, Condition
from booklet.measure.dataclass import dataclass

if TYPE_CHECKING:
    from pikepdf import Pdf

VERSION = "PDF/X-1a:2003"
# PDF/X wants a day of making and of change.  The same kit gives the same bytes, so it is always the same day:
# the clock's would make two editions of one.
_DAY = "D:20000101000000Z"
_NOT_KEPT = ("/Outlines", "/PageMode", "/Names", "/Dests", "/OpenAction", "/ViewerPreferences", "/Metadata")


@dataclass(frozen=True)
class Intent:
    """The condition that a file is to be printed in, and what that is in words."""

    condition: Condition
    meaning: str


def make_pdfx(target: Pdf, title: str, keywords: str, intent: Intent) -> None:
    """Give a file in process inks what PDF/X-1a:2003 asks for: identity, dates, trapping, output intent.

    The intent names a registered condition, so that no profile is needed (6.2).  Nothing is trapped yet.
    """
    import pikepdf

    for key in _NOT_KEPT:
        if key in target.Root:
            del target.Root[key]
    info = target.docinfo
    info["/Title"] = title
    info["/Creator"] = info["/Producer"] = PROGRAM
    info["/CreationDate"] = info["/ModDate"] = _DAY
    info["/GTS_PDFXVersion"] = VERSION
    info["/Trapped"] = pikepdf.Name("/False")
    if keywords:
        info["/Keywords"] = keywords
    said = pikepdf.Dictionary(
        Type=pikepdf.Name.OutputIntent,
        S=pikepdf.Name("/GTS_PDFX"),
        OutputConditionIdentifier=intent.condition.value,
        OutputCondition=intent.meaning,
        RegistryName=REGISTRY,
        Info=intent.meaning,
    )
    target.Root["/OutputIntents"] = pikepdf.Array([target.make_indirect(said)])


def saved_as_pdfx(target: Pdf) -> bytes:
    """The bytes of a file, the same for the same content: PDF 1.4 has no streams of objects."""
    from pikepdf import ObjectStreamMode

    out = BytesIO()
    target.save(
        out,
        deterministic_id=True,
        force_version="1.4",
        compress_streams=True,
        object_stream_mode=ObjectStreamMode.disable,
    )
    return out.getvalue()
