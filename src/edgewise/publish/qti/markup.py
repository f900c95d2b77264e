"""Items as XML, in version 2.1 or 3.0 of the format, and back.

Both versions have the same elements: 3.0 writes their names with hyphens and a prefix, so that
``assessmentItem`` is ``qti-assessment-item`` (1EdTech QTI 3.0, Assessment, Section and Item
Information Model; from memory).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias
from xml.etree import ElementTree as ET

from edgewise.errors import EdgewiseError, Message
from edgewise.listing import either
from edgewise.publish.qti.item import Blank, Cell, Choice, Item, Told

Version: TypeAlias = Literal["2.1", "3.0"]
NAMESPACES: Final[Mapping[Version, str]] = {
    "2.1": "http://www.imsglobal.org/xsd/imsqti_v2p1",
    "3.0": "http://www.imsglobal.org/xsd/imsqtiasi_v3p0",
}
_XML: Final = "{http://www.w3.org/XML/1998/namespace}"
_HUMP: Final = re.compile(r"(?<=[a-z0-9])(?=[A-Z])")


@dataclass(frozen=True, slots=True)
class _Pen:
    """Writes elements in one version."""

    version: Version

    def name(self, name: str) -> str:
        """An element of the format."""
        plain = name if self.version == "2.1" else f"qti-{_hyphened(name)}"
        return f"{{{NAMESPACES[self.version]}}}{plain}"

    def html(self, name: str) -> str:
        """An element as in HTML."""
        return f"{{{NAMESPACES[self.version]}}}{name}"

    def attributes(self, given: Mapping[str, str]) -> dict[str, str]:
        """Attributes, their names as the version writes them."""
        if self.version == "2.1":
            return dict(given)
        return {_hyphened(name): value for name, value in given.items()}

    def add(self, parent: ET.Element, name: str, text: str = "", **given: str) -> ET.Element:
        """An element of the format, inside another."""
        made = ET.SubElement(parent, self.name(name), self.attributes(given))
        made.text = text or None
        return made

    def mark(self, parent: ET.Element, name: str, text: str = "", **given: str) -> ET.Element:
        """An element as in HTML, inside another."""
        made = ET.SubElement(parent, self.html(name), given)
        made.text = text or None
        return made


def _hyphened(name: str) -> str:
    """``mapResponse`` as ``map-response``."""
    return _HUMP.sub("-", name).lower()


def written(item: Item, version: Version, picture: str = "") -> bytes:
    """The XML of an item; `picture` is the address of its figure."""
    ET.register_namespace("", NAMESPACES[version])
    pen = _Pen(version)
    given = {
        "identifier": item.identifier,
        "title": item.title,
        "adaptive": "false",
        "timeDependent": "false",
    }
    root = ET.Element(pen.name("assessmentItem"), pen.attributes(given))
    root.set(f"{_XML}lang", item.language)
    _declare(pen, root, item)
    _body(pen, root, item, picture)
    _process(pen, root, item)
    for one in item.told:
        feedback = pen.add(
            root,
            "modalFeedback",
            outcomeIdentifier="FEEDBACK",
            showHide="show",
            identifier=one.identifier,
        )
        inside = pen.add(feedback, "contentBody") if version == "3.0" else feedback
        pen.mark(inside, "p", one.text)
    return b'<?xml version="1.0" encoding="UTF-8"?>\n' + ET.tostring(root)


def _responses(item: Item) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """Each response: its identifier, its base type, and what is right."""
    if item.choices:
        yield "R1", "identifier", (item.right,)
    for blank in item.fields:
        yield blank.identifier, "string", blank.right


def _worth(item: Item) -> int:
    """What a right response is mapped to: all marks of the only one, else 1, scaled at the end.

    A share such as a third is not mapped, since a platform may round it.
    """
    return item.marks if item.choices or len(item.fields) == 1 else 1


def _declare(pen: _Pen, root: ET.Element, item: Item) -> None:
    for identifier, kind, right in _responses(item):
        response = pen.add(
            root,
            "responseDeclaration",
            identifier=identifier,
            cardinality="single",
            baseType=kind,
        )
        pen.add(pen.add(response, "correctResponse"), "value", right[0])
        mapping = pen.add(response, "mapping", defaultValue="0")
        for answer in right:
            given = {"mapKey": answer, "mappedValue": str(_worth(item))}
            if kind == "string":
                given["caseSensitive"] = "false"
            pen.add(mapping, "mapEntry", **given)
    score = pen.add(
        root, "outcomeDeclaration", identifier="SCORE", cardinality="single", baseType="float"
    )
    pen.add(pen.add(score, "defaultValue"), "value", "0")
    most = pen.add(
        root, "outcomeDeclaration", identifier="MAXSCORE", cardinality="single", baseType="float"
    )
    pen.add(pen.add(most, "defaultValue"), "value", str(item.marks))
    if item.told:
        pen.add(
            root,
            "outcomeDeclaration",
            identifier="FEEDBACK",
            cardinality="single",
            baseType="identifier",
        )


def _body(pen: _Pen, root: ET.Element, item: Item, picture: str) -> None:
    body = pen.add(root, "itemBody")
    pen.mark(body, "p", item.prompt)
    pen.mark(body, "p", item.facts)
    if item.picture:
        figure = pen.mark(body, "p")
        pen.mark(figure, "img", src=picture, alt=item.picture[1])
    if item.table:
        _table(pen, body, item)
    for blank in item.blanks:
        line = pen.mark(body, "p", f"{blank.label}: ")
        _entry(pen, line, blank)
    if item.choices:
        asked = pen.add(
            body, "choiceInteraction", responseIdentifier="R1", shuffle="false", maxChoices="1"
        )
        for one in item.choices:
            choice = pen.add(asked, "simpleChoice", identifier=one.identifier)
            if one.exact:
                pen.mark(choice, "code", one.text)
            else:
                choice.text = one.text


def _table(pen: _Pen, body: ET.Element, item: Item) -> None:
    heading, *lines = item.table
    table = pen.mark(body, "table")
    head = pen.mark(pen.mark(table, "thead"), "tr")
    for text in heading:
        pen.mark(head, "th", str(text), scope="col")
    rows = pen.mark(table, "tbody")
    for line in lines:
        row = pen.mark(rows, "tr")
        for cell in line:
            made = pen.mark(row, "td", cell if isinstance(cell, str) else "")
            if isinstance(cell, Blank):
                _entry(pen, made, cell)


def _entry(pen: _Pen, parent: ET.Element, blank: Blank) -> None:
    given = {"responseIdentifier": blank.identifier, "expectedLength": str(blank.length)}
    entry = pen.add(parent, "textEntryInteraction", **given)
    # What it is, where it can't be seen (ARIA in QTI 3.0; a label is allowed in 2.1).
    entry.set("aria-label" if pen.version == "3.0" else "label", blank.label)


def _process(pen: _Pen, root: ET.Element, item: Item) -> None:
    processing = pen.add(root, "responseProcessing")
    nothing = pen.add(processing, "setOutcomeValue", identifier="SCORE")
    pen.add(nothing, "baseValue", "0", baseType="float")
    for identifier, _, _ in _responses(item):
        # What is left empty gives nothing, whatever a platform makes of mapping it.
        given = pen.add(pen.add(processing, "responseCondition"), "responseIf")
        empty = pen.add(pen.add(given, "not"), "isNull")
        pen.add(empty, "variable", identifier=identifier)
        total = pen.add(pen.add(given, "setOutcomeValue", identifier="SCORE"), "sum")
        pen.add(total, "variable", identifier="SCORE")
        pen.add(total, "mapResponse", identifier=identifier)
    if not item.choices and len(item.fields) > 1:
        share = pen.add(pen.add(processing, "setOutcomeValue", identifier="SCORE"), "divide")
        whole = pen.add(share, "product")
        pen.add(whole, "variable", identifier="SCORE")
        pen.add(whole, "baseValue", str(item.marks), baseType="float")
        pen.add(share, "baseValue", str(len(item.fields)), baseType="float")
    if not item.told:
        return
    condition = pen.add(processing, "responseCondition")
    for number, one in enumerate(item.told):
        branch = pen.add(condition, "responseElseIf" if number else "responseIf")
        match = pen.add(branch, "match")
        pen.add(match, "variable", identifier=one.response)
        kind = "identifier" if item.choices else "string"
        pen.add(match, "baseValue", one.answer, baseType=kind)
        told = pen.add(branch, "setOutcomeValue", identifier="FEEDBACK")
        pen.add(told, "baseValue", one.identifier, baseType="identifier")


# ---------------------------------------------------------------------- back


@dataclass(frozen=True, slots=True)
class _Reader:
    """Reads the elements of one version."""

    pen: _Pen

    def all(self, parent: ET.Element, name: str) -> list[ET.Element]:
        return list(parent.iter(self.pen.name(name)))

    def html(self, parent: ET.Element, name: str) -> list[ET.Element]:
        return list(parent.iter(self.pen.html(name)))

    def attribute(self, element: ET.Element, name: str) -> str:
        known = name if self.pen.version == "2.1" else _hyphened(name)
        return element.get(known, "")


def parsed(text: bytes, kind: Literal["item", "manifest"]) -> ET.Element:
    """The root of an XML text in UTF-8 without a document type, and so without entities.

    Raises
    ------
    EdgewiseError
        It is something else; `what` begins the message.

    Examples
    --------
    >>> parsed(b"<item><part/></item>", "item").tag
    'item'
    """
    # In another encoding, also one with a zero byte in each letter, a document type could hide.
    try:
        told = text.decode("utf-8")
    except UnicodeDecodeError:
        told = "\0"
    if "\0" in told:
        raise EdgewiseError(Message("qti-no-utf8", kind=kind))
    if "<!DOCTYPE" in told or "<!ENTITY" in told:
        raise EdgewiseError(Message("qti-doctype", kind=kind))
    try:
        return ET.fromstring(told)  # noqa: S314  # entities were refused above
    except ET.ParseError as wrong:
        raise EdgewiseError(Message("qti-no-xml", kind=kind, why=str(wrong))) from None


def read(text: bytes, pictures: Mapping[str, str] | None = None) -> Item:
    """The item of an XML text as `written` writes it.

    Raises
    ------
    EdgewiseError
        It is no such item.
    """
    root = parsed(text, "item")
    for version in NAMESPACES:
        if root.tag == _Pen(version).name("assessmentItem"):
            return _item(_Reader(_Pen(version)), root, pictures or {})
    raise EdgewiseError(
        Message("qti-root", kind="item", found=root.tag[:80], versions=either(NAMESPACES))
    )


def _item(reader: _Reader, root: ET.Element, pictures: Mapping[str, str]) -> Item:
    (body,) = reader.all(root, "itemBody")
    rights, corrects = _rights(reader, root)
    blanks = {
        reader.attribute(entry, "responseIdentifier"): _blank(reader, entry, rights)
        for entry in reader.all(body, "textEntryInteraction")
    }
    table = _read_table(reader, body, blanks)
    inside = {cell.identifier for line in table for cell in line if isinstance(cell, Blank)}
    prompt, facts, *_ = reader.html(body, "p")
    images = reader.html(body, "img")
    choices = tuple(_choice(reader, one) for one in reader.all(body, "simpleChoice"))
    return Item(
        identifier=root.get("identifier", ""),
        title=root.get("title", ""),
        language=root.get(f"{_XML}lang", ""),
        prompt=prompt.text or "",
        marks=_marks(reader, root),
        facts=facts.text or "",
        table=table,
        picture=tuple(
            text
            for image in images
            for text in (pictures.get(image.get("src", ""), ""), image.get("alt", ""))
        ),
        blanks=tuple(blank for name, blank in blanks.items() if name not in inside),
        choices=choices,
        right=corrects["R1"] if choices else "",
        told=tuple(_read_told(reader, root)),
    )


def _rights(reader: _Reader, root: ET.Element) -> tuple[dict[str, tuple[str, ...]], dict[str, str]]:
    rights, corrects = {}, {}
    for response in reader.all(root, "responseDeclaration"):
        name = response.get("identifier", "")
        entries = reader.all(response, "mapEntry")
        rights[name] = tuple(reader.attribute(entry, "mapKey") for entry in entries)
        corrects[name] = reader.all(response, "value")[0].text or ""
    return rights, corrects


def _blank(reader: _Reader, entry: ET.Element, rights: Mapping[str, tuple[str, ...]]) -> Blank:
    name = reader.attribute(entry, "responseIdentifier")
    label = entry.get("aria-label" if reader.pen.version == "3.0" else "label", "")
    return Blank(name, label, rights[name], int(reader.attribute(entry, "expectedLength")))


def _read_table(
    reader: _Reader, body: ET.Element, blanks: Mapping[str, Blank]
) -> tuple[tuple[Cell, ...], ...]:
    lines = []
    for row in reader.html(body, "tr"):
        cells: list[Cell] = []
        for cell in row:
            entries = reader.all(cell, "textEntryInteraction")
            known = [blanks[reader.attribute(entry, "responseIdentifier")] for entry in entries]
            cells.append(known[0] if known else cell.text or "")
        lines.append(tuple(cells))
    return tuple(lines)


def _choice(reader: _Reader, one: ET.Element) -> Choice:
    code = reader.html(one, "code")
    text = code[0].text if code else one.text
    return Choice(one.get("identifier", ""), text or "", exact=bool(code))


def _marks(reader: _Reader, root: ET.Element) -> int:
    for outcome in reader.all(root, "outcomeDeclaration"):
        if outcome.get("identifier") == "MAXSCORE":
            return int(reader.all(outcome, "value")[0].text or "0")
    raise EdgewiseError(Message("item-without-maxscore"))


def _read_told(reader: _Reader, root: ET.Element) -> Iterator[Told]:
    texts = {
        one.get("identifier", ""): reader.html(one, "p")[0].text or ""
        for one in reader.all(root, "modalFeedback")
    }
    matches = reader.all(root, "match")
    for match, (identifier, text) in zip(matches, texts.items(), strict=True):
        (variable,) = reader.all(match, "variable")
        (value,) = reader.all(match, "baseValue")
        yield Told(identifier, variable.get("identifier", ""), value.text or "", text)
