"""What gates compute and what storage elements store next: one small language for every engine.

A **truth** is a port's name, a constant 0 or 1, or an operation on truths: ``("and", …)``,
``("or", …)``, ``("xor", …)`` of any number, ``("not", a)``, ``("choose", select, when_0, when_1)``.
A port of several bits stands for all of them. An engine brings its own bits with a `Logic`: bits
that may be X, Boolean terms, one bit of each of many runs; the page's script has the same five
operations.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from operator import itemgetter
from typing import Any, Final, Protocol, TypeAlias, TypeVar

from edgewise.bits import Bit, X, bit_and, bit_mux, bit_not, bit_or, bit_xor
from edgewise.errors import CircuitError, Message

Truth: TypeAlias = str | int | tuple[Any, ...]
"""A port, a constant, or an operation with what it is of."""
B = TypeVar("B")


class Logic(Protocol[B]):
    """The five operations, for one kind of bits."""

    def constant(self, bit: Bit) -> B:
        """The bit 0, 1 or X."""
        ...

    def bit_not(self, a: B) -> B:
        """NOT."""
        ...

    def all_of(self, bits: Sequence[B]) -> B:
        """AND of one bit or more."""
        ...

    def any_of(self, bits: Sequence[B]) -> B:
        """OR of one bit or more."""
        ...

    def odd(self, bits: Sequence[B]) -> B:
        """XOR of one bit or more."""
        ...

    def bit_mux(self, select: B, when_0: B, when_1: B) -> B:
        """`when_1` if `select`, else `when_0`."""
        ...

    def unsure(self, bit: B) -> bool:
        """Whether it may be X."""
        ...


@dataclass(frozen=True, slots=True)
class Kleene:
    """Bits that are 0, 1 or X, as in `edgewise.bits`."""

    all_of: Callable[[Sequence[Bit]], Bit] = bit_and
    any_of: Callable[[Sequence[Bit]], Bit] = bit_or
    odd: Callable[[Sequence[Bit]], Bit] = bit_xor
    bit_not: Callable[[Bit], Bit] = bit_not
    bit_mux: Callable[[Bit, Bit, Bit], Bit] = bit_mux

    def constant(self, bit: Bit) -> Bit:
        """The bit itself."""
        return bit

    def unsure(self, bit: Bit) -> bool:
        """Whether it is X."""
        return bit == X


KLEENE: Final = Kleene()


@dataclass(frozen=True, slots=True)
class Function:
    """What a gate computes.

    Parameters
    ----------
    reads : tuple of str
        Its input ports, in the order in which a netlist lists their nets. A gate with one port
        takes any number of bits there, and is one operation on all of them, inverted or not.
    truth : Truth

    Examples
    --------
    >>> nand = Function(("in",), ("not", ("and", "in")))
    >>> nand.over(KLEENE)((1, 1, 0)), nand.inverted, nand.straight
    (1, True, ('and', 'in'))
    """

    reads: tuple[str, ...]
    truth: Truth

    def __post_init__(self) -> None:
        """Refuse a truth that no engine could follow."""
        refuse(self.truth, self.reads)

    @property
    def inverted(self) -> bool:
        """Whether it is the complement of a simpler one."""
        return isinstance(self.truth, tuple) and self.truth[0] == "not"

    @property
    def straight(self) -> Truth:
        """The truth without its inversion."""
        return self.truth[1] if isinstance(self.truth, tuple) and self.inverted else self.truth

    @property
    def operation(self) -> str:
        """The operation that it is, its inversion aside; nothing for what passes one input on."""
        return self.straight[0] if isinstance(self.straight, tuple) else ""

    @property
    def plain(self) -> str:
        """The operation that it is, of all its inputs and not inverted; or nothing.

        Examples
        --------
        >>> Function(("in",), ("and", "in")).plain, Function(("in",), ("not", ("or", "in"))).plain
        ('and', '')
        """
        return self.operation if self.truth == (self.operation, *self.reads) else ""

    @property
    def symmetric(self) -> bool:
        """Whether it cannot tell its inputs apart: one operation on all the bits of one port."""
        return self.straight == (self.operation, *self.reads[:1])

    def over(self, logic: Logic[B]) -> Callable[[Sequence[B]], B]:
        """The same for an engine's bits: from its inputs to its output."""
        if len(self.reads) > 1:
            return compiled(self.truth, {port: i for i, port in enumerate(self.reads)}, logic)
        whole: Callable[[Sequence[B]], B] = itemgetter(0)
        if self.operation:
            whole = {"and": logic.all_of, "or": logic.any_of, "xor": logic.odd}[self.operation]
        complement = logic.bit_not
        return (lambda bits: complement(whole(bits))) if self.inverted else whole

    def placed(self) -> Any:
        """The truth for the page's script: see `placed`."""
        return placed(self.truth, self.reads)


def refuse(truth: Truth, ports: Collection[str]) -> None:
    """Refuse a truth that is not made of these ports, 0, 1 and the five operations.

    Raises
    ------
    CircuitError

    Examples
    --------
    >>> refuse(("not", ("and", "a", "c")), ("a", "b"))
    Traceback (most recent call last):
    edgewise.errors.CircuitError: the truth reads c; expected a, b
    """
    if isinstance(truth, str):
        if truth not in ports:
            raise CircuitError(Message("truth-reads", found=truth, ports=", ".join(ports)))
    elif isinstance(truth, tuple) and truth:
        operation, *of = truth
        least, most = _TAKES.get(operation, (0, 0))
        if not most:
            raise CircuitError(Message("truth-operation", found=operation, known=", ".join(_TAKES)))
        if not least <= len(of) <= most:
            told = Message(
                "truth-count", operation=operation, count=len(of), least=least, more=most - least
            )
            raise CircuitError(told)
        for one in of:
            refuse(one, ports)
    elif truth not in (0, 1):
        raise CircuitError(Message("truth-found", found=repr(truth)))


_MANY: Final = (1, 1 << 16)
_TAKES: Final[Mapping[str, tuple[int, int]]] = {
    "not": (1, 1),
    "and": _MANY,
    "or": _MANY,
    "xor": _MANY,
    "choose": (3, 3),
}
"""How many truths each operation is of, at least and at most."""


# What a flip-flop stores at an edge; `UNFED` tells what stands at a port that nothing feeds.
STORES: Final[Truth] = ("choose", "enable", "q", "d")
"""Before the part around it has its say (`FlipFlop.cover`) where this is unknown."""
NEXT: Final[Truth] = ("choose", "clock", "q", ("choose", "clear", "stored", 0))
"""`stored` is what `STORES` gave; `clock` is 1 where the edge arrives."""
UNFED: Final[Mapping[str, Bit]] = {"enable": 1, "clear": 0, "clock": 1}


def fed(truth: Truth, missing: Mapping[str, Bit]) -> Truth:
    """The truth with constants for some ports, without the choices that they decide.

    Examples
    --------
    >>> fed(STORES, {"enable": 1}), fed(NEXT, {"clock": 1})
    ('d', ('choose', 'clear', 'stored', 0))
    """
    if not isinstance(truth, tuple):
        return missing.get(truth, truth) if isinstance(truth, str) else truth
    operation, *of = (truth[0], *(fed(one, missing) for one in truth[1:]))
    if operation == "choose" and of[0] in (0, 1):
        return of[2] if of[0] else of[1]
    return (operation, *of)


def compiled(
    truth: Truth, at: Mapping[str, int | Callable[[Sequence[B]], B]], logic: Logic[B]
) -> Callable[[Sequence[B]], B]:
    """A function of bits: what the truth says of those that stand where `at` tells."""
    if isinstance(truth, int):
        bit = logic.constant(truth)
        return lambda _bits: bit
    if isinstance(truth, str):
        place = at[truth]
        return itemgetter(place) if isinstance(place, int) else place
    operation, *of = truth
    joined = {"and": logic.all_of, "or": logic.any_of, "xor": logic.odd}.get(operation)
    parts = [compiled(one, at, logic) for one in of]
    if joined:
        return lambda bits: joined([part(bits) for part in parts])
    if operation == "not":
        (one,), complement = parts, logic.bit_not
        return lambda bits: complement(one(bits))
    (select, when_0, when_1), choose = parts, logic.bit_mux
    places = [at.get(one) if isinstance(one, str) else None for one in of]
    match places:
        case [int(i), int(j), int(k)]:  # the usual one, and faster
            return lambda bits: choose(bits[i], bits[j], bits[k])
    return lambda bits: choose(select(bits), when_0(bits), when_1(bits))


def placed(truth: Truth, reads: Sequence[str]) -> Any:
    """The truth as plain lists: a port is its place among `reads`, or ``all`` where it is alone.

    A constant is the text of its bit, ``"0"`` or ``"1"``.

    Examples
    --------
    >>> placed(("not", ("and", "in")), ("in",)), placed(STORES, ("q", "d", "enable"))
    (['not', ['and', 'all']], ['choose', 2, 0, 1])
    """
    if isinstance(truth, tuple):
        return [truth[0], *(placed(one, reads) for one in truth[1:])]
    if isinstance(truth, int):
        return str(truth)
    return reads.index(truth) if len(reads) > 1 else "all"


def ports_of(truth: Truth) -> Iterator[str]:
    """The ports that a truth reads, as often as it does."""
    if isinstance(truth, tuple):
        for one in truth[1:]:
            yield from ports_of(one)
    elif isinstance(truth, str):
        yield truth


# ---------------------------------------------------------------------- made of elementary gates

Element: TypeAlias = tuple[str, int]
"""An elementary gate, and how many inputs it has: one operation, inverted or not."""
_Tree: TypeAlias = tuple[Element, tuple[Any, ...]]
_INVERTED: Final = {"and": "nand", "or": "nor", "xor": "xnor"}


@lru_cache(maxsize=512)
def ways(function: Function, inputs: int) -> tuple[tuple[Element, ...], ...]:
    """The ways from a gate's inputs to its output, each the elementary gates on it, in order.

    Examples
    --------
    >>> ways(Function(("a", "b", "c"), ("not", ("or", ("and", "a", "b"), "c"))), 3)
    ((('and', 2), ('nor', 2)), (('nor', 2),))
    """
    return tuple(dict.fromkeys(_ways(_tree(function.truth, _width(function, inputs)))))


@lru_cache(maxsize=512)
def made_of(function: Function, inputs: int) -> tuple[Element, ...]:
    """The elementary gates that make up a gate.

    Examples
    --------
    >>> made_of(Function(("a", "b", "c"), ("not", ("or", ("and", "a", "b"), "c"))), 3)
    (('nor', 2), ('and', 2))
    """
    return tuple(_elements(_tree(function.truth, _width(function, inputs))))


@lru_cache(maxsize=512)
def fed_by(function: Function, inputs: int) -> tuple[tuple[Element, ...], ...]:
    """For each input of a gate, in their order, the elementary gates that it feeds.

    Examples
    --------
    >>> fed_by(Function(("a", "b", "c"), ("not", ("or", ("and", "a", "b"), "c"))), 3)
    ((('and', 2),), (('and', 2),), (('nor', 2),))
    """
    tree = _tree(function.truth, _width(function, inputs))
    if len(function.reads) == 1:
        return ((tree[0],),) * inputs
    pairs = tuple(_leaves(tree))
    return tuple(tuple(one for port, one in pairs if port == name) for name in function.reads)


def _width(function: Function, inputs: int) -> int:
    """How many bits a port has."""
    return inputs if len(function.reads) == 1 else 1


def _tree(truth: Truth, width: int) -> _Tree:
    """The elementary gates, each with those, and the ports, that feed it."""
    if not isinstance(truth, tuple):
        return ("buffer", 1), (truth,)
    operation, *of = truth
    if operation == "not" and isinstance(of[0], tuple) and of[0][0] in _INVERTED:
        operation, of = _INVERTED[of[0][0]], list(of[0][1:])
    inputs = sum(width if isinstance(one, str) else 1 for one in of)
    name = "multiplexer" if operation == "choose" else operation
    return (name, inputs), tuple(_tree(one, width) if isinstance(one, tuple) else one for one in of)


def _elements(tree: _Tree) -> Iterator[Element]:
    yield tree[0]
    for one in tree[1]:
        if isinstance(one, tuple):
            yield from _elements(one)


def _leaves(tree: _Tree) -> Iterator[tuple[str, Element]]:
    for one in tree[1]:
        if isinstance(one, tuple):
            yield from _leaves(one)
        else:
            yield one, tree[0]


def _ways(tree: _Tree) -> Iterator[tuple[Element, ...]]:
    element, feeding = tree
    for one in feeding:
        for way in _ways(one) if isinstance(one, tuple) else ((),):
            yield (*way, element)
