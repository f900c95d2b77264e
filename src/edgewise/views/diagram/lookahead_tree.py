"""Lookahead tree: places or groups over the unit that makes their carries, units over units.

Found in the nets: a unit takes in what its members give, and at most one bit more, the carry that
comes in; it gives each member but the first its carry, or the gate that makes a sum of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from edgewise.circuit.model import Circuit, Part, Tie
from edgewise.circuit.storage import stores
from edgewise.views.diagram.drivers import Origin, Sources


@dataclass(frozen=True, slots=True)
class Member:
    """A place, a group, or a unit with its own members.

    Parameters
    ----------
    part : Part
    carry : Origin, optional
        What comes in.
    into : str
        The input port that takes it in; empty: none does.
    given : tuple of (str, str)
        Output ports that the unit below takes in, each with its input port.
    members : tuple of Member
        The LSB first; empty for a place or a group.
    foot : Part, optional
        The gate that makes the sum of a place from its carry.
    """

    part: Part
    carry: Origin | None = None
    into: str = ""
    given: tuple[tuple[str, str], ...] = ()
    members: tuple[Member, ...] = ()
    foot: Part | None = None

    def leaves(self) -> Iterator[Member]:
        """Places or groups, the LSB first."""
        for member in self.members:
            yield from member.leaves()
        if not self.members:
            yield self


class _NoTree(Exception):
    """There is something in the circuit that such a tree does not have."""


def find(circuit: Circuit) -> Member | None:
    """The unit that all else stands over, or nothing.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> root = find(catalogue.design("carry-lookahead-adder", n=16).circuit)
    >>> root.part.name, [leaf.part.name for leaf in root.leaves()][:2], root.members[1].carry.port
    ('LA', ['group(0)', 'group(1)'], 'c1')
    >>> find(catalogue.design("ripple-carry-adder", n=4).circuit) is None
    True
    """
    if len(circuit.parts) < 3 or any(stores(part.kind) for part in circuit.parts):
        return None
    try:
        return _Search(circuit).tree()
    except _NoTree:
        return None


@dataclass(slots=True)
class _Search:
    circuit: Circuit
    sources: Sources = field(init=False)
    used: set[str] = field(default_factory=set)

    def tree(self) -> Member:
        self.sources = Sources(self.circuit)
        gates = [part for part in self.circuit.parts if _sums(part)]
        others = [part for part in self.circuit.parts if not _sums(part)]
        over = self._members(others)
        roots = [p for p in others if p.name in over and all(p not in m for m in over.values())]
        if len(roots) != 1:
            raise _NoTree
        root = self._placed(roots[0], over, self._comes_in(roots[0], over), gates)
        if len(self.used) != len(self.circuit.parts):
            raise _NoTree
        self._check_outputs(root)
        return root

    def _taken(self, part: Part) -> list[tuple[str, Origin]]:
        """Every input bit with its port."""
        found = []
        for port in part.kind.ins:
            for bit in part.signal(port.name):
                origin = self.sources.origin(bit)
                if isinstance(origin, Tie):
                    raise _NoTree
                found.append((port.name, origin))
        return found

    def _members(self, parts: Sequence[Part]) -> dict[str, list[Part]]:
        """Of every unit its members, in the order of its ports."""
        by_name = {part.name: part for part in parts}
        ready = {p.name for p in parts if sum(not o.owner for _, o in self._taken(p)) > 1}
        free, waiting = set(ready), [part for part in parts if part.name not in ready]
        over: dict[str, list[Part]] = {}
        while waiting:
            for part in waiting:
                owners = [origin.owner for _, origin in self._taken(part)]
                members = [name for name in dict.fromkeys(owners) if name in free]
                if len(members) > 1 and sum(name not in free for name in owners) <= 1:
                    break
            else:
                raise _NoTree
            waiting.remove(part)
            over[part.name] = [by_name[name] for name in members]
            free = (free - {*members}) | {part.name}
        return over

    def _comes_in(self, unit: Part, over: dict[str, list[Part]]) -> Origin | None:
        members = {member.name for member in over[unit.name]}
        rest = [origin for _, origin in self._taken(unit) if origin.owner not in members]
        return rest[0] if rest else None

    def _placed(
        self,
        part: Part,
        over: dict[str, list[Part]],
        carry: Origin | None,
        gates: Sequence[Part],
        below: Part | None = None,
    ) -> Member:
        """A part with what stands over it."""
        self.used.add(part.name)
        taken = self._taken(part)
        ports = [port for port, origin in taken if origin == carry]
        if len(ports) > 1 or any(port.width > 1 for port in part.kind.ins if port.name in ports):
            raise _NoTree
        into = "".join(ports)
        given = self._given(part, below) if below else ()
        if part.name not in over:
            if any(origin.owner for port, origin in taken if port != into):
                raise _NoTree
            foot = None if into or carry is None else self._foot(part, carry, gates)
            return Member(part, carry, into, given, foot=foot)
        if self._comes_in(part, over) != (carry if into else None):
            raise _NoTree
        members = over[part.name]
        carries = [carry, *(self._next(part, self._wants(one, over, gates)) for one in members[1:])]
        if len({*carries}) < len(carries):
            raise _NoTree
        made = tuple(
            self._placed(one, over, comes, gates, part)
            for one, comes in zip(members, carries, strict=True)
        )
        return Member(part, carry, into, given, made)

    def _given(self, part: Part, below: Part) -> tuple[tuple[str, str], ...]:
        return tuple((o.port, port) for port, o in self._taken(below) if o.owner == part.name)

    def _wants(
        self, part: Part, over: dict[str, list[Part]], gates: Sequence[Part]
    ) -> list[Origin]:
        """What comes into a member besides its words: from parts, maybe at its foot."""
        if part.name in over:
            found = self._comes_in(part, over)
            return [found] if found else []
        wanted = [origin for _, origin in self._taken(part) if origin.owner]
        for gate in gates:
            bits = [origin for _, origin in self._taken(gate)]
            if any(origin.owner == part.name for origin in bits):
                wanted += [origin for origin in bits if origin.owner != part.name]
        return wanted

    def _next(self, unit: Part, wanted: Sequence[Origin]) -> Origin:
        """The one carry that a unit gives to a member."""
        if len(wanted) != 1 or wanted[0].owner != unit.name:
            raise _NoTree
        return wanted[0]

    def _foot(self, part: Part, carry: Origin, gates: Sequence[Part]) -> Part:
        for gate in gates:
            bits = [origin for _, origin in self._taken(gate)]
            if len(bits) == 2 and carry in bits and any(o.owner == part.name for o in bits):
                self.used.add(gate.name)
                return gate
        raise _NoTree

    def _check_outputs(self, root: Member) -> None:
        """Whether outputs come from places and their feet, and one bit from the root."""
        tops = {leaf.part.name for leaf in root.leaves()}
        tops |= {leaf.foot.name for leaf in root.leaves() if leaf.foot}
        shown = {(origin.owner, origin.port) for origin in self.sources.shown()}
        carried = {port for owner, port in shown if owner == root.part.name}
        if any(owner not in tops | {root.part.name} for owner, _ in shown) or len(carried) != 1:
            raise _NoTree
        if carried & {member.carry.port for member in root.members if member.carry}:
            raise _NoTree


def _sums(part: Part) -> bool:
    """Whether a part is a gate that makes a sum of two bits."""
    function = part.kind.function
    return function is not None and function.plain == "xor"
