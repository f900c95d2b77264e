"""Slides: what is on them, in which order, and what goes wrong; read back with python-pptx."""

from __future__ import annotations

import io
import sys
import zipfile
from collections.abc import Callable
from functools import lru_cache
from itertools import pairwise
from pathlib import Path
from typing import Any, Final

import pytest
from pptx import Presentation
from pptx.util import Emu, Pt

from edgewise import lesson
from edgewise.errors import EdgewiseError
from edgewise.publish.slides import presentation
from edgewise.publish.slides.build import Manner, build, slides
from edgewise.publish.slides.content import deck
from edgewise.publish.slides.shape import SHAPES
from tests.conftest import Edgewise

LESSON: Final = """\
---
title: Two bakery counters
design: serial-adder
with: {n: 3}
operands: {a: 5, b: 3}
---
Bread and rolls.

```say
Good morning.
```
```steps
- 0
- {rows: 4, point: [C, S(2)], predict: C, say: The carry rises.}
- {rows: 5..6, say: The rest.}
```
```claim
S after end == (a + b) mod 8    for all a, b
edges == 2*n                    for n in 1..9
```
"""
QUESTIONS: Final = """\
```question
ask: next-rows
rows: 4..5
columns: [A, C, S]
about: [one-after-another]
```
```question
ask: value
of: S
after: 6
about: [one-after-another]
```
```question
ask: lane
rows: 3..6
lane: C
about: [one-after-another]
```
"""

ALL: Final = LESSON.replace("- {rows: 5..6", "- [0, load]\n- {rows: 5..6") + QUESTIONS


def checked(text: str = LESSON) -> lesson.Report:
    return lesson.check_text(text, "bread.md", Path())


@lru_cache(maxsize=16)
def written(text: str, manner: Manner) -> tuple[bytes, bytes]:
    return slides(checked(text), manner)


def made(text: str = LESSON, manner: Manner | None = None) -> Any:
    return Presentation(io.BytesIO(written(text, manner or Manner())[0]))


def texts(page: Any) -> list[str]:
    """The text of a slide's shapes in reading order."""
    return [one.text_frame.text for one in page.shapes if one.has_text_frame]


def notes(page: Any) -> str:
    return str(page.notes_slide.notes_text_frame.text)


def pictures(page: Any) -> list[Any]:
    return [one for one in page.shapes if one.shape_type == 13]


def test_the_slides_of_a_lesson_in_order() -> None:
    shown = made()
    assert [page.shapes.title.text_frame.text for page in shown.slides] == [
        "Two bakery counters",
        "Before the first edge, with the inputs of phase load",
        "After edge 3, with the inputs of phase add",
        "After edge 4, with the inputs of phase add",
        "After edge 5, with the inputs of phase add",
        "After edge 6, with the inputs of phase add",
        "Claims, checked",
    ]


def test_what_is_said_is_in_the_notes() -> None:
    opening, start, asked, rises, rest, last, _ = made().slides
    assert notes(opening).startswith("Good morning.")
    assert notes(start) == "At the start: A = 000, B = 000, C = 0, S = 000."
    assert notes(asked) == "(Wait for answers.)"
    assert (notes(rises), notes(rest)) == ("The carry rises.", "The rest.")
    assert notes(last) == "(What was said before goes on.)"


def test_a_question_comes_before_its_answer_which_is_the_traces() -> None:
    report = checked()
    shown = Presentation(io.BytesIO(slides(report, Manner())[0]))
    asked, answered = texts(shown.slides[2]), texts(shown.slides[3])
    assert asked[1] == "What will C hold after edge 4?"
    assert answered[1] == f"Answer: C\u00a0=\u00a0{report.trace.word('C', 4)}"
    before, after = (pictures(shown.slides[k])[0] for k in (2, 3))
    about = [one.element.nvPicPr.cNvPr.get("descr") for one in (before, after)]
    assert "after edge 3" in about[0]
    assert "Arrows" not in about[0]
    assert "Arrows point at: C, S(2)." in about[1]


def test_claims_stand_with_how_they_were_checked() -> None:
    assert texts(made().slides[-1])[1].splitlines() == [
        "S after end == (a + b) mod 8 for all a, b",
        "checked on all 64 operand pairs",
        "edges == 2*n for n in 1..9",
        "checked for n = 1 to 9",
    ]


def test_every_slide_has_its_number_and_reads_title_first() -> None:
    for number, page in enumerate(made().slides, 1):
        shapes = list(page.shapes)
        assert shapes[0] == page.shapes.title
        assert shapes[-1].text_frame.text == str(number)
        (field,) = shapes[-1].element.iter("{*}fld")
        assert field.get("type") == "slidenum"


def test_every_picture_has_a_description_a_vector_and_a_fallback() -> None:
    seen = 0
    for page in made(ALL).slides:
        for picture in pictures(page):
            assert len(picture.element.nvPicPr.cNvPr.get("descr")) > 20
            assert picture.image.content_type == "image/png"
            (vector,) = picture.element.iter(f"{{{presentation.SVG_NAMESPACE}}}svgBlip")
            (ident,) = vector.attrib.values()
            part = page.part.related_part(ident)
            assert part.content_type == "image/svg+xml"
            assert b"<text" not in part.blob  # letters are outlines
            seen += 1
    assert seen == 2 * 7 + 2 + 2 * 3  # steps, a question and its answer, three more


@pytest.mark.parametrize("language", ["en", "de"])
def test_a_voice_is_told_the_language(language: str) -> None:
    text = LESSON.replace("design:", f"language: {language}\ndesign:")
    for page in made(text).slides:
        for run in page.shapes.element.iter("{*}rPr"):
            if run.getparent().tag.endswith("}r"):
                assert run.get("lang") == {"en": "en-US", "de": "de-DE"}[language]


def test_where_we_have_no_words_of_a_language_the_authors_keep_it() -> None:
    pages = made(LESSON.replace("design:", "language: fr\ndesign:")).slides
    notes_of = [page.notes_slide.notes_text_frame.paragraphs[0].runs[0] for page in pages]
    spoken = [run._r.rPr.get("lang") for run in notes_of]
    assert spoken == ["fr", "en-US", "en-US", "fr", "fr", "en-US", "en-US"]


@pytest.mark.parametrize("shape", ["16:9", "4:3"])
@pytest.mark.parametrize("show", ["diagram", "table", "timing"])
def test_nothing_lies_outside_or_over_anything_else(shape: str, show: Any) -> None:
    shown = made(ALL, Manner(shape, show))
    assert shown.slide_height == Pt(540)
    assert shown.slide_width == Pt({"16:9": 960, "4:3": 720}[shape])
    for page in list(shown.slides)[1:]:
        boxes = [(s.left, s.top, s.left + s.width, s.top + s.height) for s in page.shapes]
        for left, top, right, bottom in boxes:
            assert 0 <= left < right <= shown.slide_width
            assert 0 <= top < bottom <= shown.slide_height
        lower = sorted(boxes, key=lambda box: box[1])
        for above, below in pairwise(lower):
            assert above[3] <= below[1] + Pt(1)


@pytest.mark.parametrize("shape", ["16:9", "4:3"])
@pytest.mark.parametrize("show", ["diagram", "table", "timing"])
def test_what_grows_stays_in_its_place(shape: str, show: Any) -> None:
    # Those behind the start and the slides with a question and its answer.
    last = [pictures(page)[-1] for page in list(made(ALL, Manner(shape, show)).slides)[4:10]]
    assert len({(one.left, one.top) for one in last}) == 1
    scales = {round(one.width / one.image.size[0], -1) for one in last}
    assert max(scales) - min(scales) <= 0.02 * max(scales)
    sizes = [one.width if show == "timing" else one.height for one in last]
    assert sizes[:3] == sorted(set(sizes[:3]))


def test_type_is_large_enough_for_the_last_row() -> None:
    many = "\n".join(f"edges == 2*n + {k} - {k}    for n in 1..9" for k in range(30))
    text = LESSON.replace("edges == 2*n                    for n in 1..9", many)
    shown = made(text)
    titles = [page.shapes.title.text_frame.text for page in shown.slides]
    assert titles[6:8] == ["Claims, checked", "Claims, checked (2)"]
    frames = [one.text_frame for page in shown.slides for one in page.shapes if one.has_text_frame]
    sizes = [run.font.size for f in frames for p in f.paragraphs for run in p.runs]
    assert min(size for size in sizes if size) >= Pt(16)


def test_the_same_lesson_gives_the_same_bytes_without_a_time() -> None:
    first, second = (slides(checked(), Manner()) for _ in range(2))
    assert first == second
    with zipfile.ZipFile(io.BytesIO(first[0])) as package:
        assert {entry.date_time[0] for entry in package.infolist()} == {1980}
        assert "docProps/app.xml" not in package.namelist()  # no program says it made them
        assert b"2000-01-01T00:00:00Z" in package.read("docProps/core.xml")


def test_both_files_have_the_same_slides(tmp_path: Path) -> None:
    path = tmp_path / "bread.md"
    path.write_text(LESSON, "utf-8")
    pptx, pdf = build(path, tmp_path / "out")
    assert (pptx.name, pdf.name) == ("bread.pptx", "bread-slides.pdf")
    import pikepdf

    with pikepdf.open(pdf) as pages:
        assert len(pages.pages) == len(Presentation(str(pptx)).slides)
        assert str(pages.Root.Lang) == "en"


def test_a_diagram_too_small_for_the_last_row_is_told(tmp_path: Path) -> None:
    path = tmp_path / "bread.md"
    head = LESSON.partition("Bread")[0].replace("serial-adder", "bit-serial-multiplier")
    path.write_text(head.replace("n: 3", "n: 16"), "utf-8")
    told: list[Any] = []
    build(path, tmp_path, told.append)
    assert [str(one) for one in told if "letters" in str(one)] == [
        f"{path}:3:9: warning: the smallest letters of the figures are 3 points high on the slides,"
        " too small for the last row: take fewer bits or columns, open fewer parts, or try --show"
        " table or --show timing"
    ]


def test_the_deck_needs_no_format() -> None:
    shown = deck(checked(), SHAPES["4:3"])
    assert shown.slides[0].opening
    assert [line.text for line in shown.slides[0].lines] == [
        "Bit-serial adder",
        "n\u00a0=\u00a03, a\u00a0=\u00a05, b\u00a0=\u00a03",
        "6 clock edges",
    ]


OTHERS: Final = """\
```law
count: edges
over: {n: 1..9}
claim: 2*n
```
```prove
claim: S after end == a
expect: false
```
```fault
fault: C stuck at 0
rows: 3..6
```
```coverage
show: table
```
```timing
rows: 3..6
columns: [A, C, S]
caption: Three columns are added.
```
```compare
designs: [ripple-carry-adder, carry-skip-adder]
over: {n: 4..8}
chart: time
```
"""


def test_what_else_a_lesson_shows_has_slides_of_its_own() -> None:
    shown = deck(checked(LESSON + OTHERS), SHAPES["16:9"]).slides[7:]
    assert [(len(one.lines), len(one.pictures), len(one.table)) for one in shown] == [
        (2, 0, 0),  # the law and how it was checked
        (3, 0, 0),  # what is false, and why
        (0, 1, 0),
        (0, 1, 0),
        (1, 1, 0),  # the circuit as it should be, and the table of the broken run
        (0, 1, 0),
        (0, 0, 10),  # what the example shows
        (1, 1, 0),  # the timing diagram
        (0, 0, 11),  # designs compared: the table, the chart, which to take
        (0, 1, 0),
        (6, 0, 0),
    ]
    assert [one.title for one in shown if not one.pictures] == [
        "Law, checked",
        "Refuted",
        "What the example a\u00a0=\u00a05, b\u00a0=\u00a03 shows",
        *["Area in gate units, time in gate delays, n\u00a0=\u00a04 to 8; ranks in parentheses"]
        * 2,
    ]
    said = [one.lines[0].text for one in shown if one.pictures and one.lines]
    assert said == ["The circuit as it should be", "Three columns are added."]
    assert "C stuck" not in str([(one.title, one.lines, one.notes) for one in shown])


def test_too_many_steps_are_refused() -> None:
    long = LESSON.partition("```say")[0] + "```steps\n" + "- 0..6\n" * 60 + "```\n"
    with pytest.raises(EdgewiseError) as wrong:
        slides(checked(long), Manner())
    assert str(wrong.value) == (
        "bread.md: 420 steps are too many for slides; the limit is 400: say in a steps block"
        " which rows to show"
    )


def test_a_sign_that_the_typefaces_lack_is_told_at_its_line() -> None:
    text = LESSON.replace("The carry rises.", "ok").replace("bakery", "\u9eb5 bakery")
    with pytest.raises(EdgewiseError) as wrong:
        slides(checked(text), Manner())
    assert str(wrong.value) == (
        "bread.md:1: the typefaces of a PDF have no sign for '\u9eb5' (U+9EB5); they have Latin,"
        " Greek and Cyrillic letters and the usual signs: write it in another way"
    )


# ------------------------------------------------------------------ a teacher's own template


def template(folder: Path, change: Callable[[Any], None] = lambda _: None) -> Path:
    """A presentation with a slide in it, as a school might have."""
    own = Presentation()
    own.slide_width, own.slide_height = Emu(12_192_000), Emu(7_620_000)
    own.slides.add_slide(own.slide_layouts[0]).shapes.title.text = "Last year"
    change(own)
    path = folder / "school.pptx"
    own.save(str(path))
    return path


def test_a_template_gives_layouts_and_size_and_keeps_no_slide(tmp_path: Path) -> None:
    shown = made(manner=Manner(template=template(tmp_path)))
    assert (shown.slide_width, shown.slide_height) == (12_192_000, 7_620_000)
    assert len(shown.slides) == 7
    opening, step, *_ = shown.slides
    assert (opening.slide_layout.name, step.slide_layout.name) == ("Title Slide", "Title Only")
    assert opening.shapes.title.text_frame.text == "Two bakery counters"
    title, number = step.shapes.title, step.shapes[len(step.shapes) - 1]
    assert number.is_placeholder
    for picture in pictures(step):
        assert picture.top >= title.top + title.height
        assert picture.top + picture.height <= number.top


def test_what_is_no_template_is_refused(tmp_path: Path) -> None:
    def wrong(path: Path) -> str:
        with pytest.raises(EdgewiseError) as found:
            made(manner=Manner(template=path))
        return str(found.value)

    missing, text = tmp_path / "none.pptx", tmp_path / "text.pptx"
    text.write_text("no package", "utf-8")
    assert wrong(missing) == f"{missing}: can't be read: No such file or directory"
    advice = "is no presentation that can be read; save it as .pptx, without macros"
    assert wrong(text) == f"{text}: {advice}"

    def bare(own: Any) -> None:
        for layout in own.slide_layouts:
            for place in [p for p in layout.placeholders if p.placeholder_format.idx == 0]:
                place.element.getparent().remove(place.element)

    def low(own: Any) -> None:
        own.slide_layouts[5].placeholders[0].top = Pt(400)

    lowered = template(tmp_path, low)
    assert wrong(lowered) == (
        f"{lowered}: leaves 648 x 0 points below its title, too little for a figure; leave 200"
        " each way in its barest layout with a title"
    )
    untitled = template(tmp_path, bare)
    assert wrong(untitled) == f"{untitled}: has no layout with a title; add one in its master"


def test_a_template_is_not_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "school.md"
    path.write_text(LESSON, "utf-8")
    own = template(tmp_path)
    with pytest.raises(EdgewiseError) as wrong:
        build(path, tmp_path, manner=Manner(template=own))
    assert str(wrong.value) == (f"{own}: this would overwrite the template; choose another folder")


# ------------------------------------------------------------------ the command


@pytest.fixture
def lesson_file(tmp_path: Path) -> Path:
    path = tmp_path / "bread.md"
    path.write_text(LESSON, "utf-8")
    return path


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (["--slides", "--shape", "16:10"], "slides are not 16:10; did you mean 16:9?"),
        (["--slides", "--shape", "A4"], "slides are not A4; they are 16:9 or 4:3"),
        (["--slides", "--show", "tables"], "a step can't show tables; did you mean table?"),
        (["--shape", "4:3"], "--shape has no effect without --slides"),
        (
            ["--slides", "--template", "x.pptx", "--shape", "4:3"],
            "--shape has no effect with --template, which has a shape of its own",
        ),
        (
            ["--slides", "--handout"],
            "--handout is --as handout, --slides is --as slides; give one of these",
        ),
    ],
)
def test_options_that_make_no_sense_are_refused(
    options: list[str], message: str, lesson_file: Path, edgewise: Edgewise
) -> None:
    answer = edgewise("build", str(lesson_file), "-o", str(lesson_file.parent), *options)
    assert (answer.code, answer.err.strip()) == (2, message)
    assert [one.name for one in lesson_file.parent.iterdir()] == ["bread.md"]


def test_the_command_names_both_files(lesson_file: Path, edgewise: Edgewise) -> None:
    folder = lesson_file.parent
    answer = edgewise("build", str(lesson_file), "-o", str(folder), "--slides", "--shape", "4:3")
    written = f"{folder / 'bread.pptx'}, {folder / 'bread-slides.pdf'}"
    assert (answer.code, answer.out) == (0, f"{lesson_file} -> {written}\n")


def test_without_the_package_one_line_says_how_to_get_it(
    lesson_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "pptx", None)
    with pytest.raises(EdgewiseError) as wrong:
        build(lesson_file, lesson_file.parent)
    assert str(wrong.value) == (
        "slides need the package python-pptx; install it with: pip install edgewise[slides]"
    )
    assert [one.name for one in lesson_file.parent.iterdir()] == ["bread.md"]
