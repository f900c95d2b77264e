"""Sums and carries of full adders, found again among terms.

A sum is an XOR of three, a carry a majority of three. Written as one, they let a solver
conclude more at once than through the gates that they are made of.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Iterator
from dataclasses import dataclass
from typing import Literal

from edgewise.engines.symbolic.terms import Node, Term, Terms


@dataclass(frozen=True, slots=True)
class Form:
    """A node as an operator of two or three terms."""

    operator: Literal["and", "xor", "majority"]
    inputs: tuple[Term, ...]


def forms(terms: Terms, root: Term, known: Container[int] = ()) -> list[tuple[int, Form | None]]:
    """The nodes that `root` needs, each after those that it reads; None for a variable.

    Nodes that are `known`, and all that only they need, are left out, as is what is only
    inside a full adder.

    Examples
    --------
    >>> from edgewise.engines.symbolic.variables import Variable
    >>> terms = Terms()
    >>> x, y, c = (terms.variable(Variable(name, 0)) for name in "xyc")
    >>> carry = terms.either(terms.both(x, y), terms.both(c, terms.differ(x, y)))
    >>> [form.operator if form else "variable" for _, form in forms(terms, carry)]
    ['variable', 'variable', 'variable', 'majority']
    """
    cone = _cone(terms, root, known)
    there = set(cone)
    found: dict[int, Form | None] = {}
    for number in cone:
        if not number & 0x3FF:
            terms.watch()
        node = terms.nodes[number]
        whole = None
        if node.operator == "and":
            whole = _or_of_ands(terms, node)
        elif node.operator == "xor":
            whole = _or_of_xors(terms, node)
        # One that is found through a known node may read what was left out inside that node.
        if whole and not all(t >> 1 in there or t >> 1 in known for t in whole.inputs):
            whole = None
        if node.operator in ("and", "xor"):
            found[number] = whole or Form(node.operator, (node.left, node.right))
        elif node.operator == "variable":
            found[number] = None
    uses = _uses(root, cone, found)
    for number in cone:
        form = found.get(number)
        if form and form.operator == "xor":
            found[number] = _sum(terms, form, found, uses)
    uses = _uses(root, cone, found)
    return [(number, found[number]) for number in cone if uses[number] and number in found]


def _uses(root: Term, cone: list[int], found: dict[int, Form | None]) -> Counter[int]:
    """How many forms in use read each node; 1 more for the root."""
    uses = Counter([root >> 1])
    for number in reversed(cone):  # readers first
        form = found.get(number)
        if form and uses[number]:
            uses.update(term >> 1 for term in form.inputs)
    return uses


def _cone(terms: Terms, root: Term, known: Container[int]) -> list[int]:
    cone, waiting = {root >> 1}, [root >> 1]
    while waiting:
        node = terms.nodes[waiting.pop()]
        for term in (node.left, node.right):
            if term >> 1 not in cone and term >> 1 not in known:
                cone.add(term >> 1)
                waiting.append(term >> 1)
    return sorted(cone)  # a node is only made after what it reads


def _sum(terms: Terms, form: Form, found: dict[int, Form | None], uses: Counter[int]) -> Form:
    """An XOR of three, if one of two inputs is an XOR that nothing else needs.

    An XOR of two XORs stays: it mostly compares two sums, which are better left whole.
    """
    inner = [term for term in form.inputs if _is_xor(found.get(term >> 1))]
    if len(inner) != 1 or uses[inner[0] >> 1] > 1:
        return form
    node = terms.nodes[inner[0] >> 1]  # an XOR's inputs have no complement: it is even
    others = [term for term in form.inputs if term != inner[0]]
    return Form("xor", (node.left, node.right, *others))


def _is_xor(form: Form | None) -> bool:
    return form is not None and form.operator == "xor"


def _or_of_ands(terms: Terms, node: Node) -> Form | None:
    """Majority of a, b, c as ``a b or c (a xor b)``, or with ``a or b``.

    As an AND node it has both sides complemented and stands for the complement, which is the
    majority of the complements.
    """
    if not node.left & node.right & 1:
        return None
    for generated, passed in _both_ways(node.left, node.right):
        both, through = terms.nodes[generated >> 1], terms.nodes[passed >> 1]
        if both.operator == through.operator == "and":
            for carry, either in _both_ways(through.left, through.right):
                if _is_either(terms, either, both.left, both.right):
                    return Form("majority", (both.left ^ 1, both.right ^ 1, carry ^ 1))
    return None


def _or_of_xors(terms: Terms, node: Node) -> Form | None:
    """Majority of a, b, c as ``a xor (a xor b) (a xor c)``."""
    for a, changes in _both_ways(node.left, node.right):
        both = terms.nodes[changes >> 1]
        if both.operator != "and":
            continue
        b, c = (_other(terms, a, term) for term in (both.left, both.right))
        if b is not None and c is not None:
            return Form("majority", (a, b, c))
    return None


def _other(terms: Terms, a: Term, term: Term) -> Term | None:
    """The b for which `term` is ``a xor b``, if there is one; `a` itself is ``a xor 0``."""
    if term >> 1 == a >> 1:
        return term ^ a
    node = terms.nodes[term >> 1]
    if node.operator != "xor" or a not in (node.left, node.right):
        return None
    return node.left ^ node.right ^ a ^ term & 1


def _is_either(terms: Terms, term: Term, a: Term, b: Term) -> bool:
    """Whether `term` is ``a xor b`` or ``a or b``."""
    node = terms.nodes[term >> 1]
    if node.operator == "xor":
        return {node.left, node.right} == {a & ~1, b & ~1} and not (a ^ b ^ term) & 1
    return node.operator == "and" and bool(term & 1) and {node.left, node.right} == {a ^ 1, b ^ 1}


def _both_ways(a: Term, b: Term) -> Iterator[tuple[Term, Term]]:
    yield a, b
    yield b, a
