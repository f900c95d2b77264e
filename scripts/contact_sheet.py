"""Draw every figure of the catalogue into docs/figures, with a page that shows them all.

Run ``make figures``; the files there are made anew, and nothing else is
touched. Operands are made up, the same for every design.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Final

from edgewise import catalogue, lesson, run
from edgewise.engines.state_space import graph
from edgewise.study.cost.models import technology
from edgewise.study.inside import Manner, inside
from edgewise.trace import Trace
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.filmstrip import filmstrip
from edgewise.views.drawing.svg import Drawing, svg
from edgewise.views.states.state_diagram import state_diagram
from edgewise.views.table.edge_table import edge_table
from edgewise.views.timing.inside_diagram import inside_timing
from edgewise.views.timing.timing_diagram import timing
from scripts.markup_lines import one_a_line

# Text is drawn as outlines: a viewer of these pages need not have the fonts.

ROOT: Final = Path(__file__).parents[1]
FOLDER: Final = ROOT / "docs" / "figures"
# A bakery's two counters, and what comes in from outside.
NUMBERS: Final = {"a": 6, "b": 11, "w": 13, "carry_in": 1}
BITS: Final = 8


def traced(name: str, size: int = BITS) -> Trace:
    """A design of about `size` bits, run."""
    first = catalogue.find(name).parameters[0].name
    design = catalogue.design(name, **{first: size})
    numbers: dict[str, int | list[int]] = {}
    for operand in design.operands:
        base, family, _ = operand.name.partition("(")
        words = numbers.setdefault(base, [])
        if family and isinstance(words, list):
            words.append((NUMBERS.get(base, 1) + 3 * len(words)) % (1 << operand.width))
        else:
            numbers[base] = operand.number(NUMBERS.get(base, 1) % (1 << operand.width))
    return run(design, **numbers)


def figures() -> Iterator[tuple[str, str, Drawing]]:
    """File name, heading and drawing of each."""
    for name in catalogue.ORDER:
        trace = traced(name)
        row = max(trace.edges - 2, 0)
        yield name, catalogue.find(name).title, diagram(trace, row)
    adder, chain = traced("serial-adder"), traced("ripple-carry-adder", 16)
    yield "opened", "a part opened", diagram(adder, 6, open=["FA"], legend=True)
    rectangular = diagram(adder, 6, open=["FA"], symbols="rectangular")
    yield "rectangular", "rectangular symbols", rectangular
    yield "hidden-clock", "without the clock", diagram(adder, 6, clock="hidden")
    yield "clock-wires", "with the clock's wires", diagram(adder, 6, clock="wires")
    yield "folded", "a folded chain", diagram(chain)
    yield "filmstrip", "filmstrip", filmstrip(adder, range(4, 9), clock="hidden", across=2)
    yield "timing", "timing diagram", timing(adder, legend=True)
    yield "edge-table", "edge table", edge_table(adder, legend=True)
    counter = traced("modulo-counter", 5)
    yield from inside_figures()
    yield "states", "state diagram", state_diagram(counter, graph(counter.design), 3)


def inside_figures() -> Iterator[tuple[str, str, Drawing]]:
    """What happens inside clock periods."""
    adder = run(catalogue.design("serial-adder", n=6), a=22, b=43)
    sums = ["C", "FA.sum", "FA.carry-out", "S"]
    yield "inside", "inside clock periods", inside_timing(inside(adder, 8, 9), sums)
    belt = lesson.check(ROOT / "examples" / "cooling-belt.md").trace
    gated = inside(belt, 2, 4, Manner(technology("74hc"), when={"shift": Fraction(14)}))
    names = ["shift", "gate.out", "G", "E"]
    yield "gated-clock", "a false edge and a cut pulse", inside_timing(gated, names)
    shifted = run(catalogue.design("serial-in-serial-out", n=4), w=0b0101)
    late = inside(shifted, 3, 4, Manner(late={"R(0)": Fraction(9)}))
    yield "skew", "a late clock loses a bit", inside_timing(late, ["R(2)", "R(1)", "R(0)"])
    fast = inside(adder, 8, 9, Manner(technology("74hc"), Fraction(36)))
    yield "too-fast", "a clock that is too fast", inside_timing(fast, sums)


def tour() -> Iterator[tuple[str, Drawing]]:
    """File name and drawing of the pictures in the README."""
    trace = run(catalogue.design("serial-adder", n=6), a=22, b=43)
    yield "tour-diagram", diagram(trace, 8, legend=True)
    yield "tour-timing", timing(trace, ["A", "B", "FA.sum", "C", "S"], range(6, 13))


def write(name: str, drawing: Drawing) -> None:
    """One figure, its text as outlines."""
    text = one_a_line(svg(drawing, outlined=True))
    (FOLDER / f"{name}.svg").write_text(text, encoding="utf-8")


def main() -> None:
    """Write the figures and the page."""
    FOLDER.mkdir(parents=True, exist_ok=True)
    for old in FOLDER.glob("*.svg"):
        old.unlink()
    page = [
        "# Every figure of the catalogue",
        "",
        "Made by `make figures`: each design at about 8 bits, where rivals differ, two edges",
        "before the end of its run, and below the other figures and manners of drawing.",
        "",
    ]
    for name, heading, drawing in figures():
        write(name, drawing)
        page += [f"## {heading}", "", f"![{drawing.title}]({name}.svg)", ""]
    for name, drawing in tour():
        write(name, drawing)
    (FOLDER / "README.md").write_text("\n".join(page), encoding="utf-8")
    print(f"wrote {len(list(FOLDER.glob('*.svg')))} figures into {FOLDER.relative_to(ROOT)}")


if __name__ == "__main__":
    main()
