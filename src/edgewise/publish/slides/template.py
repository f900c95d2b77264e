"""Template: the look of a presentation, ours or a teacher's own.

Ours is the empty presentation that python-pptx brings, its type and areas set; of a teacher's own
the slides are left out and the layouts kept.
"""

from __future__ import annotations

import zipfile
from typing import TYPE_CHECKING, Any, Final

from edgewise.errors import EdgewiseError, Message, Place
from edgewise.publish.slides.shape import Box, Shape
from edgewise.views.drawing import theme

if TYPE_CHECKING:
    from pathlib import Path

TYPEFACE: Final = "Arial"
"""That every reader has, or has one as wide."""
MOST_BYTES: Final = 50_000_000
MOST_UNPACKED: Final = 400_000_000
LEAST_ROOM: Final = 200.0
"""Points either way that are left below a title, at least."""
_EMU: Final = 12_700
_BELOW: Final = 10.0
"""Points between a title and what is below it, and above the number."""
_LANGUAGES: Final = {"en": "en-US", "de": "de-DE"}
_NUMBER: Final = "slidenum"
_BULLET: Final = "\u2022"


def tag(name: str) -> str:
    """A qualified name: ``a:blip``."""
    from pptx.oxml.ns import qn

    found: str = qn(name)
    return found


def language(tag_of_text: str) -> str:
    """A language tag with the region that readers of presentations want.

    Examples
    --------
    >>> language("de"), language("pt-BR")
    ('de-DE', 'pt-BR')
    """
    return _LANGUAGES.get(tag_of_text.lower(), tag_of_text)


# ------------------------------------------------------------------ ours


def blank(shape: Shape) -> Any:
    """An empty presentation of a shape, with two layouts: a title, and a title with room below."""
    from pptx import Presentation

    made: Any = Presentation()
    made.slide_width, made.slide_height = (round(s * _EMU) for s in (shape.width, shape.height))
    for layout in list(made.slide_layouts):
        if layout.name not in ("Title Slide", "Title Only"):
            made.slide_layouts.remove(layout)
    master = made.slide_master
    for place in master.placeholders:
        _put(place, _area(place, shape))
    for layout in made.slide_layouts:
        for place in list(layout.placeholders):
            kind = place.element.ph.get("type")
            if kind in ("dt", "ftr"):
                place.element.getparent().remove(place.element)
            elif kind in ("ctrTitle", "subTitle"):
                _put(place, _opening(kind, shape))
                _left_aligned(place, kind)
    for place in list(master.placeholders):
        if place.element.ph.get("type") in ("dt", "ftr"):
            place.element.getparent().remove(place.element)
    _typed(master)
    _nameless(made)
    return made


def _nameless(made: Any) -> None:
    """Leave out what the empty presentation says of the program and printer it was made with."""
    for holder in (made.part.package, made.part):
        for ident, relation in list(holder._rels.items()):
            if relation.reltype.endswith(("/extended-properties", "/printerSettings")):
                holder._rels.pop(ident)


def _area(place: Any, shape: Shape) -> Box:
    kinds = {"title": shape.title, "sldNum": shape.number}
    return kinds.get(place.element.ph.get("type"), shape.content)


def _opening(kind: str, shape: Shape) -> Box:
    room = shape.content
    if kind == "ctrTitle":
        return Box(room.x, shape.height * 0.18, room.width, shape.height * 0.27)
    return Box(room.x, shape.height * 0.49, room.width, shape.height * 0.4)


def _put(place: Any, box: Box) -> None:
    place.left, place.top, place.width, place.height = (
        round(side * _EMU) for side in (box.x, box.y, box.width, box.height)
    )


def _left_aligned(place: Any, kind: str) -> None:
    from lxml import etree

    body = place.element.txBody.find(tag("a:bodyPr"))
    body.set("anchor", "b" if kind == "ctrTitle" else "t")
    if kind == "ctrTitle":
        styles = place.element.txBody.find(tag("a:lstStyle"))
        level = etree.SubElement(styles, tag("a:lvl1pPr"))
        etree.SubElement(level, tag("a:defRPr")).set("sz", "4000")
    for side in ("lIns", "rIns"):
        body.set(side, "0")
    for level in place.element.iter(tag("a:lvl1pPr")):
        level.set("algn", "l")
        for fill in list(level.iter(tag("a:solidFill"))):
            fill.getparent().remove(fill)


def _typed(master: Any) -> None:
    """Our type and ink in the master and its theme."""
    from pptx.opc.constants import RELATIONSHIP_TYPE

    part = master.part.part_related_by(RELATIONSHIP_TYPE.THEME)
    text = part.blob.decode()
    text = text.replace('<a:latin typeface="Calibri"/>', f'<a:latin typeface="{TYPEFACE}"/>')
    dark = f'<a:dk1><a:srgbClr val="{theme.INK[1:]}"/></a:dk1>'
    begin, end = text.index("<a:dk1>"), text.index("</a:dk1>") + len("</a:dk1>")
    part._blob = (text[:begin] + dark + text[end:]).encode()
    title = master.element.find(f"{tag('p:txStyles')}/{tag('p:titleStyle')}/{tag('a:lvl1pPr')}")
    title.set("algn", "l")
    title.find(tag("a:defRPr")).set("sz", "3000")
    title.find(tag("a:defRPr")).set("b", "1")
    for place in master.placeholders:
        body = place.element.txBody.find(tag("a:bodyPr"))
        for side in ("lIns", "rIns"):
            body.set(side, "0")
        if place.element.ph.get("type") == "sldNum":
            for run in place.element.iter(tag("a:defRPr")):
                run.set("sz", "1600")


# ------------------------------------------------------------------ a teacher's own


def read(path: Path) -> Any:
    """A teacher's presentation without its slides.

    Raises
    ------
    EdgewiseError
        It is not there, is none, is too large, or has no layout with a title and room below it.
    """
    from pptx import Presentation

    made: Any
    place = Place(str(path))
    try:
        _refuse_large(path)
        made = Presentation(str(path))
    except OSError as wrong:
        raise EdgewiseError(
            Message("unreadable-here", why=wrong.strerror or str(wrong)), place
        ) from None
    except EdgewiseError:
        raise
    except Exception:  # noqa: BLE001  # whatever python-pptx and its parser say of a file that is none
        raise EdgewiseError(Message("template-no-presentation"), place) from None
    for slide in list(made.slides._sldIdLst):
        made.part.drop_rel(slide.rId)
        made.slides._sldIdLst.remove(slide)
    for sections in [one for one in made.element.iter() if str(one.tag).endswith("}sectionLst")]:
        # They name slides that are gone.
        sections.getparent().getparent().remove(sections.getparent())
    try:
        room = shape_of(made).content
    except LookupError:
        raise EdgewiseError(Message("template-without-title"), place) from None
    if min(room.width, room.height) < LEAST_ROOM:
        raise EdgewiseError(
            Message(
                "template-cramped",
                width=round(room.width),
                height=round(max(room.height, 0)),
                least=round(LEAST_ROOM),
            ),
            place,
        )
    return made


def _refuse_large(path: Path) -> None:
    place = Place(str(path))
    if path.stat().st_size > MOST_BYTES:
        raise EdgewiseError(Message("template-large", most=MOST_BYTES // 1_000_000), place)
    with zipfile.ZipFile(path) as package:
        if sum(entry.file_size for entry in package.infolist()) > MOST_UNPACKED:
            raise EdgewiseError(
                Message("template-unpacked-large", most=MOST_UNPACKED // 1_000_000), place
            )


def layouts(made: Any) -> tuple[Any, Any]:
    """The layout of a title slide, and the barest of those with a title.

    Raises
    ------
    LookupError
        None has a title.
    """
    found = [(layout, _kinds(layout)) for layout in made.slide_layouts]
    titled = [(layout, kinds) for layout, kinds in found if "title" in kinds]
    opening = [layout for layout, kinds in found if "ctrTitle" in kinds]
    if not titled and not opening:
        raise LookupError
    small = {"title", "dt", "ftr", "sldNum"}
    bare = min(titled or found, key=lambda one: len([k for k in one[1] if k not in small]))
    return (opening[0] if opening else bare[0]), bare[0]


def _kinds(layout: Any) -> list[str]:
    return [place.element.ph.get("type", "obj") for place in layout.placeholders]


def shape_of(made: Any) -> Shape:
    """The size of a teacher's slides, and the areas that their layout leaves."""
    width, height = made.slide_width / _EMU, made.slide_height / _EMU
    _, plain = layouts(made)
    places = {place.element.ph.get("type", "obj"): _box(place) for place in plain.placeholders}
    title = places.get("title") or places["ctrTitle"]
    feet = [places[kind].y for kind in ("sldNum", "dt", "ftr") if kind in places]
    below = [y for y in feet if y > height / 2]
    bottom = min(below, default=height * 0.94) - _BELOW / 2
    top = title.y + title.height + _BELOW
    number = places.get("sldNum") or Box(width - 110, height - 30, 80, 24)
    return Shape(width, height, title, Box(title.x, top, title.width, bottom - top), number)


def _box(place: Any) -> Box:
    return Box(*(side / _EMU for side in (place.left, place.top, place.width, place.height)))


# ------------------------------------------------------------------ on a slide


def clear(page: Any) -> None:
    """Take away the places of a layout that stay empty."""
    for place in list(page.placeholders):
        if place.placeholder_format.idx != 0:
            place.element.getparent().remove(place.element)


def number(page: Any, which: int, place: tuple[int, int, int, int]) -> None:
    """The number of a slide, in the style of its layout, or at a place."""
    from lxml import etree

    there = next((p for p in page.slide_layout.placeholders if _is_number(p)), None)
    made = page.shapes.add_textbox(*place)
    made.name = "Number"
    paragraph = made.text_frame.paragraphs[0]._p
    field = etree.SubElement(paragraph, tag("a:fld"))
    field.set("id", "{C1FF6DA9-008F-8B48-92A6-B652298478BF}")
    field.set("type", _NUMBER)
    properties = etree.SubElement(field, tag("a:rPr"))
    properties.set("lang", "en-US")
    etree.SubElement(field, tag("a:t")).text = str(which)
    if there is None:
        return
    element = made.element
    element.nvSpPr.cNvSpPr.attrib.clear()
    locks = etree.SubElement(element.nvSpPr.cNvSpPr, tag("a:spLocks"))
    locks.set("noGrp", "1")
    ph = etree.SubElement(element.nvSpPr.nvPr, tag("p:ph"))
    for key, value in there.element.ph.attrib.items():
        ph.set(key, value)
    for child in list(element.spPr):
        element.spPr.remove(child)
    body = element.txBody.find(tag("a:bodyPr"))
    body.attrib.clear()
    for child in list(body):
        body.remove(child)


def _is_number(place: Any) -> bool:
    return bool(place.element.ph.get("type") == "sldNum")


def bullet(paragraph: Any, indent: int) -> None:
    """Make a paragraph an item of a list."""
    from lxml import etree

    properties = paragraph._p.get_or_add_pPr()
    properties.set("marL", str(indent))
    properties.set("indent", str(-indent))
    mark = etree.SubElement(properties, tag("a:buChar"))
    mark.set("char", _BULLET)
