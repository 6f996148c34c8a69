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

# The IBAN is the example of the United Kingdom in the registry of ISO 13616 (from memory); its bank is an example too.
PAPERS = """
[dealer]
name = "Heron & Vale Motors"
signatory = "Ada Quill, manager"
logo = "art/logo.svg"
accent = "#5b2a4c"
terms = '''
We hold the vehicle for ten days.

A deposit is not   paid back.
'''

[bank]
holder = "Heron & Vale Motors"
bank = "Bank of Nowhere"
iban = "gb82 WEST 1234 5698 7654 32"
bic = "WESTGB2L"
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
        ('[dealer]\naccent = "teal"', 'dealer.accent: "teal" is not a colour — write it as #RRGGBB'),
        ('[dealer]\naccent = "#ffcc00"', "dealer.accent: #FFCC00 is too pale to be read: its contrast"),
        (
            '[dealer]\nlogo = "logo.gif"',
            "dealer.logo: logo.gif is no picture that papers can show — give a PNG, JPEG or SVG",
        ),
        ("[dealer]\nlogo = 3", "dealer.logo: 3 is not text"),
        ("[dealer]\nterms = 3", "dealer.terms: 3 is not text — write a text between double quotes, or a list of texts"),
        ('[bank]\nibann = "x"', "bank.ibann: is not a setting — did you mean iban?"),
        ('[bank]\niban = "GB82 WEST 1234 5698 7654 23"', 'bank.iban: "GB82 WEST 1234 5698 7654 23" is not an IBAN'),
        ('[bank]\nbic = "HERON"', 'bank.bic: "HERON" is not a BIC'),
        ('[bank]\nrouting = "111000026"', 'bank.routing: "111000026" is not a routing number'),
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


def test_what_papers_show_of_the_dealer_is_read_and_lines_of_terms_are_told_apart(tmp_path: Path) -> None:
    settings = read_settings(write(tmp_path, PAPERS))
    dealer = settings.dealer
    assert (dealer.signatory, dealer.logo, dealer.accent) == (
        "Ada Quill, manager",
        tmp_path / "art/logo.svg",
        "#5B2A4C",
    )
    assert dealer.terms == ("We hold the vehicle for ten days.", "A deposit is not paid back.")
    assert settings.bank.lines() == (
        "Heron & Vale Motors", "Bank of Nowhere", "IBAN GB82 WEST 1234 5698 7654 32", "BIC WESTGB2L",
    )  # fmt: skip


def test_terms_may_be_a_list_and_a_bank_without_an_account_says_nothing(tmp_path: Path) -> None:
    settings = read_settings(
        write(tmp_path, '[dealer]\nterms = ["One.", " ", "Two."]\n[bank]\nbank = "Bank of Nowhere"')
    )
    assert settings.dealer.terms == ("One.", "Two.")
    assert settings.bank.lines() == ()
