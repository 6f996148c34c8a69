"""What users really type and keep: always a sentence with a remedy and exit status 2 (or 1 for a no), never a traceback."""

import os
import shutil
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from subprocess import CompletedProcess

import pytest

from shipcalc.actions.sources import invented_folder

ASK = ("quote", "--vehicle", "HV-1153", "--to", "53703", "--as-of", "2026-12-01")
Command = Callable[..., "CompletedProcess[str]"]


def asked(**instead: str) -> tuple[str, ...]:
    """Return the usual question with some of it said otherwise: `asked(to="nowhere")`."""
    words = {"vehicle": "HV-1153", "to": "53703", "as-of": "2026-12-01"}
    words |= {name.replace("_", "-"): value for name, value in instead.items()}
    return ("quote", *(part for name, value in words.items() for part in (f"--{name}", value)))


def assert_one_sentence(said, status: int, *told: str) -> None:
    sentences = [line for line in said.err.splitlines() if line.startswith("shipcalc: ")]
    assert said.status == status, said.err or said.out
    assert len(sentences) == 1, said.err
    assert said.out == ""
    assert "Traceback" not in said.err
    assert "mistake in shipcalc itself" not in said.err
    for part in told:
        assert part in sentences[0]


@pytest.mark.parametrize(
    ("words", "status", "told"),
    [
        (asked(vehicle="HV-1135x"), 2, ("HV-1135x", "—")),
        (asked(vehicle="HV1351"), 2, ("HV1351", "the nearest: HV-")),
        (asked(vehicle=""), 2, ("no stock number is given",)),
        (asked(vehicle="HV-1013"), 2, ("41oo",)),
        (asked(vehicle="1961 roadster, 153 in x 60 in"), 2, ("has 2 sizes", "write length x width x height")),
        (asked(vehicle="roadster, -5 in long"), 2, ("the description",)),
        ((*ASK, "--vehicle", "hv 1153"), 2, ("HV-1153 was given twice", "give every vehicle once")),
        (asked(to="Xyzzyqq"), 2, ("Xyzzyqq", "—")),
        (asked(to="Bellinghan, WA"), 2, ("did you mean", "Bellingham")),
        (asked(to="00000"), 2, ("00000",)),
        (asked(to="   "), 2, ("--to is missing",)),
        (asked(to="91.5, 10"), 2, ("—",)),
        (asked(**{"from": "the moon base"}), 2, ("the moon base",)),
        (asked(as_of="12/01/2026"), 2, ('--as-of: "12/01/2026" can be read as 2026-01-12 or as 2026-12-01', "write 2026-01-12 or 2026-12-01")),
        (asked(as_of="2026-02-30"), 2, ("is not a date",)),
        (asked(as_of="Dec 41"), 2, ('"Dec 41" is not a date', "write it as 2026-12-15, or say dec 15")),
        (asked(ready="soon"), 2, ("--ready",)),
        (asked(ready="2026-11-30"), 2, ("--ready", "2026-11-30", "2026-12-01")),
        (asked(trailer="flatbed"), 2, ("--trailer", "say open or enclosed")),
        (asked(term="CIF"), 2, ("--term", "DAP")),
        (asked(currency="ZZZ"), 2, ("--currency", "no rate for ZZZ", "Currencies", "USD")),
        (asked(to="Bremen, Germany", currency="ZZZ"), 2, ("--currency", "no rate for ZZZ")),
        (asked(to="Bremen, Germany", term="XYZ"), 2, ("--term", "XYZ is not a delivery term", "DAP")),
        (asked(to="Bremen, Germany", term="CIF", ocean="container"), 1, ("CIF", "CIP is the usual rule")),
        (asked(to="Bremen, Germany", ocean="balloon"), 2, ("--ocean", "say roro or container")),
        (asked(to="Bremen, Germany", cover="D"), 2, ("--cover", "say A, B or C")),
        (asked(ocean="roro"), 2, ("--ocean", "Madison is reached by road", "leave it out")),
        (asked(cover="A"), 2, ("--cover", "no marine cover", "leave it out")),
        (asked(to="Pyongyang, North Korea"), 1, ("Pyongyang, North Korea is not quoted", "Holds!")),
        (asked(to="Beirut, Lebanon"), 1, ("Beirut, Lebanon waits for release", "Holds!", "--released-by")),
        (asked(**{"for": "everybody"}), 2, ("--for", "say buyer or office")),
        ((*ASK, "--choice", "9"), 2, ("there is no choice 9", "the quote has choices 1 to")),
        ((*ASK, "--choice", "two"), 2, ("shipcalc quote --help shows how",)),
        ((*ASK, "--colour"), 2, ("o such option", "shipcalc quote --help shows how")),
        (("quote",), 2, ("--vehicle and --to are missing", "e.g. shipcalc quote")),
        (("quote", "--to", "53703"), 2, ("--vehicle is missing",)),
        (("qoute",), 2, ("qoute", "shipcalc --help shows how")),
        (("miles", "98225"), 2, ("shipcalc miles --help shows how",)),
        (("miles", "98225", "Xyzzyqq"), 2, ("Xyzzyqq",)),
        (("place", ""), 2, ("no place was given",)),
        (("place", "Xyzzyqq"), 1, ("Xyzzyqq",)),
        (("stock", "amphibious"), 1, ('no vehicle of the list matches "amphibious"', "shipcalc stock lists them all")),
        (asked(to="APO AE 09096"), 2, ("military", "give the city")),
        (asked(to="Avalon, CA"), 1, ("Catalina Island", "barge")),
        (asked(vehicle="1979 camper, 400 in x 100 in x 178 in, 20000 lb, $36000, does not run", to="85719"), 1, ("Tucson, AZ 85719: ", "no carrier")),
        (asked(stock="nowhere.xlsx"), 2, ("nowhere.xlsx: there is no such file",)),
        (asked(stock="."), 2, ("is a folder, not a file",)),
        (asked(rates="nowhere"), 2, ("nowhere",)),
        (("checklist", "nowhere.json"), 2, ("nowhere.json: cannot be read", "name the quote.json of a quote")),
        (("checklist", "."), 2, ("cannot be read",)),
        (("demo", "--as-of", "soon"), 2, ("is not a date",)),
    ],
    ids=lambda value: " ".join(value)[:60] if isinstance(value, tuple) else str(value),
)  # fmt: skip
def test_what_cannot_be_used_is_told_in_one_sentence(say, words, status, told) -> None:
    assert_one_sentence(say(*words), status, *told)


@pytest.mark.parametrize("content", [b"", b"{}", b"not json", b'{"options": []}', b"\xff\xfe", b"[1, 2]"])
def test_a_file_that_is_no_quote_makes_no_checklist(say, here: Path, content: bytes) -> None:
    (here / "quote.json").write_bytes(content)
    assert_one_sentence(say("checklist", "quote.json"), 2, "quote.json: is not a whole quote", "as it was written")
    assert not (here / "checklist.xlsx").exists()


def test_a_faulty_setting_is_named_by_every_command_that_reads_it(say, here: Path) -> None:
    (here / "shipcalc.toml").write_text('stok = "x.xlsx"\n', encoding="utf-8")
    for words in (ASK, ("stock",), ("miles", "98225", "53703")):
        assert_one_sentence(say(*words), 2, "shipcalc.toml, stok: is not a setting", "did you mean stock?")


def test_a_setting_that_leads_nowhere_names_the_file(say, here: Path) -> None:
    (here / "shipcalc.toml").write_text('stock = "lost.xlsx"\n', encoding="utf-8")
    assert_one_sentence(say("stock"), 2, "lost.xlsx: there is no such file")


def test_a_yard_that_is_no_place_says_where_to_name_it(say, here: Path) -> None:
    (here / "stock.csv").write_text("Stock number,Year,Body,Value ($),Yard\nA-1,1961,roadster,9000,North lot\n")
    said = say("quote", "--vehicle", "A-1", "--to", "53703", "--stock", "stock.csv", "--as-of", "2026-12-01")
    assert_one_sentence(
        said, 2, "yard of A-1", '"North lot" is not a place', "[yards] in shipcalc.toml", "--from PLACE"
    )


def test_a_half_written_stock_list_is_told(say, here: Path) -> None:
    whole = (invented_folder("demo") / "stock.xlsx").read_bytes()
    (here / "stock.xlsx").write_bytes(whole[: len(whole) // 2])
    assert_one_sentence(say("stock", "--stock", "stock.xlsx"), 2, "stock.xlsx", "half written")


def test_an_empty_stock_list_is_told(say, here: Path) -> None:
    (here / "stock.xlsx").write_bytes(b"")
    assert_one_sentence(say("stock", "--stock", "stock.xlsx"), 2, "stock.xlsx: the file is empty")


def test_a_workbook_that_is_no_stock_list_is_told(say) -> None:
    said = say("stock", "--stock", str(invented_folder("rates") / "trucking.xlsx"))
    assert_one_sentence(said, 2, "trucking.xlsx: this is not a stock list")


def test_a_rate_book_with_half_a_workbook_is_told(say, here: Path) -> None:
    shutil.copytree(invented_folder("rates"), here / "rates")
    broken = here / "rates/trucking.xlsx"
    broken.write_bytes(broken.read_bytes()[:4000])
    said = say(*ASK)
    assert said.status == 2
    assert "trucking.xlsx" in said.err
    assert "Traceback" not in said.err


def test_a_rate_book_without_a_workbook_is_told(say, here: Path) -> None:
    shutil.copytree(invented_folder("rates"), here / "rates")
    (here / "rates/trucking.xlsx").unlink()
    said = say(*ASK)
    assert said.status == 2
    assert "trucking.xlsx" in said.err
    assert "Traceback" not in said.err


def test_a_missing_sheet_is_named(say, here: Path) -> None:
    import openpyxl

    shutil.copytree(invented_folder("rates"), here / "rates")
    book = openpyxl.load_workbook(here / "rates/trucking.xlsx")
    del book["Per mile"]
    book.save(here / "rates/trucking.xlsx")
    said = say(*ASK)
    assert said.status == 2
    assert "Per mile" in said.err


def test_every_faulty_cell_of_the_rate_book_is_listed_at_once(say, here: Path) -> None:
    import openpyxl

    shutil.copytree(invented_folder("rates"), here / "rates")
    book = openpyxl.load_workbook(here / "rates/trucking.xlsx")
    book["Per mile"]["E2"] = "1,9O"
    book["Carriers"]["B3"] = "half open"
    book.save(here / "rates/trucking.xlsx")
    said = say(*ASK)
    assert said.status == 2
    assert "trucking.xlsx › Per mile!E2" in said.err
    assert "trucking.xlsx › Carriers!B3" in said.err


def test_a_place_for_the_files_that_is_a_file_loses_nothing(say, here: Path) -> None:
    (here / "taken").write_text("letters to Ms Lindqvist")
    assert_one_sentence(say(*ASK, "--out", "taken"), 2, "taken", "cannot be written", "--out")
    assert (here / "taken").read_text() == "letters to Ms Lindqvist"
    assert_one_sentence(say("demo", "--out", "taken"), 2, "cannot be written")


@pytest.fixture
def somebody_else(here: Path) -> Iterator[Path]:
    """A folder that all may read, for somebody without rights: the administrator, who may do anything, steps down."""
    folder = Path(tempfile.mkdtemp(prefix="shipcalc-rights-"))
    folder.chmod(0o755)
    yield folder
    if os.getuid() == 0:
        os.seteuid(0)
    for locked in folder.iterdir():
        locked.chmod(0o700)
    shutil.rmtree(folder)


@pytest.mark.skipif(os.name == "nt", reason="rights are another matter there")
def test_a_folder_without_rights_is_told(say, somebody_else: Path) -> None:
    # Everything is asked once with all rights, so that only the folder in question is new to somebody without them.
    saved, locked, hidden = (somebody_else / name for name in ("saved", "locked", "hidden"))
    assert say(*ASK, "--out", str(saved)).status == 0
    for folder in (locked, hidden):
        folder.mkdir()
    shutil.copy(invented_folder("demo") / "stock.xlsx", hidden)
    assert say("stock", "--stock", str(hidden / "stock.xlsx")).status == 0
    assert say("checklist", str(saved / "office/quote.json"), "--out", str(saved)).status == 0
    locked.chmod(0o555)
    hidden.chmod(0o000)
    if os.getuid() == 0:
        os.seteuid(65534)
    assert_one_sentence(
        say("checklist", str(saved / "office/quote.json"), "--out", str(locked)), 2, "(permission denied)", "--out"
    )
    assert_one_sentence(
        say("stock", "--stock", str(hidden / "stock.xlsx")), 2, "(permission denied)", "check its permissions"
    )


@pytest.mark.skipif(not Path("/proc/self").exists(), reason="a folder in which nobody at all may write")
def test_a_place_where_nobody_can_write_is_told(say) -> None:
    assert_one_sentence(say(*ASK, "--out", "/proc/lindqvist"), 2, "/proc/lindqvist", "cannot be written", "--out")


def test_a_mistake_of_the_program_itself_is_a_sentence_too(say, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object, **__: object) -> None:
        raise RuntimeError("the wheel came off")

    monkeypatch.setattr("shipcalc.actions.place.understand_place", broken)
    said = say("place", "98225")
    assert said.status == 70
    assert "Traceback" not in said.err
    assert "this is a mistake in shipcalc itself (RuntimeError the wheel came off)" in said.err
    assert "SHIPCALC_TRACE=1" in said.err


def test_ctrl_c_is_a_word_and_the_shells_own_status(say, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("shipcalc.actions.place.understand_place", interrupted)
    said = say("place", "98225")
    assert (said.status, said.out, said.err) == (130, "", "shipcalc: stopped\n")


def test_the_program_itself_never_asks_in_a_pipe(command: Command) -> None:
    done = command("quote", input="HV-1153\n53703\n\n")
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith("shipcalc: quote: --vehicle and --to are missing")
