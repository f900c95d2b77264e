"""The shipped fonts: whole where they keep their makers' names, renamed where they are cut.

Sources: name and OS/2 tables as in the OpenType specification (ISO/IEC 14496-22); reserved names
as in the SIL Open Font License 1.1, condition 3, and the copyright lines of the two licences.
"""

from __future__ import annotations

import hashlib
from importlib.resources import files
from pathlib import Path
from typing import Final

import pytest
from fontTools.ttLib import TTFont

FONTS: Final = Path(str(files("edgewise") / "fonts"))
PAGE: Final = FONTS / "page"
PAGE_FONTS: Final = sorted(file.name for file in PAGE.glob("*.woff2"))
PAGE_BUDGET: Final = 110_000
ASKED: Final = "≥≤≠×·−…Σ∞∀→←↑↓"

# The makers' files, of the packages that src/edgewise/fonts/README.md names: family and weight,
# and the first digits of their SHA-256.
WHOLE: Final = {
    "SourceSans3-Regular.ttf": ("Source Sans 3", 400, "4644c81b86ec9caa"),
    "SourceSans3-Semibold.ttf": ("Source Sans 3", 600, "a3f4f8dcf343a8f2"),
    "SourceSans3-It.ttf": ("Source Sans 3", 400, "192afd78f0f54a3c"),
    "IBMPlexMono-Regular.ttf": ("IBM Plex Mono", 400, "6a3412f058c7d8df"),
    "IBMPlexMono-SemiBold.ttf": ("IBM Plex Mono", 600, "d3c38e55c78f5b0f"),
}


def family_of(font: TTFont) -> str:
    """Read the family name that a user sees: name 16 where there is one, else name 1."""
    return str(font["name"].getDebugName(16) or font["name"].getDebugName(1))


@pytest.mark.parametrize("file", WHOLE)
def test_a_font_with_its_makers_name_is_its_makers_file(file: str) -> None:
    family, weight, digest = WHOLE[file]
    font = TTFont(FONTS / file)
    assert (family_of(font), font["OS/2"].usWeightClass) == (family, weight)
    assert hashlib.sha256((FONTS / file).read_bytes()).hexdigest().startswith(digest)


@pytest.mark.parametrize("file", PAGE_FONTS)
def test_a_page_font_uses_no_reserved_name(file: str) -> None:
    font = TTFont(PAGE / file)
    shown = [str(record) for record in font["name"].names if record.nameID in {1, 3, 4, 6, 16}]
    assert shown
    assert not [name for name in shown if "Source" in name or "Plex" in name]
    assert family_of(font) == ("Edgewise Mono" if file.startswith("mono") else "Edgewise Sans")
    assert str(font["OS/2"].usWeightClass) in file


@pytest.mark.parametrize("file", PAGE_FONTS)
def test_a_page_font_names_copyright_and_licence(file: str) -> None:
    names = TTFont(PAGE / file)["name"]
    assert "Adobe" in names.getDebugName(0) or "IBM" in names.getDebugName(0)
    assert "SIL Open Font License" in names.getDebugName(13)


@pytest.mark.parametrize("file", [file for file in PAGE_FONTS if file.startswith("sans")])
def test_a_page_font_has_the_characters_of_a_lesson(file: str) -> None:
    drawn = TTFont(PAGE / file).getBestCmap()
    assert [character for character in ASKED if ord(character) not in drawn] == []


def test_page_fonts_keep_to_their_budget() -> None:
    assert 0 < sum((PAGE / file).stat().st_size for file in PAGE_FONTS) < PAGE_BUDGET


@pytest.mark.parametrize("licence", ["OFL-SourceSans3.txt", "OFL-IBMPlexMono.txt"])
def test_the_licence_is_beside_the_fonts(licence: str) -> None:
    text = (FONTS / licence).read_text(encoding="utf-8")
    assert "Reserved Font Name" in text
    assert "SIL OPEN FONT LICENSE Version 1.1" in text
