"""Texts that others wrote to try readers: none may end in an exception that is not ours.

References
----------
The examples of the CommonMark specification (commonmark/commonmark-spec), and the YAML test suite
(yaml/yaml-test-suite); see data/README.md for versions and licences.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Final

import pytest

from edgewise import yamltext
from edgewise.errors import EdgewiseError, Place, TextError
from edgewise.lesson import document
from edgewise.lesson.blocks import BLOCKS

DATA: Final = Path(__file__).parent / "data"
EXAMPLES: Final[list[str]] = json.loads((DATA / "commonmark_examples.json").read_text("utf-8"))
SUITE: Final[list[tuple[str, bool, str]]] = json.loads(
    (DATA / "yaml_test_suite.json").read_text("utf-8")
)
FRONT: Final = "---\ntitle: Rain\ndesign: serial-adder\n---\n"


def test_the_examples_of_the_commonmark_specification() -> None:
    """Each is taken apart, and what is wrong with it is told with a line of its own."""
    assert len(EXAMPLES) > 600
    for number, text in enumerate(EXAMPLES, 1):
        found = document.read(FRONT + text, "spec.md", Path("/nowhere"), tuple(BLOCKS))
        for fault in found.faults:
            assert isinstance(fault, EdgewiseError), number
            assert fault.place is not None, number
            assert 5 <= fault.place.line <= 5 + text.count("\n"), (number, str(fault))


def refused_at(text: str) -> Place | None:
    """Where a text is refused; nothing if it is read."""
    try:
        yamltext.read(text, "suite.yaml")
    except TextError as wrong:
        return wrong.place or Place("")
    return None


@pytest.mark.parametrize("name", sorted({name for name, _, _ in SUITE}))
def test_the_yaml_test_suite(name: str) -> None:
    """What YAML refuses is refused here, too, with a place."""
    for _, fails, text in (one for one in SUITE if one[0] == name):
        place = refused_at(text)
        assert place is None or place.file == "suite.yaml"
        assert place is not None or not fails or name in LENIENT, text


LENIENT: Final = frozenset(
    ["9C9N", "9JBA", "CVW2", "DK95", "EB22", "G5U8", "MUS6", "QB6E", "RHX7", "SU5Z", "Y79Y", "YJV2"]
)
"""Texts that YAML refuses and our reader's library does not."""
