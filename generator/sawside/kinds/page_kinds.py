"""The kinds of page a machine has, told once: the ending of the address, the title, and the word on the tab.

The layout of a kind is site_templates/layouts/KIND.html.j2.
"""

from typing import NamedTuple

from sawside.kinds.view_types import MachineView


class PageKind(NamedTuple):
    """One kind of page of a machine: what its address adds to the machine's id, its title after the name, its tab.

    `needs` is a part of the view without which there is no such page; `by_blade` says that it follows the blade going on.
    """

    ending: str
    title: str
    tab: str
    needs: str = ""
    by_blade: bool = False


#: Kind -> what it is, in the order of the tabs.
PAGES = {
    "machine": PageKind("", "", "Card", by_blade=True),
    "guide": PageKind("-guide", ": set-up guide", "Set-up guide", by_blade=True),
    "checks": PageKind("-checks", ": checks", "Checks"),
    "blades": PageKind("-blades", ": which blade for which job", "Which blade"),
    "safety": PageKind("-safety", ": safety notice", "Safety"),
    "worksheets": PageKind("-worksheets", ": worksheets", "Worksheets", needs="worksheets"),
    "numbers": PageKind("-numbers", ": all its numbers", "Numbers"),
    "commissioning": PageKind("-commissioning", ": commissioning", "Commissioning"),
    "working": PageKind("-working", ": how each number was found", "How found"),
}


def offered(view: MachineView) -> dict[str, PageKind]:
    """Return the kinds of page that a machine has."""
    parts: dict[str, object] = {**view}
    return {name: kind for name, kind in PAGES.items() if not kind.needs or parts[kind.needs]}
