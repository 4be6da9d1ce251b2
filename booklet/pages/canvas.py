"""The canvas that a booklet is written on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from booklet.content.spans import Span
from booklet.content.ways import Ways, ways_from
from booklet.drawing.writers.inks import SCREEN, Inks
from booklet.drawing.writers.pattern_canvas import PatternCanvas
from booklet.drawing.writers.pdf_writer import LookedAtResources, PdfResources
from booklet.measure.dataclass import dataclass
from booklet.pages.pdf_objects import PageLink, PlainForm

_THIN_GREY, _THIN_ALPHA = 0.5, 0.26


class BookletCanvas(PatternCanvas):
    """A canvas that knows what figures have put into the document, and on which page each anchor lies.

    With `ways` what is named leads to where it is told of; without, nothing on the pages leads anywhere.
    """

    def __init__(
        self,
        *args: Any,
        page_of: Mapping[str, int],
        inks: Inks = SCREEN,
        ways: Ways | None = None,
        **options: Any,
    ) -> None:
        super().__init__(*args, **options)
        self.resources = PdfResources(self, inks)
        self.page_of = page_of
        self.ways = ways
        self.here, self.section = 0, ""

    def at(self, number: int, section: str) -> None:
        """Note the page that is drawn, and the anchor of the section of which it shows a part."""
        self.here, self.section = number, section

    def note(self, flowable: Any) -> None:
        """Be told which flowable is drawn at the origin as it is now: for those who ask where it stands."""

    def goal_of(self, span: Span) -> str | None:
        """The anchor that a span leads to from here; None where it names nothing on another page."""
        anchors = ways_from(self.ways, span, self.section) if self.ways is not None else ()
        return next((anchor for anchor in anchors if self._is_elsewhere(anchor)), None)

    def lead(self, anchor: str | None, rect: tuple[float, float, float, float]) -> None:
        """Make a rectangle of the page, in its coordinates as they are now, lead to an anchor elsewhere."""
        if anchor is not None and self.ways is not None and self._is_elsewhere(anchor):
            self.linkRect("", anchor, rect, relative=1)

    def linkRect(  # noqa: N802 (a method of the canvas; words with a link call it)
        self,
        contents: str,  # noqa: ARG002
        destinationname: str,
        Rect: tuple[float, float, float, float],  # noqa: N803
        relative: int = 1,
        **more: Any,  # noqa: ARG002
    ) -> None:
        """Make a rectangle lead to an anchor."""
        goal = self._bookmarkReference(destinationname)
        self._annotationrefs.append(PageLink(self._absRect(Rect, relative), goal))

    def _is_elsewhere(self, anchor: str) -> bool:
        return self.page_of.get(anchor, self.here) != self.here

    def set_thin(self) -> int | None:
        """Write what is read through from now on; returns the mode in which letters are drawn."""
        self.setFillGray(_THIN_GREY)
        self.setFillAlpha(_THIN_ALPHA)
        return None

    def showPage(self) -> None:  # noqa: N802 (a method of the canvas)
        """End a page.  Its operators are ASCII, as those of a form are."""
        super().showPage()
        page = self._doc.Pages.pages[-1]
        page.stream = page.stream.encode("ascii")

    def endForm(self, **attributes: Any) -> None:  # noqa: N802 (a method of the canvas)
        """End a form.  Its operators are ASCII: reportlab, not knowing that, looks up each letter of them."""
        operators = self._operators()
        self._code = []
        super().endForm(stream=operators, **attributes)

    def _operators(self) -> bytes:
        """The operators of the form that is written."""
        return "\n".join([self._preamble, *self._code]).encode("ascii")


@dataclass(frozen=True)
class Noted:
    """A flowable that was drawn, the anchor of its section, and its lower left corner, in points."""

    flowable: Any
    section: str
    left: float
    bottom: float


class LookedAtCanvas(BookletCanvas):
    """A canvas for pages that are looked at on a screen and thrown away; it notes what is drawn where."""

    def __init__(self, *args: Any, page_of: Mapping[str, int], **options: Any) -> None:
        super().__init__(*args, page_of=page_of, **options)
        self.resources = LookedAtResources(self)
        self.noted: list[Noted] = []

    def endForm(self, **attributes: Any) -> None:  # noqa: N802, ARG002 (a method of the canvas)
        """End a form."""
        name, *box = self._formData
        used = self._doc.xobjDict(self._formsinuse)
        form = PlainForm((box[0], box[1], box[2], box[3]), self._operators(), used)
        self._doc.addForm(name, form)
        self._restartAccumulators()
        self.pop_state_stack()
        self._named.pop()

    def note(self, flowable: Any) -> None:
        """Note a flowable that is drawn here."""
        self.noted.append(Noted(flowable, self.section, *self.absolutePosition(0.0, 0.0)))
