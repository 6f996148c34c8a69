"""`shipcalc setup` as somebody without a terminal uses it; what it writes is read back by the standard library's tomllib."""

import tomllib
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from shipcalc.actions.setup import ANSWERS, find_setup, save_setup, with_answer, with_yard
from shipcalc.cli import setup as face
from shipcalc.documents.logo import PIXELS, read_logo
from shipcalc.errors import WrongInput

WRITTEN = """# ours
paper = "a4"  # as printed

# who we are
[dealer]
name = "Heron & Vale Motors"    # the firm

# where vehicles stand
[yards]
Bellingham = "98225"
"""
DRAWN = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="40" height="20"><rect width="40" height="20" fill="#7A1F3D"/></svg>'
)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "shipcalc.toml").write_text(WRITTEN)
    return tmp_path


def table(folder: Path) -> dict[str, object]:
    return tomllib.loads((folder / "shipcalc.toml").read_text())


def test_answers_go_into_the_file_and_nothing_of_it_is_lost(folder: Path) -> None:
    face.setup(
        accent="#7a1f3d",
        currency="EUR",
        terms=["One.", "Two."],
        iban="GB82 WEST 1234 5698 7654 32",
        yard=["Duluth=55802"],
    )
    assert table(folder) == {
        "paper": "a4", "currency": "EUR",
        "dealer": {"name": "Heron & Vale Motors", "accent": "#7a1f3d", "terms": ["One.", "Two."]},
        "yards": {"Bellingham": "98225", "Duluth": "55802"},
        "bank": {"iban": "GB82 WEST 1234 5698 7654 32"},
    }  # fmt: skip
    text = (folder / "shipcalc.toml").read_text()
    assert all(line in text.splitlines() for line in WRITTEN.splitlines())
    assert "# where vehicles stand\n[yards]" in text  # a comment stays above what it belongs to


def test_the_same_answers_give_the_same_bytes_and_an_empty_one_takes_a_setting_away(folder: Path) -> None:
    face.setup(phone="+1 360 555 0142")
    once = (folder / "shipcalc.toml").read_bytes()
    face.setup(phone="+1 360 555 0142")
    assert (folder / "shipcalc.toml").read_bytes() == once
    face.setup(phone="")
    assert (folder / "shipcalc.toml").read_text() == WRITTEN


def test_every_answer_can_be_given_where_there_is_no_file_yet(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "logo.svg").write_text(DRAWN)
    good = {"accent": "#7A1F3D", "logo": "logo.svg", "iban": "GB82WEST12345698765432", "bic": "WESTGB2L", "routing": "111000025",
            "currency": "EUR", "paper": "a4", "stock": "logo.svg", "rates": "."}  # fmt: skip
    made = find_setup(tmp_path)
    for answer in ANSWERS:
        made = with_answer(made, answer, good.get(answer.option, 'Quill & = "Tarn"'))
    save_setup(made)
    assert all(made.shown(answer) for answer in ANSWERS)
    assert find_setup(tmp_path) == made
    assert with_yard(made, "Duluth=55802").yards() == ("Duluth",)


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({"accent": "#ffcc00"}, "too pale to be read"),
        ({"iban": "GB83WEST12345698765432"}, "is not an IBAN"),
        ({"logo": "nowhere.png"}, "cannot be read"),
        ({"yard": ["Duluth"]}, "is not a yard"),
        ({"stock": "nowhere.xlsx"}, "is not there"),
        ({}, "nobody is there to be asked"),
    ],
)
def test_a_wrong_answer_is_told_and_the_file_stays(folder: Path, given: dict[str, object], told: str) -> None:
    with pytest.raises(WrongInput, match=told) as refused:
        face.setup(**given)  # type: ignore[arg-type]
    assert refused.value.exit_status == 2
    assert (folder / "shipcalc.toml").read_text() == WRITTEN


def test_questions_offer_what_is_set_and_ask_again_after_a_wrong_answer(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    answers = {
        "Colour of names and titles, as #1B4B52": iter(["teal", "#7A1F3D"]),
        "Telephone": iter(["+1 360 555 0142"]),
    }
    heard: list[str] = []

    def answer(question: str) -> str:
        heard.append(question.removesuffix(": "))
        return next(answers.get(heard[-1], iter([""])))

    monkeypatch.setattr(face, "somebody_is_there", lambda: True)
    monkeypatch.setattr("builtins.input", answer)
    face.setup()
    assert table(folder)["dealer"] == {"name": "Heron & Vale Motors", "phone": "+1 360 555 0142", "accent": "#7A1F3D"}
    assert "Name of the firm, as papers show it (Enter: Heron & Vale Motors)" in heard
    assert not any(question.startswith("Paper") for question in heard)  # it is set already


def picture(kind: str, size: tuple[int, int]) -> bytes:
    file = BytesIO()
    Image.new("RGB", size, "#7A1F3D").save(file, kind)
    return file.getvalue()


@pytest.mark.parametrize(("name", "kind"), [("logo.png", "PNG"), ("logo.jpg", "JPEG")])
def test_a_logo_becomes_a_small_png(tmp_path: Path, name: str, kind: str) -> None:
    (tmp_path / name).write_bytes(picture(kind, (3000, 900)))
    made = read_logo(tmp_path / name)
    assert isinstance(made, bytes)
    with Image.open(BytesIO(made)) as shown:
        assert shown.format == "PNG"
        assert shown.size[0] <= PIXELS[0]
        assert shown.size[1] <= PIXELS[1]


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("logo.png", b"no picture"),
        ("logo.png", b""),
        ("logo.svg", b"<html/>"),
        ("logo.svg", b'<!DOCTYPE svg [<!ENTITY a "b">]><svg xmlns="http://www.w3.org/2000/svg">&a;</svg>'),
        ("logo.svg", b'<svg xmlns="http://www.w3.org/2000/svg"><image href="file:///etc/passwd"/></svg>'),
    ],
)
def test_what_is_no_logo_is_told(tmp_path: Path, name: str, content: bytes) -> None:
    (tmp_path / name).write_bytes(content)
    with pytest.raises(WrongInput, match="save it again as PNG, JPEG or SVG"):
        read_logo(tmp_path / name)
