"""Photographs of the stock list on the offer: upright, small, without what a camera adds, and never from elsewhere."""

from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from shipcalc.documents.buyer.pdf import quote_pdf
from shipcalc.documents.photographs import PIXELS, photograph, without_photograph
from shipcalc.quote.model import Quote
from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle

VEHICLE = Vehicle(stock_number="HV-1", photo="pictures/HV-1.jpg")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder with one photograph, taken with the camera on its side, with the place where it was taken."""
    picture = Image.new("RGB", (1600, 1200), "#1B4B52")
    exif = picture.getexif()
    exif[0x0112] = 6  # turned by a quarter: EXIF 2.32 (CIPA DC-008-2019), 4.6.4 A, Orientation
    exif.get_ifd(0x8825).update({1: "N", 2: (48.0, 45.0, 36.0)})
    (tmp_path / "stock" / "pictures").mkdir(parents=True)
    picture.save(tmp_path / "stock" / "pictures" / "HV-1.jpg", exif=exif)
    picture.save(tmp_path / "elsewhere.jpg")
    (tmp_path / "stock" / "broken.jpg").write_bytes(b"no picture")
    return tmp_path / "stock"


def test_a_photograph_is_upright_small_and_says_nothing_of_where_it_was_taken(folder: Path) -> None:
    content = photograph(VEHICLE, folder)
    assert content is not None
    with Image.open(BytesIO(content)) as made:
        assert made.format == "JPEG"
        assert made.width < made.height <= PIXELS[1]
        assert dict(made.getexif()) == {}
    assert content == photograph(VEHICLE, folder)
    assert without_photograph(VEHICLE, folder) == ""


@pytest.mark.parametrize("name", ["../elsewhere.jpg", "missing.jpg", "broken.jpg", "pictures"])
def test_what_is_no_picture_or_lies_elsewhere_is_told_and_stops_nothing(name: str, folder: Path) -> None:
    vehicle = replace(VEHICLE, photo=name)
    assert photograph(vehicle, folder) is None
    assert without_photograph(vehicle, folder).startswith(f"HV-1: no picture could be read from {name}")


def test_an_absolute_path_finds_nothing_outside_the_folder(folder: Path) -> None:
    assert photograph(replace(VEHICLE, photo=str(folder.parent / "elsewhere.jpg")), folder) is None


def test_the_offer_shows_the_photograph_and_says_what_it_is(
    two_choices: Quote, folder: Path, read_pdf: Callable[..., str]
) -> None:
    vehicle = replace(two_choices.vehicles[0], photo="pictures/HV-1.jpg")
    quote = replace(two_choices, vehicles=(vehicle,))
    pdf = quote_pdf(quote, photos=folder)
    assert "jpeg" in read_pdf(pdf, "pdfimages", "-list")
    assert f"/Alt ({vehicle.name})".encode() in pdf or vehicle.name in read_pdf(pdf, "pdfinfo", "-struct-text")
    assert "jpeg" not in read_pdf(quote_pdf(quote), "pdfimages", "-list")
