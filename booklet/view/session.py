"""The work behind the live look: at each save what has changed, first on the pages that somebody sees."""

from __future__ import annotations

import gc
import os
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from threading import Event, Thread
from time import monotonic, sleep

from booklet.content.artist import RingProcess
from booklet.content.spans import plain_text
from booklet.drawing.layouts.ring_question import few_rings
from booklet.kit.errors import BookletError, MissingError, SpecError
from booklet.kit.finding import Finding, SpecPath
from booklet.kit.images import IMAGE_ENDINGS
from booklet.kit.load import LoadedKit, parse_kit, parse_kit_again, spec_name, spec_text
from booklet.kit.own_trimmer import OwnTrimmer
from booklet.kit.references import image_names
from booklet.measure.dataclass import dataclass, replace
from booklet.pages.again import lay_section_again, write_page_again, write_page_alone
from booklet.pages.booklet import LaidBooklet, make_booklet_in_steps
from booklet.pages.compose import page_numbers
from booklet.pages.flow import PageOverflowError
from booklet.pages.places import section_pages
from booklet.placing.resolved import ResolvedKit, resolve_kit
from booklet.proof.claims import numbered_layouts
from booklet.proof.findings import kit_findings
from booklet.proof.sources import Sources
from booklet.proof.told import told_once
from booklet.view.changes import changed_sections, page_changes, page_title
from booklet.view.look import Look
from booklet.view.pictures import WrittenPage, written_page
from booklet.view.places import Place, pages_of, places_on
from booklet.view.shown import NOTHING_WRONG, PageChange, Shown, ShownFinding, ShownPage, Status, Wrong
from booklet.view.told import page_told
from booklet.view.viewers import InView, event

# What an editor saves in two strokes is empty, or gone, between them: what is wrong is told only when it has
# stayed so for this long, in seconds; meanwhile it is looked so often whether something newer is saved.
_SETTLED, _MOMENT = 0.12, 0.01
# Long enough that other threads take their turn.
_INSTANT = 0.0005
# After a page has been shown the processor is left to the browser, which paints it, for so many seconds.
_REST = 0.08
# Answered by a second process while the spec is read: the first time that loads what it needs, and after a
# rest it is slow at first.
_GET_GOING = few_rings()
_Trace = tuple[int, int, int] | None
# Files by their names, with what tells each from another of its name.
_Traces = tuple[tuple[str, _Trace], ...]


class Superseded(Exception):  # noqa: N818 (nothing is wrong: there is a newer save to work out)
    """The spec has been saved again, or nobody looks any longer."""


@dataclass(frozen=True)
class _Read:
    """A spec as it was read, and its images as they were."""

    text: str
    images: _Traces


@dataclass(frozen=True, eq=False)
class Made:
    """A booklet made of a spec: that as it was read, the kit, its pages laid out and written."""

    read: _Read
    loaded: LoadedKit
    resolved: ResolvedKit
    laid: LaidBooklet
    pages: tuple[WrittenPage, ...]
    places: Mapping[int, tuple[Place, ...]]


class Session:
    """A thread that keeps a look up to date with a spec until it is closed."""

    def __init__(
        self, spec: Path, own: OwnTrimmer | None, look: Look, second: RingProcess | None = None
    ) -> None:
        self._spec, self._name, self._own, self._look = spec, spec_name(spec), own, look
        self._second = second
        self._saved, self._closing = Event(), Event()
        self._made: Made | None = None
        self._newest: LoadedKit | None = None
        # What tells which files may be images: the names in the kit, and its text, which may be unreadable.
        self._text, self._images = "", frozenset[str]()
        self._pdfs: dict[int, WrittenPage] = {}
        # The files as they were when they were read.  An editor touches them several times in one save: what
        # is told of files that are as they were gives nothing up, and is looked into when all is done.
        self._working_on: _Traces = ()
        self._thread = Thread(target=self._work, name="session", daemon=True)

    def start(self) -> None:
        """Begin with the spec as it is."""
        self._saved.set()
        self._thread.start()

    def changed(self) -> None:
        """The spec, or an image beside it, may have changed."""
        self._saved.set()

    def concerns(self, name: str) -> bool:
        """Whether a file of a name in the folder of the spec is the spec, or may be an image of the kit.

        One that the kit lacks so far may be typed in a way that only a reader of YAML knows it by; most such
        are told by their endings.
        """
        return self._is_of_kit(name) or name.lower().endswith(IMAGE_ENDINGS)

    def _is_of_kit(self, name: str) -> bool:
        return name == self._spec.name or name in self._images or name in self._text

    def close(self) -> None:
        """Give up what is being worked out; returns when the thread has ended."""
        self._closing.set()
        self._saved.set()
        self._thread.join()

    # The thread.

    def _work(self) -> None:
        gc.disable()
        try:
            while not self._closing.is_set():
                self._saved.wait()
                self._saved.clear()
                if not self._closing.is_set():
                    self._take_save()
        finally:
            gc.enable()

    def _take_save(self) -> None:
        """Work out a save; what is wrong with it is told, and a fault of ours ends nothing."""
        try:
            self._work_out()
        except Superseded:
            return
        except SpecError as unread:
            self._tell_broken(unread)
        except MissingError as gone:
            self._tell_trouble(Status.GONE, str(gone))
        except PageOverflowError as overflow:
            self._tell_trouble(Status.BROKEN, str(overflow), overflow.where)
        except BookletError as wrong:
            self._tell_trouble(Status.BROKEN, str(wrong))
        except (MemoryError, RecursionError):
            self._tell_trouble(Status.BROKEN, self._look.words.too_large)
        except Exception as fault:
            self._tell_trouble(Status.BROKEN, self._look.words.fault(type(fault).__name__))

    def _pause(self) -> None:
        """Give up what is being worked out where there is something newer."""
        if self._saved.is_set() and (self._closing.is_set() or self._files() != self._working_on):
            raise Superseded

    def _files(self) -> _Traces:
        """The spec and the images that it may name, as they are."""
        folder = self._spec.parent
        try:
            names = sorted(filter(self._is_of_kit, os.listdir(folder)))
        except OSError:
            names = []
        return tuple((name, _trace(folder / name)) for name in names)

    def _settle(self, seconds: float) -> None:
        """Wait, unless something is saved meanwhile."""
        end = monotonic() + seconds
        while (left := end - monotonic()) > 0 and self._saved.wait(left):
            self._pause()
            sleep(min(left, _MOMENT))

    def _work_out(self) -> None:
        """Show what the spec makes as it is."""
        if self._second is not None:
            self._second.ask(_GET_GOING)
        self._working_on = self._files()
        text = self._text = spec_text(self._spec)
        if self._made is not None and self._is_made_of(text, self._made):
            self._show_again(self._made)
        else:
            self._show_anew(self._load(text), text)
            # At once, while its designer looks at it: later it would hold up the next save.
            gc.collect()

    def _is_made_of(self, text: str, made: Made) -> bool:
        """Whether a booklet was made of a text, and of the images as they are."""
        return made.read == _Read(text, tuple(_traces(self._spec.parent, made.loaded)))

    def _show_anew(self, loaded: LoadedKit, text: str) -> None:
        """Show what a kit makes that has been read from a text: first what somebody sees, then all."""
        if self._look.shown.status in (Status.BROKEN, Status.GONE):
            self._tell_working(loaded)  # what was wrong is mended, and no pages come yet
        read = _Read(text, tuple(_traces(self._spec.parent, loaded)))
        is_drawn_alike = self._made is not None and read.images == self._made.read.images
        before = self._made if is_drawn_alike else None
        resolved = resolve_kit(loaded, before.resolved if before else None, lambda *_: self._pause())
        if before is not None:
            self._show_sections(before, resolved)
        self._tell_working(loaded)
        self._make(read, loaded, resolved)

    def _show_again(self, made: Made) -> None:
        """Show what was made last, after something that could not be used, or was taken back."""
        for page in made.pages:
            self._show_page(page)
        shown = self._look.shown
        if shown.status is not Status.CURRENT:
            lines = made.loaded.source.lines
            self._tell(replace(shown, status=Status.CURRENT, wrong=NOTHING_WRONG, lines=lines))

    def _load(self, text: str) -> LoadedKit:
        """A spec's text as a kit, from the newest one that could be read."""
        if self._newest is None:
            loaded = parse_kit(text, self._name, self._spec.parent, self._own)
        else:
            loaded = parse_kit_again(text, self._newest)
        self._newest, self._images = loaded, frozenset(name for _, name in image_names(loaded.kit))
        return loaded

    # First what somebody sees.

    def _in_view(self) -> set[int]:
        return {number for looked in self._look.viewers.looks() for number in looked.pages}

    def _show_sections(self, before: Made, resolved: ResolvedKit) -> None:
        """Show the changed pages of sheets and layouts that are in view, laid out by themselves.

        Pages that a save showed which nobody worked out to its end are shown as they were before it.
        """
        seen, has_shown = self._in_view(), False
        changed = {
            anchor: numbers
            for anchor in changed_sections(before.resolved, resolved)
            if (numbers := set(section_pages(before.laid.pages, anchor)) & seen)
        }
        for anchor, numbers in changed.items():
            again = lay_section_again(before.laid, resolved, anchor, second=self._second)
            if again is None:
                continue
            for number in sorted(numbers):
                self._pause()
                has_shown |= self._show_page(written_page(number, write_page_again(again, number)))
        for number in seen.difference(*changed.values()):
            if number <= len(before.pages):
                has_shown |= self._show_page(before.pages[number - 1])
        if has_shown:
            self._settle(_REST)

    def _show_page(self, page: WrittenPage) -> bool:
        """Show a page that is not as it was, rendered for whoever sees it; whether it was another."""
        before = self._pdfs[page.number].digest
        if before == page.digest:
            return False
        self._tell_page(self._put_page(page), before)
        return True

    def _put_page(self, page: WrittenPage) -> ShownPage:
        """Have a page in the place of the one of its number, among all that is shown."""
        shown = self._look.shown
        self._look.pictures.add(page)
        self._pdfs[page.number] = page
        put = replace(shown.pages[page.number - 1], digest=page.digest)
        pages = (*shown.pages[: page.number - 1], put, *shown.pages[page.number :])
        self._look.shown = replace(shown, pages=pages)
        return put

    def _tell_page(self, page: ShownPage, before: str) -> None:
        """Tell all of a page, and whoever sees it what its picture of the page `before` lacks."""
        pictures = self._look.pictures

        def said(looked: InView) -> bytes:
            is_seen = page.number in looked.pages and looked.width > 0
            patch = pictures.patch(before, page.digest, looked.width) if is_seen else None
            return event("page", page_told(page, patch))

        self._look.viewers.tell_each(said)
        sleep(_INSTANT)  # those who tell it get their turn at once

    # Then all.

    def _make(self, read: _Read, loaded: LoadedKit, resolved: ResolvedKit) -> None:
        findings = kit_findings(resolved)
        self._pause()
        laid = make_booklet_in_steps(resolved, self._pause)
        pages = self._written(laid)
        made = Made(read, loaded, resolved, laid, pages, self._places(resolved, laid, pages))
        self._show_made(made, findings)
        for looked in self._look.viewers.looks():
            self._look.have_ready(looked)

    def _written(self, laid: LaidBooklet) -> tuple[WrittenPage, ...]:
        """All pages written; those in view are shown first, where the booklet has as many as before."""
        page_of, written = page_numbers(laid.pages), dict[int, WrittenPage]()
        is_alike = len(laid.pages) == len(self._pdfs)
        for number in _first(self._in_view(), range(1, len(laid.pages) + 1)):
            self._pause()
            alone = write_page_alone(laid.setup, laid.pages[number - 1], number, page_of)
            written[number] = written_page(number, alone)
            if is_alike:
                self._show_page(written[number])
        return tuple(written[number] for number in sorted(written))

    def _places(
        self, resolved: ResolvedKit, laid: LaidBooklet, pages: Sequence[WrittenPage]
    ) -> dict[int, tuple[Place, ...]]:
        """What of the spec stands where on each page."""
        sources, grid = Sources(resolved, tuple(numbered_layouts(laid))), laid.setup.grid
        found = dict[int, tuple[Place, ...]]()
        for page in pages:
            self._pause()
            found[page.number] = places_on(page.alone, sources, (grid.width, grid.height))
        return found

    def _show_made(self, made: Made, findings: Sequence[Finding]) -> None:
        before, was = self._made, self._look.shown
        # A browser may still ask for a page as it was.
        kept = (*(before.pages if before is not None else ()), *self._pdfs.values(), *made.pages)
        self._look.pictures.hold({page.digest: page.pdf for page in kept})
        self._made = made
        self._pdfs = {page.number: page for page in made.pages}
        grid, source = made.laid.setup.grid, made.loaded.source
        self._tell(
            Shown(
                status=Status.CURRENT,
                save=was.save + 1,
                title=plain_text(made.laid.setup.document.title),
                size=(grid.width, grid.height),
                pages=tuple(
                    ShownPage(page.number, page.digest, page_title(laid))
                    for page, laid in zip(made.pages, made.laid.pages, strict=True)
                ),
                source=source,
                resolved=made.resolved,
                lines=source.lines,
                places=made.places,
                findings=tuple(
                    ShownFinding(each, also, pages_of(each.where, made.places))
                    for each, also in told_once(findings, source)
                ),
                changes=_changes(before, made),
                pages_before=len(before.pages) if before is not None else None,
            )
        )

    # What is wrong.

    def _tell_broken(self, unread: SpecError) -> None:
        self._tell_wrong(Wrong(unread.problems, unread.more), Status.BROKEN)

    def _tell_trouble(self, status: Status, said: str, where: SpecPath = ()) -> None:
        """Tell what is wrong in a sentence, and where in the spec that is worked out, if it has a place."""
        wrong = Wrong(trouble=said)
        if where and self._newest is not None:
            source = self._newest.source
            wrong = replace(wrong, line=source.line(where), key=source.words(where))
        self._tell_wrong(wrong, status)

    def _tell_wrong(self, wrong: Wrong, status: Status) -> None:
        """Tell what is wrong, once it has stayed so, over the pages that were made last."""
        try:
            self._settle(_SETTLED)
        except Superseded:
            return
        self._put_back()
        self._tell(replace(self._look.shown, status=status, lines=self._file_lines(), wrong=wrong))

    def _put_back(self) -> None:
        """Have the pages that were made last in the place of newer ones that somebody has seen."""
        for page in self._made.pages if self._made is not None else ():
            if page.digest != self._pdfs[page.number].digest:
                self._put_page(page)

    def _file_lines(self) -> tuple[str, ...]:
        """The lines of the file as it is; none where it cannot be read."""
        try:
            return tuple(spec_text(self._spec).splitlines())
        except BookletError:
            return ()

    def _tell_working(self, loaded: LoadedKit) -> None:
        """Tell that a kit is worked out: its spec is the file as it is, and can be used."""
        lines = loaded.source.lines
        self._tell(replace(self._look.shown, status=Status.WORKING, lines=lines, wrong=NOTHING_WRONG))

    def _tell(self, shown: Shown) -> None:
        self._look.shown = shown
        self._look.viewers.tell(event("state", self._look.state()))


def _traces(folder: Path, loaded: LoadedKit) -> Iterator[tuple[str, _Trace]]:
    """The images of a kit, as they are."""
    for name in dict.fromkeys(name for _, name in image_names(loaded.kit)):
        yield name, _trace(folder / name)


def _trace(file: Path) -> _Trace:
    """When a file was written, its size, and which file it is; None where there is none."""
    try:
        found = file.stat()
    except OSError:
        return None
    return found.st_mtime_ns, found.st_size, found.st_ino


def _first(first: Iterable[int], every: Sequence[int]) -> Iterator[int]:
    """Every number once, some of them first."""
    yield from dict.fromkeys([*sorted(number for number in first if number in every), *every])


def _changes(before: Made | None, made: Made) -> tuple[PageChange, ...]:
    """The pages that a save has changed; none where it is the first."""
    if before is None:
        return ()
    return tuple(page_changes(before.pages, made.pages, made.laid.pages))
