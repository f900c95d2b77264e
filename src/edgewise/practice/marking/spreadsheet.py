"""Tables of text and numbers written as XLSX or CSV; no text in them is ever run as a formula."""

from __future__ import annotations

import csv
import hashlib
import io
import zipfile
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from fractions import Fraction
from pathlib import Path
from typing import Any, Final, TypeAlias

from edgewise import files
from edgewise.errors import EdgewiseError, Message, Place
from edgewise.practice.formula_guard import NUMBER, guarded
from edgewise.views.drawing import theme

Value: TypeAlias = str | int | Fraction
"""What stands in a cell."""
_FIXED: Final = datetime(2000, 1, 1, tzinfo=UTC)
"""Written as the time of making, so that the same marks give the same bytes."""
_PROPERTIES: Final = "docProps/custom.xml"
"""Where ISO/IEC 29500 keeps a workbook's custom properties."""
_UNSIGNED: Final = "unsigned"
_WIDEST: Final = 40
_LONGEST_NAME: Final = 31
"""Characters in the name of a sheet, at most."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet: its name, headings and rows.

    Parameters
    ----------
    name : str
    headings : tuple of str
    rows : tuple of tuple of Value
    typed : frozenset of str
        Headings under which a marker types.
    """

    name: str
    headings: tuple[str, ...]
    rows: tuple[tuple[Value, ...], ...]
    typed: frozenset[str] = frozenset()


def written(number: Fraction) -> str:
    """A number of marks to two places, as it is printed.

    Examples
    --------
    >>> written(Fraction(7, 2)), written(Fraction(2, 3)), written(Fraction(4))
    ('3.5', '0.67', '4')
    """
    return f"{float(number):.2f}".rstrip("0").rstrip(".")


def valued(text: str) -> Value:
    """A text as a number where it is one as spreadsheets write them; ``007`` is none.

    Examples
    --------
    >>> valued("3.5"), valued("007"), valued("=A1")
    (Fraction(7, 2), '007', '=A1')
    """
    return Fraction(text) if NUMBER.fullmatch(text) else text


def content(sheets: Sequence[Sheet], suffix: str) -> bytes:
    """The sheets as a file; CSV holds the first alone."""
    # Spreadsheets read UTF-8 only where the mark of byte order says so.
    return plain(sheets[0], "utf-8-sig") if suffix == ".csv" else _xlsx(sheets)


def plain(sheet: Sheet, encoding: str = "utf-8") -> bytes:
    r"""A sheet as comma-separated values (RFC 4180), without a mark of byte order unless wanted.

    Examples
    --------
    >>> plain(Sheet("marks", ("learner", "q1"), (("Tide, Ada", 3), ("=1+1", Fraction(7, 2)))))
    b'learner,q1\r\n"Tide, Ada",3\r\n\'=1+1,3.5\r\n'
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([guarded(heading) for heading in sheet.headings])
    for row in sheet.rows:
        writer.writerow([guarded(v) if isinstance(v, str) else written(Fraction(v)) for v in row])
    return out.getvalue().encode(encoding)


def _xlsx(sheets: Sequence[Sheet]) -> bytes:
    """A workbook that carries, as a property of its own, the digest of what its sheets show."""
    made = _made(sheets)
    out = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(made)) as parts,
        zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as signed,
    ):
        for part in parts.infolist():
            text = parts.read(part)
            if part.filename == _PROPERTIES:
                text = text.replace(_UNSIGNED.encode(), _digest(made).encode())
            signed.writestr(part, text)
    return out.getvalue()


def _made(sheets: Sequence[Sheet]) -> bytes:
    import xlsxwriter

    out = io.BytesIO()
    book = xlsxwriter.Workbook(
        out,
        {
            "in_memory": True,
            "strings_to_formulas": False,
            "strings_to_numbers": False,
            "strings_to_urls": False,
        },
    )
    book.set_properties({"created": _FIXED})
    book.set_custom_property("edgewise", _UNSIGNED)
    formats = {
        "bold": book.add_format({"bold": True, "text_wrap": True, "valign": "top"}),
        "typed": book.add_format({"bg_color": theme.PANEL}),
    }
    for sheet in sheets:
        _fill(book.add_worksheet(sheet.name[:_LONGEST_NAME]), sheet, formats)
    book.close()
    return out.getvalue()


def _fill(page: Any, sheet: Sheet, formats: dict[str, Any]) -> None:
    for column, heading in enumerate(sheet.headings):
        page.write_string(0, column, heading, formats["bold"])
        texts = [row[column] for row in sheet.rows[:200]]
        longest = max([len(heading), *(len(t) if isinstance(t, str) else 6 for t in texts)])
        look = formats["typed"] if heading in sheet.typed else None
        page.set_column(column, column, min(longest, _WIDEST) + 2, look)
    page.freeze_panes(1, 1)
    for number, row in enumerate(sheet.rows, 1):
        for column, value in enumerate(row):
            if isinstance(value, str):
                if value:
                    page.write_string(number, column, value)
            else:
                page.write_number(number, column, round(float(value), 2))


def _digest(book: bytes) -> str:
    """Of all that a sheet shows."""
    total = hashlib.sha256()
    with zipfile.ZipFile(io.BytesIO(book)) as parts:
        for name in sorted(parts.namelist()):
            if not name.startswith("docProps/"):
                total.update(f"{name}:{parts.getinfo(name).CRC}\n".encode())
    return total.hexdigest()


def untouched(book: bytes) -> bool:
    """Whether a workbook is as it was made here: nobody has typed anything into it since."""
    try:
        with zipfile.ZipFile(io.BytesIO(book)) as parts:
            if parts.getinfo(_PROPERTIES).file_size > 10_000:
                return False
            told = parts.read(_PROPERTIES).decode("utf-8", "replace")
        return _digest(book) in told
    except (KeyError, ValueError, OSError, zipfile.BadZipFile, NotImplementedError):
        return False


def replace(path: Path, book: bytes) -> Path | None:
    """Write a file; one that is there and was typed into is kept under another name.

    Returns
    -------
    Path, optional
        Under which the old one is kept.

    Raises
    ------
    EdgewiseError
        It can't be written.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        kept = None
        if path.exists() and (old := path.read_bytes()) != book and not untouched(old):
            kept = _free(path)
            files.create(kept, old)
        files.write(path, book)
    except OSError as wrong:
        raise EdgewiseError(
            Message("unwritable", why=wrong.strerror or str(wrong)), Place(str(path))
        ) from None
    return kept


def _free(path: Path) -> Path:
    number = 1
    while (beside := path.with_name(f"{path.stem}-{number}{path.suffix}")).exists():
        number += 1
    return beside
