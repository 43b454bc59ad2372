"""The same input gives the same bytes: on a second build, on another day, from another folder."""

import datetime
import os
import time

import demonstration


def contents(site):
    return {file.relative_to(site).as_posix(): file.read_bytes() for file in site.rglob("*") if file.is_file()}


def test_a_second_build_in_another_folder_on_another_day(site, tmp_path, monkeypatch):
    first = contents(site)
    assert len(first) > 40 and any(name.endswith(".pdf") for name in first)
    later = time.time() + 3 * 86400 + 3723
    monkeypatch.setattr(time, "time", lambda: later)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", str(int(later)))  # what programs that stamp their output go by
    monkeypatch.setenv("TZ", "Pacific/Kiritimati")
    monkeypatch.setenv("LC_ALL", "C")
    if hasattr(time, "tzset"):
        time.tzset()
    try:
        second = contents(demonstration.build(tmp_path / "a much longer name of a folder"))
    finally:
        monkeypatch.undo()
        if hasattr(time, "tzset"):
            time.tzset()
    assert first.keys() == second.keys()
    assert [name for name in first if first[name] != second[name]] == []


def test_no_page_tells_where_or_when_it_was_built(site):
    here, today = os.fsencode(str(site.parent)), datetime.datetime.now(datetime.UTC).date().isoformat().encode()
    for name, data in contents(site).items():
        assert here not in data and b"site-packages" not in data and today not in data, name
