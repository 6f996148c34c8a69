"""Make `fonts/` from npm packages of open fonts (`npm pack` of each in `fonts/ORIGIN.md`, each unpacked under its name).

    python -m shipcalc.typeset.making.build_fonts FOLDER

Fonts of Latin, Cyrillic, Greek, Arabic, Hebrew and Thai are shipped as they are. Those of Japanese, Korean and Chinese are cut to
what the everyday character sets hold (needs fonttools, extra `fonts`). `characters.txt` lists what all of them together can show.
"""

import shutil
import sys
from collections.abc import Iterable
from pathlib import Path

from fontTools import subset
from fontTools.ttLib import TTFont

from shipcalc.typeset.characters import FILE, FONTS

WHOLE = {
    "source-sans-3": (
        "400Regular/SourceSans3_400Regular.ttf",
        "400Regular_Italic/SourceSans3_400Regular_Italic.ttf",
        "600SemiBold/SourceSans3_600SemiBold.ttf",
    ),
    "noto-sans-arabic": (
        "400Regular/NotoSansArabic_400Regular.ttf",
        "600SemiBold/NotoSansArabic_600SemiBold.ttf",
    ),
    "noto-sans-hebrew": ("400Regular/NotoSansHebrew_400Regular.ttf",),
    "noto-sans-thai": ("400Regular/NotoSansThai_400Regular.ttf",),
}
# In this order: a later font is cut to what no earlier one shows. Python's own codecs say what a character set holds.
CUT = (
    ("noto-sans-jp", "400Regular/NotoSansJP_400Regular.ttf", "cp932"),  # JIS X 0208 and the makers' extensions
    ("noto-sans-kr", "400Regular/NotoSansKR_400Regular.ttf", "euc_kr"),  # KS X 1001
    ("noto-sans-sc", "400Regular/NotoSansSC_400Regular.ttf", "gb2312"),  # GB/T 2312
)
_LICENCE = "LICENSE_FONT"
_ENDS_ASCII = 0x7F
_BYTES = 2


def main(packages: Path) -> None:
    """Write the fonts, their licences, and the list of characters."""
    for old in FONTS.glob("*.ttf"):  # what is shown already would be cut away
        old.unlink()
    for package, files in WHOLE.items():
        for file in files:
            shutil.copyfile(packages / package / file, FONTS / Path(file).name)
        shutil.copyfile(packages / package / _LICENCE, FONTS / f"OFL-{package}.txt")
    shown = _shown()
    for package, file, codec in CUT:
        wanted = {point for point in range(0x10000) if point > _ENDS_ASCII and _holds(codec, point)} - shown
        _cut(packages / package / file, FONTS / Path(file).name, wanted)
        shutil.copyfile(packages / package / _LICENCE, FONTS / f"OFL-{package}.txt")
        shown |= _points(FONTS / Path(file).name)
    FILE.write_text("".join(f"{first:X} {last:X}\n" for first, last in _runs(sorted(shown))))


def _holds(codec: str, point: int) -> bool:
    """Return whether a set holds a character itself: `euc_kr` spells syllables that it lacks in eight bytes."""
    try:
        return len(chr(point).encode(codec)) <= _BYTES
    except UnicodeEncodeError:
        return False


def _cut(source: Path, target: Path, points: Iterable[int]) -> None:
    """Write a font with these characters only; its times and names stay as they are."""
    options = subset.Options(recalc_timestamp=False, name_IDs=["*"], notdef_outline=True, layout_features=[])
    font = subset.load_font(str(source), options)
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=points)
    cutter.subset(font)
    subset.save_font(font, str(target), options)


def _shown() -> set[int]:
    return {point for file in sorted(FONTS.glob("*.ttf")) for point in _points(file)}


def _points(file: Path) -> set[int]:
    return set(TTFont(file).getBestCmap())


def _runs(points: list[int]) -> list[tuple[int, int]]:
    runs: list[tuple[int, int]] = []
    for point in points:
        if runs and point == runs[-1][1] + 1:
            runs[-1] = (runs[-1][0], point)
        else:
            runs.append((point, point))
    return runs


if __name__ == "__main__":
    main(Path(sys.argv[1]))
