"""The exit codes of the program."""

from __future__ import annotations

from enum import IntEnum


class Exit(IntEnum):
    """The exit codes; a fault of the program counts as 2, since the kit is not at fault."""

    WELL = 0
    KIT_WRONG = 1
    CALLED_WRONGLY = 2
    # What a shell reports of a program that Ctrl-C stopped: 128 and the signal's number.
    STOPPED = 130
