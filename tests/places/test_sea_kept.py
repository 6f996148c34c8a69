"""Sea distances that are kept: the same as searched, whatever has become of the files."""

import numpy as np
import pytest

from shipcalc.places.sea import kept as sea_kept
from shipcalc.places.sea.miles import load_network, sea_distance

HERE, THERE = (32.03, -81.0), ((53.57, 8.55), (21.47, 39.15))


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setattr(sea_kept, "_folder", lambda: tmp_path / "sea-miles")
    sea_kept.kept_sea_distances.cache_clear()
    yield tmp_path / "sea-miles"
    sea_kept.kept_sea_distances.cache_clear()


def ask():
    sea_kept.kept_sea_distances.cache_clear()
    return sea_kept.kept_sea_distances(HERE, THERE, ("suez",))


def test_what_is_kept_is_what_was_searched(folder) -> None:
    searched = ask()
    assert len(list(folder.glob("*.json"))) == 1
    kept = ask()
    assert kept.nmi.tolist() == searched.nmi.tolist()
    assert (kept.passages, kept.notes) == (searched.passages, searched.notes)
    for number, (latitude, longitude) in enumerate(THERE):
        route = sea_distance(
            load_network(), latitude_a=HERE[0], longitude_a=HERE[1], latitude_b=latitude, longitude_b=longitude,
            closed=("suez",),
        )  # fmt: skip
        assert route.nmi == kept.nmi[number]
        assert "suez" not in kept.passages[number]


@pytest.mark.parametrize(
    "content", [b"", b"{}", b'{"nmi": [1], "passages": [[]], "notes": [""]}', b"\xff", b'{"nmi": "far"}']
)
def test_a_spoilt_file_is_searched_anew(folder, content: bytes) -> None:
    searched = ask()
    (file,) = folder.glob("*.json")
    file.write_bytes(content)
    assert ask().nmi.tolist() == searched.nmi.tolist()
    assert file.read_bytes() != content


def test_where_nothing_can_be_kept_the_answer_is_the_same(folder, monkeypatch) -> None:
    searched = ask()
    blocked = folder.parent / "a file"
    blocked.write_text("no folder")
    monkeypatch.setattr(sea_kept, "_folder", lambda: blocked)
    assert np.array_equal(ask().nmi, searched.nmi)
