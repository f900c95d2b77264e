"""A plan written as LLVM's assembly language: straight-line code inside a few loops.

The language is that of the LLVM Language Reference Manual. A value is a vector of
``<n x i64>``, one bit a lane. Nothing is read from memory: operand bits are constant patterns
or bits of a loop's counter.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import chain
from typing import Final, Literal, TypeAlias

from edgewise.engines.exhaustive.lanes import Plan
from edgewise.engines.symbolic.terms import Node, Term
from edgewise.engines.symbolic.variables import Variable

Sink: TypeAlias = Literal["count", "any", "masks"]
"""What a kernel gives: sums of lanes, the first step with a true lane, or all lanes."""

_SIX: Final = tuple(sum(1 << i for i in range(64) if i >> bit & 1) for bit in range(6))


@dataclass(frozen=True, slots=True)
class Assembly:
    """A kernel's text.

    Parameters
    ----------
    text : str
        Defines ``i64 @kernel(i64 start, i64 stop, ptr out)``, which goes through
        the steps start … stop - 1 of the outermost loop.
    terms : int
        How many operations it has.
    """

    text: str
    terms: int


def assemble(plan: Plan, sink: Sink, vector: int) -> Assembly:
    """The kernel of a plan.

    Parameters
    ----------
    plan : Plan
    sink : str
        ``count`` adds to the 64-bit number of each predicate at `out` how many sets it is
        true for; ``any`` returns the first step in which a predicate is true, or `stop`;
        ``masks`` writes, block of lanes by block of lanes, one vector for each predicate.
    vector : int
        Bits in a vector: a multiple of 64.
    """
    return _Kernel(plan, sink, vector // 64).write()


@dataclass
class _Kernel:
    plan: Plan
    sink: Sink
    elements: int
    lines: list[str] = field(default_factory=list)
    registers: dict[int, str] = field(default_factory=dict)
    """The value of each node."""
    patterns: dict[int, str] = field(default_factory=dict)
    """Nodes that are constants."""
    inverted: set[int] = field(default_factory=set)
    """Nodes whose register holds the complement."""
    names: int = 0
    block: str = "entry"

    def write(self) -> Assembly:
        """The whole module."""
        reached = self.plan.terms.reached(r for copies in self.plan.roots for r, _ in copies)
        levels = self._levels(reached)
        self._set_patterns(reached)
        self._compute(levels[0])
        result = self._loop(levels, 0, ["zeroinitializer"] * self._sums, "0")
        self._finish(result)
        vector = self._type
        text = "\n".join(
            chain(
                [f"declare {vector} @llvm.ctpop.v{self.elements}i64({vector})"],
                [
                    f"declare i64 @llvm.vector.reduce.{op}.v{self.elements}i64({vector})"
                    for op in ("add", "or")
                ],
                ["define i64 @kernel(i64 %start, i64 %stop, ptr %out) {", "entry:"],
                self.lines,
                ["}"],
            )
        )
        return Assembly(text, len(reached))

    # ------------------------------------------------------------------ what goes where

    def _levels(self, reached: Sequence[int]) -> list[list[int]]:
        """Nodes by the innermost loop they depend on; those of lanes only come first."""
        loop_of = {v: i for i, loop in enumerate(self.plan.loops, 1) for v in loop}
        level: dict[int, int] = {0: 0}
        levels: list[list[int]] = [[] for _ in range(len(self.plan.loops) + 1)]
        for number in reached:
            node = self.plan.terms.nodes[number]
            if node.variable is not None:
                level[number] = loop_of.get(node.variable, 0)
            elif number:
                level[number] = max(level[node.left >> 1], level[node.right >> 1])
                levels[level[number]].append(number)
        return levels

    def _set_patterns(self, reached: Sequence[int]) -> None:
        lanes = {variable: bit for bit, variable in enumerate(self.plan.lanes)}
        self.patterns[0] = "zeroinitializer"
        for number in reached:
            bit = lanes.get(self.plan.terms.nodes[number].variable or Variable("", 0))
            if bit is not None and bit < len(_SIX):
                self.patterns[number] = self._vector([_SIX[bit]] * self.elements)
            elif bit is not None:
                words = [-(i >> (bit - len(_SIX)) & 1) for i in range(self.elements)]
                self.patterns[number] = self._vector(words)

    # ------------------------------------------------------------------ straight-line code

    @property
    def _type(self) -> str:
        return f"<{self.elements} x i64>"

    def _vector(self, words: Sequence[int]) -> str:
        return "<" + ", ".join(f"i64 {word}" for word in words) + ">"

    def _emit(self, operation: str) -> str:
        self.names += 1
        self.lines.append(f"  %v{self.names} = {operation}")
        return f"%v{self.names}"

    def _compute(self, numbers: Sequence[int]) -> None:
        for number in numbers:
            self.registers[number] = self._operation(number)

    def _operation(self, number: int) -> str:
        """One node; complements are passed on, so that few of them are computed."""
        node: Node = self.plan.terms.nodes[number]
        left, left_not = self._read(node.left)
        right, right_not = self._read(node.right)
        if node.operator == "xor":
            if left_not != right_not:
                self.inverted.add(number)
            return self._emit(f"xor {self._type} {left}, {right}")
        if left_not and right_not:
            self.inverted.add(number)
            return self._emit(f"or {self._type} {left}, {right}")
        left = self._complement(left) if left_not else left
        right = self._complement(right) if right_not else right
        return self._emit(f"and {self._type} {left}, {right}")

    def _read(self, term: Term) -> tuple[str, bool]:
        """The value that a term is made from, and whether the term is its complement."""
        number = term >> 1
        if number in self.patterns:
            return self.patterns[number], bool(term & 1)
        return self.registers[number], bool(term & 1) ^ (number in self.inverted)

    def _value(self, term: Term) -> str:
        value, complement = self._read(term)
        return self._complement(value) if complement else value

    def _complement(self, value: str) -> str:
        return self._emit(f"xor {self._type} {value}, {self._vector([-1] * self.elements)}")

    # ------------------------------------------------------------------ loops

    def _loop(
        self, levels: Sequence[Sequence[int]], depth: int, sums: list[str], block: str
    ) -> list[str]:
        """A loop and those inside it; gives the sums after it.

        `block` numbers the blocks of lanes before it, for where masks go.
        """
        loop = self.plan.loops[depth]
        first, last = ("%start", "%stop") if depth == 0 else ("0", str(1 << len(loop)))
        head, before = f"loop{depth}", self.block
        self.lines += [f"  br label %{head}", f"{head}:"]
        phis = len(self.lines)
        self.block = head
        step = f"%step{depth}"
        inside = [f"%sum{depth}_{i}" for i in range(len(sums))]
        for bit, variable in enumerate(loop):
            self._broadcast(variable, step, bit)
        self._compute(levels[depth + 1])
        if self.sink == "masks":
            offset = self._emit(f"sub i64 {step}, {first}")
            wider = self._emit(f"shl i64 {block}, {len(loop) if depth else 0}")
            block = self._emit(f"add i64 {wider}, {offset}")
        starts = ["zeroinitializer"] if self.sink == "any" and not depth else inside
        if depth + 1 < len(self.plan.loops):
            after = self._loop(levels, depth + 1, starts, block)
        else:
            after = self._sink(starts, block)
        if self.sink == "any" and not depth:
            self._leave_if_any(after[0], step)
        self.lines.append(f"  {step}.next = add i64 {step}, 1")
        done = self._emit(f"icmp eq i64 {step}.next, {last}")
        self.lines += [f"  br i1 {done}, label %done{depth}, label %{head}", f"done{depth}:"]
        merged = [f"  {step} = phi i64 [ {first}, %{before} ], [ {step}.next, %{self.block} ]"]
        merged += [
            f"  {name} = phi {self._type} [ {old}, %{before} ], [ {new}, %{self.block} ]"
            for name, old, new in zip(inside, sums, after, strict=True)
        ]
        self.lines[phis:phis] = merged
        self.block = f"done{depth}"
        return after

    def _broadcast(self, variable: Variable, step: str, bit: int) -> None:
        """All lanes get one bit of a loop's counter."""
        shifted = self._emit(f"lshr i64 {step}, {bit}")
        single = self._emit(f"and i64 {shifted}, 1")
        filled = self._emit(f"sub i64 0, {single}")
        start = self._emit(f"insertelement {self._type} poison, i64 {filled}, i32 0")
        number = self.plan.terms.variable(variable) >> 1
        zeros = f"<{self.elements} x i32> zeroinitializer"
        self.registers[number] = self._emit(
            f"shufflevector {self._type} {start}, {self._type} poison, {zeros}"
        )

    # ------------------------------------------------------------------ what comes of it

    @property
    def _sums(self) -> int:
        return {"count": len(self.plan.roots), "any": 1, "masks": 0}[self.sink]

    def _valid(self, value: str) -> str:
        """Without the lanes that stand for no operand set."""
        used = 1 << len(self.plan.lanes)
        if used >= 64 * self.elements:
            return value
        ones = (1 << used) - 1
        words = [ones >> 64 * i & (1 << 64) - 1 for i in range(self.elements)]
        return self._emit(f"and {self._type} {value}, {self._vector(words)}")

    def _sink(self, sums: list[str], block: str) -> list[str]:
        vector = self._type
        if self.sink == "masks":
            start = self._emit(f"mul i64 {block}, {len(self.plan.roots)}")
            for i, ((root, _),) in enumerate(self.plan.roots):
                place = self._emit(f"add i64 {start}, {i}")
                address = self._emit(f"getelementptr {vector}, ptr %out, i64 {place}")
                value = self._valid(self._value(root))
                self.lines.append(f"  store {vector} {value}, ptr {address}, align 8")
            return []
        if self.sink == "any":
            for root, _ in chain.from_iterable(self.plan.roots):
                value = self._valid(self._value(root))
                sums = [self._emit(f"or {vector} {sums[0]}, {value}")]
            return sums
        return [
            self._counted(copies, old) for copies, old in zip(self.plan.roots, sums, strict=True)
        ]

    def _counted(self, copies: Sequence[tuple[Term, int]], total: str) -> str:
        vector = self._type
        for root, times in copies:
            if root == 0:
                continue
            value = self._valid(self._value(root))
            ones = self._emit(f"call {vector} @llvm.ctpop.v{self.elements}i64({vector} {value})")
            if times > 1:
                ones = self._emit(f"mul {vector} {ones}, {self._vector([times] * self.elements)}")
            total = self._emit(f"add {vector} {total}, {ones}")
        return total

    def _leave_if_any(self, value: str, step: str) -> None:
        any_lane = self._reduce("or", value)
        none = self._emit(f"icmp eq i64 {any_lane}, 0")
        self.lines += [
            f"  br i1 {none}, label %none, label %found",
            "found:",
            f"  ret i64 {step}",
            "none:",
        ]
        self.block = "none"

    def _reduce(self, operator: str, value: str) -> str:
        suffix = f"v{self.elements}i64"
        return self._emit(f"call i64 @llvm.vector.reduce.{operator}.{suffix}({self._type} {value})")

    def _finish(self, sums: Sequence[str]) -> None:
        if self.sink == "count":
            for i, vector in enumerate(sums):
                total = self._reduce("add", vector)
                address = self._emit(f"getelementptr i64, ptr %out, i64 {i}")
                self.lines.append(f"  store i64 {total}, ptr {address}")
        self.lines.append("  ret i64 %stop")
