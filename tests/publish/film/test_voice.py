"""A film that follows a voice: pauses found, cues given, a draft voice spoken."""

from __future__ import annotations

import math
import random
import shutil
import sys
import wave
from array import array
from collections.abc import Sequence
from itertools import accumulate
from pathlib import Path

import pytest

from edgewise.errors import EdgewiseError
from edgewise.lesson.picking import Note
from edgewise.publish.film import sound, speech, voice
from edgewise.publish.film.build import Manner, build
from edgewise.publish.film.pace import Pace
from edgewise.publish.film.transcript import minutes
from tests.publish.film.lessons import TIDE

RATE = 8000


def recorded(path: Path, parts: Sequence[tuple[float, float]], seed: int = 1) -> Path:
    """A recording of speech-like noise: seconds of it, and of silence behind it."""
    rough = random.Random(seed)  # noqa: S311  # a recording, no secret
    samples = array("h")
    for spoken, silent in parts:
        for number in range(round(spoken * RATE)):
            loud = 0.3 + 0.7 * abs(math.sin(number / RATE * 9))
            samples.append(round(rough.uniform(-9000, 9000) * loud))
        samples.extend(round(rough.uniform(-20, 20)) for _ in range(round(silent * RATE)))
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes(samples.tobytes())
    return path


@pytest.mark.parametrize("speed", [0.6, 1.0, 1.7])
def test_scenes_are_found_at_any_speed(tmp_path: Path, speed: float) -> None:
    lengths = [4.0, 7.0, 3.0, 9.0, 5.0]
    parts = [(length * speed, 0.8) for length in lengths]
    path = recorded(tmp_path / "talk.wav", parts)
    found = voice.follow(path, [length + 0.7 for length in lengths])
    begun = list(accumulate((spoken + silent for spoken, silent in parts), initial=0.0))
    assert found.starts == pytest.approx(begun[:-1], abs=0.05)
    assert found.lost == ()


def test_pauses_within_a_scene_are_not_taken_for_those_between(tmp_path: Path) -> None:
    parts = [(3.0, 0.4), (3.0, 0.9), (4.0, 0.9), (2.0, 0.4), (5.0, 0.9)]
    path = recorded(tmp_path / "talk.wav", parts)
    assert voice.follow(path, [6.4, 4.0, 7.4]).starts == pytest.approx((0, 7.3, 12.2), abs=0.05)


def test_a_scene_without_a_pause_is_told_and_gets_its_part(tmp_path: Path) -> None:
    path = recorded(tmp_path / "talk.wav", [(4.0, 0.8), (8.0, 0.8), (4.0, 0.8)])
    found = voice.follow(path, [4.7, 4.7, 4.0, 4.7])
    assert found.lost == (2,)
    assert found.starts[1] == pytest.approx(4.8, abs=0.05)
    assert 8.5 < found.starts[2] < 10.5
    assert found.starts[3] == pytest.approx(13.6, abs=0.05)


def test_a_silent_recording_is_refused(tmp_path: Path) -> None:
    path = recorded(tmp_path / "talk.wav", [(0.0, 3.0)])
    with pytest.raises(EdgewiseError, match="is silent; nothing can follow it"):
        voice.follow(path, [1.0, 1.0])


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("0\nx\n", "c:2: found x, expected a time such as 12.5 or 1:02.5"),
        ("0\n5\n4\n", "c:3: 4 is not behind the time before it"),
        ("0\n99\n", "c:2: 99 lies behind the end of the recording, 20.0 seconds"),
        ("0\n5\n", "c: 2 times for 3 steps; there is one time a step"),
        (
            "+0\n5\n9\n",
            "c:2: some times have a plus and some have none; all count from the same moment",
        ),
    ],
)
def test_what_is_wrong_with_cues(text: str, told: str) -> None:
    with pytest.raises(EdgewiseError) as wrong:
        voice.read_cues(text, "c", 20.0, 3)
    assert str(wrong.value) == told


def film(folder: Path, manner: Manner, notes: list[Note] | None = None) -> list[str]:
    """The times at which the scenes of the film begin, as its page says them."""
    path = folder / "tide.md"
    path.write_text(TIDE, "utf-8")
    build(path, folder / "film.mp4", manner, None if notes is None else notes.append)
    page = (folder / "film.html").read_text("utf-8")
    return [part.partition('">')[0] for part in page.split("#t=")[1:]]


def test_the_film_follows_cues(tmp_path: Path) -> None:
    talk = recorded(tmp_path / "talk.wav", [(8.0, 0.0)])
    cues = tmp_path / "talk.cues"
    cues.write_text("0 start\n1.5\n3\n0:04.2\n6\n7\n")
    starts = film(tmp_path, Manner("720p", voice=talk, cues=cues))
    # The title is silent for three seconds, then the recording begins.
    assert starts == ["0.00", "3.00", "4.50", "6.00", "7.20", "9.00", "10.00"]
    assert not (tmp_path / "film.times").exists()


def test_cues_of_a_rehearsal_count_from_the_first_word(tmp_path: Path) -> None:
    talk = recorded(tmp_path / "talk.wav", [(0.0, 1.5), (4.0, 0.5), (4.0, 0.0)])
    cues = tmp_path / "talk.cues"
    cues.write_text("+0.000  0\n+4.500  3\n")
    followed = voice.cues(cues, talk, 2)
    assert followed.starts == pytest.approx((0.0, 6.0), abs=0.05)
    assert followed.length == pytest.approx(10.0, abs=0.02)


def test_the_film_says_where_it_could_not_follow(tmp_path: Path) -> None:
    talk, notes = recorded(tmp_path / "talk.wav", [(12.0, 0.0)]), list[Note]()
    film(tmp_path, Manner("720p", voice=talk), notes)
    told = [note.text for note in notes if "no pause" in note.text]
    assert [text.partition(";")[0] for text in told] == [
        f"no pause was found before step {label}" for label in ("3", "4?", "4", "5")
    ]


def test_a_draft_voice_says_how_long_each_scene_is(tmp_path: Path) -> None:
    # A program of our own that speaks for a tenth of a second a letter.
    program = tmp_path / "speak.py"
    program.write_text(
        "import sys, wave\n"
        "text = sys.stdin.read()\n"
        "with wave.open(sys.stdout.buffer, 'wb') as out:\n"
        "    out.setnchannels(1); out.setsampwidth(2); out.setframerate(8000)\n"
        "    out.writeframes(b'\\x00\\x10\\x00\\xf0' * 400 * len(text))\n"
    )
    command = f"{sys.executable} {program}"
    manner = Manner("720p", pace=Pace(pause=0.5), command=command)
    starts = [float(start) for start in film(tmp_path, manner)]
    said = "At the start all registers are empty, and the carry is 0."
    assert starts[2] - starts[1] == pytest.approx(0.1 * len(said) + 0.5, abs=1 / 30)


def test_all_voices_have_one_level() -> None:
    levels = []
    for loud in (600, 6000, 30000):
        tone = array("h", [round(loud * math.sin(n / 9)) for n in range(9600)]).tobytes()
        matched = memoryview(sound.matched(tone)).cast("h").tolist()
        levels.append((sum(v * v for v in matched) / len(matched)) ** 0.5)
    assert max(levels) / min(levels) == pytest.approx(1, abs=0.03)
    assert levels[0] == pytest.approx(32768 / 10, rel=0.03)  # 20 dB below full scale


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ("'x", "--voice-command: 'x: no closing quotation"),
        (" ", "--voice-command is empty; expected a program, such as espeak-ng"),
        ("no-such-voice", "--voice-command: there is no program no-such-voice on this machine"),
    ],
)
def test_a_command_that_is_none(given: str, told: str) -> None:
    with pytest.raises(EdgewiseError) as wrong:
        speech.command(given, 140, "en")
    assert str(wrong.value) == told


@pytest.mark.parametrize(
    ("code", "told"),
    [
        ("raise SystemExit('no voice')", "PYTHON ended with code 1: no voice"),
        (
            "pass",
            "PYTHON wrote no sound; a voice command reads a text from its standard input and"
            " writes a WAV to its standard output",
        ),
    ],
)
def test_a_command_that_fails(tmp_path: Path, code: str, told: str) -> None:
    with pytest.raises(EdgewiseError) as wrong:
        speech.spoken((sys.executable, "-c", code), ["Good morning."], tmp_path)
    assert str(wrong.value).replace(sys.executable, "PYTHON") == told


def test_a_command_that_writes_something_else(tmp_path: Path) -> None:
    cat = shutil.which("cat") or "cat"
    with pytest.raises(EdgewiseError, match=r"can't read the recording .*0\.wav: invalid data"):
        speech.spoken((cat,), ["Good morning."], tmp_path)


def test_times_of_an_hour() -> None:
    assert minutes(3600) == "1:00:00"
