"""Checks what a file holds against what is asked for: records from fields, procedures, notices and sources.

Nothing here stops at the first fault: each function returns what it could make and the faults it found.
"""

from sawside.schema.json_schema import json_schema
from sawside.schema.notices import load_notices, load_sources
from sawside.schema.procedures import load_procedure, place_of
from sawside.schema.records import ids, record, records
from sawside.schema.values import may_be_guessed
from sawside.suggest import suggest

__all__ = [
    "ids",
    "json_schema",
    "load_notices",
    "load_procedure",
    "load_sources",
    "may_be_guessed",
    "place_of",
    "record",
    "records",
    "suggest",
]
