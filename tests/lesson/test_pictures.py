"""Pictures beside a lesson: taken in whole, or told with lesson and line."""

from __future__ import annotations

import io
from pathlib import Path
from typing import Final

import pytest
from PIL import Image

from edgewise import lesson
from edgewise.errors import EdgewiseError
from edgewise.lesson.picture_formats import flaw

LESSON: Final = """\
---
title: Two tide gauges
design: serial-adder
with: {n: 4}
operands: {a: 9, b: 6}
---
The pier:

![the pier](NAME)
"""
FORMATS: Final = (("png", "PNG"), ("jpg", "JPEG"), ("gif", "GIF"), ("webp", "WEBP"))


def made(kind: str) -> bytes:
    """A picture as a general-purpose library writes it (Pillow)."""
    file = io.BytesIO()
    Image.radial_gradient("L").convert("RGB").resize((60, 40)).save(file, kind)
    return file.getvalue()


def told(folder: Path, name: str) -> str:
    """What the check of a lesson with this picture says at its line."""
    path = folder / "tide.md"
    path.write_text(LESSON.replace("NAME", name), "utf-8")
    with pytest.raises(EdgewiseError) as wrong:
        lesson.check(path)
    assert str(wrong.value.place) == f"{path}:9:1"
    return wrong.value.message


@pytest.mark.parametrize(("suffix", "kind"), FORMATS)
def test_a_whole_picture_has_no_flaw(suffix: str, kind: str) -> None:
    assert flaw(f".{suffix}", made(kind)) is None


@pytest.mark.parametrize(("suffix", "kind"), FORMATS)
def test_a_picture_cut_anywhere_is_told(tmp_path: Path, suffix: str, kind: str) -> None:
    whole = made(kind)
    for length in range(len(whole) - 4):
        assert flaw(f".{suffix}", whole[:length]), length
    (tmp_path / f"pier.{suffix}").write_bytes(whole[: len(whole) // 2])
    assert told(tmp_path, f"pier.{suffix}") == (
        f"the picture pier.{suffix} is damaged: the file stops in the middle; export it again, or"
        " replace it"
    )


def test_a_flipped_bit_in_a_png_is_told() -> None:
    whole = bytearray(made("PNG"))
    for at in range(8, len(whole), 7):
        whole[at] ^= 4
        assert flaw(".png", bytes(whole)), at
        whole[at] ^= 4
    assert flaw(".png", bytes(whole)) is None


@pytest.mark.parametrize(
    ("name", "content", "wrong"),
    [
        ("a.png", b"", "it is no PNG"),
        ("a.png", made("JPEG"), "it is no PNG"),
        ("a.jpeg", made("PNG"), "it is no JPEG"),
        ("a.gif", b"GIF88a;", "it is no GIF"),
        ("a.gif", b"GIF89a" + bytes(7) + b"!\xfe\0tide", "there is a block in it that no GIF has"),
        ("a.webp", b"RIFF1234WAVE", "it is no WebP"),
        ("a.svg", b"<html xmlns='http://www.w3.org/1999/xhtml'/>", "it is no SVG"),
        (
            "a.svg",
            b"<svg xmlns='http://www.w3.org/2000/svg'>",
            "it is no XML from its line 1, column 41 on",
        ),
        (
            "a.svg",
            b"<!DOCTYPE svg [<!ENTITY a 'aa'>]><svg xmlns='http://www.w3.org/2000/svg'>&a;</svg>",
            "it declares entities; save it as plain SVG",
        ),
    ],
)
def test_what_is_damaged_is_told(tmp_path: Path, name: str, content: bytes, wrong: str) -> None:
    (tmp_path / name).write_bytes(content)
    assert told(tmp_path, name) == (
        f"the picture {name} is damaged: {wrong}; export it again, or replace it"
    )


def test_names_that_the_system_refuses(tmp_path: Path) -> None:
    long = "p" * 300
    assert told(tmp_path, f"{long}.png") == (
        f"the picture {'p' * 80} can't be read: File name too long"
    )
    path = tmp_path / "tide.md"
    path.write_text(LESSON.replace("serial-adder", f"{long}.yaml"), "utf-8")
    with pytest.raises(EdgewiseError) as wrong:
        lesson.check(path)
    assert f"{path}:3:9: {'p' * 80} can't be read: File name too long" in str(wrong.value)
    path.write_text(LESSON.replace("serial-adder", '"a\\0b.yaml"'), "utf-8")
    with pytest.raises(EdgewiseError):
        lesson.check(path)


def test_a_picture_that_may_not_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "pier.png").write_bytes(made("PNG"))

    def refused(_: Path) -> bytes:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", refused)
    assert told(tmp_path, "pier.png") == "the picture pier.png can't be read: Permission denied"


def test_umlauts_in_names_are_told_which_letters_there_are(tmp_path: Path) -> None:
    path = tmp_path / "hut.yaml"
    path.write_text("circuit: Zähler\ninputs: {öffnen: 1}\noutputs: {b: öffnen}\n", "utf-8")
    from edgewise import blueprint

    with pytest.raises(EdgewiseError) as wrong:
        blueprint.from_file(path).design({})
    assert str(wrong.value.parts()[0]) == (
        f"{path}:2:10: can't read 'öffnen': 'ö' can't be part of a name: names are made of the"
        " letters a-z and A-Z, digits and _"
    )


@pytest.mark.parametrize(
    ("line", "message"),
    [
        (
            "![](pier.png)",
            "the picture pier.png has no description; write ![what it shows](pier.png)",
        ),
        (
            "![the pier](../pier.png)",
            "the picture ../pier.png is not a file beside the lesson; a page makes no request, so"
            " put the file into the lesson's folder and give its name only",
        ),
        (
            f"![the pier](https://{'p' * 5000})",
            f"the picture https://{'p' * 72} is not a file beside the lesson; a page makes no"
            " request, so put the file into the lesson's folder and give its name only",
        ),
        (
            f"![the pier]({'p' * 5000}.bmp)",
            f"{'p' * 80}: expected a picture: .gif, .jpeg, .jpg, .png, .svg, .webp",
        ),
        ("![the pier](big.png)", "big.png has 1,000,001 bytes; the limit is 1,000,000"),
        (
            "![it told `? a`](pier.png)",
            "the description of a picture can't have a computed value; put it into the text beside"
            " the picture",
        ),
    ],
)
def test_what_is_no_picture_beside_the_lesson(tmp_path: Path, line: str, message: str) -> None:
    (tmp_path / "pier.png").write_bytes(made("PNG"))
    (tmp_path / "big.png").write_bytes(bytes(1_000_001))
    place = "9" if "`" in line else "9:1"
    with pytest.raises(EdgewiseError) as wrong:
        lesson.check_text(LESSON.replace("![the pier](NAME)", line), "tide.md", tmp_path)
    assert str(wrong.value) == f"tide.md:{place}: {message}"


def test_a_title_without_end(tmp_path: Path) -> None:
    text = LESSON.replace("Two tide gauges", "tide " * 61).replace("![the pier](NAME)", "")
    with pytest.raises(EdgewiseError) as wrong:
        lesson.check_text(text, "tide.md", tmp_path)
    assert str(wrong.value) == "tide.md:2:8: the title is longer than 300 characters"
