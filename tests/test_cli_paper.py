"""The command paper: what it prints and writes, every error whole."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

from tests.conftest import Edgewise

EXAMPLE = Path(__file__).parents[1] / "examples" / "three-gauges-paper.md"


def test_it_says_how_equal_the_papers_are(edgewise: Edgewise, tmp_path: Path) -> None:
    out, err, code = edgewise("paper", str(EXAMPLE), "--variants", "2", "-o", str(tmp_path))
    assert (err, code) == ("", 0)
    assert out.startswith("2 papers of 6 questions, 17 marks each, seed 1: ")
    assert "There are 70 variants as equal as that, no run twice." in out
    written = [Path(line) for line in out.splitlines() if line.startswith(str(tmp_path))]
    assert len(written) == 7
    assert all(path.exists() for path in written)


def test_json_has_every_answer(edgewise: Edgewise, tmp_path: Path) -> None:
    out, _, code = edgewise(
        "paper", str(EXAMPLE), "--variants", "2", "--seed", "9", "--json", "-o", str(tmp_path)
    )
    told = json.loads(out)
    assert code == 0
    assert (told["seed"], told["equality"]["kind"], len(told["files"])) == (9, "alike", 7)
    assert [len(one["questions"]) for one in told["papers"]] == [6, 6]
    first = told["papers"][0]
    total = sum(first["operands"].values())
    assert first["questions"][2]["answers"] == {"q3": f"{total % 64:06b}"}


def test_a_single_paper_says_no_more_than_it_can(edgewise: Edgewise, tmp_path: Path) -> None:
    out, _, _ = edgewise("paper", str(EXAMPLE), "-o", str(tmp_path))
    assert out.startswith("1 paper of 6 questions")
    assert "Equal in all" not in out


def test_errors_are_told_and_nothing_is_written(edgewise: Edgewise, tmp_path: Path) -> None:
    out = tmp_path / "out"
    path = tmp_path / "paper.md"
    shutil.copy(EXAMPLE, path)
    told = edgewise("paper", str(path), "--variants", "900", "-o", str(out))
    assert told == (
        "",
        f"{path}: there are only 202 equally hard variants of this paper, 900 are asked for; take"
        " wider operands, or fewer questions about one run\n",
        2,
    )
    told = edgewise("paper", str(path), "--paper", "a3", "-o", str(out))
    assert told == ("", "there is no paper a3; papers are a4 or letter\n", 2)
    path.write_text(path.read_text("utf-8").replace("carry-too-far", "carry-to-far"), "utf-8")
    _, err, code = edgewise("paper", str(path), "-o", str(out))
    assert (err, code) == (
        f"{path}:32:1: there is no misconception carry-to-far; did you mean carry-too-far?\n",
        2,
    )
    assert edgewise("paper", str(tmp_path / "none.md"))[2] == 2
    assert not out.exists()


def test_the_name_of_a_file_is_no_folder(edgewise: Edgewise, tmp_path: Path) -> None:
    out = tmp_path / "exam" / "x.pdf"
    assert edgewise("paper", str(EXAMPLE), "-o", str(out)).err == (
        f"{out} is the name of a file; -o names a folder, and what is made in it is called after"
        f" its paper: -o {out.parent}\n"
    )
    assert not out.parent.exists()
    (tmp_path / "taken").touch()
    answer = edgewise("paper", str(EXAMPLE), "-o", str(tmp_path / "taken"))
    assert answer.err == f"{tmp_path / 'taken'} is not a folder; name a folder with -o\n"
