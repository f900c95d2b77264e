"""The catalogue of what commands say: apart from what learners read, and loud where it lacks."""

from __future__ import annotations

import pytest

from edgewise.words import commands
from edgewise.words.messages import LANGUAGES
from tests.words.test_messages import COMMANDS, catalogue


def test_no_name_is_taken_twice() -> None:
    assert not set(catalogue(COMMANDS)) & set(catalogue(LANGUAGES[0]))


def test_a_mistake_of_ours_is_loud() -> None:
    with pytest.raises(KeyError, match=r"en\.ftl, option-twice: .*name"):
        commands.say("option-twice", option="--with")


def test_numbers_have_separators_only_where_a_message_says_so() -> None:
    assert commands.say("rows-many", count=2048, most=1000) == (
        "--rows: 2,048 rows are too many to show; the limit is 1,000"
    )
    assert commands.say("rows-empty", low=2048, high=4) == "--rows: 2048..4 is empty; write 4..2048"
