"""Enumerations whose members are met thousands of times a page."""

from __future__ import annotations

from enum import Enum


class IdentityEnum(Enum):
    """An enumeration hashed by identity, as members are compared: that of Enum is worked out in Python."""

    __hash__ = object.__hash__
