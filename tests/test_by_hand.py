"""The formulas work alone, and the page that shows how to use them says what they answer."""

import doctest
import json
import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
PAGE = ROOT / "site_templates" / "pages" / "by_hand.md"

ALONE = """
import json, sys
before = set(sys.modules)
sys.path[:] = [p for p in sys.path if "site-packages" not in p and "dist-packages" not in p]
sys.path.insert(0, sys.argv[1])
from sawside.calc import band, setting
stress = setting.target_stress(setting.published_stress("bi_metal"), 0.013, 0.010)
pull = band.strand_force(stress, band.body_area(0.010, 0.65e-3))
new = sorted(set(sys.modules) - before)
print(json.dumps([pull, new, [getattr(sys.modules[name], "__file__", None) for name in new], sorted(sys.stdlib_module_names)]))
"""


def test_band_works_alone_with_nothing_but_python():
    # A Python of its own: no site packages (-S), no environment and no current folder (-I), only the source folder.
    command = [sys.executable, "-I", "-S", "-c", ALONE, str(ROOT / "generator")]
    done = subprocess.run(command, capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr
    pull, new, files, standard = json.loads(done.stdout)
    assert round(pull) == 1457  # 25 000 psi over 13 x 0.65 mm: 172.37 N/mm2 x 8.45 mm2
    strangers = {name.partition(".")[0] for name in new} - set(standard) - {"sawside"}
    assert strangers == set()
    ours = [name for name in new if name.startswith("sawside")]
    assert sorted(ours) == ["sawside", "sawside.calc", "sawside.calc.band", "sawside.calc.limits", "sawside.calc.setting"]
    assert all(file is None or "site-packages" not in file for file in files)


def test_a_stranger_would_be_seen():
    # The same Python cannot see what is installed beside it, so an import of it fails loudly.
    done = subprocess.run([sys.executable, "-I", "-S", "-c", "import pint"], capture_output=True, text=True, timeout=60)
    assert done.returncode != 0 and "pint" in done.stderr


def test_by_hand_page_is_true():
    text = PAGE.read_text(encoding="utf-8")
    parser, runner = doctest.DocTestParser(), doctest.DocTestRunner(optionflags=0)
    test = parser.get_doctest(text, {}, PAGE.name, str(PAGE), 0)
    failed, tried = runner.run(test, out=lambda line: None)
    assert failed == 0 and tried >= 10


def test_by_hand_page_takes_about_ten_lines():
    lines = re.findall(r"^>>> (.*)$", PAGE.read_text(encoding="utf-8"), re.MULTILINE)
    assert 8 <= len(lines) <= 12 and lines[0] == "from sawside.calc import band, setting"
    assert all(re.match(r"(from sawside|\w+ = |f\"|band\.)", line) for line in lines)


def test_a_wrong_answer_on_the_page_would_be_seen():
    text = PAGE.read_text(encoding="utf-8").replace("874 N in a strand", "875 N in a strand")
    runner = doctest.DocTestRunner()
    failed, _ = runner.run(doctest.DocTestParser().get_doctest(text, {}, "page", "page", 0), out=lambda line: None)
    assert failed == 1
