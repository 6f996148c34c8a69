"""What people and vehicles are called reaches terminals, calendars, mails, pictures. Found on 28 November 2026.

A line break in a buyer's name ended the checklist; control characters reached the terminal and made an SVG that no reader opens.
Sources: RFC 5545, 3.1 (lines of a calendar); XML 1.0, production 2 (Char); ISO/IEC 6429 (control functions); RFC 5322, 2.2.
"""

import email
import email.policy
import re
from pathlib import Path
from xml.etree import ElementTree as ET

import icalendar
import pytest

from shipcalc.cli.look import tame
from shipcalc.one_line import one_line
from shipcalc.pictures.scene import Scene, Text
from shipcalc.pictures.svg import to_svg
from shipcalc.sheets.reading import read_workbook
from tests.hard_use.conftest import assert_told

EVIL = (
    "Thea\r\nBcc: all@example.org\nBEGIN:VALARM\x1b[2J\x1b]0;x\x07 \x9b31m\u2028Lind\u202eqvist <b>&\"' =1+1 \x00\x0c"
)
QUOTE = ("quote", "--vehicle", "HV-1153", "--to", "53703", "--as-of", "2026-12-01")
# All that could steer a terminal, but tab and line break.
STEERING = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e]")


@pytest.fixture
def office(say, here: Path) -> Path:
    """The files of a quote for somebody whose name is meant to do harm; his stock list does the same."""
    (here / "stock.csv").write_bytes(
        b'Stock number,Year,Make,Model,Body,Runs,Value ($),Yard\nA-1,1961,"Lark\x1b[2Jspur\x07","Min\nnow",roadster,yes,9000,"Bellingham, WA"\n'
    )
    said = say(
        "quote",
        "--vehicle",
        "A-1",
        "--stock",
        "stock.csv",
        "--to",
        "53703",
        "--as-of",
        "2026-12-01",
        "--buyer",
        EVIL,
        "--out",
        "out",
    )
    assert said.status == 0, said.err
    assert not STEERING.search(said.out + said.err)
    return here / "out"


@pytest.mark.fault("control characters and line breaks in names", tried="a buyer's name and a vehicle's in every file of a quote, and on the terminal", outcome="one line everywhere; every file opens; no header, no entry of their own")  # fmt: skip
def test_every_file_of_a_quote_takes_a_hostile_name_as_text(say, office: Path) -> None:
    calendar = icalendar.Calendar.from_ical((office / "office/checklist.ics").read_bytes())
    assert calendar.errors == []
    assert not list(calendar.walk("VALARM"))
    mail = email.message_from_bytes((office / "buyer/message.eml").read_bytes(), policy=email.policy.default)
    assert (mail["Bcc"], mail.defects) == (None, [])
    for name in ("buyer/message.txt", "buyer/message.html", "office/checklist.ics"):
        assert not STEERING.search((office / name).read_bytes().decode().replace("\r\n", "\n")), name
    assert "<b>" not in (office / "buyer/message.html").read_text(encoding="utf-8")
    for name in ("buyer/quote.xlsx", "office/quote-office.xlsx", "office/checklist.xlsx"):
        assert read_workbook(office / name).sheets
    said = say("checklist", "read", str(office / "office/checklist.xlsx"), "--as-of", "2026-12-02")
    assert said.status == 0, said.err
    assert not STEERING.search(said.out + said.err)


def test_a_kept_quote_with_such_a_name_from_before_can_still_be_worked_with(say, office: Path) -> None:
    import msgspec

    file = office / "office/quote.json"
    told = msgspec.json.decode(file.read_bytes())
    told["buyer"] = EVIL
    file.write_bytes(msgspec.json.encode(told))
    said = say("checklist", str(file), "--out", "again", "--as-of", "2026-12-01")
    assert said.status == 0, said.err
    assert icalendar.Calendar.from_ical(Path("again/checklist.ics").read_bytes()).errors == []


def test_an_svg_of_any_text_is_xml() -> None:
    scene = Scene(
        width=10, height=10, title=EVIL, description=EVIL, parts=(Text(x=1, y=1, text=EVIL, size=9, ink="000000"),)
    )
    root = ET.fromstring(to_svg(scene))
    assert [one.text for one in root.iter("{http://www.w3.org/2000/svg}text")] == [one_line(EVIL)]


def test_only_our_own_colours_reach_a_terminal() -> None:
    assert (
        tame("\x1b[1mbold\x1b[0m \x1b[33mwarm\x1b[0m \x1b[2mfaint\x1b[0m\ttab\nline")
        == "\x1b[1mbold\x1b[0m \x1b[33mwarm\x1b[0m \x1b[2mfaint\x1b[0m\ttab\nline"
    )
    assert tame("\x1b[2J\x1b]0;title\x07\x9b31m\rX\x1b[3mq\x7f") == "[2J]0;title31mX[3mq"
    assert not STEERING.search(tame(EVIL))


def test_a_name_that_no_mail_could_hold_is_told(say) -> None:
    assert_told(
        say(*QUOTE, "--buyer", "Thea \udce9"), "--buyer: holds letters that could not be read", "type the name anew"
    )
