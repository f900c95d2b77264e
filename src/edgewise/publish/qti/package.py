"""Packages: items, their pictures and a manifest in one zip (1EdTech Content Packaging)."""

from __future__ import annotations

import io
import zipfile
import zlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final
from xml.etree import ElementTree as ET

from edgewise.errors import EdgewiseError, Message, Place
from edgewise.listing import either
from edgewise.practice.paper import Papers
from edgewise.publish import output
from edgewise.publish.qti import item as items
from edgewise.publish.qti import markup
from edgewise.publish.qti.item import Item
from edgewise.publish.qti.markup import Version

MANIFEST: Final = "imsmanifest.xml"
LARGEST: Final = 50_000_000
"""Bytes of a package, unpacked, at most."""
MOST: Final = 20_000
"""Files in a package, at most."""
_WAYS: Final = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
_CONTENT: Final[dict[Version, str]] = {
    "2.1": "http://www.imsglobal.org/xsd/imscp_v1p1",
    "3.0": "http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1",
}
_KINDS: Final = {"2.1": "imsqti_item_xmlv2p1", "3.0": "imsqti_item_xmlv3p0"}
_SCHEMAS: Final = {
    "2.1": ("IMS Content", "1.1"),
    "3.0": ("QTI Package", "3.0.0"),
}


def of_papers(papers: Papers, version: Version) -> tuple[bytes, tuple[str, ...]]:
    """The package of all papers, and the questions that no item can mark.

    Raises
    ------
    EdgewiseError
        No question of these papers can be an item.
    """
    made: list[Item] = []
    left: tuple[str, ...] = ()
    for paper in papers.variants:
        found, left = items.items(paper)
        made += found
    if not made:
        raise EdgewiseError(
            Message("qti-unmarkable", questions=", ".join(left)),
            Place(str(papers.path)),
        )
    return packed(made, version), left


def packed(made: Iterable[Item], version: Version) -> bytes:
    """A package of items; the same items give the same bytes."""
    contents = list(made)
    parts = [(MANIFEST, _manifest(contents, version))]
    for one in contents:
        picture = f"{one.identifier}.svg" if one.picture else ""
        parts.append((f"{one.identifier}.xml", markup.written(one, version, picture)))
        if one.picture:
            parts.append((picture, one.picture[0].encode()))
    return output.zipped(parts)


def _manifest(contents: list[Item], version: Version) -> bytes:
    space = _CONTENT[version]
    ET.register_namespace("", space)

    def add(parent: ET.Element, name: str, text: str = "", **given: str) -> ET.Element:
        made = ET.SubElement(parent, f"{{{space}}}{name}", given)
        made.text = text or None
        return made

    root = ET.Element(f"{{{space}}}manifest", {"identifier": "edgewise-papers"})
    metadata = add(root, "metadata")
    schema, number = _SCHEMAS[version]
    add(metadata, "schema", schema)
    add(metadata, "schemaversion", number)
    add(root, "organizations")
    resources = add(root, "resources")
    for one in contents:
        name = f"{one.identifier}.xml"
        resource = add(
            resources, "resource", identifier=f"r-{one.identifier}", type=_KINDS[version], href=name
        )
        add(resource, "file", href=name)
        if one.picture:
            add(resource, "file", href=f"{one.identifier}.svg")
    return b'<?xml version="1.0" encoding="UTF-8"?>\n' + ET.tostring(root)


@dataclass(frozen=True, slots=True)
class Package:
    """A package that was read.

    Parameters
    ----------
    version : str
    items : tuple of Item
        In the order of its manifest.
    unchanged : bool
        Whether these items, packed again, give the same bytes.
    """

    version: Version
    items: tuple[Item, ...]
    unchanged: bool


def read(path: Path) -> tuple[Item, ...]:
    """The items of a package; see `opened`."""
    return opened(path).items


def opened(path: Path) -> Package:
    """Read a package that `packed` made.

    Raises
    ------
    EdgewiseError
        It is no such package, or too large.
    """
    place = Place(str(path))
    contents = _unzipped(path, place)
    try:
        version, items = _version(contents), tuple(_items(contents))
    except EdgewiseError as wrong:
        raise wrong.placed(place) from None
    except (KeyError, ValueError, IndexError, UnicodeDecodeError, RecursionError):
        raise EdgewiseError(Message("package-foreign"), place) from None
    return Package(version, items, _unzip(packed(items, version)) == contents)


def _unzipped(path: Path, place: Place) -> dict[str, bytes]:
    """The files of a zip by name, within bounds: what its list says is not yet believed."""
    try:
        with zipfile.ZipFile(path) as package:
            about = package.infolist()
            if len(about) > MOST or sum(one.file_size for one in about) > LARGEST:
                raise EdgewiseError(Message("package-large", size=LARGEST, most=MOST), place)
            if len({one.filename for one in about}) < len(about):
                raise EdgewiseError(Message("package-twice"), place)
            if any(one.compress_type not in _WAYS for one in about):
                raise EdgewiseError(Message("package-compressed"), place)
            # A file that holds more than the list says ends with the size that is said there.
            return {one.filename: package.read(one) for one in about}
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, RuntimeError, ValueError) as wrong:
        raise EdgewiseError(Message("package-no-zip", why=str(wrong)), place) from None


def _unzip(content: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(content)) as package:
        return {one.filename: package.read(one) for one in package.infolist()}


def _version(contents: Mapping[str, bytes]) -> Version:
    if MANIFEST not in contents:
        raise EdgewiseError(Message("package-without-file", file=MANIFEST))
    root = markup.parsed(contents[MANIFEST], "manifest")
    spaces: dict[str, Version] = {f"{{{space}}}manifest": v for v, space in _CONTENT.items()}
    if root.tag not in spaces:
        raise EdgewiseError(
            Message("qti-root", kind="manifest", found=root.tag[:80], versions=either(_CONTENT))
        )
    return spaces[root.tag]


def _items(contents: dict[str, bytes]) -> Iterable[Item]:
    root = markup.parsed(contents[MANIFEST], "manifest")
    pictures = {n: c.decode() for n, c in contents.items() if n.endswith(".svg")}
    for one in root.iter():
        if one.tag.endswith("}resource"):
            yield markup.read(contents[one.get("href", "")], pictures)
