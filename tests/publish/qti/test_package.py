"""Packages of items: every kind of question there and back, and every package that is refused."""

from __future__ import annotations

import json
import random
import warnings
import zipfile
from dataclasses import replace
from pathlib import Path
from typing import Final

import pytest

from edgewise.errors import EdgewiseError
from edgewise.practice.paper import Papers, read_paper
from edgewise.publish import papers as publisher
from edgewise.publish.qti import item, markup, package
from edgewise.publish.qti.item import Item
from edgewise.publish.qti.markup import Version
from tests.conftest import Edgewise
from tests.lesson.test_question import ASKED, FRONT

VERSIONS: Final[tuple[Version, ...]] = ("2.1", "3.0")


@pytest.fixture(scope="module")
def papers(tmp_path_factory: pytest.TempPathFactory) -> Papers:
    """A paper with a question of each kind."""
    blocks = "\n".join(f"```question\n{block}\n```" for block in ASKED.values())
    path = tmp_path_factory.mktemp("qti") / "every.md"
    path.write_text(f"{FRONT}{blocks}\n", encoding="utf-8")
    return read_paper(path).variants(2, seed=3)


def made(papers: Papers) -> list[Item]:
    return [one for paper in papers.variants for one in item.items(paper)[0]]


@pytest.mark.parametrize("version", VERSIONS)
def test_a_package_is_read_back_unchanged(papers: Papers, tmp_path: Path, version: Version) -> None:
    content, left = package.of_papers(papers, version)
    assert left == ("q10",)  # the formula
    path = tmp_path / "papers.zip"
    path.write_bytes(content)
    back = package.read(path)
    assert list(back) == made(papers)
    assert package.packed(back, version) == content


def test_the_manifest_names_every_file(papers: Papers, tmp_path: Path) -> None:
    path = tmp_path / "papers.zip"
    path.write_bytes(package.of_papers(papers, "2.1")[0])
    with zipfile.ZipFile(path) as zipped:
        names = set(zipped.namelist())
        manifest = zipped.read(package.MANIFEST).decode()
    assert len(names) == 1 + 2 * 9 + 2  # the manifest, nine items a paper, a lane each
    assert all(f'href="{name}"' in manifest for name in names - {package.MANIFEST})


def test_operands_that_are_asked_are_not_told(papers: Papers) -> None:
    for one in made(papers):
        if one.identifier.endswith("q9"):
            (blank,) = one.blanks
            assert blank.label == "w(2)"
            assert "w(2) =" not in one.facts
            assert "w(1) =" in one.facts


def test_every_right_answer_is_right(papers: Papers) -> None:
    for paper in papers.variants:
        questions = {f"paper-{paper.code}-{q.name}": q for q in paper.questions}
        for one in item.items(paper)[0]:
            question = questions[one.identifier]
            given = (
                {question.name: one.right}
                if one.choices
                else {
                    heading: blank.right[-1]
                    for heading, blank in zip(question.headings, one.fields, strict=True)
                }
            )
            assert question.right(given), one.identifier


def zipped(path: Path, files: dict[str, str]) -> Path:
    with zipfile.ZipFile(path, "w") as archive:
        for name, text in files.items():
            archive.writestr(name, text)
    return path


MANIFEST: Final = (
    '<manifest xmlns="http://www.imsglobal.org/xsd/imscp_v1p1"><resources>'
    '<resource identifier="r" href="a.xml"/></resources></manifest>'
)


@pytest.mark.parametrize(
    ("files", "told"),
    [
        ({"a.xml": ""}, "a package has a file imsmanifest.xml; this one has none"),
        (
            {"imsmanifest.xml": "<a/>"},
            "found a, expected the manifest of a package of QTI 2.1 or 3.0",
        ),
        ({"imsmanifest.xml": "<a"}, "a manifest is XML: unclosed token: line 1, column 0"),
        (
            {"imsmanifest.xml": '<!DOCTYPE a [<!ENTITY b "c">]><a/>'},
            "a manifest has no document type; leave out <!DOCTYPE …>",
        ),
        (
            {"imsmanifest.xml": MANIFEST},
            "the package has items that edgewise did not write, or that were changed",
        ),
        (
            {"imsmanifest.xml": MANIFEST, "a.xml": '<!DOCTYPE a [<!ENTITY b "c">]><a/>'},
            "an item has no document type; leave out <!DOCTYPE …>",
        ),
        (
            {"imsmanifest.xml": MANIFEST, "a.xml": "<a>"},
            "an item is XML: no element found: line 1, column 3",
        ),
        (
            {"imsmanifest.xml": MANIFEST, "a.xml": "<a/>"},
            "found a, expected an assessment item of QTI 2.1 or 3.0",
        ),
        (
            {
                "imsmanifest.xml": MANIFEST,
                "a.xml": f'<assessmentItem xmlns="{markup.NAMESPACES["2.1"]}"/>',
            },
            "the package has items that edgewise did not write, or that were changed",
        ),
    ],
)
def test_what_is_no_package_of_ours_is_refused(
    tmp_path: Path, files: dict[str, str], told: str
) -> None:
    path = zipped(tmp_path / "p.zip", files)
    with pytest.raises(EdgewiseError) as refused:
        package.read(path)
    assert str(refused.value) == f"{path}: {told}"


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-be", "utf-16-le", "cp037"])
def test_a_document_type_does_not_hide_in_another_encoding(tmp_path: Path, encoding: str) -> None:
    """Entities by way of an encoding: OWASP, *XML External Entity Prevention* (from memory)."""
    hidden = '<!DOCTYPE a [<!ENTITY b "c">]><a>&b;</a>'
    declared = f'<?xml version="1.0" encoding="{encoding}"?>{hidden}'
    path = tmp_path / "p.zip"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("imsmanifest.xml", MANIFEST)
        archive.writestr("a.xml", declared.encode(encoding))
    with pytest.raises(EdgewiseError) as refused:
        package.read(path)
    assert str(refused.value) == f"{path}: an item is text in UTF-8; this one is not"


def test_what_is_no_zip_or_too_large_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "p.zip"
    path.write_bytes(b"no zip")
    with pytest.raises(EdgewiseError) as refused:
        package.read(path)
    assert str(refused.value) == f"{path}: a package is a zip file: File is not a zip file"
    monkeypatch.setattr(package, "LARGEST", 10)
    zipped(path, {"a.xml": "x" * 11})
    with pytest.raises(EdgewiseError) as refused:
        package.read(path)
    assert str(refused.value) == (
        f"{path}: the package is larger than 10 bytes or has more than 20,000 files"
    )


def test_papers_of_which_no_platform_can_mark_anything_are_refused(tmp_path: Path) -> None:
    path = tmp_path / "f.md"
    path.write_text(f"{FRONT}```question\n{ASKED['formula']}\n```\n", encoding="utf-8")
    papers = read_paper(path).variants(1)
    with pytest.raises(EdgewiseError) as refused:
        publisher.build(papers, tmp_path / "out", qti="3.0")
    assert str(refused.value) == (
        f"{path}: no course platform can mark q1: a formula is marked by equivalence, several"
        " operands by running them"
    )
    with pytest.raises(EdgewiseError) as refused:
        publisher.build(papers, tmp_path / "out", qti="1.2")
    assert str(refused.value) == "there is no version 1.2 of QTI here; there are 2.1 and 3.0"
    assert not (tmp_path / "out").exists()


def test_the_command_says_what_is_left_out(
    edgewise: Edgewise, papers: Papers, tmp_path: Path
) -> None:
    out, _, code = edgewise("paper", str(papers.path), "--qti", "2.1", "-o", str(tmp_path))
    assert code == 0
    assert "Not in the package, since no platform can mark them: q10.\n" in out
    assert (tmp_path / "every-qti-2.1.zip").exists()


def test_a_package_that_others_wrote_is_refused_whatever_is_in_it(
    papers: Papers, tmp_path: Path
) -> None:
    """Fuzz, with a fixed seed: 120 packages with bytes changed, each read or told in one line."""
    chance = random.Random(16)  # noqa: S311  # no secrets
    content = package.packed(made(papers)[:2], "3.0")
    path = tmp_path / "p.zip"
    told = set()
    for _ in range(120):
        mangled = bytearray(content)
        for _ in range(chance.randrange(1, 6)):
            mangled[chance.randrange(len(mangled))] = chance.randrange(256)
        path.write_bytes(mangled[: len(mangled) - chance.choice([0, 0, 7, 300])])
        try:
            package.read(path)
        except EdgewiseError as refused:
            told.add(str(refused))
    assert len(told) > 3
    assert all(one.startswith(f"{path}: ") and "\n" not in one for one in told)


def test_a_file_that_unpacks_to_more_than_it_says_is_refused(tmp_path: Path) -> None:
    """A zip bomb whose list lies: what is unpacked ends where the list says."""
    path = tmp_path / "p.zip"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("imsmanifest.xml", " " * 60_000_000)
    raw = path.read_bytes()
    large, small = (n.to_bytes(4, "little") for n in (60_000_000, 100))
    path.write_bytes(raw.replace(large, small))
    with pytest.raises(EdgewiseError) as refused:
        package.read(path)
    assert str(refused.value) == (
        f"{path}: a package is a zip file: Bad CRC-32 for file 'imsmanifest.xml'"
    )


def test_zips_that_no_package_needs_are_refused(tmp_path: Path) -> None:
    path = tmp_path / "p.zip"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_BZIP2) as archive:
        archive.writestr("imsmanifest.xml", MANIFEST)
    with pytest.raises(EdgewiseError, match="compressed in a way that is not read"):
        package.read(path)
    with zipfile.ZipFile(path, "w") as archive, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        archive.writestr("imsmanifest.xml", MANIFEST)
        archive.writestr("imsmanifest.xml", MANIFEST)
    with pytest.raises(EdgewiseError, match="two files of the same name"):
        package.read(path)
    deep = "<a>" * 100_000 + "</a>" * 100_000
    zipped(path, {"imsmanifest.xml": deep})
    with pytest.raises(EdgewiseError, match="expected the manifest of a package"):
        package.read(path)


# ---------------------------------------------------------------------- the command


def test_a_package_is_imported_and_held_against_its_paper(
    edgewise: Edgewise, papers: Papers, tmp_path: Path
) -> None:
    path = tmp_path / "every-qti-2.1.zip"
    path.write_bytes(package.of_papers(papers, "2.1")[0])
    told = edgewise(
        *("import", str(path), "--paper", str(papers.path), "--qti", "3.0", "-o", str(tmp_path))
    )
    assert (told.code, told.err) == (0, "")
    assert told.out.splitlines()[0].split() == ["item", "marks", "asks", "for"]
    assert told.out.endswith(
        f"18 items of QTI 2.1; they are as they were packed.\nAll are as the paper makes them.\n"
        f"{tmp_path / 'every-qti-3.0.zip'}\n"
    )
    assert (tmp_path / "every-qti-3.0.zip").read_bytes() == package.of_papers(papers, "3.0")[0]


def test_what_was_changed_is_told(edgewise: Edgewise, papers: Papers, tmp_path: Path) -> None:
    path = tmp_path / "changed.zip"
    first, second, *others = made(papers)
    changed = [replace(first, prompt="?"), replace(second, identifier="paper-0-q1")]
    strange = replace(others[0], identifier="strange")
    path.write_bytes(package.packed([*changed, strange, *others[1:]], "3.0"))
    told = edgewise("import", str(path), "--paper", str(papers.path))
    assert told.code == 2
    assert told.err == (
        f"{path}: {first.identifier} is not as the paper makes it\n"
        f"{path}: 0 is no code of this paper: a letter is wrong, or the paper's circuit, operands"
        " or questions have changed since it was printed\n"
        f"{path}: strange is no question of a paper\n"
    )
    with zipfile.ZipFile(path, "a") as archive:
        archive.writestr("notes.txt", "by hand")
    assert "; other text is around them.\n" in edgewise("import", str(path)).out


def test_what_the_command_refuses(edgewise: Edgewise, papers: Papers, tmp_path: Path) -> None:
    path = tmp_path / "p.zip"
    path.write_bytes(package.of_papers(papers, "3.0")[0])
    assert edgewise("import", str(path), "-o", "x").err == "--out has no effect without --qti\n"
    assert edgewise("import", str(path), "--qti", "9").err == (
        "there is no version 9 of QTI here; there are 2.1 and 3.0\n"
    )
    found = json.loads(edgewise("import", str(path), "--json").out)
    assert (found["qti"], found["unchanged"], len(found["items"])) == ("3.0", True, 18)
