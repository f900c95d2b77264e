"""Papers, written in one run: PDF and page of papers and solutions, key, and file of answers."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TypeAlias

from edgewise.errors import EdgewiseError, nearest
from edgewise.practice import answer_file
from edgewise.practice.paper import Papers
from edgewise.publish import output
from edgewise.publish.handout import papers as printed
from edgewise.publish.handout.pdf import PAPERS
from edgewise.publish.html import papers as pages

Progress: TypeAlias = Callable[[int, int], None]


def build(
    papers: Papers, out: Path, *, paper: str = "a4", progress: Progress | None = None
) -> tuple[Path, ...]:
    """Write everything of some papers.

    Parameters
    ----------
    papers : Papers
    out : Path
        Folder; made if need be.
    paper : {"a4", "letter"}
    progress : function, optional
        Is told (files made, files in all).

    Returns
    -------
    tuple of Path
        ``NAME-papers.pdf``, ``NAME-key.pdf``, ``NAME-solutions.pdf``, ``NAME-papers.html``,
        ``NAME-solutions.html``, ``NAME-answers.csv``.

    Raises
    ------
    EdgewiseError
        What can't be printed or written; nothing is written unless all could be made.
    """
    if paper not in PAPERS:
        close = nearest(paper, PAPERS)
        known = close if close.startswith("; did") else f"; papers are {' or '.join(PAPERS)}"
        raise EdgewiseError(f"there is no paper {paper}{known}")
    made: list[tuple[str, str | bytes]] = []
    for name, content in _contents(papers, paper):
        made.append((name, content))
        if progress is not None:
            progress(len(made), len(printed.WHATS) + 3)
    stem = papers.path.stem
    return tuple(output.write(out / f"{stem}-{name}", content) for name, content in made)


def _contents(papers: Papers, paper: str) -> Iterator[tuple[str, str | bytes]]:
    for what, content in printed.sheets(papers, paper):
        yield f"{what}.pdf", content
    yield "papers.html", pages.html_of(papers)
    yield "solutions.html", pages.html_of(papers, solving=True)
    yield "answers.csv", answer_file.answers(papers)
