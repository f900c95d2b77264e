"""What every test may use: golden files, hypothesis profiles, a browser."""

from __future__ import annotations

import os
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from itertools import zip_longest
from pathlib import Path
from typing import TYPE_CHECKING, Final, NamedTuple, Protocol, TypeAlias

import hypothesis
import pytest

from scripts.markup_lines import one_a_line

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page, Route

GOLDEN: Final = Path(__file__).parent / "golden"

# Chromium may talk to the page under test and to nobody else.
CHROMIUM_ARGUMENTS: Final = (
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)

# `ci` tries the same examples on every run, so that a red run is red again on a laptop.
hypothesis.settings.register_profile("ci", derandomize=True, deadline=None, print_blob=True)
hypothesis.settings.register_profile("dev", deadline=None)
hypothesis.settings.load_profile("ci" if os.environ.get("CI") else "dev")


# No test reads or writes the user's own cache; the workers of one run share theirs.
os.environ.setdefault(
    "EDGEWISE_CACHE", str(Path(tempfile.gettempdir()) / f"edgewise-tests-{os.getuid()}")
)


PROCESSOR_SECONDS: Final = 120.0
"""Processor time of one test, at most: its own process with all threads, and the processes that
it starts and waits for. The browser, which all tests share, is not counted."""


@pytest.hookimpl(wrapper=True)
def pytest_runtest_call(item: pytest.Item) -> Iterator[None]:
    """Fail a test by name that takes too much processor time, however busy the machine is."""
    with processor_limit(item.nodeid, PROCESSOR_SECONDS):
        yield


@contextmanager
def processor_limit(name: str, seconds: float) -> Iterator[None]:
    """Fail what takes more processor time than this: at once, or for children at their end."""

    def over(*_: object) -> None:
        pytest.fail(f"{name} took more than {seconds:g} s of processor time", pytrace=False)

    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    handled = signal.signal(signal.SIGPROF, over)
    around, _ = signal.setitimer(signal.ITIMER_PROF, seconds)  # a limit may stand inside another
    left = 0.0
    try:
        yield
    finally:
        left, _ = signal.setitimer(signal.ITIMER_PROF, 0)
        if around:
            signal.setitimer(signal.ITIMER_PROF, max(around - (seconds - left), 0.001))
        signal.signal(signal.SIGPROF, handled)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    if after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime > left:
        over()


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the one documented way to re-make golden files."""
    parser.addoption(
        "--update-golden",
        action="store_true",
        help="write tests/golden/ from what the code makes now; review the diff",
    )


class Golden(Protocol):
    """Compare a text with a golden file."""

    def __call__(self, name: str, text: str) -> None:
        """Fail with the first line that differs unless ``text`` is tests/golden/``name``."""


def first_difference(expected: str, found: str) -> str | None:
    r"""Show the first line in which two texts differ, None if they are the same.

    Examples
    --------
    >>> print(first_difference("a\nb\n", "a\nc\n"))
    line 2
      golden: 'b\n'
      now:    'c\n'
    """
    pairs = zip_longest(expected.splitlines(keepends=True), found.splitlines(keepends=True))
    for number, (left, right) in enumerate(pairs, 1):
        if left != right:
            shown = [repr(line) if line is not None else "(end of text)" for line in (left, right)]
            return f"line {number}\n  golden: {shown[0]}\n  now:    {shown[1]}"
    return None


def compare(path: Path, text: str, *, update: bool) -> None:
    """Hold ``text`` against the golden file at ``path``, or write it there.

    Markup is laid out with one element a line first, so that a change can be reviewed.
    """
    if path.suffix in {".svg", ".html"}:
        text = one_a_line(text)
    if update:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="")
        return
    if not path.exists():
        pytest.fail(f"no golden file {path.name}; make golden writes it", pytrace=False)
    with path.open(encoding="utf-8", newline="") as file:
        difference = first_difference(file.read(), text)
    if difference is not None:
        advice = "if the change is meant, run make golden and review the diff"
        pytest.fail(f"{path.name}, {difference}\n{advice}", pytrace=False)


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Golden:
    """Compare the whole of a text with a file in tests/golden/."""
    update = bool(request.config.getoption("--update-golden"))
    return lambda name, text: compare(GOLDEN / name, text, update=update)


def find_chromium() -> str:
    """Find Debian's Chromium or fail with what to install."""
    names = ("/usr/bin/chromium", "chromium", "chromium-browser")
    found = next(filter(None, map(shutil.which, names)), None)
    if found is None:
        pytest.fail("browser tests need Chromium: apt-get install chromium", pytrace=False)
    return found


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Start one Chromium for the whole session."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(
            executable_path=find_chromium(), args=list(CHROMIUM_ARGUMENTS)
        )
        yield chromium
        chromium.close()


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """Open a page that can read files and this machine's own server, but not the network."""

    def only_here(route: Route) -> None:
        here = ("file:", "data:", "blob:", "http://127.0.0.1:", "http://localhost:")
        if route.request.url.startswith(here):
            route.continue_()
        else:
            route.abort("blockedbyclient")

    context = browser.new_context()
    context.route("**/*", only_here)
    yield context.new_page()
    context.close()


class Answer(NamedTuple):
    """What a command printed, and its exit code."""

    out: str
    err: str
    code: int


Edgewise: TypeAlias = Callable[..., Answer]


@pytest.fixture
def edgewise(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Edgewise:
    """Run a command line in this process, in a terminal 100 columns wide."""
    from edgewise import cli

    def run(*words: str) -> Answer:
        monkeypatch.setattr(sys, "argv", ["edgewise", *words])
        monkeypatch.setenv("COLUMNS", "100")
        with pytest.raises(SystemExit) as left:
            cli.main()
        printed = capsys.readouterr()
        return Answer(printed.out, printed.err, int(left.value.code or 0))

    return run


@pytest.fixture(scope="session")
def tide_mill(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder in which the package of examples/tide-mill is installed, as anybody's package is."""
    folder = tmp_path_factory.mktemp("tide-mill")
    shutil.copytree(Path(__file__).parents[1] / "examples" / "tide-mill", folder / "source")
    options = ("--no-deps", "--no-build-isolation", "--no-index", "--quiet")
    subprocess.run(
        [sys.executable, "-m", "pip", "install", *options, "--target", "site", "./source"],
        cwd=folder,
        check=True,
        capture_output=True,
    )
    return folder / "site"


@pytest.fixture
def no_stage(monkeypatch: pytest.MonkeyPatch) -> None:
    """Leave out of a handout the stage that a lesson does not ask for: what it asks for is left."""
    from edgewise.publish.handout import render

    monkeypatch.setattr(render.Sheet, "stage", lambda *_: "")
