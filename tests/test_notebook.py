"""A run or a design at the end of a notebook cell shows its figure by itself."""

from __future__ import annotations

import subprocess
import sys
from typing import Final

from edgewise import catalogue, notebook, run

CELLS: Final = """
from IPython.core.interactiveshell import InteractiveShell
shell = InteractiveShell.instance()
import edgewise
trace = edgewise.run(edgewise.catalogue.design("serial-adder", n=4), a=6, b=3)
shown, _ = shell.display_formatter.format(trace)
assert shown["image/svg+xml"].startswith("<svg"), shown
assert "<table" in shown["text/html"]
shown, _ = shell.display_formatter.format(trace.design)
assert shown["image/svg+xml"].startswith("<svg")
print("shown")
"""


def test_ipython_shows_runs_and_designs() -> None:
    done = subprocess.run(
        [sys.executable, "-c", CELLS], capture_output=True, text=True, check=False, timeout=60
    )
    assert (done.stdout, done.stderr) == ("shown\n", "")


def test_without_a_notebook_nothing_is_registered() -> None:
    assert notebook.register() is False


def test_the_figure_of_a_design_knows_no_operand() -> None:
    svg = notebook.design_svg(catalogue.design("ripple-carry-adder", n=2))
    assert "a is unknown" in svg
    assert "a is 10 (2)" in notebook.trace_svg(
        run(catalogue.design("ripple-carry-adder", n=2), a=2, b=1, carry_in=0)
    )
