"""Pages with a stage, opened in Chromium."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

from tests.publish.stages import LESSON, build

if TYPE_CHECKING:
    from playwright.sync_api import Page


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The address of a page with a stage."""
    return build(tmp_path_factory.mktemp("stage"), LESSON)


@pytest.fixture
def opened(page: Page, built: str) -> Iterator[Page]:
    """The page, opened; whatever goes wrong in its script fails the test."""
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
    page.goto(built)
    yield page
    assert wrong == []
