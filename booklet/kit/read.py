"""The text of a file of keys -> the model that it is to fill, or every problem of the file at once."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar, cast

from pydantic_core import ValidationError

from booklet.kit.errors import SpecError
from booklet.kit.explain import explain_validation_error
from booklet.kit.source import Source
from booklet.kit.tree import Complaint, UnreadableError, plain, read_tree
from booklet.kit.validator import validator_of
from booklet.measure.length import Unit

Model = TypeVar("Model")


def read_model(
    kind: type[Model], text: str, name: str, what: str, check: Callable[[Model, Source], list[Complaint]]
) -> tuple[Model, Source]:
    """What a file's text says, and where; `name` is the file's and `what` says what it holds, for messages.

    `check` finds what is wrong with a file whose keys and values are all right by themselves.
    Raises SpecError with every problem of the text.
    """
    lines = tuple(text.splitlines())
    try:
        tree, complaints = read_tree(text, what)
    except UnreadableError as error:
        raise SpecError([Source(name, None, lines).problem(error.complaint)]) from None
    source, data = Source(name, tree, lines), plain(tree)
    try:
        model = read_data(kind, data, _unit(data))
    except ValidationError as error:
        explained, more = explain_validation_error(error, kind, source)
        raise _spec_error(complaints + explained, source, more) from None
    complaints += check(model, source)
    if complaints:
        raise _spec_error(complaints, source)
    return model, source


def read_data(kind: type[Model], data: Any, unit: Unit) -> Model:
    """The model that plain data fill; bare numbers are in `unit`.

    Raises ValidationError, of pydantic's core, with all that is wrong.
    """
    model: Model = validator_of(cast("Any", kind)).validate_python(data, context={"unit": unit})
    return model


def _unit(data: Any) -> Unit:
    """The file's unit, which its bare numbers are in; a wrong one is reported with the other problems."""
    said = data.get("unit") if isinstance(data, dict) else None
    return next((unit for unit in Unit if unit.value == said), Unit.INCH)


def _spec_error(complaints: list[Complaint], source: Source, more: int = 0) -> SpecError:
    """The problems in the order of the file; so many more are not among them."""
    problems = [source.problem(complaint) for complaint in complaints]
    return SpecError(sorted(problems, key=lambda problem: (problem.line or 0, problem.column or 0)), more)
