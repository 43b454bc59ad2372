"""What layouts and sheets name is there: pages against the types of a view, masks against the same, sheets against their masks."""

import re
import typing

import pytest
from jinja2 import DictLoader, Environment

from sawside.files import data_folder
from sawside.kinds import masks
from sawside.kinds.sheet_kinds import KINDS
from sawside.kinds.view_types import CutView, MachineView, RackRow
from sawside.kinds.view_words import NoticeData
from sawside.outputs import layout_check, layouts
from sawside.outputs.layout_check import LayoutError, parts_of

SHEETS = data_folder("site_templates") / "sheets"
#: What Typst and the frame of a sheet bring: measures and parts of the document that Python puts beside the view.
FRAME = {
    "abs", "angle", "block", "body", "bottom", "cap", "characters", "children", "coils", "columns", "count", "value", "dates", "dir", "distance",
    "em", "fields", "fill", "first", "font", "has", "height", "ink", "kind", "labels", "left", "letters", "lines", "message",
    "metres", "need", "number", "page", "palette", "paper", "papers", "part", "print", "qr", "right", "rows", "sheet", "signal",
    "size", "text", "title", "together", "top", "typ", "view", "width", "x", "y", "gap_x", "gap_y", "mark", "date", "at", "pt", "mm",
}  # fmt: skip


def wrong(**layouts_: str) -> list[str]:
    env = Environment(loader=DictLoader({f"{name}.html.j2": text for name, text in layouts_.items()}))
    try:
        layout_check.check(env, {"page": {"view": MachineView, "views": list[MachineView]}}, {"called": (NoticeData,)})
    except LayoutError as error:
        return str(error).split("; ")
    return []


def test_the_layouts_name_only_what_they_are_given():
    layout_check.check(layouts.environment(), layouts.GIVEN, layouts.CALLED)
    names = {path.name.removesuffix(".html.j2") for path in (data_folder("site_templates") / "layouts").iterdir()}
    assert names - {"parts"} == set(layouts.GIVEN)


@pytest.mark.parametrize(
    "text, said",
    [
        ("{{ view.machine.nmae }}", "page.html.j2:1: MachineData has no `nmae`"),
        ("{{ machine.name }}", "page.html.j2: `machine` is not given"),
        (
            "\n{% for row in view.blades %}{% for item in row.items %}{{ item.txt }}{% endfor %}{% endfor %}",
            "ItemData has no `txt`",
        ),
        ("{% set first = view.blades|first %}{{ first.sect }}", "BladeRow has no `sect`"),
        ("{% for name, one in view.drawings.items() %}{{ one.png }}{% endfor %}", "DrawingData has no `png`"),
        ("{% if false %}{{ views[0].blade.fit }}{% endif %}", "BladeRow has no `fit`"),
        ("{% import 'm.html.j2' as m %}{{ m.a(view.machine) }}", "m.html.j2:1: MachineData has no `alias`"),
        ("{% import 'm.html.j2' as m %}{{ m.b(view.machine) }}", "m.html.j2 has no macro `b`"),
        ("{% macro called(n) %}{{ n.hazzard }}{% endmacro %}", "NoticeData has no `hazzard`"),
        ("{{ view.unknowns|map(attribute='lable')|join }}", "UnknownItem has no `lable`"),
    ],
)
def test_a_part_that_is_not_there_is_refused_with_its_place(text, said):
    found = wrong(page=text, m="{% macro a(x) %}{{ x.alias }}{% endmacro %}")
    assert len(found) == 1 and said in found[0], found


def test_what_is_there_passes():
    text = "{% for row in view.blades if row.fits %}{{ row.items[0].text }}{{ row.name.upper() }}{% endfor %}{{ view.blade.id }}"
    assert wrong(page=text) == []


def missing(mask: masks.Mask | None, whole: object, path: str) -> list[str]:
    """Return the names of a mask that nothing of a type has."""
    if mask is None:
        return []
    origin, inside = typing.get_origin(whole), typing.get_args(whole)
    if origin in (list, tuple):
        return missing(mask, RackRow if inside[0].__name__ == "BladeRow" else inside[0], path)
    if origin is dict:
        return missing(mask.get("*", mask), inside[1], path)
    known = parts_of(whole)
    assert known is not None, f"{path} has no parts: {whole}"
    found = [f"{path}.{name}" for name in mask if name not in known]
    return found + [one for name, part in mask.items() if name in known for one in missing(part, known[name], f"{path}.{name}")]


@pytest.mark.parametrize("kind", KINDS)
def test_a_sheet_takes_only_what_a_view_has(kind):
    assert missing(masks.both(KINDS[kind].prints, KINDS[kind].aside), CutView, kind) == []


def names_in(mask: masks.Mask | None, whole: object) -> set[str]:
    """Return the names of all that a mask takes of a type."""
    args = [one for one in typing.get_args(whole) if one is not str]
    if args:
        mask = mask.get("*", mask) if mask and typing.get_origin(whole) is dict else mask
        return set().union(*(names_in(mask, one) for one in args))
    known = parts_of(whole) or {}
    taken = dict.fromkeys(known) if mask is None else mask
    return {*taken}.union(*(names_in(part, known[name]) for name, part in taken.items() if name in known))


@pytest.mark.parametrize("kind", KINDS)
def test_a_sheet_names_only_what_it_is_given(kind):
    """Every `.name` in a sheet's layout is a part that its kind takes, or one of Typst's own."""
    text = "\n".join(line.split("//")[0] for line in (SHEETS / f"{kind}.typ").read_text(encoding="utf-8").splitlines())
    text = re.sub(r'"[^"\n]*"', '""', text)
    named = {name for name in re.findall(r"(?<=[\w)\]])\.([a-z_][a-z_-]*)\b(?!\()", text) if "-" not in name}
    known = names_in(masks.both(KINDS[kind].prints, KINDS[kind].aside), CutView)
    known |= set(re.findall(r"\b([a-z_]+):", text))  # what the layout itself puts together
    assert named - known <= FRAME, sorted(named - known - FRAME)


def test_a_view_has_the_shape_its_type_says(views):
    def compare(data: object, whole: object, path: str) -> None:
        known = parts_of(whole)
        if typing.is_typeddict(whole):
            assert isinstance(data, dict), path
            assert whole.__required_keys__ <= data.keys() <= set(known), (path, data.keys() ^ set(known))
            for name, part in data.items():
                compare(part, known[name], f"{path}.{name}")
        elif typing.get_origin(whole) in (list, tuple) and isinstance(data, (list, tuple)):
            for number, part in enumerate(data):
                compare(part, typing.get_args(whole)[0], f"{path}[{number}]")
        elif typing.get_origin(whole) is dict:
            for name, part in data.items():
                compare(part, typing.get_args(whole)[1], f"{path}.{name}")
        elif whole in (str, bool, int, float) and not (data is None and path.endswith(".rank")):
            assert isinstance(data, (int, float) if whole is float else whole), (path, whole, data)

    for view in views.values():
        compare(view, MachineView, view["machine"]["id"])
