"""The booklet as a document: sections of blocks in reading order.

    Document -> Section -> Block -> Line -> Span

A closed set of blocks, plain data: no paper, no points, no page numbers.  A reader of the document handles
every kind of block, and asks for nothing that is not here.
"""

from __future__ import annotations

from dataclasses import field
from enum import Enum

from booklet.content.figures import FigureRequest
from booklet.content.spans import CutRef, Length, Line, PocketRef
from booklet.content.ways import Ways
from booklet.kit.fields import Turn
from booklet.measure.dataclass import dataclass

# Text.


class Tone(Enum):
    """How a paragraph is said: what it is for, not how large it is set."""

    BODY = "body"
    TIP = "tip"
    NOTE = "note"


@dataclass(frozen=True)
class Heading:
    """The heading of a part of a section."""

    text: Line
    anchor: str | None = None


@dataclass(frozen=True)
class Paragraph:
    """One paragraph."""

    text: Line
    tone: Tone = Tone.BODY


class Marker(Enum):
    """What stands before an item of a list."""

    TICK = "tick"
    NUMBER = "number"
    NONE = "none"


@dataclass(frozen=True)
class ItemList:
    """Items under one another: to tick, to follow by number, or plain."""

    items: tuple[Line, ...]
    marker: Marker


@dataclass(frozen=True)
class Caution:
    """A safety message (ANSI Z535.6): its signal word, whether it warns of serious injury, the message."""

    signal: Line
    is_warning: bool
    text: Line


@dataclass(frozen=True)
class WritingLines:
    """At least so many lines for a pen, more where there is room; with `heads` a table to fill in."""

    title: Line
    text: Line = ()
    heads: tuple[Line, ...] = ()
    least: int = 3


# Pictures.


@dataclass(frozen=True)
class Picture:
    """A figure, and in words what a person who cannot see it must know."""

    figure: FigureRequest
    alt: Line


@dataclass(frozen=True)
class Beside:
    """A picture with blocks beside it that are about it."""

    picture: Picture
    blocks: tuple[Block, ...]


@dataclass(frozen=True)
class Legend:
    """A picture with leaders to its right side, one below another, and beside each leader what it leads to.

    The leaders are drawn as far apart as the entries need; a legend stays whole.
    """

    picture: Picture
    entries: tuple[Line, ...]


@dataclass(frozen=True)
class Card:
    """A picture with a few lines to it, one of several; the first line stands out."""

    picture: Picture
    lines: tuple[Line, ...]


class CardStyle(Enum):
    """How cards stand: words beside the picture, below it, above a line for a pen, or a label to cut out."""

    BESIDE = "beside"
    BELOW = "below"
    WRITE = "write"
    LABEL = "label"


@dataclass(frozen=True)
class Cards:
    """Cards in rows; `columns` is how many stand side by side where there is room."""

    cards: tuple[Card, ...]
    style: CardStyle
    columns: int


# Tables.


class Align(Enum):
    """How a column is set."""

    START = "start"
    CENTRE = "centre"
    END = "end"


@dataclass(frozen=True)
class Column:
    """A column: its head, how it is set, and its share of the width; without one it hugs its widest cell."""

    head: Line
    align: Align = Align.START
    share: float | None = None
    is_strong: bool = False


@dataclass(frozen=True)
class Tick:
    """A box to tick, in a cell; `pieces` are the ids of those that it stands for (`content/piece_ids.py`)."""

    pieces: tuple[str, ...] = field(default=(), repr=False)


Cell = Line | Picture | Tick


class RowKind(Enum):
    """What a row of a table is: of a group's rows the title stands above the others."""

    BODY = "body"
    GROUP = "group"
    SUM = "sum"


@dataclass(frozen=True)
class Row:
    """A row of cells, as many as there are columns.

    A group's title spans them all; it may have a picture before it, and a remark on the group after it.  A
    reference to the group points to its anchor.
    """

    cells: tuple[Cell, ...]
    kind: RowKind = RowKind.BODY
    anchor: str | None = None


@dataclass(frozen=True)
class Table:
    """A table; a group stays whole where a page holds it, else its title comes again where its rows go on.

    So many rows of a group may stand `abreast`, in the order of columns of print, where the page is wide
    enough.
    """

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    abreast: int = 1


@dataclass(frozen=True)
class ContentsEntry:
    """A line of the contents, and the anchor of where it begins."""

    text: Line
    anchor: str


@dataclass(frozen=True)
class Contents:
    """What stands where, in one or two lists side by side."""

    lists: tuple[tuple[ContentsEntry, ...], ...]


# At the trimmer.


@dataclass(frozen=True)
class SlipRow:
    """A line of a cut slip: the cut and its reading, what comes off, its pocket.

    A row without a cut goes on with what the cut above it gives; with `instead` it tells what stays in the
    trimmer, and these words stand in the place of the reading.  `before` is done before the cut is made.
    `is_tick` gives it a box to tick; what is set aside or scrap has none.
    """

    cut: CutRef | None
    reading: Length | None
    said: Line
    pocket: PocketRef | None = None
    is_tick: bool = False
    before: Line = ()
    instead: Line = ()


@dataclass(frozen=True)
class CutSlip:
    """The cuts of a stage as a list beside its figure; `heads` are those of reading, outcome and pocket.

    What is done by hand has no readings, and then no head for them.
    """

    heads: tuple[Line, Line, Line]
    rows: tuple[SlipRow, ...]


@dataclass(frozen=True)
class Lens:
    """A piece of the scale at true size for marks that lie too near each other, and what to do with it."""

    picture: Picture
    title: Line
    text: Line


@dataclass(frozen=True)
class CutStage:
    """One stage at the trimmer: what is taken and turned, tips, the figure, the slip, a lens where needed.

    `work` is what scissors and punches do before the next stage; `anchor` is what a reference points to.
    """

    anchor: str
    heading: Line
    turn: Turn | None
    tips: tuple[Line, ...]
    picture: Picture
    slip: CutSlip
    lens: Lens | None = None
    work: CutSlip | None = None


# Where there is room.


@dataclass(frozen=True)
class Abreast:
    """Groups of blocks that are short in breadth and stand side by side, each in a column of its own."""

    groups: tuple[tuple[Block, ...], ...]


@dataclass(frozen=True)
class IfRoom:
    """Blocks that stand together where there is room for all of them, and else are left out."""

    blocks: tuple[Block, ...]


# At the table.


@dataclass(frozen=True)
class Need:
    """What a layout takes besides its pocket: a picture of it where it has one, and how much in words."""

    text: Line
    picture: Picture | None = None


@dataclass(frozen=True)
class LayoutView:
    """What a layout needs, and the finished page with its numbers."""

    title: Line
    needs: tuple[Need, ...]
    picture: Picture


@dataclass(frozen=True)
class StepPart:
    """What is taken in a step, each thing with its labels, and what is done with it, then a tip."""

    head: Line
    said: Line
    tip: Line = ()


@dataclass(frozen=True)
class StepItem:
    """A printed step: its number, its parts, and a picture of what the finished page hides."""

    number: int
    parts: tuple[StepPart, ...]
    picture: Picture | None = None


@dataclass(frozen=True)
class StepList:
    """The steps of a layout, each with a box to tick."""

    steps: tuple[StepItem, ...]


Block = (
    Heading
    | Paragraph
    | ItemList
    | Caution
    | WritingLines
    | Picture
    | Beside
    | Legend
    | Cards
    | Table
    | Contents
    | CutStage
    | Abreast
    | IfRoom
    | LayoutView
    | StepList
)


# Sections.


class Arrangement(Enum):
    """How a section stands in a booklet that is turned page by page.

    FLOW begins on a new page and goes on for as many as it takes.  COMPACT shares pages: it begins below the
    section before it, whatever that is (but for a cover), where it fits whole on the rest of that page, under
    a smaller head; else it begins a page, and goes on over the page where it is higher than one.  So a small
    kit has several to a page and a large one has a page for each.  OPENING must be seen without turning the
    page, FACING stands left of the next section.  LAST is for fillers: it fills the last gap before the back
    cover, or none.
    """

    FLOW = "flow"
    COMPACT = "compact"
    OPENING = "opening"
    FACING = "facing"
    LAST = "last"
    FRONT_COVER = "front cover"
    BACK_COVER = "back cover"


@dataclass(frozen=True)
class PaperEdge:
    """The paper of a sheet runs along the outer edge of the pages, with its number."""

    sheet: int
    number: str


@dataclass(frozen=True)
class PocketEdge:
    """A pocket stands at the outer edge of the pages, with its name, among so many."""

    name: str
    place: int
    count: int


@dataclass(frozen=True)
class SpineEdge:
    """Words along the inner edge, by the spine, by which one booklet of a set is found on the shelf."""

    text: Line


@dataclass(frozen=True)
class Section:
    """A part of the booklet with a title: what a reference points to by its anchor.

    `number` stands large before the title, `kicker` above it, `lead` below it; the title stands at the foot
    of each page as well.  `part` names the part of the booklet that begins here, for bookmarks.  An optional
    section stands only where the booklet takes no further press sheet for it; else it may fill a page.
    """

    anchor: str
    title: Line
    blocks: tuple[Block, ...]
    arrangement: Arrangement = Arrangement.FLOW
    kicker: Line = ()
    lead: Line = ()
    number: str = ""
    edge: PaperEdge | PocketEdge | SpineEdge | None = None
    part: Line = ()
    is_optional: bool = False

    def __hash__(self) -> int:
        """Of its anchor alone: pages are kept by section, and all that a section holds is long to hash."""
        return hash(self.anchor)


@dataclass(frozen=True)
class Furniture:
    """The words that a reader of the document adds by itself, where it breaks it in pages.

    `continued` follows a title that goes on over the page, `notes` heads lines for a pen where a page ends
    early, `draft` lies across every page of a draft.  The covers bear no number; a list of pages calls them
    `front_cover` and `back_cover`.
    """

    continued: Line
    notes: Line
    draft: Line
    front_cover: Line = ()
    back_cover: Line = ()


@dataclass(frozen=True)
class Document:
    """The booklet: its sections in order, and useful pages from which gaps are filled, the best first.

    `language` is its code (BCP 47); a filler is used once, but for the last, which repeats.  `ways` are no
    part of what it says: they lead a reader at a screen from one place to another.
    """

    language: str
    title: Line
    author: Line
    subject: Line
    sections: tuple[Section, ...]
    fillers: tuple[Section, ...]
    back: Section
    furniture: Furniture
    ways: Ways = field(default_factory=Ways, repr=False, hash=False)
