"""Papers as PDF, held to Poppler (a reader that is not ours), to the fonts' own tables, and to the standards' marks."""

import os
import re
import subprocess
import sys
import unicodedata
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from datetime import date
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.sheets import look
from shipcalc.typeset import typesetting
from shipcalc.typeset.characters import FILE, FONTS, UNKNOWN, is_shown, printable
from shipcalc.typeset.typesetting import ROOT, STANDARDS, typeset

DAY = date(2026, 12, 1)
TEMPLATE = """#import "/typeset/house.typ": *
#show: house.with(title: data.title, dealer: data.dealer, reference: data.at("reference", default: ""))
= #data.title
#for told in data.told { block(told) }
"""


@pytest.fixture(scope="module")
def template() -> Iterator[str]:
    """Yield a template that sets a heading and paragraphs; it stands in the package while this process's tests run."""
    with standing(TEMPLATE, "for_tests") as name:
        yield name


@contextmanager
def standing(text: str, name: str) -> Iterator[str]:
    """Give the name of a template that stands in the package for a while, one for each process."""
    file = ROOT / "typeset" / f"{name}_{os.getpid()}.typ"
    file.write_text(text)
    try:
        yield f"typeset/{file.name}"
    finally:
        file.unlink()


def paper(template: str, *told: str, title: str = "A paper", name: str = "Heron & Vale", day: date = DAY) -> bytes:
    """Return a paper that says `told`."""
    data = {"title": title, "dealer": {"name": name, "lines": ["12 Harbor Loop"]}, "told": told}
    return typeset(template, data, paper="letter", language="en", day=day)


# Each of these means something in the typesetter's own markup (typst.app/docs/reference/syntax, read on 28 November 2026), in HTML,
# in a spreadsheet or in a path.
NOT_MARKUP = (
    "#panic() #eval(\"1+1\") #include \"/etc/passwd\"", "$x^2$ $$", "*bold* _slanted_ `raw`", "@somebody <label>", "= Heading",
    "== Heading", "- item + item / term: told", "<script>alert('x')</script>", "&amp; &lt;", "// no comment /* none */",
    "\\ \\u{41} \\n", "~ --- -- ...", "[content] {code} (1, 2)", "=1+1", "\"quoted\" 'single'", "https://heron.example/#a", "../../x",
    "{\"a\": 1}", "%s %d {0}", "C:\\Users\\A",
)  # fmt: skip


@pytest.mark.parametrize("told", NOT_MARKUP)
def test_what_was_typed_is_never_read_as_markup(told: str, template: str, read_pdf: Callable[..., str]) -> None:
    pdf = paper(template, told, title=told, name=told)
    said = " ".join(read_pdf(pdf).split())
    assert said.count(" ".join(told.split())) >= 3  # as a paragraph, as the title, as the dealer
    info = dict(line.split(":", 1) for line in read_pdf(pdf, "pdfinfo").splitlines())
    assert (info["Title"].strip(), info["Author"].strip()) == (told, told)


def test_line_ends_stay_and_a_long_word_is_broken_and_not_cut(template: str, read_pdf: Callable[..., str]) -> None:
    long = "".join(chr(ord("A") + place % 26) for place in range(500))
    said = read_pdf(paper(template, "12 Harbor Loop\nBellingham", long))
    assert "12 Harbor Loop\nBellingham" in said
    assert long in "".join(said.split())
    boxes = re.findall(r'xMin="([\d.]+)" .*?xMax="([\d.]+)"', read_pdf(paper(template, long), "pdftotext", "-bbox"))
    assert all(0 < float(left) < float(right) < 612 for left, right in boxes)  # US Letter is 612 points wide


NAMES = ("Nguyễn Thị Thanh Hằng", "Łukasz Őri Șerban", "Οδυσσέας Ελύτης", "Жанна Ёлкина", "山田 太郎", "髙﨑 ひろし", "김철수", "王小明", "马丽",
         "ไทยแลนด์")  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_a_name_in_many_scripts_is_shown_and_can_be_searched(
    name: str, template: str, read_pdf: Callable[..., str]
) -> None:
    assert UNKNOWN not in printable(name)
    assert name in unicodedata.normalize("NFC", read_pdf(paper(template, name)))


@pytest.mark.parametrize("name", ["محمد", "שלום"])
def test_a_name_from_right_to_left_keeps_all_its_letters(
    name: str, template: str, read_pdf: Callable[..., str]
) -> None:
    """Poppler gives such text with marks of direction around it; ligatures stand for the letters they are made of."""
    said = unicodedata.normalize("NFKC", read_pdf(paper(template, name)))
    assert set(name) <= set(said)


def test_the_same_data_give_the_same_bytes_in_any_process(template: str) -> None:
    told = f"""
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from datetime import date
from shipcalc.typeset.typesetting import typeset
data = {{"title": "A paper", "dealer": {{"name": "Heron & Vale", "lines": ["12 Harbor Loop"]}}, "told": ["山田", "x"]}}
import sys; sys.stdout.buffer.write(typeset("{template}", data, paper="letter", language="en", day=date(2026, 12, 1)))
"""
    elsewhere = [
        subprocess.run([sys.executable, "-c", told], capture_output=True, check=True, env={"TZ": zone, "LANG": "C"})
        for zone in ("UTC", "Asia/Tokyo")
    ]
    assert {run.stdout for run in elsewhere} == {paper(template, "山田", "x")}


def test_threads_may_set_papers_at_once(template: str) -> None:
    told = [f"Paper {number}" for number in range(24)]
    with ThreadPoolExecutor(6) as threads:
        at_once = list(threads.map(lambda one: paper(template, one), told))
    assert at_once == [paper(template, one) for one in told]


def test_the_date_of_the_file_is_the_day_that_is_given(template: str, read_pdf: Callable[..., str]) -> None:
    info = read_pdf(paper(template, "x", day=date(2027, 2, 3)), "pdfinfo", "-isodates")
    assert re.search(r"CreationDate: +2027-02-03T00:00:00", info)


def test_only_shipped_fonts_are_used_and_all_are_embedded(template: str, read_pdf: Callable[..., str]) -> None:
    rows = read_pdf(paper(template, *NAMES, "محمد", "שלום"), "pdffonts").splitlines()[2:]
    families = {re.sub(r"^[A-Z]{6}\+", "", row.split()[0]).split("-")[0] for row in rows}
    shipped = {file.name.split("_")[0] for file in FONTS.glob("*.ttf")}
    assert len(families) >= 6
    assert families <= shipped | {"LibertinusSerif"}  # the last is in the typesetter's own wheel
    assert all(row.split()[-5:-2] == ["yes", "yes", "yes"] for row in rows)  # embedded, a subset, with its Unicode map


def test_a_paper_is_tagged_and_names_its_language_and_standards(template: str, read_pdf: Callable[..., str]) -> None:
    """The marks that ISO 14289-1 (PDF/UA-1), 6 and 7.1, and ISO 19005-2 (PDF/A-2), 6.6.4, ask for."""
    pdf = paper(template, "Told")
    info = read_pdf(pdf, "pdfinfo")
    assert re.search(r"Tagged: +yes", info)
    assert STANDARDS == ["ua-1", "a-2a"]
    assert b"<pdfuaid:part>1</pdfuaid:part>" in pdf
    assert b"<pdfaid:part>2</pdfaid:part>" in pdf
    assert b"<pdfaid:conformance>A</pdfaid:conformance>" in pdf
    assert re.search(rb"/Lang ?\(en", pdf)
    structure = read_pdf(pdf, "pdfinfo", "-struct-text")
    assert re.search(r'H1 "A paper" \(block\)', structure)
    assert re.search(r'"Told"', structure)


PIXEL = bytes.fromhex(
    "89504e470d0a1a0a0000000d4948445200000001000000010802000000907753de0000000c49444154789c6390f60e020001"
    "3d00b949f352ce0000000049454e44ae426082"
)  # a PNG of one point


def test_a_logo_stands_in_the_letterhead_and_a_draft_is_marked_in_words(read_pdf: Callable[..., str]) -> None:
    drafted = TEMPLATE.replace('reference: data.at("reference", default: "")', 'draft: "Draft, not to be signed"')
    data = {"title": "A", "dealer": {"name": "Heron & Vale", "lines": ["12 Harbor Loop"], "logo": PIXEL}, "told": ["x"]}
    with standing(drafted, "draft_for_tests") as name:
        pdf = typeset(name, data, paper="a4", language="de-AT", day=DAY)
    assert len(read_pdf(pdf, "pdfimages", "-list").splitlines()) == 3  # two lines of head, one picture
    assert "Draft, not to be signed" in read_pdf(pdf)
    assert re.search(rb"/Lang ?\(de", pdf)


def test_what_no_font_shows_is_a_square_and_stops_nothing(template: str, read_pdf: Callable[..., str]) -> None:
    said = read_pdf(paper(template, "A \N{GRINNING FACE} B", "Ꭰ", title="\N{GRINNING FACE}"))
    assert f"A{UNKNOWN}B" in said.replace(" ", "")


@given(st.text(max_size=60))
def test_any_text_can_be_printed(text: str) -> None:
    told = printable(text)
    assert all(letter == "\n" or letter in "\u200c\u200d" or is_shown(ord(letter)) for letter in told)
    assert printable(told) == told


def test_no_invisible_character_turns_a_line_round() -> None:
    """Unicode Technical Report 36, 2.3: marks of direction can make `100.00` read as another sum."""
    assert printable("pay \u202e00.001\u202c\u2066\u200f") == "pay 00.001"


def test_the_list_of_characters_is_what_the_fonts_themselves_say() -> None:
    shown = {point for file in FONTS.glob("*.ttf") for point in TTFont(file).getBestCmap()}
    listed = set()
    for line in FILE.read_text().splitlines():
        first, last = (int(end, 16) for end in line.split())
        listed |= set(range(first, last + 1))
    assert listed == shown


@pytest.mark.parametrize(
    ("codec", "least"), [("cp932", 6900), ("euc_kr", 2350), ("gb2312", 6700), ("iso8859_5", 90), ("iso8859_7", 90),
                         ("cp1258", 120), ("iso8859_6", 40), ("cp1255", 80), ("cp874", 90), ("iso8859_2", 95)]
)  # fmt: skip
def test_the_fonts_show_the_everyday_character_sets(codec: str, least: int) -> None:
    """Letters and figures of each set as Python's codecs have them: Japanese, Korean, Chinese, Cyrillic, Greek, Vietnamese …"""
    letters = [
        chr(point)
        for point in range(0x80, 0x10000)
        if unicodedata.category(chr(point))[0] in "LN" and not 0xE000 <= point < 0xF900 and _holds(codec, chr(point))
    ]
    composed = [letter for letter in letters if unicodedata.normalize("NFC", letter) == letter]
    assert len(letters) >= least - 60
    assert [letter for letter in composed if not is_shown(ord(letter))] == []


def _holds(codec: str, letter: str) -> bool:
    try:
        return len(letter.encode(codec)) <= 2
    except UnicodeEncodeError:
        return False


def test_every_font_has_its_licence_beside_it_and_all_are_of_reasonable_size() -> None:
    files = sorted(FONTS.glob("*.ttf"))
    assert sum(file.stat().st_size for file in files) < 6_000_000
    licences = {re.sub("[^a-z0-9]", "", file.stem.removeprefix("OFL-")) for file in FONTS.glob("OFL-*.txt")}
    assert {file.name.split("_")[0].casefold() for file in files} == licences
    assert all("SIL OPEN FONT LICENSE Version 1.1" in file.read_text() for file in FONTS.glob("OFL-*.txt"))


def test_papers_have_the_colours_of_the_workbooks() -> None:
    house = (Path(typesetting.__file__).parent / "house.typ").read_text()
    inks = dict(re.findall(r'#let ([a-z-]+) = rgb\(.*?"#(\w{6})"\)', house))
    assert inks == {
        "ink": look.INK, "grey": look.GREY, "faint": look.RULE, "wash": look.WASH, "accent": look.ACCENT,
        "warm": look.CAUTION_INK, "warm-wash": look.CAUTION_WASH,
    }  # fmt: skip


@pytest.mark.parametrize(("size", "points"), [("letter", "612 x 792"), ("a4", "595.2.* x 841.8")])
def test_a_page_is_of_the_size_that_is_asked_for(
    size: str, points: str, template: str, read_pdf: Callable[..., str]
) -> None:
    """ISO 216 A4 is 210 mm × 297 mm, ANSI/ASME Y14.1 letter 8½ × 11 in; a point is 1/72 in."""
    data = {"title": "A", "dealer": {"name": "B", "lines": []}, "told": []}
    pdf = typeset(template, data, paper=size, language="en", day=DAY)  # type: ignore[arg-type]
    assert re.search(f"Page size: +{points}", read_pdf(pdf, "pdfinfo"))
