"""A coverage-guided fuzzer over workbooks, settings, quotes, places: it keeps what leads to new lines of the program, and varies it.

`SECONDS=600 pytest tests/hard_use/test_fuzzed.py` (extra `fuzz`); each run is a process of its own, since the fuzzer ends its process.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from shipcalc.actions.sources import invented_folder

pytestmark = pytest.mark.soak
SECONDS = os.environ.get("SECONDS", "3")
# What is fuzzed, as a function of bytes; whatever is raised but the program's own sentences ends the run with status 77.
TARGETS = {
    "workbook": "from shipcalc.sheets.reading import workbook_of\nwork = lambda data: workbook_of('a.xlsx', data)",
    "csv": "from shipcalc.sheets.reading import workbook_of\nwork = lambda data: workbook_of('a.csv', data)",
    "xls": "from shipcalc.sheets.reading import workbook_of\nwork = lambda data: workbook_of('a.xls', data)",
    "settings": "from pathlib import Path\nfrom shipcalc.settings import settings_of\nwork = lambda data: settings_of(data, Path('shipcalc.toml'))",
    "quote": "from shipcalc.quote.as_data import quote_from_json\nwork = lambda data: quote_from_json(data)",
    "place": "from shipcalc.places.gazetteer.find import find_place\nwork = lambda data: find_place(data.decode(errors='replace'))",
    "day": "from datetime import date\nfrom shipcalc.schedule.said_days import days_meant\nwork = lambda data: days_meant(data.decode(errors='replace'), today=date(2026, 12, 1))",
    "vehicle": "from shipcalc.vehicles.description import vehicle_from_text\nwork = lambda data: vehicle_from_text(data.decode(errors='replace'))",
}
PROGRAM = """
import sys, atheris
with atheris.instrument_imports(include=["shipcalc"]):
    from shipcalc.errors import ShipcalcError
    {target}
def one(data):
    try:
        work(data)
    except ShipcalcError:
        pass
atheris.Setup(sys.argv, one)
atheris.Fuzz()
"""


@pytest.mark.parametrize("name", TARGETS)
def test_the_fuzzer_finds_nothing(name: str, tmp_path: Path) -> None:
    pytest.importorskip("atheris")
    (tmp_path / "corpus").mkdir()
    begin = {
        "workbook": invented_folder("demo") / "stock.xlsx",
        "csv": invented_folder("demo") / "buyers.csv",
        "settings": invented_folder("demo") / "shipcalc.toml",
    }
    if name in begin:
        (tmp_path / "corpus/first").write_bytes(begin[name].read_bytes())
    program = PROGRAM.format(target=TARGETS[name].replace("\n", "\n    "))
    limits = [f"-max_total_time={SECONDS}", "-timeout=20", "-rss_limit_mb=2000", f"-artifact_prefix={tmp_path}/"]
    done = subprocess.run(
        [sys.executable, "-c", program, "corpus", *limits],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        errors="replace",
        check=False,
    )
    found = [path.read_bytes()[:200] for path in tmp_path.glob("crash-*")]
    assert done.returncode == 0, (found, done.stderr[-3_000:])
