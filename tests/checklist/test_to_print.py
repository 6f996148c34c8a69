"""The checklist to tick with a pen, read by Poppler: every task once, with who and by when, large enough to read."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from shipcalc.checklist.making import checklist, gates
from shipcalc.documents import wording
from shipcalc.documents.checklist.to_print import to_print_beside
from shipcalc.documents.checklist.workbook import Present, write_checklist_workbook
from shipcalc.quote.model import Quote
from shipcalc.records import replace

POINTS = 9


@pytest.fixture(params=["letter", "a4"])
def told(request: pytest.FixtureRequest, make_shipment, fleet, tmp_path: Path) -> tuple[Quote, bytes]:
    quote = make_shipment(*fleet)
    path = tmp_path / "checklist-3.xlsx"
    write_checklist_workbook(quote, 0, path, paper=request.param)
    return quote, to_print_beside(path).read_bytes()


def test_it_stands_beside_the_workbook_under_its_name(make_shipment, tmp_path: Path) -> None:
    write_checklist_workbook(make_shipment(), 0, tmp_path / "checklist.xlsx")
    assert (tmp_path / "checklist-to-print.pdf").is_file()


def test_every_task_stands_on_it_with_who_and_by_when(told: tuple[Quote, bytes], read_pdf: Callable[..., str]) -> None:
    quote, pdf = told
    text = " ".join(read_pdf(pdf, "pdftotext", "-raw").replace("-\n", "-").split())
    for item in checklist(quote, quote.options[0]):
        line = f" {item.owner} {item.due:%a} {wording.day(item.due)}"
        if f"{item.title}{line}" not in text:  # it stands with others that it differs from in its vehicle only
            task = re.escape(item.title.removeprefix(f"{item.vehicle}: "))
            several = rf"((?: \S+){{2,{len(quote.vehicles)}}}){re.escape(line)}"
            boxes = re.search(task + several, text)
            assert boxes is not None, item.title
            assert item.vehicle in boxes[1].split()


def test_stages_come_in_the_order_of_their_first_day(told: tuple[Quote, bytes], read_pdf: Callable[..., str]) -> None:
    quote, pdf = told
    first: dict[str, object] = {}
    for item in sorted(checklist(quote, quote.options[0]), key=lambda one: one.due):
        first.setdefault(item.stage.capitalize(), item.due)
    heads = [
        line.split(" Who By")[0] for line in read_pdf(pdf, "pdftotext", "-raw").splitlines() if line.endswith(" Who By")
    ]
    once = list(dict.fromkeys(heads))
    assert set(once) == set(first)
    assert [first[head] for head in once] == sorted(first.values())  # type: ignore[type-var]


def test_nothing_of_price_or_program_is_on_it(told: tuple[Quote, bytes], read_pdf: Callable[..., str]) -> None:
    quote, pdf = told
    text = read_pdf(pdf, "pdftotext", "-layout")
    assert re.search(r"\$|margin|\.xlsx|Last version|Id \(do not", text) is None
    assert f"{quote.options[0].total:,}" not in text
    assert [item.id for item in checklist(quote, quote.options[0]) if "/" in item.id and item.id in text] == []


def test_letters_are_nine_points_or_larger_but_for_the_letterhead(
    told: tuple[Quote, bytes], read_pdf: Callable[..., str], tmp_path: Path
) -> None:
    """A font's size as Poppler's `pdftohtml -xml` reads it; its pixels are 1.5 of a point (Poppler's default zoom)."""
    _, pdf = told
    xml = read_pdf_xml(pdf, tmp_path)
    sizes = {match[1]: int(match[2]) / 1.5 for match in re.finditer(r'<fontspec id="(\d+)" size="(\d+)"', xml)}
    used = [
        (sizes[font], re.sub("<[^>]+>", "", text))
        for font, text in re.findall(r'<text [^>]*font="(\d+)">(.*)</text>', xml)
    ]
    tasks = [
        (size, text) for size, text in used if re.search(r"[A-Z][a-z]+ \d+ [A-Z][a-z]{2} \d{4}|^[A-Z][a-z]+ the ", text)
    ]
    assert tasks
    assert [text for size, text in tasks if size < POINTS] == []


def read_pdf_xml(pdf: bytes, folder: Path) -> str:
    import shutil
    import subprocess

    command = shutil.which("pdftohtml")
    if command is None:
        pytest.skip("Poppler (pdftohtml) is not installed")
    (folder / "to-print.pdf").write_bytes(pdf)
    run = subprocess.run(
        [command, "-xml", "-i", "-stdout", "-q", str(folder / "to-print.pdf")],
        capture_output=True,
        check=True,
        timeout=60,
    )
    return run.stdout.decode()


def test_what_is_done_is_ticked_and_a_note_stands_below(
    make_shipment, tmp_path: Path, read_pdf: Callable[..., str]
) -> None:
    quote = make_shipment()
    items = checklist(quote, quote.options[0])
    first = replace(items[0], state="done", remark="=1+1 #told <b>by</b> *phone*")
    now = Present(items=(first, *items[1:]), moments=gates(quote, quote.options[0]), version=2, written_on=quote.as_of)
    write_checklist_workbook(quote, 0, tmp_path / "list.xlsx", present=now)
    text = read_pdf((tmp_path / "list-to-print.pdf").read_bytes(), "pdftotext", "-layout")
    assert text.count("✓") == 1
    assert "=1+1 #told <b>by</b> *phone*" in text
    assert "version 2" in text
