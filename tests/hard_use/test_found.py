"""What hypothesis and the fuzzer found, each as a test of its own with its day."""

import io
import zipfile

import pytest

from shipcalc.actions.sources import invented_folder
from shipcalc.errors import WrongInput
from shipcalc.sheets.reading import workbook_of

DEMO = invented_folder("demo") / "stock.xlsx"


def zipped(**parts: bytes) -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    return file.getvalue()


def test_28_november_2026_a_part_without_a_name_is_damage() -> None:
    """The fuzzer, within a second: the standard library asks for the last letter of the name."""
    whole = bytearray(zipped(x=b""))
    entry = whole.rindex(b"PK\x01\x02")  # APPNOTE 4.3.12: 28 bytes on stands the length of the name, 46 on the name
    assert whole[entry + 46 : entry + 47] == b"x"
    whole[entry + 28] = 0
    del whole[entry + 46]
    end = whole.rindex(b"PK\x05\x06")  # 4.3.16: 12 bytes on stands how long the list of parts is
    whole[end + 12] -= 1
    with pytest.raises(WrongInput, match="is not a workbook that can be opened"):
        workbook_of("a.xlsx", bytes(whole))


@pytest.mark.parametrize("how", [zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA])
def test_28_november_2026_a_part_packed_in_a_way_that_no_workbook_has_is_damage(how: int) -> None:
    file = io.BytesIO()
    with zipfile.ZipFile(DEMO) as whole, zipfile.ZipFile(file, "w", how) as archive:
        for name in whole.namelist():
            archive.writestr(name, whole.read(name))
    with pytest.raises(WrongInput, match="is not a workbook that can be opened"):
        workbook_of("a.xlsx", file.getvalue())


def test_28_november_2026_what_somebody_typed_in_lines_is_told_in_one() -> None:
    """Hypothesis: a price in hand with a line break in it."""
    assert (
        str(WrongInput('"0\n0" is no sum', where="--spot\r\n", remedy="a\u2028b")) == '--spot : "0 0" is no sum — a b'
    )
