"""The texts of a description: the file itself and what it includes, looked through beforehand."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from edgewise.errors import EdgewiseError, Message, Place, TextError, raise_all

LARGEST: Final = 1_000_000
"""Characters of a description with all that it includes, at most."""
MOST_INCLUDED: Final = 32
"""Files that it may include."""
VHDL: Final = (".vhd", ".vhdl")
"""How VHDL files end."""
SUFFIXES: Final = (".sv", ".v", *VHDL)
"""How hardware descriptions end."""
_TOKENS: Final = re.compile(
    r"//[^\n]*|/\*.*?\*/|(?P<include>`include\b)[ \t]*(?P<what>\"[^\"\n]*\"|[^\n]*)"
    r"|\"(?:\\.|[^\"\\\n])*\""
    r"|(?P<reads>\$\w*``\w*|\$(?:readmem[bh]|sreadmem[bh]|value\$plusargs|test\$plusargs|system"
    r"|f(?:open|close|(?:display|write|strobe|monitor)[bho]?|read|gets|getc|scanf|seek|eof|error"
    r"|flush|tell))\b)"
    r"|(?P<bare>\binclude\b)",
    re.DOTALL,
)
_VHDL_TOKENS: Final = re.compile(
    r"--[^\n]*|\"[^\"\n]*\"|(?P<reads>\bfile\s+\w+\s*:|\btextio\b|\bforeign\b)",
    re.IGNORECASE,
)
_PLAIN: Final = re.compile(r"\"([A-Za-z0-9_][\w.-]*)\"")


@dataclass(frozen=True, slots=True)
class Sources:
    """A description as it is read.

    Parameters
    ----------
    file : str
        The main one, for places.
    texts : mapping of str to str
        Each text by the name of its file, the main one first.
    """

    file: str
    texts: Mapping[str, str]

    @property
    def vhdl(self) -> bool:
        """Whether it is VHDL."""
        return self.file.lower().endswith(VHDL)

    def place(self, name: str, line: int, column: int = 0) -> Place:
        """A place in one of its texts."""
        if name == Path(self.file).name:
            return Place(self.file, line, column)
        return Place(str(Path(self.file).with_name(name)), line, column)


def gather(text: str, file: str) -> Sources:
    """A description with all that it includes; what reads other files is refused.

    Raises
    ------
    TextError or Problems

    Examples
    --------
    >>> list(gather("module rain(); endmodule", "rain.sv").texts)
    ['rain.sv']
    """
    texts: dict[str, str] = {}
    waiting = [(Path(file).name, text)]
    errors: list[EdgewiseError] = []
    sources = Sources(file, texts)
    while waiting:
        name, found = waiting.pop()
        texts[name] = found
        if sum(map(len, texts.values())) > LARGEST or len(texts) > MOST_INCLUDED:
            raise TextError(
                Message("sources-large", most=LARGEST, files=MOST_INCLUDED), Place(file)
            )
        for one in _includes(sources, name, found, errors):
            if one not in texts and one not in [other for other, _ in waiting]:
                path = Path(file).with_name(one)
                waiting.append((one, _included(path)))
    raise_all(errors)
    return sources


def _included(path: Path) -> str:
    """The text of a file that is included."""
    try:
        if path.stat().st_size > 4 * LARGEST:
            raise TextError(Message("file-large", most=LARGEST), Place(str(path)))
        return path.read_text("utf-8-sig")
    except UnicodeDecodeError as wrong:
        told = Message("file-no-utf8", start=wrong.start)
        raise TextError(told, Place(str(path))) from None
    except OSError as wrong:
        raise TextError(
            Message("unreadable-here", why=wrong.strerror or str(wrong)), Place(str(path))
        ) from None


def _includes(sources: Sources, name: str, text: str, errors: list[EdgewiseError]) -> Iterator[str]:
    """The files that a text includes, which lie beside it; all else is an error."""
    for found in (_VHDL_TOKENS if sources.vhdl else _TOKENS).finditer(text):
        groups = found.groupdict()
        place = sources.place(name, text.count("\n", 0, found.start()) + 1)
        if groups.get("reads"):
            told = " ".join(found["reads"].split()).removesuffix(":").strip()
            errors.append(TextError(Message("description-reads", told=told), place))
        elif groups.get("bare"):
            errors.append(TextError(Message("include-bare"), place))
        elif groups.get("include"):
            plain = _PLAIN.fullmatch(found["what"].strip())
            if plain is None:
                errors.append(
                    TextError(Message("include-elsewhere", name=found["what"][:80]), place)
                )
            elif (path := Path(sources.file).with_name(plain[1])).is_symlink():
                errors.append(TextError(Message("file-is-link", name=plain[1]), place))
            elif not path.is_file():
                errors.append(TextError(Message("file-beside-unknown", name=plain[1]), place))
            else:
                yield plain[1]
