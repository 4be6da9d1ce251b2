"""What is made of a thing and kept with it: made once, and gone when the thing goes."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, Concatenate, ParamSpec, TypeVar

Owner = TypeVar("Owner")
Said = ParamSpec("Said")
Made = TypeVar("Made")
# The name that no field of an owner has, under which it keeps all that is made of it.
_KEPT = "_kept"


def cached_on(
    make: Callable[Concatenate[Owner, Said], Made],
) -> Callable[Concatenate[Owner, Said], Made]:
    """Let the first argument of a function keep what it returns, by the others, which must be hashable.

    A cache beside the function would keep every kit that a process ever works out.
    """

    @wraps(make)
    def kept(owner: Owner, /, *said: Said.args, **named: Said.kwargs) -> Made:
        all_kept: dict[Any, Any] = vars(owner).setdefault(_KEPT, {})
        key = (make, said, tuple(named.items()))
        if key not in all_kept:
            all_kept[key] = make(owner, *said, **named)
        made: Made = all_kept[key]
        return made

    return kept
