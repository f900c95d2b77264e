"""The film as a whole: what is written, what is kept, what goes wrong."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from edgewise import lesson
from edgewise.errors import EdgewiseError
from edgewise.lesson.picking import Note
from edgewise.publish.film import build as films
from edgewise.publish.film import script
from edgewise.publish.film.build import Made, Manner, build
from edgewise.publish.film.pace import Pace
from tests.conftest import Edgewise
from tests.publish.film.lessons import SHORT, TIDE

QUICK = Manner("720p", pace=Pace(words=300, pause=0))


def lesson_in(folder: Path, text: str = SHORT) -> Path:
    path = folder / "tide.md"
    path.write_text(text, "utf-8")
    return path


def refusal(folder: Path, out: str = "film.mp4", manner: Manner = QUICK, text: str = SHORT) -> str:
    with pytest.raises(EdgewiseError) as wrong:
        build(lesson_in(folder, text), folder / out, manner)
    return str(wrong.value).replace(str(folder), ".")


@pytest.fixture(scope="module")
def short(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Made]:
    folder = tmp_path_factory.mktemp("film")
    return folder, build(lesson_in(folder), folder / "film.mp4", QUICK)


def test_captions_chapters_descriptions_transcript_and_times_stand_beside(
    short: tuple[Path, Made],
) -> None:
    folder, made = short
    names = [path.name for path in made.written]
    assert names == [
        "film.mp4",
        "film.vtt",
        "film.chapters.vtt",
        "film.descriptions.vtt",
        "film.html",
        "film.times",
    ]
    assert sorted(path.name for path in folder.iterdir()) == sorted([*names, "tide.md"])


def test_the_same_lesson_gives_the_same_bytes(short: tuple[Path, Made], tmp_path: Path) -> None:
    again = build(lesson_in(tmp_path), tmp_path / "film.mp4", QUICK)
    for first, second in zip(short[1].written, again.written, strict=True):
        assert first.read_bytes() == second.read_bytes(), first.name


def test_times_that_were_written_are_kept_when_an_operand_changes(tmp_path: Path) -> None:
    path, out = lesson_in(tmp_path), tmp_path / "film.mp4"
    first = build(path, out, QUICK)
    times = out.with_suffix(".times")
    lines = times.read_text().splitlines()
    assert lines[-2].split()[2:] == ["2", "Look."]
    lines[-2] = lines[-2].replace(lines[-2].split()[0], "5.5", 1)
    times.write_text("\n".join(lines))
    path.write_text(SHORT.replace("a: 2", "a: 3"))
    second = build(path, out, QUICK)
    before = float(lines[-2].split()[1])
    assert second.seconds == pytest.approx(first.seconds + 5.5 - before, abs=1 / 30)
    assert times.read_text().splitlines()[-2].split()[:2] == ["5.50", f"{before:.2f}"]


def test_a_time_of_a_step_that_is_gone_is_told(tmp_path: Path) -> None:
    path, notes = lesson_in(tmp_path), list[Note]()
    (tmp_path / "film.times").write_text("9 4 7 said\n")
    build(path, tmp_path / "film.mp4", QUICK, notes.append)
    told = [str(note).replace(str(tmp_path), ".") for note in notes if "step 7" in note.text]
    assert told == [
        "./film.times:1: warning: there is no step 7 any more; its time of 9 s is left out"
    ]


def test_a_question_stands_at_the_row_before_it(tmp_path: Path) -> None:
    scenes = script.scenes(lesson.check(lesson_in(tmp_path, TIDE)))
    asked = next(scene for scene in scenes if scene.kind == "ask")
    assert (asked.label, asked.said) == ("4?", "What will C hold after edge 4?")
    assert asked.heading.startswith("After edge 3")
    assert (asked.shown and asked.shown.row, asked.chapter) == (3, "Add {of} them · add")


def test_script_and_film_keep_the_same_times(edgewise: Edgewise, tmp_path: Path) -> None:
    path, times = lesson_in(tmp_path), tmp_path / "mine.times"
    times.write_text("7.5 4 title\n2 4 2\n9 4 7\n")
    said = edgewise("film", str(path), "--script", "--times", str(times))
    assert said.out.splitlines()[:2] == ["   0:07  2      Look.", "   0:09  3      –"]
    assert said.err.replace(str(tmp_path), ".").splitlines() == [
        "./mine.times:3: warning: there is no step 7 any more; its time of 9 s is left out"
    ]
    made = build(path, tmp_path / "film.mp4", replace(QUICK, times=times))
    assert times in made.written
    kept = [line.split()[:3:2] for line in times.read_text().splitlines()[3:5]]
    assert kept == [["7.50", "title"], ["2.00", "2"]]


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("x", "found x, expected seconds, computed seconds and a step, as in 6.4 6.4 7"),
        ("a 4 7", "found a, expected seconds from 0.2 to 3600, such as 6.4"),
        ("0.1 4 7", "found 0.1, expected seconds from 0.2 to 3600, such as 6.4"),
        ("1e3 4 7", "found 1e3, expected seconds from 0.2 to 3600, such as 6.4"),
    ],
)
def test_a_line_of_the_times_that_is_none_is_told_with_its_place(
    tmp_path: Path, line: str, told: str
) -> None:
    (tmp_path / "film.times").write_text(f"# times\n\n{line}\n")
    assert refusal(tmp_path) == f"./film.times:3: {told}"
    assert not (tmp_path / "film.mp4").exists()


def test_what_can_not_be_written_is_told(tmp_path: Path) -> None:
    expected = {
        "film.mov": "can't write ./film.mov: its name ends in .mov; a film is written as .mp4,"
        " or as .gif",
        "no/film.mp4": "can't write ./no/film.mp4: there is no folder ./no; make it first",
    }
    assert {out: refusal(tmp_path, out) for out in expected} == expected


def test_a_full_disk_leaves_what_was_there(tmp_path: Path) -> None:
    path, out = lesson_in(tmp_path), tmp_path / "film.mp4"
    out.write_bytes(b"the film of yesterday")
    limited = (
        "import resource, signal, sys; signal.signal(signal.SIGXFSZ, signal.SIG_IGN);"
        " resource.setrlimit(resource.RLIMIT_FSIZE, (20000, 20000));"
        f" sys.argv[1:] = ['film', {str(path)!r}, '-o', {str(out)!r}, '--size', '720p'];"
        " from edgewise.cli import main; main()"
    )
    ended = subprocess.run(
        [sys.executable, "-c", limited], capture_output=True, text=True, check=False
    )
    assert (ended.returncode, ended.stderr) == (2, f"{out}: can't be written: file too large\n")
    assert out.read_bytes() == b"the film of yesterday"
    assert sorted(one.name for one in tmp_path.iterdir()) == ["film.mp4", "tide.md"]


def test_what_is_stopped_leaves_nothing(tmp_path: Path) -> None:
    path, out = lesson_in(tmp_path), tmp_path / "film.mp4"

    def stop(done: int, total: int) -> None:
        if done > total // 2:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        build(path, out, QUICK, progress=stop)
    assert [one.name for one in tmp_path.iterdir()] == ["tide.md"]


@pytest.mark.parametrize("missing", ["av", "skia"])
def test_a_missing_library_is_told_in_one_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, missing: str
) -> None:
    monkeypatch.setitem(sys.modules, missing, None)
    told = "a film needs PyAV and skia-python; install them with: pip install edgewise[film]"
    assert refusal(tmp_path) == told


def test_a_gif_stands_as_long_as_the_film(tmp_path: Path) -> None:
    from PIL import Image

    made = build(lesson_in(tmp_path), tmp_path / "film.gif", QUICK)
    assert [path.name for path in made.written] == ["film.gif"]
    with Image.open(tmp_path / "film.gif") as shown:
        assert shown.size == (960, 540)
        lasted = 0
        for number in range(getattr(shown, "n_frames", 1)):
            shown.seek(number)
            lasted += shown.info["duration"]
    assert lasted == round(made.seconds * 1000)


def test_frames_are_numbered_pictures_one_for_each(tmp_path: Path) -> None:
    from PIL import Image

    folder = tmp_path / "frames"
    made = films.frames(lesson_in(tmp_path), folder, QUICK)
    names = sorted(path.name for path in folder.iterdir())
    assert names == [f"{number:06}.png" for number in range(round(made.seconds * 30))]
    with Image.open(folder / names[-1]) as shown:
        assert (shown.size, shown.convert("L").getpixel((2, 2))) == ((1280, 720), 255)
    with pytest.raises(EdgewiseError, match="is there already; the frames are written to a new"):
        films.frames(lesson_in(tmp_path), folder, QUICK)


def test_the_script_says_when_everything_is_said(edgewise: Edgewise, tmp_path: Path) -> None:
    said = edgewise("film", str(lesson_in(tmp_path, TIDE)), "--script")
    assert said.out.splitlines()[:4] == [
        "   0:03  0      At the start all registers are empty, and the carry is 0.",
        "   0:08  3      After three edges both words are in.",
        "   0:12  4?     What will C hold after edge 4?",
        "   0:20  4      1 + 1: the sum bit is 0, the carry > 0.",
    ]


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (["--size", "700"], "--size is 700; expected 720p, 1080p or 2160p"),
        (["--rate", "25"], "--rate is 25; expected 30 or 60"),
        (["--words", "20"], "20 words a minute is no pace; expected 60 to 300"),
        (["--pause", "99"], "a pause is 99 seconds; expected 0 to 30"),
        (["--cues", "x"], "--cues has no effect without --voice"),
        (["--script", "--rate", "60"], "--rate has no effect with --script"),
        (["--script", "--rehearse"], "--rehearse has no effect with --script"),
        (["--rehearse", "--voice", "a.wav"], "--voice has no effect with --rehearse"),
        (["--no-open"], "--open has no effect without --rehearse"),
        (
            ["--rehearse", "-o", "c.txt"],
            "can't write c.txt: its name ends in .txt; cues are written as .cues",
        ),
        (
            ["--script", "-o", "s.txt"],
            "can't write s.txt: its name ends in .txt; a script is written as .pdf",
        ),
        (
            ["--voice", "a.wav", "--voice-command", "b"],
            "--voice-command has no effect with --voice, which says the time itself",
        ),
        (
            ["--voice", "a.wav", "--times", "b.times"],
            "--times has no effect with --voice, which says the time itself",
        ),
        (
            ["-o", "x.gif", "--voice", "a.wav"],
            "--voice has no effect in a GIF, which has no sound and a size of its own",
        ),
        (["--frames", "d", "--voice-command", "b"], "--voice-command has no effect with --frames"),
    ],
)
def test_what_the_command_refuses(
    edgewise: Edgewise, tmp_path: Path, options: list[str], told: str
) -> None:
    answer = edgewise("film", str(lesson_in(tmp_path)), *options)
    assert (answer.code, answer.err.strip()) == (2, told)
