"""A layout as HTML: what it needs, the finished page with its numbers, and its steps to tick."""

from __future__ import annotations

from booklet.content.artist import Room
from booklet.content.blocks import LayoutView, Need, StepItem, StepList, StepPart
from booklet.web.markup import Element, element
from booklet.web.setting import Setting
from booklet.web.tables import tick_box

_PAGE, _NEED, _STEP = Room(520.0, 560.0), Room(34.0, 34.0), Room(200.0, 200.0)


def layout_view(setting: Setting, block: LayoutView) -> Element:
    """The finished page, and beside it what it needs."""
    return element(
        "div",
        element("figure", setting.picture(block.picture, _PAGE)),
        element("div", needs(setting, block)),
        class_="layout-view",
    )


def needs(setting: Setting, block: LayoutView) -> tuple[Element, ...]:
    """What a layout needs besides its pocket, under its title."""
    return (
        element("h3", setting.say(block.title)),
        element("ul", (_need(setting, need) for need in block.needs), class_="needs"),
    )


def _need(setting: Setting, need: Need) -> Element:
    drawn = setting.picture(need.picture, _NEED) if need.picture is not None else None
    return element("li", element("span", drawn, class_="shown"), element("span", setting.say(need.text)))


def step_list(setting: Setting, block: StepList) -> Element:
    """The steps of a layout, each with a box to tick."""
    return element("ol", (_step(setting, step) for step in block.steps), class_="steps")


def _step(setting: Setting, step: StepItem) -> Element:
    number = element("span", str(step.number), class_="step-number")
    box = tick_box((step_tick(setting.speaker.section, step.number),), str(step.number))
    said = element("div", step_said(setting, step), class_="said")
    return element("li", number, said, box)


def step_tick(layout: str, number: int) -> str:
    """The id by which a step of a layout is ticked; `layout` is its anchor."""
    return f"{layout}/{number}"


def step_said(setting: Setting, step: StepItem) -> tuple[Element, ...]:
    """What is taken in a step and what is done with it, part by part, and what the finished page hides."""
    parts = tuple(element("p", _part(setting, part)) for part in step.parts)
    if step.picture is None:
        return parts
    return (*parts, element("figure", setting.picture(step.picture, _STEP)))


def _part(setting: Setting, part: StepPart) -> tuple[Element | str, ...]:
    head = (element("strong", setting.say(part.head)), " ") if part.head else ()
    tip = (" ", element("span", setting.say(part.tip), class_="tip")) if part.tip else ()
    return (*head, element("span", setting.say(part.said)), *tip)
