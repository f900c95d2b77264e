"""Judge the HDL of the whole catalogue, at two sizes, with verilator, right and with a fault.

It makes a program in C++ of each bench, which takes some seconds; the other judges, which are
quicker, are in tests/lab/test_hdl.py. Some designs: name them behind
``PYTHONPATH=.:src python scripts/judge_hdl.py``.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from edgewise import catalogue
from edgewise.lab import export
from tests.lab import judges
from tests.lab.runs import sizes, some_run
from tests.lab.test_hdl import seeded


def main() -> int:
    """The number of benches that did not say what they should."""
    wrong = 0
    for name in sys.argv[1:] or catalogue.ORDER:
        one = catalogue.find(name)
        for numbers in sizes(one):
            run = some_run(one.design(numbers))
            text, bench = export.description(one, run.design, "systemverilog", run, with_laws=True)
            output = next(iter(run.design.netlist.outputs))
            faulty = seeded(text, output, "systemverilog")
            for what, description, fails in (("right", text, False), ("seeded", faulty, True)):
                with tempfile.TemporaryDirectory() as folder:
                    verdict = judges.two_state(Path(folder), description, bench)
                as_it_should = ("FAIL: " if fails else "PASS") in verdict.said
                wrong += not as_it_should
                print(name, numbers, what, "ok" if as_it_should else verdict.said, flush=True)
    return wrong


if __name__ == "__main__":
    sys.exit(main())
