"""Imports point down, families do not know each other, and each library has one home."""

import ast
from pathlib import Path

import pytest

SOURCE = Path(__file__).resolve().parents[1] / "generator" / "sawside"
MODULES = sorted(SOURCE.rglob("*.py"))

#: From the ground up. A module may import from its own layer (within one folder) and from those before it.
LAYERS = (
    ("errors", "calc"),
    ("units", "script"),
    ("fields", "model", "source", "text_file", "syntax", "nodes", "figures", "suggest", "place", "safety", "history"),
    ("occasions",),
    ("schema", "slots", "values", "shop", "ledger"),
    ("families",),
    ("checks", "local", "printing", "kinds"),
    ("files",),
    ("texts",),
    ("library",),
    ("guide",),
    ("selection",),
    ("advice", "outputs", "starter"),
    ("commands",),
    ("cli",),
)
RANK = {name: number for number, layer in enumerate(LAYERS) for name in layer}

#: Third-party library -> the only module that may import it.
HOMES = {
    "yaml": {"source", "syntax"},
    "pint": {"units"},
    "jinja2": {"slots", "outputs.layouts", "outputs.stage_pages", "outputs.layout_check", "outputs.site"},
    "mkdocs": {"outputs.site"},
    "typst": {"outputs.sheets"},
    "dulwich": {"history"},
    "segno": {"outputs.sheets"},
    "click": {"cli", "commands"},
    "filelock": {"place.lock"},
    "tqdm": {"commands.common"},
}


def dotted(path: Path) -> str:
    return ".".join(path.relative_to(SOURCE).with_suffix("").parts).removesuffix(".__init__")


def imported(path: Path) -> set[str]:
    names = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            names.add(node.module)
            if node.module == "sawside":
                names |= {f"sawside.{alias.name}" for alias in node.names}
    return names


@pytest.mark.parametrize("path", MODULES, ids=dotted)
def test_imports_point_down(path):
    here = dotted(path).split(".")[0]
    if here in ("__init__", ""):
        return
    for name in imported(path):
        parts = name.split(".")
        if parts[0] == "sawside" and len(parts) > 1 and parts[1] not in ("__version__", here):
            assert RANK[parts[1]] <= RANK[here], f"{dotted(path)} imports {name}, which lies above it"


@pytest.mark.parametrize("path", MODULES, ids=dotted)
def test_each_library_has_one_home(path):
    for name in imported(path):
        top = name.split(".")[0]
        if top in HOMES:
            assert any(dotted(path) == home or dotted(path).startswith(home + ".") for home in HOMES[top]), (
                f"{dotted(path)} imports {top}, whose home is {sorted(HOMES[top])}"
            )


def test_formulas_need_math_only():
    allowed = {"math", "dataclasses", "typing", "collections.abc", "itertools", "functools", "fractions", "bisect", "__future__"}
    for path in (SOURCE / "calc").glob("*.py"):
        for name in imported(path):
            assert name in allowed or name == "sawside" or name.startswith("sawside.calc"), f"{path.name} imports {name}"


def test_families_do_not_import_each_other():
    families = [folder for folder in (SOURCE / "families").iterdir() if folder.is_dir() and folder.name != "__pycache__"]
    for family in families:
        others = [f"sawside.families.{other.name}" for other in families if other != family]
        for path in family.rglob("*.py"):
            assert not [name for name in imported(path) for other in others if name.startswith(other)]


def test_every_module_has_a_place():
    tops = {dotted(path).split(".")[0] for path in MODULES} - {"", "__init__"}
    assert tops <= set(RANK), f"say in LAYERS where these belong: {tops - set(RANK)}"


def test_the_site_adapter_stays_thin():
    lines = (SOURCE / "outputs" / "site.py").read_text(encoding="utf-8").splitlines()
    assert len([line for line in lines if line.strip()]) <= 140
