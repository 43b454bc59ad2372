"""What a view is made of: the shapes of the plain printed data that pages and sheets are laid out from.

A view is plain data (it becomes JSON for paper, and marks are made of it), so its types are those of dictionaries. What stands as
`NotRequired` is put there by a cut (`cuts`) for one kind of sheet. `layout_check` holds layouts and sheets against these shapes.
"""

from typing import Any, NotRequired, TypedDict

from sawside.kinds.view_words import CardPart, ItemData, LineData, NoticeData, OccasionData, RuleData, StageData
from sawside.ledger import Print


class UnknownItem(ItemData):
    """A field nobody has measured, with the labels of the values that wait for it."""

    needed_by: list[str]


class NumberGroup(TypedDict):
    """The numbers of one group, under its name."""

    group: str
    items: list[ItemData]


class Labels(TypedDict):
    """A label sheet: counts, measures [mm], and whether lines are printed to cut along."""

    columns: int
    rows: int
    width: float
    height: float
    left: float
    top: float
    gap_x: float
    gap_y: float
    lines: bool


class ShopData(TypedDict):
    """The shop: name, paper, whom to ask, its rules; `viewing_distance` in metres."""

    name: str
    paper: str
    site_address: str
    ask: str
    local_rules: list[RuleData]
    viewing_distance: float
    labels: NotRequired[Labels]


class MachineData(TypedDict):
    """How a machine is named and where it is."""

    id: str
    slug: str
    name: str
    also_called: str
    place: str
    plate: str
    revision: str
    revised: str
    address: str
    file: str


class BladeWords(TypedDict):
    """How a family names a blade: its section, length and back, and other ways to write it."""

    section: str
    length: str
    back: str
    also_written: list[str]


class BladeRow(BladeWords):
    """One blade on one machine: whether it fits and why not, its numbers."""

    id: str
    name: str
    rack_place: str
    fits: bool
    verdict: str
    reasons: list[str]
    advice: list[str]
    items: list[ItemData]
    fitted: bool


class RackRow(BladeRow):
    """One blade of the rack, with the saws it fits."""

    saw_names: list[str]
    saws: str


class JobCell(TypedDict):
    """One blade for one job."""

    blade: str
    blade_name: str
    fits: bool
    rank: int | None
    reason: str
    beaten_by: tuple[str, ...]
    on_this_saw: bool


class JobRow(TypedDict):
    """One job: the blades for it, the best first, and what to buy where none is good."""

    id: str
    name: str
    work: str
    cells: list[JobCell]
    best: str
    best_name: str
    refused: str
    reason: str
    buy: str
    differ: tuple[str, ...]


class DrawingData(TypedDict):
    """A figure as SVG, for the screen and for paper."""

    svg: str
    paper: str
    title: str
    alt: str


class HeightLimits(TypedDict):
    """The limits of the test cut at one height between the readings."""

    height: str
    accept: str
    adjust: str


class Difference(TypedDict):
    """One row of the table of the test cut: the difference read, the angle it means, turns of the stop."""

    difference: str
    angle: str
    turns: str


class TestCut(TypedDict, total=False):
    """The worksheet of the test cut; empty for a family without one."""

    height: str
    tolerance: str
    caliper_doubt: str
    limits: list[HeightLimits]
    rows: list[Difference]
    stop: bool
    needs: list[str]
    advice: list[str]


class Coil(TypedDict):
    """The size of a coiled blade: its diameter [mm], and as printed."""

    name: str
    diameter: float
    text: str


class Check(TypedDict):
    """One line of the record of checks."""

    what: str
    limit: str


class Columns(TypedDict):
    """The names of the numbers that stand in the columns of each kind of table."""

    wall: list[str]
    table: list[str]
    card: list[str]
    tag: list[str]


class Statement(TypedDict):
    """Where something comes from: its mark, and whether it was seen in somebody else's copy."""

    mark: str
    text: str
    second_hand: bool


class Input(TypedDict):
    """One input of a worked number."""

    name: str
    item: ItemData
    computed: bool
    assumed: bool


class Section(TypedDict):
    """How one number was found; `formula` and `numbers` are MathML."""

    name: str
    label: str
    group: str
    symbol: str
    item: ItemData
    about: str
    holds: str
    source: str
    sources: list[Statement]
    formula: str
    in_words: str
    numbers: str
    inputs: list[Input]
    doubt: str


class WallStage(TypedDict):
    """The lines of one stage on the wall sheet."""

    title: str
    states: list[str]
    lines: list[str]


class Wall(TypedDict):
    """What the wall sheet shows."""

    numbers: list[ItemData]
    steps: list[WallStage]
    blades: list[BladeRow]
    hazards: list[NoticeData]
    write_in: list[UnknownItem]
    picture: str


class OutOfService(TypedDict, total=False):
    """Why nobody may use a saw; empty for one that may be used."""

    reason: str
    since: str
    by: str


class Placed(TypedDict):
    """Which numbers and drawings stand where."""

    columns: Columns
    picture: str
    gauges: bool
    card_pictures: list[str]
    guide_pictures: list[str]


class Safety(TypedDict):
    """The notices of a machine, the shop's rules for it, and whether nobody may use it."""

    notices: list[NoticeData]
    more_notices: list[NoticeData]
    local_rules: list[RuleData]
    out_of_service: OutOfService


class Method(TypedDict):
    """The change of a blade: its stages, and its lines on the card."""

    stages: list[StageData]
    card: list[CardPart]


class AboutBlade(Method):
    """What changes in a view when another blade goes on."""

    blade: BladeRow | None
    drawings: dict[str, DrawingData]
    unknowns: list[UnknownItem]
    wall: Wall


class MachineView(Placed, Safety, AboutBlade):
    """Everything that is printed about one machine, for one blade; of the whole rack where `rack` is set."""

    shop: ShopData
    machine: MachineData
    numbers: list[NumberGroup]
    assumed: list[ItemData]
    blades: list[BladeRow]
    jobs: list[JobRow]
    few_blades: str
    doubts: list[str]
    lists: dict[str, OccasionData]
    always: list[str]
    test_cut: TestCut
    coils: list[Coil]
    checks: list[Check]
    working: list[Section]
    worksheets: dict[str, Any]
    for_blade: dict[str, AboutBlade]
    signs: dict[str, str]
    sign_svgs: dict[str, str]
    listed: dict[str, tuple[Print, ...]]


class RackView(MachineView):
    """The view of the whole rack; its blades are RackRow."""

    rack: bool


class Answer(TypedDict):
    """What is answered to one print: whether it is current, and what changed since."""

    id: str
    title: str
    mark: str
    date: str
    current: bool
    lines: list[str]


class SheetFile(TypedDict):
    """One sheet to print: its title, paper, file and mark."""

    title: str
    paper: str
    file: str
    mark: str


class SheetList(TypedDict):
    """The sheets of one machine, or of the rack, and the answers to prints of them."""

    machine: MachineData
    files: list[SheetFile]
    answers: list[Answer]


class CutView(MachineView, total=False):
    """A view as it is cut for one kind of sheet: with what is gathered for it, and `rack` where it is about the whole rack."""

    rack: bool
    commissioning: list[StageData]
    hazards: list[LineData]
