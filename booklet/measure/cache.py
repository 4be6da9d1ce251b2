"""Results cached on the object that they were computed from: freed together with it."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from functools import wraps
from typing import Any, Concatenate, ParamSpec, TypeVar, cast

Owner = TypeVar("Owner")
Arguments = ParamSpec("Arguments")
Result = TypeVar("Result")
# The attribute of the owner that holds its results; no dataclass of ours has a field of this name.
_CACHE = "_cache"
_UNKNOWN: Any = object()


def cached_on(
    compute: Callable[Concatenate[Owner, Arguments], Result],
) -> Callable[Concatenate[Owner, Arguments], Result]:
    """Cache a function's results on its first argument, the owner; the other arguments must be hashable.

    `functools.cache` would keep every kit alive that a process ever resolves.
    """

    @wraps(compute)
    def cached(owner: Owner, /, *args: Arguments.args, **kwargs: Arguments.kwargs) -> Result:
        known = vars(owner)
        cache: dict[Any, Any] = known[_CACHE] if _CACHE in known else known.setdefault(_CACHE, {})
        # Looked up once: what is long to compute is often long to hash.
        key = (compute, args, *kwargs.items()) if kwargs else (compute, args)
        result: Result = cache.get(key, _UNKNOWN)
        if result is _UNKNOWN:
            result = cache[key] = compute(owner, *args, **kwargs)
        return result

    return cached


def remember(cached: Callable[..., Result], result: Result, owner: object, *args: Hashable) -> None:
    """Keep a result of a function that is `cached_on` its owner, where it was computed elsewhere.

    The function is to be called with the same arguments, by their places.
    """
    compute = cast(Any, cached).__wrapped__
    vars(owner).setdefault(_CACHE, {})[compute, args] = result
