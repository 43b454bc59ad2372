"""A date as it is written in a file."""

import re
from datetime import date

from sawside.nodes import Text, quote
from sawside.schema.texts import refuse, tidy

_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
#: No saw's settings were written down before, and a calendar printed from a later day would run out of years.
_FIRST_YEAR, _LAST_YEAR = 1970, 2199


def day(name: str, node: Text, hint: str) -> str:
    """Return a date as year-month-day; raise Faults, with `hint`, when it is none or lies far off."""
    value = tidy(node.value)
    if not _DATE.fullmatch(value):
        raise refuse(node.at, f"`{name}` must be a date, but is {quote(value)}", hint)
    try:
        found = date.fromisoformat(value)
    except ValueError:
        raise refuse(node.at, f"`{name}` is {quote(value)}, which is no day of the calendar", hint) from None
    if not _FIRST_YEAR <= found.year <= _LAST_YEAR:
        what = f"`{name}` is {quote(value)}; its year must lie between {_FIRST_YEAR} and {_LAST_YEAR}"
        raise refuse(node.at, what, hint)
    return value
