"""shipcalc.toml: what is found where, and what a wrong line is told."""

from pathlib import Path

import pytest

from shipcalc.errors import WrongInput
from shipcalc.settings import Settings, find_settings, read_settings

WHOLE = """
stock = "cars/stock.xlsx"
rates = "/srv/rates"
out = "quotes"
currency = "usd"
paper = "A4"

[dealer]
name = "Heron & Vale Motors"
phone = "+1 360 555 0142"

[yards]
Bellingham = "Bellingham, WA"
"Savannah dock" = "31401"
"""


def write(folder: Path, text: str) -> Path:
    file = folder / "shipcalc.toml"
    file.write_text(text, encoding="utf-8")
    return file


def refusal(folder: Path, text: str) -> str:
    with pytest.raises(WrongInput) as caught:
        read_settings(write(folder, text))
    return str(caught.value)


def test_every_setting_is_read_and_paths_start_from_the_folder_of_the_file(tmp_path: Path) -> None:
    settings = read_settings(write(tmp_path, WHOLE))
    assert settings.dealer.name == "Heron & Vale Motors"
    assert settings.dealer.phone == "+1 360 555 0142"
    assert settings.stock == tmp_path / "cars/stock.xlsx"
    assert settings.rates == Path("/srv/rates")
    assert settings.out == tmp_path / "quotes"
    assert (settings.currency, settings.paper) == ("USD", "a4")


def test_a_yard_is_found_without_regard_to_case(tmp_path: Path) -> None:
    settings = read_settings(write(tmp_path, WHOLE))
    assert settings.find_yard("savannah DOCK") == "31401"
    assert settings.find_yard("Bellingham ") == "Bellingham, WA"
    assert settings.find_yard("Duluth") is None


def test_the_working_folder_goes_before_the_users_own(tmp_path: Path) -> None:
    here, user = tmp_path / "here", tmp_path / "user"
    here.mkdir()
    user.mkdir()
    write(user, '[dealer]\nname = "Of the user"')
    assert find_settings(here, user_folder=user).dealer.name == "Of the user"
    write(here, '[dealer]\nname = "Of the folder"')
    assert find_settings(here, user_folder=user).dealer.name == "Of the folder"


def test_without_a_file_nothing_is_set(tmp_path: Path) -> None:
    assert find_settings(tmp_path, user_folder=tmp_path / "nowhere") == Settings()


def test_a_file_saved_by_a_windows_editor_is_read(tmp_path: Path) -> None:
    (tmp_path / "shipcalc.toml").write_bytes(b'\xef\xbb\xbfpaper = "a4"\r\n')
    assert read_settings(tmp_path / "shipcalc.toml").paper == "a4"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('stok = "x.xlsx"', "stok: is not a setting — did you mean stock?"),
        ('[dealer]\nnmae = "x"', "dealer.nmae: is not a setting — did you mean name?"),
        ('[dealer]\nstock = "x"', "dealer.stock: is not a setting — move it above the first line in square brackets"),
        ('[yards]\nrates = "x"', "yards.rates: is a setting and not a yard — move it above"),
        ('[yards]\nNorth = ""', 'yards.North: has no place — write North = "City, ST"'),
        ("[yards]\nNorth = 98225", "yards.North: 98225 is not text — put the value between double quotes"),
        ('yards = "Bellingham"', "yards: is a single value — begin a section with a line [yards]"),
        ('paper = "legal"', 'paper: "legal" is not a paper size shipcalc knows — write "letter" or "a4"'),
        ('currency = "dollars"', 'currency: "dollars" is not a currency code — write three letters'),
        ("currency = USD", "cannot be understood"),
        ('stock = "C:\\new\\x.xlsx"', "write / in paths"),
        ('qqqqq = "x"', "the settings are dealer, yards, stock, rates, out, currency, paper"),
    ],
)
def test_a_wrong_line_is_named_with_its_remedy(tmp_path: Path, text: str, told: str) -> None:
    sentence = refusal(tmp_path, text)
    assert sentence.startswith(str(tmp_path / "shipcalc.toml"))
    assert told in sentence
    assert "\n" not in sentence


def test_a_file_that_is_not_text_is_told(tmp_path: Path) -> None:
    (tmp_path / "shipcalc.toml").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(WrongInput, match="is not text in UTF-8"):
        read_settings(tmp_path / "shipcalc.toml")
