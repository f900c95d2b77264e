"""Submissions judged in a second, and the catalogue's exported HDL read back and proved equal.

Run it as ``python benchmarks/verify.py``. The budget: 200 submissions of the serial adder in under
60 s on two cores.
"""

from __future__ import annotations

import shutil
import tempfile
import time
from collections import Counter
from pathlib import Path

from edgewise import catalogue
from edgewise.errors import EdgewiseError
from edgewise.lab.export import description
from edgewise.lab.judging.submission import judge
from edgewise.lab.judging.verdict import named
from edgewise.lab.judging.warden import judged
from edgewise.study.cost.sweep import workplace

SUBMISSIONS = 200
WRONG = (("C <= FA_carry_out", "C <= FA_carry_out | C"), ("carry_in(C)", "carry_in(1'b0)"))


def exported(folder: Path) -> None:
    """Each design of the catalogue, written and judged against itself."""
    languages = [("systemverilog", ".sv")]
    if shutil.which("ghdl"):
        languages.append(("vhdl", ".vhd"))
    for name in catalogue.names():
        plan = catalogue.find(name)
        design = plan.design()
        for language, suffix in languages:
            path = folder / f"{name}{suffix}"
            text, _ = description(plan, design, language)
            path.write_text(text, "utf-8")
            try:
                verdict = judge(path, design)
                if verdict.outcome != "right":
                    print(*verdict.sentences(), sep="\n")
            except EdgewiseError as wrong:
                print(f"{name}{suffix}: {wrong}")


def many(folder: Path) -> None:
    """Two hundred of the serial adder, a third of them right."""
    plan = catalogue.find("serial-adder")
    design = plan.design()
    text, _ = description(plan, design, "systemverilog")
    paths = []
    for number in range(SUBMISSIONS):
        path = folder / f"s{number:03}.sv"
        old, new = ("", "") if number % 3 == 2 else WRONG[number % 3]
        path.write_text(text.replace(old, new) if old else text, "utf-8")
        paths.append(path)
    began = time.perf_counter()
    verdicts = judged(paths, design, workplace(2))
    told = Counter((one.outcome, named(one.explanations)) for one in verdicts)
    print(f"{SUBMISSIONS} submissions in {time.perf_counter() - began:.1f} s: {dict(told)}")


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as made:
        exported(Path(made))
    with tempfile.TemporaryDirectory() as made:
        many(Path(made))
