"""Make the fonts that edgewise ships, from the packages in which their makers publish them.

Two sets, both written to ``src/edgewise/fonts``:

- figure fonts: the makers' static TTF files, byte for byte, for figures and PDF;
- page fonts: WOFF2 subsets for pages, under names of our own, because the Open Font License
  reserves the names "Source" and "Plex" for unmodified files.

The same sources give the same bytes: time stamps are kept as the makers set them. Run it with
``make fonts``; it needs ``npm`` for the package ``source-sans`` and the development packages
``fontpkg-ibm-plex-mono`` and ``brotli``.
"""

from __future__ import annotations

import hashlib
import shutil
import subprocess
import sys
import tarfile
from dataclasses import dataclass
from importlib.resources import as_file, files
from pathlib import Path
from typing import Final

from fontTools.subset import Options, Subsetter, save_font
from fontTools.ttLib import TTFont

ROOT: Final = Path(__file__).parents[1]
TARGET: Final = ROOT / "src" / "edgewise" / "fonts"
DOWNLOADS: Final = ROOT / "build" / "fonts"

SANS_PACKAGE: Final = "source-sans@3.52.0"
SANS_ARCHIVE: Final = "source-sans-3.52.0.tgz"
SANS_SHA256: Final = "49cf78ddd79b436591ee696785222b54ff28102922e3d3df297fe382d7fdfa88"
MONO_PACKAGE: Final = "fontpkg_ibm_plex_mono"

PAGE_BUDGET: Final = 110_000  # bytes, all page fonts together

# What a page may say: (first, last) of each range, as far as the font has it.
PAGE_CHARACTERS: Final = (
    (0x0020, 0x007E),  # ASCII
    (0x00A0, 0x00FF),  # Latin-1
    (0x0100, 0x017F),  # Latin Extended-A
    (0x0386, 0x03CE),  # Greek
    (0x2010, 0x2027),  # dashes, quotation marks, ellipsis
    (0x2030, 0x203A),  # per mille, primes, angle quotation marks
    (0x2070, 0x209C),  # superscripts and subscripts
    (0x20AC, 0x20AC),  # euro
    (0x2126, 0x2126),  # ohm
    (0x2190, 0x2199),  # arrows
    (0x21D0, 0x21D5),  # double arrows
    (0x2200, 0x22FF),  # mathematical operators
    (0x2308, 0x230B),  # ceiling and floor
    (0x2500, 0x257F),  # box drawing
    (0x25A0, 0x25FF),  # geometric shapes
    (0x2713, 0x2713),  # check mark
    (0x2717, 0x2717),  # cross
)
PAGE_FEATURES: Final = ["kern", "liga", "mark", "ccmp", "locl", "tnum", "lnum", "zero", "sups"]


@dataclass(frozen=True, slots=True)
class Face:
    """One static font file of a maker and what we call its page subset."""

    file: str
    family: str
    weight: int
    page_family: str
    page_file: str


SANS: Final = (
    Face("SourceSans3-Regular.ttf", "Source Sans 3", 400, "Edgewise Sans", "sans-400.woff2"),
    Face("SourceSans3-Semibold.ttf", "Source Sans 3", 600, "Edgewise Sans", "sans-600.woff2"),
    Face("SourceSans3-It.ttf", "Source Sans 3", 400, "Edgewise Sans", "sans-400-italic.woff2"),
)
MONO: Final = (
    Face("IBMPlexMono-Regular.ttf", "IBM Plex Mono", 400, "Edgewise Mono", "mono-400.woff2"),
    Face("IBMPlexMono-SemiBold.ttf", "IBM Plex Mono", 600, "Edgewise Mono", "mono-600.woff2"),
)


def fetch_sans() -> Path:
    """Fetch and unpack the makers' package of Source Sans 3, checked by its hash."""
    DOWNLOADS.mkdir(parents=True, exist_ok=True)
    archive = DOWNLOADS / SANS_ARCHIVE
    if not archive.exists():
        npm = shutil.which("npm")
        if npm is None:
            sys.exit("make fonts needs npm: apt-get install npm")
        subprocess.run([npm, "pack", "--silent", SANS_PACKAGE], cwd=DOWNLOADS, check=True)
    found = hashlib.sha256(archive.read_bytes()).hexdigest()
    if found != SANS_SHA256:
        sys.exit(f"{archive}: sha256 is {found}, expected {SANS_SHA256}")
    with tarfile.open(archive) as package:
        package.extractall(DOWNLOADS, filter="data")
    return DOWNLOADS / "package"


def check(font: TTFont, face: Face) -> None:
    """Stop unless the name table and the weight class say what the face claims."""
    names = font["name"]
    family = names.getDebugName(16) or names.getDebugName(1)
    weight = font["OS/2"].usWeightClass
    if (family, weight) != (face.family, face.weight):
        sys.exit(f"{face.file}: is {family} {weight}, expected {face.family} {face.weight}")


def rename(font: TTFont, face: Face) -> None:
    """Give a modified font our own name, as the Open Font License asks."""
    names = font["name"]
    style = {400: "Regular", 600: "SemiBold"}[face.weight]
    if "italic" in face.page_file:
        style = "Italic"
    version = names.getDebugName(5)
    postscript = f"{face.page_family.replace(' ', '')}-{style}"
    linked = style in {"Regular", "Italic"}
    ours = {
        1: face.page_family if linked else f"{face.page_family} {style}",
        2: style if linked else "Regular",
        3: f"edgewise;{postscript}",
        4: f"{face.page_family} {style}",
        6: postscript,
        10: f"A subset of {face.family} {version} for web pages, renamed",
        16: face.page_family,
        17: style,
    }
    names.names = [record for record in names.names if record.nameID in {0, 5, 13, 14}]
    for number, text in ours.items():
        names.setName(text, number, 3, 1, 0x409)
    names.names.sort()


def characters() -> set[int]:
    """List the code points of the page subset."""
    return {code for first, last in PAGE_CHARACTERS for code in range(first, last + 1)}


def write_page_font(source: Path, face: Face) -> int:
    """Subset one font for pages and return the size of its file in bytes."""
    options = Options()
    options.flavor = "woff2"
    options.layout_features = PAGE_FEATURES
    options.name_IDs = ["*"]
    options.hinting = False
    options.recalc_timestamp = False
    options.drop_tables += ["DSIG", "meta", "VDMX", "BASE"]
    font = TTFont(source, recalcTimestamp=False)
    check(font, face)
    rename(font, face)
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=characters())
    subsetter.subset(font)
    target = TARGET / "page" / face.page_file
    save_font(font, target, options)
    return target.stat().st_size


def main() -> None:
    """Write both sets of fonts and the licences, and print what they weigh."""
    (TARGET / "page").mkdir(parents=True, exist_ok=True)
    sans = fetch_sans()
    shutil.copyfile(sans / "LICENSE.md", TARGET / "OFL-SourceSans3.txt")
    total = 0
    with as_file(files(MONO_PACKAGE)) as mono:
        shutil.copyfile(mono / "LICENSE", TARGET / "OFL-IBMPlexMono.txt")
        folders = ((sans / "TTF", SANS), (mono / "files", MONO))
        for folder, face in ((folder, face) for folder, faces in folders for face in faces):
            source = folder / face.file
            shutil.copyfile(source, TARGET / face.file)
            size = write_page_font(source, face)
            total += size
            print(f"{face.file:26} {source.stat().st_size:7}   page/{face.page_file:22} {size:6}")
    print(f"page fonts together: {total} bytes of {PAGE_BUDGET}")
    if total > PAGE_BUDGET:
        sys.exit("the page fonts are over their budget")


if __name__ == "__main__":
    main()
