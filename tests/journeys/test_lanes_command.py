"""The whole list to everywhere, as the manager types it."""

import json
import subprocess
import sys
from pathlib import Path

import pyarrow.parquet as pq

DAY = "2026-12-01"
ONE = ("--vehicle", "HV-1042", "--as-of", DAY)


def test_the_answer_says_how_many_rows_have_a_price_and_why_others_have_none(say, here: Path) -> None:
    (here / "shows.csv").write_text('Place\n"Bozeman, MT"\n98250\n49757\n')
    told = say("lanes", "--to", "cities", "shows.csv", *ONE, "--out", "prices.csv", "--json")
    assert told.status == 0
    answer = json.loads(told.out)
    assert (answer["vehicles"], answer["places"], answer["rows"]) == (1, 3, 6)
    assert answer["priced"] + sum(answer["why_not"].values()) == 6
    assert len((here / "prices.csv").read_text().splitlines()) == 7
    assert "written: prices.csv" in told.err


def test_the_price_is_the_one_that_a_quote_says(say, here: Path) -> None:
    say("lanes", "--to", "states", *ONE, "--trailer", "open", "--out", "prices.parquet")
    rows = {row["to"]: row for row in pq.read_table(here / "prices.parquet").to_pylist()}
    for state in ("MT", "FL"):
        city = rows[state]["place"]
        quote = json.loads(say("quote", *ONE, "--to", city, "--trailer", "open", "--json").out)
        assert str(rows[state]["price"]) == quote["options"][0]["total"], city


def test_what_is_wrong_is_said_in_a_sentence_and_nothing_is_written(say, here: Path) -> None:
    for words, sentence in (
        (("--to", "moon", "--out", "a.csv"), '"moon" is not a destination'),
        (("--to", "zips", "--out", "a.xlsx"), "an Excel sheet ends after 1,048,576 rows"),
        (("--to", "states", "--out", "a.svg"), "a price map is of one vehicle"),
        (("--to", "states", "--out", "a.csv", "--for", "nobody"), '"nobody" is neither buyer nor office'),
        (("--to", "cities", "none.csv", "--out", "a.csv"), "there is no such file"),
    ):
        told = say("lanes", *words)
        assert (told.status, told.out) == (2, ""), words
        assert sentence in told.err
    assert list(here.iterdir()) == []


def test_without_the_libraries_of_tables_it_is_said_and_a_quote_is_made(say, here: Path, monkeypatch) -> None:
    for name in ("pandas", "pyarrow"):
        monkeypatch.setitem(sys.modules, name, None)  # as if it were not there
    told = say("lanes", "--to", "states", *ONE, "--out", "prices.csv")
    assert (told.status, told.out) == (2, "")
    assert "pandas and pyarrow" in told.err
    assert "pip install 'shipcalc[lanes]'" in told.err
    assert list(here.iterdir()) == []
    assert say("quote", *ONE, "--to", "59715").status == 0


# The installed program, with the signal of Ctrl-C sent to it as soon as the first part of the table is kept, and in no race with it.
STOPPED_AFTER_A_PART = """
import os, signal, sys
from shipcalc.bulk.parts import Parts
from shipcalc.cli.main import main
signal.signal(signal.SIGINT, signal.default_int_handler)  # a shell's background job would not hear of it
write = Parts.write
def write_and_stop(parts, block, table):
    write(parts, block, table)
    os.kill(os.getpid(), signal.SIGINT)
Parts.write = write_and_stop
sys.argv[0] = "shipcalc"
main()
"""


def test_ctrl_c_leaves_no_half_file_and_the_same_command_goes_on_from_there(here: Path, say) -> None:
    words = ["lanes", "--to", "states", "--as-of", DAY, "--out", "prices.csv"]
    stopped = subprocess.run(
        [sys.executable, "-c", STOPPED_AFTER_A_PART, *words], cwd=here, text=True, capture_output=True, timeout=240, check=False
    )  # fmt: skip
    assert stopped.returncode == 130, stopped.stderr
    assert "the same command goes on from there" in stopped.stderr
    assert "Traceback" not in stopped.stderr
    (kept,) = here.iterdir()
    assert kept.name.endswith(".parts")
    assert list(kept.glob("*.arrow"))
    assert say(*words).status == 0
    assert [path.name for path in here.iterdir()] == ["prices.csv"]
