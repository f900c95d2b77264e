"""What several outside checks share."""

from __future__ import annotations

import pytest


@pytest.fixture(scope="module")
def profile(tmp_path_factory: pytest.TempPathFactory) -> str:
    """A profile of its own, so that two tests never meet in one."""
    return tmp_path_factory.mktemp("office").as_uri()
