"""Gather the documents, a gallery of the catalogue and the API into build/site-source.

Run ``make docs``: Sphinx then makes a site of it. The gallery has a page for each design: its
figure, a run, what it costs, its laws, and a lesson with a stage; the example lessons are built
beside it. Everything in it is computed when the site is made.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from edgewise import catalogue, sheet
from edgewise.blueprint import Blueprint
from edgewise.errors import EdgewiseError
from edgewise.lesson import scaffold
from edgewise.progress import Progress
from edgewise.publish.html import page
from edgewise.study.cost import measure, models
from edgewise.study.cost.technology import number
from edgewise.study.laws import fit
from edgewise.trace import Trace
from scripts.contact_sheet import traced

ROOT: Final = Path(__file__).parents[1]
SOURCE: Final = ROOT / "src" / "edgewise"
OUT: Final = ROOT / "build" / "site-source"
PAGES: Final = ROOT / "build" / "site-pages" / "pages"
"""Lessons that are built; the site takes them as they are."""
WIDTH: Final = 80
MOST_ROWS: Final = 40
"""Rows of a run that a page shows."""
LAST: Final = 12
"""Up to which number of its first parameter a law is sought."""
GUIDES: Final = (
    "circuit-text", "lesson", "preview", "handout", "slides", "film", "choosing", "misconceptions",
    "proving", "comparing", "costs", "engines", "guests", "guest-part", "guest-design",
    "guest-block", "guest-misconception", "guest-cost-model", "guest-importer", "guest-publisher",
)  # fmt: skip
"""The documents in the order in which a newcomer reads them; any other comes behind them."""


def main() -> None:
    """Write the whole source of the site anew."""
    for folder in (OUT, PAGES):
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir(parents=True)
    guides = copy_documents()
    lessons = build_lessons()
    with Progress("designs") as progress:
        for done, name in enumerate(catalogue.ORDER, 1):
            write_design(catalogue.find(name))
            progress(done, len(catalogue.ORDER))
    write_gallery()
    write_api()
    write_index(guides, lessons)


# ---------------------------------------------------------------------- documents


def copy_documents() -> list[str]:
    """Copy what is written by hand; links between the documents stay as they are."""
    found = {path.stem: path for path in sorted((ROOT / "docs").glob("*.md"))}
    names = [name for name in GUIDES if name in found] + [n for n in found if n not in GUIDES]
    for name in names:
        shutil.copy(found[name], OUT / f"{name}.md")
    for path in (ROOT / "docs").glob("*.svg"):
        shutil.copy(path, OUT)
    shutil.copytree(ROOT / "docs" / "figures", OUT / "figures")
    (OUT / "figures" / "README.md").rename(OUT / "figures" / "index.md")
    for name in ("CHANGELOG", "CONTRIBUTING"):
        text = (ROOT / f"{name}.md").read_text("utf-8")
        (OUT / f"{name.lower()}.md").write_text(text, "utf-8")
    return names


def build_lessons() -> list[tuple[str, str]]:
    """The example lessons as pages: file name and title."""
    found = []
    for path in sorted((ROOT / "examples").glob("*.md")):
        page.build(path, PAGES)
        title = re.search(r"^title: *(.+)$", path.read_text("utf-8"), re.MULTILINE)
        found.append((f"{path.stem}.html", title[1].strip("\"'") if title else path.stem))
    return found


def write_index(guides: list[str], lessons: list[tuple[str, str]]) -> None:
    """The first page: the README, the example lessons, and the way to all others."""
    readme = (ROOT / "README.md").read_text("utf-8")
    readme = readme.replace("](docs/", "](").replace("figures/README.md", "figures/index.md")
    readme = readme.replace("](CONTRIBUTING.md)", "](contributing.md)")
    readme = readme.replace("](CHANGELOG.md)", "](changelog.md)")
    # Files of the repository that are no pages of the site.
    readme = re.sub(r"\[([^]]+)\]\((?:LICENSE|src/[^)]+)\)", r"\1", readme)
    listed = "\n".join(f'<li><a href="pages/{file}">{title}</a></li>' for file, title in lessons)
    tree = "\n".join([*guides, "gallery/index", "figures/index", "api/index", "changelog"])
    (OUT / "index.md").write_text(
        f"{readme}\n## Example lessons\n\n<ul>\n{listed}\n</ul>\n\n"
        f"```{{toctree}}\n:hidden:\n:maxdepth: 1\n\n{tree}\ncontributing\n```\n",
        "utf-8",
    )


# ---------------------------------------------------------------------- gallery


def write_design(blueprint: Blueprint) -> None:
    """The page of one design, and a lesson about it with a stage."""
    folder = OUT / "gallery"
    folder.mkdir(exist_ok=True)
    name = blueprint.name
    trace = traced(name)
    row = max(trace.edges - 2, 0)
    page.build(first_lesson(blueprint), PAGES)
    after = f"After edge {row}" if trace.edges else "With its operands"
    told = [
        f"# {begun(blueprint.title)}",
        "",
        f"{begun(blueprint.about)}.",
        "",
        f"![{blueprint.title}](../figures/{name}.svg)",
        "",
        f"{after}, with {', '.join(f'{k} = {v}' for k, v in trace.operands.items())}.",
        f'<a href="../pages/{name}.html">Step through it on a stage, and try other numbers.</a>',
        "",
        *section("What it is", sheet.text(blueprint, trace.design, WIDTH)),
        *section("The run", run_of(trace)),
        *section("Laws", "\n\n".join(laws_of(blueprint))),
        *costs_of(trace),
    ]
    (folder / f"{name}.md").write_text("\n".join(told) + "\n", "utf-8")


def begun(text: str) -> str:
    """A text that begins a line, or a heading."""
    return text[:1].upper() + text[1:]


def section(title: str, text: str) -> list[str]:
    """A heading and a text that keeps its lines."""
    return [f"## {title}", "", "```text", text.rstrip(), "```", ""] if text else []


def first_lesson(blueprint: Blueprint) -> Path:
    """A lesson as ``edgewise new`` writes it."""
    path = ROOT / "build" / "site-lessons" / f"{blueprint.name}.md"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.unlink(missing_ok=True)
    return scaffold.write(path, blueprint, blueprint.name)


def run_of(trace: Trace) -> str:
    """The rows of a run that has edges, the first of a long one."""
    if not trace.edges:
        return ""
    return trace.text(rows=range(min(trace.edges, MOST_ROWS) + 1))


def laws_of(blueprint: Blueprint) -> Iterator[str]:
    """Each law of the first parameter that is found."""
    first = blueprint.parameters[0].name
    for quantity in fit.QUANTITIES:
        for low in (1, 2, 3):
            try:
                law = fit.find(blueprint, quantity, {first: (low, LAST)})
            except EdgewiseError:
                continue  # there is no design so small
            if law.text:
                yield str(law)
                break


def costs_of(trace: Trace) -> list[str]:
    """Area, clock period and time of one result in each model, for the size of the figure."""
    lines = [
        "## What it costs",
        "",
        "| model | area | clock period | time of one result |",
        "|---|--:|--:|--:|",
    ]
    for model in models.technologies():
        found = measure.of(trace.design, model)
        period, time = (
            "–" if one is None else f"{number(one)} {model.time_unit}"
            for one in (found.period, found.time)
        )
        area = f"{number(found.area)} {model.area_unit}"
        lines.append(f"| {model.name} | {area} | {period} | {time} |")
    return [*lines, "", "[What the models count.](../costs.md)"]


def write_gallery() -> None:
    """All designs, group by group: figure, name, and what each does."""
    lines = ["# Gallery", ""]
    for group, names in catalogue.GROUPS.items():
        shown = [catalogue.find(name) for name in names if name in catalogue.ORDER]
        lines += [f"## {begun(group)}", ""] if shown else []
        for one in shown:
            lines += [
                f"### [{begun(one.title)}]({one.name}.md)",
                "",
                f"{begun(one.about)}.",
                "",
                f"```{{image}} ../figures/{one.name}.svg",
                f":alt: {one.title}",
                f":target: {one.name}.html",
                ":width: 24rem",
                "```",
                "",
            ]
    items = "\n".join(catalogue.ORDER)
    lines.append(f"```{{toctree}}\n:hidden:\n\n{items}\n```\n")
    (OUT / "gallery" / "index.md").write_text("\n".join(lines), "utf-8")


# ---------------------------------------------------------------------- API


def write_api() -> None:
    """A page for each room, with everything public in it."""
    folder = OUT / "api"
    folder.mkdir()
    rooms: dict[str, list[str]] = {}
    for file in sorted(SOURCE.rglob("*.py")):
        parts = ["edgewise", *file.relative_to(SOURCE).with_suffix("").parts]
        if parts[-1] == "__main__":
            continue
        module = ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
        room = ".".join(module.split(".")[:2]) if len(parts) > 2 else "edgewise"
        rooms.setdefault(room, []).append(module)
    for room, modules in rooms.items():
        text = [f"# {room}", ""]
        for module in modules:
            text += [f"## {module}", "", "```{eval-rst}", f".. automodule:: {module}", "```", ""]
        (folder / f"{room}.md").write_text("\n".join(text), "utf-8")
    tree = "\n".join(rooms)
    (folder / "index.md").write_text(
        "# Python API\n\nEverything public, room by room, from the docstrings; their examples are"
        f" run by the tests.\n\n```{{toctree}}\n:maxdepth: 1\n\n{tree}\n```\n",
        "utf-8",
    )


if __name__ == "__main__":
    main()
