"""Papers, written in one run: PDF and page of papers and solutions, key, and file of answers."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import TypeAlias

from edgewise.errors import EdgewiseError, Message
from edgewise.listing import both
from edgewise.practice import answer_file
from edgewise.practice.paper import Papers
from edgewise.publish import output
from edgewise.publish.handout import papers as printed
from edgewise.publish.handout.pdf import check_paper
from edgewise.publish.html import papers as pages
from edgewise.publish.qti import package
from edgewise.publish.qti.markup import NAMESPACES, Version

Progress: TypeAlias = Callable[[int, int], None]


def build(
    papers: Papers,
    out: Path,
    *,
    paper: str = "a4",
    qti: str = "",
    progress: Progress | None = None,
) -> tuple[Path, ...]:
    """Write everything of some papers.

    Parameters
    ----------
    papers : Papers
    out : Path
        Folder; made if need be.
    paper : {"a4", "letter"}
    qti : str
        ``2.1`` or ``3.0`` for a package for course platforms besides.
    progress : function, optional
        Is told (files made, files in all).

    Returns
    -------
    tuple of Path
        ``NAME-papers.pdf``, ``NAME-key.pdf``, ``NAME-solutions.pdf``, ``NAME-papers.html``,
        ``NAME-solutions.html``, ``NAME-answers.csv``; ``NAME-qti-3.0.zip``.

    Raises
    ------
    EdgewiseError
        What can't be printed or written; nothing is written unless all could be made.
    """
    check_paper(paper, "papers")
    version = version_of(qti) if qti else None
    made: list[tuple[str, str | bytes]] = []
    for name, content in _contents(papers, paper, version):
        made.append((name, content))
        if progress is not None:
            progress(len(made), 2 * len(printed.WHATS) + 1 + (version is not None))
    stem = papers.path.stem
    return tuple(output.write(out / f"{stem}-{name}", content) for name, content in made)


def version_of(text: str) -> Version:
    """A version of QTI by its number.

    Raises
    ------
    EdgewiseError
        It is none that is written here.

    Examples
    --------
    >>> version_of("3.0")
    '3.0'
    """
    for version in NAMESPACES:
        if text == version:
            return version
    raise EdgewiseError(Message("qti-version", found=text[:40], known=both(NAMESPACES)))


def _contents(
    papers: Papers, paper: str, version: Version | None
) -> Iterator[tuple[str, str | bytes]]:
    with ThreadPoolExecutor(max_workers=1) as pool:
        sheets = tuple(printed.sheets(papers, paper, pool))
        others: list[tuple[str, str | bytes]] = [
            *((f"{what}.html", pages.html_of(papers, what)) for what in printed.WHATS),
            ("answers.csv", answer_file.answers(papers)),
        ]
        if version is not None:
            others.append((f"qti-{version}.zip", package.of_papers(papers, version)[0]))
        for what, promised in sheets:
            yield f"{what}.pdf", promised()
        yield from others
