"""A plugin of pytest: coverage notes for each line which test files run it.

``coverage run -m pytest -p scripts.traced`` loads it; without coverage it does nothing.
"""

from __future__ import annotations

from collections.abc import Generator

import pytest


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Generator[None, object, object]:
    """Run a test with its file, as seen from tests/, as the context of what it runs."""
    import coverage

    tracing = coverage.Coverage.current()
    if tracing is not None:
        tests = item.config.rootpath / "tests"
        if item.path.is_relative_to(tests):
            tracing.switch_context(str(item.path.relative_to(tests)))
    try:
        return (yield)
    finally:
        if tracing is not None:
            tracing.switch_context("")
