"""The prose of a lesson as HTML: CommonMark's own rules, with ours in the place of some."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from markdown_it.token import Token


def rendered(tokens: Sequence[Token], rules: Mapping[str, Any]) -> str:
    """HTML of a lesson's tokens.

    Parameters
    ----------
    tokens : sequence of Token
    rules : mapping of str to function
        What a token of a type becomes: ``rule(tokens, index, options, env) -> str``. Other
        types follow the parser's own rules, which escape all text.
    """
    from markdown_it import MarkdownIt

    parser = MarkdownIt("commonmark", {"html": False})
    parser.renderer.rules.update(rules)  # type: ignore[attr-defined]
    return str(parser.renderer.render(list(tokens), parser.options, {}))
