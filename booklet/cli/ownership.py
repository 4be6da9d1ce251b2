"""Whose a file is and what hangs on it: kept when it is written anew, or refused with the reason."""

from __future__ import annotations

import os
from pathlib import Path
from stat import S_IMODE

from booklet.kit.errors import UsageError

# The bits of a mode that let anyone write: owner, group, others.
_WRITE = 0o222


def refuse_read_only(file: Path) -> None:
    """Raises UsageError for a file that may not be written, also where the system would not mind.

    A superuser may write anything, and a file in a folder of one's own can always be replaced; but who takes
    the right to write from a file wants it to stay as it is.
    """
    if not file.stat().st_mode & _WRITE or not os.access(file, os.W_OK):
        raise UsageError(f"{file} is read-only; it is left as it is")


def keep_ownership(old: Path, new: Path) -> None:
    """Give a new file the owner, the group, the mode and the extended attributes of an old one.

    Raises UsageError for what this user may not give it.
    """
    _keep_owner(old, new)
    new.chmod(S_IMODE(old.stat().st_mode))  # after the owner: a change of owner takes bits of the mode away
    if hasattr(os, "listxattr"):
        _keep_attributes(old, new)


def _keep_owner(old: Path, new: Path) -> None:
    there, here = old.stat(), new.stat()
    if there.st_uid != here.st_uid:
        _give(old, new, there.st_uid, -1, "it belongs to another user")
    if there.st_gid != here.st_gid:
        _give(old, new, -1, there.st_gid, "it belongs to a group that this user cannot give files to")


def _give(old: Path, new: Path, owner: int, group: int, why: str) -> None:
    try:
        os.chown(new, owner, group)
    except OSError as trouble:
        raise UsageError(f"{old} cannot be written and stay as it is: {why}") from trouble


def _keep_attributes(old: Path, new: Path) -> None:
    """Copy extended attributes, access lists among them; those that the new file has already are its own."""
    try:
        names = os.listxattr(old)
    except OSError:  # this disk has none
        return
    for name in names:
        try:
            value = os.getxattr(old, name)
            if not (name in os.listxattr(new) and os.getxattr(new, name) == value):
                os.setxattr(new, name, value)
        except OSError as trouble:
            reason = f"its attribute {name} cannot be kept"
            raise UsageError(f"{old} cannot be written and stay as it is: {reason}") from trouble
