"""What `sawside new` makes: it builds at once, writes over nothing, explains every line, and editors can check it."""

import json
import re
from datetime import date
from pathlib import Path

import jsonschema
import pytest
import yaml
from click.testing import CliRunner

from sawside import files, library, starter, values
from sawside.cli import main
from sawside.errors import Faults
from sawside.families import FAMILIES
from sawside.model import Missing
from sawside.place.system import ThisComputer
from sawside.shop import SHOP

FAMILY = FAMILIES[0]
#: File of the starter -> its schema, its fields, and those that may stand in it as well.
FILES = {
    "machines/my-saw.yaml": ("machine", FAMILY.machine, FAMILY.assumptions),
    "blades.yaml": ("blades", FAMILY.blade, FAMILY.assumptions),
    "jobs.yaml": ("jobs", FAMILY.job, ()),
    "shop.yaml": ("shop", SHOP, FAMILY.assumptions),
}


@pytest.fixture(scope="module")
def made(tmp_path_factory) -> Path:
    folder = tmp_path_factory.mktemp("new") / "my-shop"
    result = CliRunner().invoke(main, ["new", str(folder)])
    assert result.exit_code == 0, result.output
    assert "sawside check" in result.output and "sawside build" in result.output
    return folder


@pytest.fixture(scope="module")
def schemas() -> dict[str, dict]:
    return {name.removesuffix(".json"): json.loads(text) for name, text in starter.schemas().items()}


def text_dates(found):
    """Return what a YAML reader made, with its dates as text: editors read YAML 1.2, which has no dates."""
    if isinstance(found, dict):
        return {key: text_dates(value) for key, value in found.items()}
    if isinstance(found, list):
        return [text_dates(value) for value in found]
    return found.isoformat() if isinstance(found, date) else found


def parsed(text: str):
    return text_dates(yaml.safe_load(text))


def test_a_name_with_a_space_is_quoted_in_what_to_type_next(tmp_path):
    folder = tmp_path / "my shop"
    assert f'cd "{folder}"' in CliRunner().invoke(main, ["new", str(folder)]).output


def test_it_checks_and_builds_at_once(made):
    for verb in ("check", "build"):
        result = CliRunner().invoke(main, [verb, "--project", str(made)])
        assert result.exit_code == 0, result.output
    assert (made / "site" / "machines" / "my-saw.html").is_file()
    assert (made / "site" / "sheets" / "my-saw.pdf").is_file()


def test_it_writes_over_nothing(made, tmp_path):
    before = (made / "shop.yaml").read_bytes()
    result = CliRunner().invoke(main, ["new", str(made)])
    assert result.exit_code == 1
    assert "already there and not empty" in result.output and "choose another name" in result.output
    assert (made / "shop.yaml").read_bytes() == before
    file = tmp_path / "file"
    file.write_text("mine", encoding="utf-8")
    assert CliRunner().invoke(main, ["new", str(file)]).exit_code in (1, 2)
    assert CliRunner().invoke(main, ["new", str(file / "below")]).exit_code == 1
    assert file.read_text(encoding="utf-8") == "mine"


def test_an_empty_folder_is_filled(tmp_path):
    assert CliRunner().invoke(main, ["new", str(tmp_path)]).exit_code == 0
    assert (tmp_path / "mkdocs.yml").is_file()


def test_what_cannot_be_written_is_a_fault(tmp_path, monkeypatch):
    def full(*_, **__):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(ThisComputer, "write", full)
    with pytest.raises(Faults, match="No space left on device"):
        starter.make(tmp_path / "shop")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", FILES)
def test_every_field_is_explained_above_its_line(name):
    """Label, how to measure it, the choices, and whether it may be unknown: all from the field itself."""
    text = starter.files()[name]
    # A blade and a job are indented, and their first line begins with a hyphen.
    flat = re.sub(r"(?m)^ +(- )?", "", text)
    for field in FILES[name][1]:
        before, line, _ = flat.partition(f"\n{field.name}:")
        if not line:
            before, line, _ = flat.partition(f"\n# {field.name}:")
        assert line, f"{name} does not show {field.name}"
        notes = " ".join(re.sub(r"(?m)^# ?", "", before[-900:]).split())
        assert " ".join(f"{field.label}. {field.measure}".split()) in notes, field.name
        if field.choices:
            assert "One of: " + ", ".join(field.choices) in notes, field.name
        if field.required and field.unknown_ok:
            assert notes.endswith("May be: unknown"), field.name


@pytest.mark.parametrize("name", FILES)
def test_its_lines_are_short_and_plain(name):
    text = starter.files()[name]
    assert text.isascii() and "\t" not in text and "\r" not in text and text.endswith("\n")
    assert max(len(line) for line in text.splitlines() if not line.startswith("# yaml-language-server")) <= 125
    assert "How to write in this file" in text and "an invented shop" in text


def test_what_must_not_be_taken_over_from_an_example_is_unknown():
    """Loads and rates decide how far a blade may be tensioned: an example's number would be taken for the saw's own."""
    machine = parsed(starter.files()["machines/my-saw.yaml"])
    assert machine["wheel_load_max"] == machine["tension_spring_rate"] == "unknown"
    names = {"id", "name", "revision", "revised", "fitted_blade"}
    for record in (machine, parsed(starter.files()["blades.yaml"])["blades"][0]):
        stated = {key: value for key, value in record.items() if key not in names}
        assert all(value == "unknown" or value.startswith("guess ") for value in stated.values()), stated
    assert not {"idle_power", "radial_run_out", "lateral_run_out"} & set(machine)
    assert "site_address" not in parsed(starter.files()["shop.yaml"])


def test_the_ten_that_most_values_wait_for_stand_first():
    """Counted anew, one field at a time: how many values cannot be had when only that field is not known."""
    given = {f.name: values.Given(1.0) for f in FAMILY.machine + FAMILY.blade + FAMILY.assumptions}
    lost = {f.name: 0 for f in FAMILY.machine + FAMILY.blade if f.required}
    for name in lost:
        found = values.resolve(FAMILY.ordered, given | {name: values.unknown()})
        lost[name] = sum(isinstance(one, Missing) and name in one.waits_for for one in found.values())
    ten = starter.first(FAMILY)
    assert len(ten) == 10
    assert min(ten.values()) >= max(count for name, count in lost.items() if name not in ten)
    for name in ("machines/my-saw.yaml", "blades.yaml"):
        text = starter.files()[name]
        order = [key for key in re.findall(r"(?m)^ *(\w+): ", text) if key in lost and key != "id"]
        mine = [key for key in order if key in ten]
        assert order[: len(mine)] == mine and text.count("# FIRST: ") == len(mine)


@pytest.mark.parametrize("name", FILES)
def test_every_line_that_is_a_note_can_be_put_to_use(name, tmp_path):
    """Take the # off everything that looks like a line: it must still check."""
    folder = tmp_path / "shop"
    starter.make(folder)
    path = folder / name
    names = "|".join(field.name for fields in FILES[name][1:] for field in fields)
    text, number = re.subn(rf"(?m)^( *)# (({names}): \S)", r"\1\2", path.read_text(encoding="utf-8"))
    text = text.replace("# local_rules:\n#   - ", "local_rules:\n  - ")
    assert number >= 3
    path.write_text(text, encoding="utf-8")
    library.load(folder)


@pytest.mark.parametrize("name", FILES)
def test_its_first_line_leads_editors_to_its_schema(name, made):
    first = (made / name).read_text(encoding="utf-8").splitlines()[0]
    found = re.fullmatch(r"# yaml-language-server: \$schema=(\S+)", first)[1]
    assert ((made / name).parent / found).resolve() == (made / "schemas" / f"{FILES[name][0]}.json").resolve()
    assert json.loads(((made / name).parent / found).read_text(encoding="utf-8"))["title"]


@pytest.mark.parametrize("kind", [kind for kind, *_ in FILES.values()])
def test_the_schemas_are_valid(kind, schemas):
    assert schemas[kind]["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    jsonschema.Draft202012Validator.check_schema(schemas[kind])


@pytest.mark.parametrize("name", FILES)
def test_the_schema_takes_the_starter_as_a_yaml_reader_reads_it(name, schemas):
    found = parsed(starter.files()[name])
    jsonschema.Draft202012Validator(schemas[FILES[name][0]]).validate(found)


def test_the_schemas_take_the_demonstration(schemas):
    folder = files.data_folder("procedures") / "shops" / "demonstration"
    machines = sorted(folder.glob("machines/*.yaml"))
    assert machines
    others = [(folder / f"{kind}.yaml", kind) for kind in ("blades", "jobs", "shop")]
    for path, kind in [*((path, "machine") for path in machines), *others]:
        jsonschema.Draft202012Validator(schemas[kind]).validate(parsed(path.read_text(encoding="utf-8")))


MISTAKES = {
    "misspelt key": lambda saw: saw | {"tyre_widht": "18 mm"},
    "missing key": lambda saw: {key: value for key, value in saw.items() if key != "tyre_width"},
    "no such choice": lambda saw: saw | {"side_guides": "rollers"},
    "list for a size": lambda saw: saw | {"tyre_width": ["18 mm"]},
    "word for a size": lambda saw: saw | {"tyre_width": "wide"},
    "unknown where it must be known": lambda saw: saw | {"tyre_width": "unknown"},
    "capital in an id": lambda saw: saw | {"id": "My saw"},
    "way out of the folder": lambda saw: saw | {"id": "../x"},
    "long name": lambda saw: saw | {"name": "x" * 61},
    "date the other way round": lambda saw: saw | {"revised": "14.03.2026"},
    "no yes and no no": lambda saw: saw | {"dust_port": "maybe"},
}


@pytest.mark.parametrize("mistake", MISTAKES)
def test_the_schema_refuses_what_the_check_refuses(mistake, schemas):
    saw = parsed(starter.files()["machines/my-saw.yaml"])
    check = jsonschema.Draft202012Validator(schemas["machine"])
    assert check.is_valid(saw)
    assert not check.is_valid(MISTAKES[mistake](saw))


def test_the_schema_of_a_list_refuses_a_misspelt_key_in_an_item(schemas):
    blades = parsed(starter.files()["blades.yaml"])
    blades["blades"][0]["blade_widht"] = "13 mm"
    assert not jsonschema.Draft202012Validator(schemas["blades"]).is_valid(blades)
    shop = parsed(starter.files()["shop.yaml"]) | {"units": {"blade_wide": "inch"}}
    assert not jsonschema.Draft202012Validator(schemas["shop"]).is_valid(shop)


@pytest.mark.parametrize("kind, fields", [(kind, fields) for kind, fields, _ in FILES.values()])
def test_the_schema_says_how_to_measure_each_field(kind, fields, schemas):
    properties = schemas[kind]["properties"]
    if kind in ("blades", "jobs"):
        properties = properties[kind]["items"]["properties"]
    for field in fields:
        described = properties[field.name]
        assert field.measure in described["description"] and field.label in described["description"]
        assert described["examples"] == [field.example]


def test_the_verb_schema_writes_them(tmp_path):
    target = tmp_path / "deep" / "schemas"
    result = CliRunner().invoke(main, ["schema", str(target)])
    assert result.exit_code == 0 and "machine.json" in result.output
    assert {path.name: path.read_text(encoding="utf-8") for path in target.iterdir()} == starter.schemas()
