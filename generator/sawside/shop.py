"""What a shop states about itself: its name, whom to ask, and how its sheets print."""

from collections.abc import Mapping
from dataclasses import dataclass

from sawside.fields import Field
from sawside.model import Record

PAPERS = ("A4", "Letter", "A5", "A5 on A4")

SHOP = (
    Field("shop", "Name of the shop", "text", "What stands on the door.", "Riverside Community Workshop", longest=60),
    Field(
        "site_address",
        "Address of the site",
        "text",
        "Where the built site will be put, so that the code on a sheet leads to the saw's page. Leave it out when the site"
        " is only on one computer.",
        "https://saws.example.org/",
        required=False,
        longest=120,
    ),
    Field("ask", "Whom to ask", "text", "The role, not a person who may leave.", "the saw steward on duty", longest=80),
    Field(
        "local_rules",
        "Rules of this shop",
        "rules",
        "Your own rules, the weightiest first; they stand boxed beside the hazards. Each is a sentence, or a group of `rule`,"
        " `since` (a date), `saw` (the id of one saw) and `stage` (the id of a procedure); all but `rule` may be left out.",
        "No work on the saws when alone.",
        required=False,
        longest=240,
    ),
    Field("paper", "Paper", "choice", "What is in the printer. `A5 on A4`: two half pages side by side.", "A4", choices=PAPERS),
    Field(
        "small_print",
        "Print the other system small",
        "yes_no",
        "`yes` prints inches small beside millimetres, or the other way round.",
        "yes",
        required=False,
    ),
    Field(
        "fraction",
        "Inches to the nearest",
        "choice",
        "Finest fraction of an inch on your rules.",
        "1/32",
        choices=("1/16", "1/32", "1/64"),
        required=False,
    ),
    Field(
        "viewing_distance",
        "Reading distance of the safety notice",
        "length",
        "From where people stand when they read the notice on the wall.",
        "2 m",
        kind="work_size",
        low=0.5,
        high=10.0,
        required=False,
    ),
    Field(
        "label_columns",
        "Labels on a sheet, side by side",
        "count",
        "Count them on your label sheet. Leave all label lines out to print tags with cutting lines instead.",
        "2",
        low=1,
        high=20,
        required=False,
    ),
    Field(
        "label_rows",
        "Labels on a sheet, one below the other",
        "count",
        "Count them on your label sheet.",
        "5",
        low=1,
        high=40,
        required=False,
    ),
    Field(
        "label_width",
        "Width of a label",
        "length",
        "From the packet, or with a ruler.",
        "96 mm",
        kind="work_size",
        low=0.02,
        high=0.4,
        required=False,
    ),
    Field(
        "label_height",
        "Height of a label",
        "length",
        "From the packet, or with a ruler.",
        "55 mm",
        kind="work_size",
        low=0.01,
        high=0.4,
        required=False,
    ),
    Field(
        "label_left",
        "Left edge of the paper to the first label",
        "length",
        "From the packet, or with a ruler.",
        "9 mm",
        kind="work_size",
        low=0.0005,
        high=0.1,
        required=False,
    ),
    Field(
        "label_top",
        "Top edge of the paper to the first label",
        "length",
        "From the packet, or with a ruler.",
        "11 mm",
        kind="work_size",
        low=0.0005,
        high=0.1,
        required=False,
    ),
    Field(
        "label_gap_across",
        "Gap between labels side by side",
        "length",
        "Leave it out when they touch.",
        "2 mm",
        kind="work_size",
        low=0.0001,
        high=0.1,
        required=False,
    ),
    Field(
        "label_gap_down",
        "Gap between labels one below the other",
        "length",
        "Leave it out when they touch.",
        "2 mm",
        kind="work_size",
        low=0.0001,
        high=0.1,
        required=False,
    ),
)

#: What the shop says of one saw in that saw's file, whatever kind of saw it is. Nothing is computed from it.
SAW = (
    Field(
        "local_rules",
        "Rules for this saw",
        "rules_of_a_saw",
        "Rules of the shop that hold for this saw only. Each is a sentence, or a group of `rule`, `since` (a date) and `stage`"
        " (the id of a procedure); all but `rule` may be left out.",
        "No green wood on this saw.",
        required=False,
        group="Local rules",
        longest=240,
    ),
    Field(
        "out_of_service",
        "Out of service, because",
        "text",
        "The reason, in a few words, while nobody may use this saw. Take the three lines out when it works again.",
        "broken guard",
        required=False,
        group="Out of service",
        longest=120,
    ),
    Field(
        "out_of_service_since",
        "Out of service since",
        "date",
        "Write year-month-day.",
        "2026-03-14",
        required=False,
        group="Out of service",
    ),
    Field(
        "out_of_service_by",
        "Taken out of service by",
        "text",
        "The role, not a person who may leave.",
        "the saw steward on duty",
        required=False,
        group="Out of service",
        longest=60,
    ),
)


@dataclass(frozen=True)
class Shop:
    """The shop's record with its print settings drawn out."""

    record: Record
    systems: Mapping[str, str]

    @property
    def name(self) -> str:
        """Return the shop's name."""
        return str(self.record.get("shop"))

    @property
    def paper(self) -> str:
        """Return the paper size, one of PAPERS."""
        return str(self.record.get("paper"))

    @property
    def denominator(self) -> int:
        """Return the finest fraction of an inch to print, as its denominator."""
        return int((self.record.get("fraction") or "1/32").removeprefix("1/"))

    @property
    def both(self) -> bool:
        """Return whether the other system of units is printed small."""
        return self.record.get("small_print") is not False
