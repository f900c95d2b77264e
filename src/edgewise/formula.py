"""The small expression language of circuit texts and lessons: grammar and tree.

One grammar serves widths (``n + 1``), repeated parts (``FA(i = 0..n-1)``), what a design
computes (``(a + b) mod 2**n``), claims (``S after 12 == (a + b) mod 64 for all a, b``) and
the values inside a lesson's prose. It is parsed by lark, and evaluated in
`edgewise.arithmetic` by walking the tree; Python's own ``eval`` is never involved.

From loosest to tightest: ``or``; ``and``; ``not``; comparisons; ``after``/``before``;
``+ -``; ``* div mod``; unary ``-``; ``**``. A hyphen *between letters after a dot* belongs
to a port name: ``FA.carry-out`` is a port, ``FA.sum - n`` a difference.
"""

from __future__ import annotations

import contextlib
import itertools
import json
import re
import zlib
from collections.abc import Iterable
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from edgewise import cache
from edgewise.errors import Fact, Message, Place, TextError
from edgewise.listing import either
from edgewise.nodes import (
    Binary,
    Claim,
    Default,
    Dot,
    Drive,
    Name,
    Node,
    Number,
    Range,
    Select,
    Slice,
    Step,
    Target,
    TimeClaim,
    Timed,
    Unary,
    Unknown,
    names_in,
    packed,
    show,
    unpacked,
)
from edgewise.plainname import plain

if TYPE_CHECKING:
    import lark

__all__ = [
    "DEEPEST",
    "LONGEST",
    "RESERVED",
    "STARTS",
    "TALLEST",
    "Binary",
    "Claim",
    "Default",
    "Dot",
    "Drive",
    "Name",
    "Node",
    "Number",
    "Range",
    "Select",
    "Slice",
    "Step",
    "Target",
    "TimeClaim",
    "Timed",
    "Unary",
    "Unknown",
    "names_in",
    "of_time",
    "parse",
    "show",
]

LONGEST: Final = 2000
"""Characters in one formula, at most."""
DEEPEST: Final = 60
"""Levels of parentheses in one formula, at most."""
TALLEST: Final = 150
"""Levels of its tree, at most; each operator in a row is one."""
RESERVED: Final = ("X", "and", "or", "not", "div", "mod", "after", "before")
"""Words that can't be a name: the language has them."""


_GRAMMAR = r"""
?expression: truth
claim: truth clause*
drive: sum [ORDER]
default: sum ["in" sum ".." sum]
target: name | NAME "(" NAME "=" sum ".." sum ")"

time_claim: "settled" "(" name ("," name)* ")" [moment] "within" TIME [UNIT] [every] -> settled
          | "no" "glitch" "on" name ("," name)* [moment] [every]                -> glitchless
moment: RELATION sum
every: "for" "all" NAME ("," NAME)*

clause: "for" "all" NAME ("," NAME)*  -> for_all
      | "for" range ("," range)*      -> for_ranges
range: NAME "in" sum ".." sum

?truth: conjunction | truth OR conjunction             -> binary
?conjunction: negation | conjunction AND negation      -> binary
?negation: comparison | NOT negation                   -> unary
?comparison: timed | timed COMPARE timed               -> binary
?timed: sum | sum RELATION sum                         -> timed_value
?sum: product | sum (PLUS | MINUS) product             -> binary
?product: signed | product (TIMES | DIV | MOD) signed  -> binary
?signed: power | MINUS signed                          -> unary
?power: atom | atom POWER signed                       -> binary
?atom: number | unknown | name | "(" truth ")"

number: BINARY | INT
unknown: UNKNOWN
name: NAME (select | slice | DOT)*
select: "(" truth ("," truth)* ")"
slice: "(" sum ".." sum ")"

TIME: /[0-9]+(\.[0-9]+)?/
UNIT: /(?!for\b)[A-Za-z]+([ \t]+(?!for\b)[A-Za-z]+)*/
ORDER: "lsb-first" | "msb-first"
COMPARE: "==" | "!=" | "<=" | ">=" | "<" | ">"
RELATION: "after" | "before"
UNKNOWN: "X"
OR: "or"
AND: "and"
NOT: "not"
DIV: "div"
MOD: "mod"
PLUS: "+"
MINUS: "-" | "−"
POWER: "**"
TIMES: "*"
BINARY: /0b[01]+/
INT: /[0-9]+/
DOT: /\.[A-Za-z][A-Za-z0-9_]*(-[A-Za-z][A-Za-z0-9_]*)*/
NAME: /[A-Za-z_][A-Za-z0-9_]*/
%ignore /[ \t\n]+/
"""

_OF_TIME: Final = re.compile(r"\s*(settled\s*\(|no\s+glitch\b)")
"""How a claim about time begins."""
STARTS: Final = ["expression", "claim", "time_claim", "drive", "default", "target"]
"""What a formula can be: the grammar's entry points."""

_VALUES: Final = frozenset({"NAME", "INT", "BINARY", "UNKNOWN", "LPAR", "MINUS", "NOT"})
"""Terminals with which a value begins."""
_OPERATORS: Final = frozenset(
    {"PLUS", "MINUS", "TIMES", "DIV", "MOD", "POWER", "COMPARE", "RELATION", "AND", "OR"}
)
_EXPECTED: Final = {
    "ORDER": "lsb-first or msb-first",
    "NAME": "a name",
    "LPAR": "(",
    "RPAR": ")",
    "COMMA": ",",
    "EQUAL": "=",
    "__ANON_0": "..",
    "$END": "the end",
    "IN": "in",
    "FOR": "for",
    "ALL": "all",
    "WITHIN": "within and a time",
    "TIME": "a time",
    "UNIT": "its unit",
    "RELATION": "after",
    "GLITCH": "glitch",
    "ON": "on",
    "DOT": "",  # a name may always go on; saying so would not help
}


@lru_cache(maxsize=1)
def _parser() -> lark.Lark:
    import lark

    # Making the tables takes longer than everything else at start-up, so they are kept.
    made_from = f"plain {lark.__version__}\n{_GRAMMAR}"
    kept = cache.recall("formula", made_from)
    if kept:
        with contextlib.suppress(Exception):  # made by an edited lark of the same version
            return _from_tables(kept)
    parser = lark.Lark(_GRAMMAR, parser="lalr", start=STARTS, maybe_placeholders=True)
    cache.keep("formula", made_from, _tables(parser), most=4)
    return parser


def _tables(parser: lark.Lark) -> bytes:
    """The tables of a parser as JSON, the numbers among the keys of its objects marked."""
    from lark.grammar import Rule
    from lark.lexer import TerminalDef

    return json.dumps(_numbers_marked(parser.memo_serialize([TerminalDef, Rule]))).encode()


def _from_tables(kept: bytes) -> lark.Lark:
    import lark

    data, memo = json.loads(kept, object_hook=_numbers_read)
    load: Any = lark.Lark._load_from_dict  # noqa: SLF001  its documented twin unpickles
    parser: lark.Lark = load(data, memo)
    return parser


def _numbers_marked(tree: Any) -> Any:
    if isinstance(tree, dict):
        return {
            f"#{key}" if isinstance(key, int) else key: _numbers_marked(value)
            for key, value in tree.items()
        }
    return [_numbers_marked(one) for one in tree] if isinstance(tree, list | tuple) else tree


def _numbers_read(read: dict[str, Any]) -> dict[str | int, Any]:
    return {int(key[1:]) if key[:1] == "#" else key: value for key, value in read.items()}


def _build(tree: Any) -> Any:  # noqa: C901, PLR0912  one case a rule of the grammar
    """The nodes above for lark's tree, bottom up."""
    if not hasattr(tree, "children"):
        return tree
    parts = [_build(child) for child in tree.children]
    match tree.data, parts:
        case "number", [token]:
            return Number(int(token, 2 if token.startswith("0b") else 10), token.start_pos)
        case "unknown", [token]:
            return Unknown(token.start_pos)
        case "name", [base, *behind]:
            steps = tuple(Dot(s[1:]) if isinstance(s, str) else s for s in behind)
            return Name(str(base), steps, base.start_pos)
        case "select", items:
            return Select(tuple(items))
        case "slice", [high, low]:
            return Slice(high, low)
        case "unary", [operator, operand]:
            return Unary(_plain(operator), operand, operator.start_pos)
        case "binary", [left, operator, right]:
            return Binary(_plain(operator), left, right, left.at)
        case "timed_value", [what, relation, when]:
            return Timed(str(relation), what, when, what.at)
        case "range", [name, low, high]:
            return Range(str(name), low, high)
        case "for_all", names:
            return tuple(map(str, names))
        case "for_ranges", ranges:
            return list(ranges)
        case "claim", [claimed, *clauses]:
            of_all = (n for clause in clauses if isinstance(clause, tuple) for n in clause)
            of_ranges = (r for clause in clauses if isinstance(clause, list) for r in clause)
            return Claim(claimed, tuple(of_all), tuple(of_ranges))
        case "moment", [relation, when]:
            if relation != "after":
                raise _Misread(Message("claim-after"), relation.start_pos)
            return when
        case "every", names:
            return tuple(map(str, names))
        case "settled", [*names, when, time, unit, operands]:
            own = str(unit) if unit else ""
            return TimeClaim("settled", tuple(names), when, str(time), own, operands or ())
        case "glitchless", [*names, when, operands]:
            return TimeClaim("glitchless", tuple(names), when, for_all=operands or ())
        case "drive", [value, order]:
            return Drive(value, str(order) if order else "held")
        case "default", bounds:
            return Default(*bounds)
        case "target", [name]:
            return Target(name)
        case "target", [base, index, low, high]:
            return Target(Name(str(base), (), base.start_pos), Range(str(index), low, high))
    raise AssertionError(tree.data)


def _plain(operator: str) -> str:
    """Word processors turn a minus into U+2212; both are read alike."""
    return str(operator).replace("−", "-")


@lru_cache(maxsize=65536)  # a text names each of its nets a few times
def _parse(text: str, start: str) -> Any:
    """The tree, at once for a plain name or number, else from the cache or by the grammar."""
    name = plain(text, start)
    if name is not None:
        return name
    if len(text) > _KEPT_LENGTH:
        return _read(text, start)
    made_from = f"{_this_reader()}\n{start}\n{text}"
    # Once lark is there, which takes 50 ms to import, reading is as quick as recalling.
    kept = None if _parser.cache_info().currsize else cache.recall("trees", made_from)
    if kept:
        with contextlib.suppress(Exception):
            return unpacked(json.loads(kept))
    tree = _read(text, start)
    if next(_keeping) < _MOST_KEPT:
        cache.keep("trees", made_from, json.dumps(packed(tree)).encode(), most=4000)
    return tree


_KEPT_LENGTH: Final = 100
"""Characters in a formula whose tree is kept between runs, at most."""
_MOST_KEPT: Final = 100
"""Trees that one run keeps, at most; with more to read, it loads lark anyway."""
_keeping = itertools.count()


@lru_cache(maxsize=1)
def _this_reader() -> str:
    """Says which reader made a tree: another one must not take it for its own."""
    files = (Path(__file__), Path(__file__).with_name("nodes.py"))
    ages = " ".join(str(file.stat().st_mtime_ns) for file in files)
    return f"{ages} {zlib.crc32(_GRAMMAR.encode())}"


def _read(text: str, start: str) -> Any:
    import lark

    depth = deepest = 0
    for character in text:
        depth += (character == "(") - (character == ")")
        deepest = max(deepest, depth)
    if len(text) > LONGEST or deepest > DEEPEST:
        raise TextError(
            Message("formula-long", count=len(text), depth=deepest, most=LONGEST, deepest=DEEPEST)
        )
    if not text.strip():
        raise TextError(Message("formula-empty"))
    try:
        tree = _parser().parse(text, start=start)
    except lark.UnexpectedCharacters as wrong:
        # Typed as None, set in the instance.
        at = wrong.pos_in_stream or 0  # type: ignore[redundant-expr]
        found = repr(text[at])
        if text[at] == ".":
            raise _Misread(Message("formula-dot", found=found), at) from None
        if text[at].isalpha():
            raise _Misread(Message("formula-letter", found=found), at) from None
        foreign = next((one for one in (text[at : at + 2], text[at]) if one in _FOREIGN), "")
        told = Message("formula-sign", found=found, sign=_FOREIGN.get(foreign, "none"))
        raise _Misread(told, at) from None
    except lark.UnexpectedToken as wrong:
        raise _misread(text, wrong, start) from None
    if _taller(tree, TALLEST):
        raise TextError(Message("formula-tall", most=TALLEST))
    return _build(tree)


def _taller(tree: Any, limit: int) -> bool:
    """Whether a tree has more levels than `limit`; every walk over it is recursive."""
    level, levels = [tree], 0
    while level:
        levels += 1
        if levels > limit:
            return True
        level = [child for node in level for child in getattr(node, "children", ())]
    return False


class _Misread(TextError):
    """A syntax error that knows its position in the formula but not yet its place."""

    def __init__(self, told: Message, at: int) -> None:
        super().__init__(told)
        self.at = at


_FOREIGN: Final = {
    "^": "power",
    "%": "remainder",
    "/": "quotient",
    "&": "and",
    "|": "or",
    "!": "not",
    "~": "not",
    "×": "times",
    "·": "times",
    "÷": "div",
    "≤": "at-most",
    "≥": "at-least",
    "≠": "unequal",
}
"""What other languages write, and what it is here."""


def _unsaid_product(text: str, at: int) -> str:
    """A product whose sign was left out, written with it: ``2*n`` for ``2n``; or nothing."""
    before = re.search(r"(?<![\w.])\d+$", text[:at].rstrip())
    behind = re.match(r"[A-Za-z]\w*|\(", text[at:])
    if not (before and behind) or _WORD.match(text[at:]):
        return ""
    return f"{before.group()}*{behind.group().replace('(', '(…)')}"


_WORD: Final = re.compile(rf"(?:{'|'.join((*RESERVED, 'for', 'in', 'lsb', 'msb'))})\b")


def _misread(text: str, wrong: lark.UnexpectedToken, start: str) -> _Misread:
    token = wrong.token
    at = len(text) if token.type == "$END" else (token.start_pos or 0)
    found = Message("formula-found", found=repr(str(token)))
    if token.type == "$END":
        found = Message("formula-ends")
    if token.type == "RELATION":
        return _Misread(Message("formula-second-relation", token=repr(str(token))), at)
    if token.type == "EQUAL":
        return _Misread(Message("formula-equals"), at)
    product = _unsaid_product(text, at)
    if product:
        return _Misread(Message("formula-product", found=found, product=product), at)
    # `wrong.expected` lists what any formula could have here; `accepts` tries it out.
    expected: set[str] = wrong.interactive_parser.accepts()  # type: ignore[no-untyped-call]
    if token.type == "COMPARE" and "AND" in expected:
        return _Misread(Message("formula-second-comparison", token=repr(str(token))), at)
    if start == "target" and token.type == "MINUS" and _OPERATORS.isdisjoint(expected):
        told = Message("formula-hyphen", found=found, meant=text.replace("-", "_"))
        return _Misread(told, at)
    return _Misread(Message("formula-expected", found=found, expected=_kinds(expected)), at)


def _kinds(expected: Iterable[str]) -> Fact:
    """What could have stood there; long lists of operators would say no more."""
    terminals = set(expected)
    if len(terminals & _VALUES) > 2:  # a name alone is not yet a value
        return Message("formula-value")
    kinds = {_EXPECTED.get(kind, kind) for kind in terminals - _OPERATORS} - {"", "("}
    operator = [Message("formula-operator")] if terminals & _OPERATORS else []
    return either([*operator, *sorted(kinds)])


def of_time(text: str) -> bool:
    """Whether a claim is about time.

    Examples
    --------
    >>> of_time("settled(S) within 12 ns"), of_time("S after 12 == 3")
    (True, False)
    """
    return _OF_TIME.match(text) is not None


def parse(text: str, start: str = "expression", place: Place | None = None) -> Any:
    """The tree of a formula.

    Parameters
    ----------
    text : str
        The formula.
    start : str
        What it is to be: ``expression`` (a `Node`), ``claim`` (a `Claim`), ``drive``
        (a `Drive`), ``default`` (a `Default`) or ``target`` (a `Target`).
    place : Place, optional
        Where its first character stands; errors point into the formula from there.

    Raises
    ------
    TextError
        If it can't be read.

    Examples
    --------
    >>> parse("n + 1")
    Binary(operator='+', left=Name(base='n', steps=(), at=0), right=Number(value=1, at=4), at=0)
    >>> parse("a lsb-first", "drive").order
    'lsb-first'
    """
    try:
        return _parse(text, start)
    except _Misread as wrong:
        raise TextError(
            Message("formula-unread", formula=repr(text), why=wrong.told),
            place and place.moved(wrong.at),
        ) from None
    except TextError as wrong:
        raise TextError(wrong.told, place) from None
