"""Picture formats: whether a file is whole, and what its suffix says it is.

Nothing is decoded here; what a file says of itself (its lengths, its check sums, its end) is
held against what is there. That finds the pictures of which a browser shows only a broken sign.
"""

from __future__ import annotations

import zlib
from collections.abc import Callable
from typing import Final

from edgewise.errors import Message

_PNG: Final = b"\x89PNG\r\n\x1a\n"


def flaw(suffix: str, content: bytes) -> Message | None:
    """What is wrong with a picture; empty for one that is whole.

    Parameters
    ----------
    suffix : str
        ``.png`` and so on, in small letters.
    content : bytes

    Examples
    --------
    >>> print(flaw(".gif", b"GIF89a"))
    the file stops in the middle
    """
    return _FLAWS[suffix](content)


def _png(content: bytes) -> Message | None:
    """ISO/IEC 15948 (PNG), sec. 5: a signature, then chunks with a check sum each, IEND last."""
    if not content.startswith(_PNG):
        return Message("picture-not", kind="PNG")
    at = len(_PNG)
    while at + 12 <= len(content):
        length = int.from_bytes(content[at : at + 4], "big")
        body, end = content[at + 4 : at + 8 + length], at + 12 + length
        if end > len(content):
            break
        if zlib.crc32(body) != int.from_bytes(content[end - 4 : end], "big"):
            return Message("picture-sum")
        if body.startswith(b"IEND"):
            return None
        at = end
    return Message("picture-cut")


def _jpeg(content: bytes) -> Message | None:
    """ITU-T T.81, annex B: from the marker SOI to the marker EOI."""
    if not content.startswith(b"\xff\xd8\xff"):
        return Message("picture-not", kind="JPEG")
    return None if b"\xff\xd9" in content[-4096:] else Message("picture-cut")


def _gif(content: bytes) -> Message | None:
    """GIF89a, sec. 17 to 27: a header, a screen, then blocks up to the trailer."""
    if not content.startswith((b"GIF87a", b"GIF89a")):
        return Message("picture-not", kind="GIF")
    at = 13 + _colours(content[10:11])
    while at < len(content):
        kind = content[at]
        if kind == _TRAILER:
            return None
        if kind == _IMAGE:
            at += 11 + _colours(content[at + 9 : at + 10])
        elif kind == _EXTENSION:
            at += 2
        else:
            return Message("picture-block")
        while at < len(content) and content[at]:  # sub-blocks, each with its length
            at += 1 + content[at]
        at += 1
    return Message("picture-cut")


_TRAILER: Final = 0x3B
_IMAGE: Final = 0x2C
_EXTENSION: Final = 0x21


def _colours(flags: bytes) -> int:
    """Bytes of the table of colours behind these flags."""
    return 3 << ((flags[0] & 7) + 1) if flags and flags[0] & 0x80 else 0


def _webp(content: bytes) -> Message | None:
    """RFC 9649, sec. 2.4: a RIFF header with the length of the file."""
    if content[:4] != b"RIFF" or content[8:12] != b"WEBP":
        return Message("picture-not", kind="WebP")
    length = int.from_bytes(content[4:8], "little") + 8
    return None if length <= len(content) else Message("picture-cut")


def _svg(content: bytes) -> Message | None:
    """SVG 2, sec. 5.1: an XML document whose root is svg; entities of its own are refused."""
    from xml.etree import ElementTree as ET

    if b"<!ENTITY" in content:
        return Message("picture-entities")
    try:
        root = ET.fromstring(content)  # noqa: S314  # no entities: see above
    except ET.ParseError as wrong:
        line, column = wrong.position
        return Message("picture-no-xml", line=line, column=column + 1)
    except (LookupError, ValueError):  # of an encoding that nobody knows
        return Message("picture-encoding")
    return (
        None
        if root.tag == "{http://www.w3.org/2000/svg}svg"
        else Message("picture-not", kind="SVG")
    )


_FLAWS: Final[dict[str, Callable[[bytes], Message | None]]] = {
    ".gif": _gif,
    ".jpeg": _jpeg,
    ".jpg": _jpeg,
    ".png": _png,
    ".svg": _svg,
    ".webp": _webp,
}
