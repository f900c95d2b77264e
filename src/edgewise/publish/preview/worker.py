"""The worker of a preview: a process of its own that builds a lesson whenever it is asked.

What a build may do to its process (abort, hang, use up the memory) it does to this one, which
is then replaced. Asked by a line on standard input, it answers on standard output with a line
that gives the length of what follows: `Built` as JSON. It ends when its input does.
"""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path
from typing import BinaryIO

from edgewise import guests
from edgewise.lesson.memory import Memory
from edgewise.publish.preview.preview import build


def serve(path: Path, asked: BinaryIO, answers: BinaryIO) -> None:
    r"""Build for every line that comes.

    Examples
    --------
    >>> import io
    >>> answers = io.BytesIO()
    >>> serve(Path("no-such.md"), io.BytesIO(b"build\n"), answers)
    >>> head, _, told = answers.getvalue().partition(b"\n")
    >>> int(head) == len(told), json.loads(told)["faults"][0]["message"]
    (True, "can't be read: No such file or directory")
    """
    memory = Memory()
    for _ in asked:
        told = json.dumps(build(path, memory).data()).encode()
        answers.write(b"%d\n%b" % (len(told), told))
        answers.flush()


def main() -> None:
    """Serve the lesson that the command line names, away from whatever else prints."""
    answers = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)  # what a library prints must not get between the answers
    guests.warn_plainly()
    serve(Path(sys.argv[1]), sys.stdin.buffer, answers)


if __name__ == "__main__":
    main()
