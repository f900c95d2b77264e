"""Spreadsheet files that are damaged or hostile: read, or refused with one clear error.

Kinds of damage after the OWASP Web Security Testing Guide, 4.7.11 and 4.10.9 (from memory):
malformed files, archives that are larger than they look, entities of XML.
"""

from __future__ import annotations

import io
import random
import zipfile
from pathlib import Path

import pytest
import xlsxwriter

from edgewise.errors import EdgewiseError
from edgewise.practice.marking import table

CASES = 12
REFUSED = (
    ": can't be read as a spreadsheet: it is damaged, locked by a password, or too large; open"
    " it, and save it again as XLSX, ODS or CSV"
)


def workbook() -> bytes:
    out = io.BytesIO()
    book = xlsxwriter.Workbook(out)
    sheet = book.add_worksheet()
    for row in range(12):
        sheet.write_row(row, 0, ["Zo\u00eb", "K7", row, 0.5, "0101", True])
    book.close()
    return out.getvalue()


def parts(book: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(book)) as found:
        return {name: found.read(name) for name in found.namelist()}


def zipped(content: dict[str, bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as made:
        for name, text in content.items():
            made.writestr(name, text)
    return out.getvalue()


def mangled(seed: int) -> bytes:
    """Bits turned or cut off, in the archive or in the texts inside."""
    chance, book = random.Random(seed), bytearray(workbook())  # noqa: S311  # cases, no secrets
    if seed % 3 == 0:
        for _ in range(chance.randrange(1, 40)):
            book[chance.randrange(len(book))] ^= 1 << chance.randrange(8)
        return bytes(book)
    if seed % 3 == 1:
        return bytes(book[: chance.randrange(len(book))])
    content = parts(bytes(book))
    name = chance.choice(sorted(content))
    text = bytearray(content[name])
    for _ in range(chance.randrange(1, 20)):
        at = chance.randrange(len(text))
        text[at : at + chance.randrange(9)] = chance.choice(
            (b"", b"<", b"&#0;", b"&x;", b'r="ZZZ999999"', b"9" * 30, b"\xff", b"</row>")
        )
    return zipped(content | {name: bytes(text)})


def answered(content: bytes, folder: Path) -> bool:
    """Whether it was read; False where it was refused as it should be."""
    file = folder / "answers.xlsx"
    file.write_bytes(content)
    try:
        table.read(file)
    except EdgewiseError as wrong:
        said = str(wrong)
    else:
        return True
    known = (REFUSED, ": is empty; expected a row of headings and a row for each learner")
    assert said.endswith(known) or "the limit is" in said, said
    return False


@pytest.mark.slow
@pytest.mark.parametrize("first", range(0, 4 * CASES, CASES))
def test_mangled_workbooks(tmp_path: Path, first: int) -> None:
    for seed in range(first, first + CASES):
        answered(mangled(seed), tmp_path)


def test_entities_that_multiply(tmp_path: Path) -> None:
    """A billion of letters from a few hundred."""
    entities = "".join(
        f'<!ENTITY e{i} "{f"&e{i - 1};" * 10 if i else "x" * 10}">' for i in range(9)
    )
    content = parts(workbook())
    name = "xl/sharedStrings.xml"
    text = content[name].decode().replace("?>", f"?><!DOCTYPE sst [{entities}]>", 1)
    content[name] = text.replace("Zo\u00eb", "&e8;").encode()
    answered(zipped(content), tmp_path)


@pytest.mark.slow
def test_an_archive_larger_than_it_looks(tmp_path: Path) -> None:
    """A text of 2.3 GB in an archive of 10 MB."""
    file = tmp_path / "large.zip"
    content = parts(workbook())
    begun, _, ended = content.pop("xl/sharedStrings.xml").partition("Zo\u00eb".encode())
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as made:
        for name, text in content.items():
            made.writestr(name, text)
        with made.open("xl/sharedStrings.xml", "w", force_zip64=True) as part:
            part.write(begun)
            for _ in range(2300):
                part.write(b"A" * 1_000_000)
            part.write(ended)
    assert not answered(file.read_bytes(), tmp_path)
