"""A bench: what each row of a run feeds a circuit, and what its outputs are to be."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from edgewise.lab.description import CLOCK, Module, Port
from edgewise.lab.law import Law
from edgewise.lab.module import Library
from edgewise.lab.naming import DIGITS
from edgewise.trace import Trace


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its number, its phase, and bits, MSB first, in the order of the bench's ports."""

    number: int
    phase: str
    fed: tuple[str, ...]
    shown: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Bench:
    """A module on the bench.

    Parameters
    ----------
    module : Module
    clock : str
        Empty where the module has none.
    inputs, outputs : tuple of Port
        Those of the module, without the clock.
    rows : tuple of Row
    laws : tuple of (Port, Law)
        What holds of an output in a row.
    about : tuple of str
        Lines for people.
    name, unit, task, number : str
        What the bench, the module in it, what compares a row, and a row's number are called.
    bits : tuple of str
        What the bits of a row are called, in the order of `ports`.
    masks : tuple of str
        What tells which bits of the outputs are known is called.
    """

    module: Module
    clock: str
    inputs: tuple[Port, ...]
    outputs: tuple[Port, ...]
    rows: tuple[Row, ...]
    laws: tuple[tuple[Port, Law], ...]
    about: tuple[str, ...]
    name: str
    unit: str
    task: str
    number: str
    bits: tuple[str, ...]
    masks: tuple[str, ...]

    def known(self, port: Port) -> tuple[str, ...] | None:
        """For each row which bits of an output are known, as ones; None if all of them are."""
        at = self.outputs.index(port)
        masks = tuple(
            "".join("0" if bit == "x" else "1" for bit in row.shown[at]) for row in self.rows
        )
        return None if all("0" not in mask for mask in masks) else masks

    @property
    def ports(self) -> tuple[Port, ...]:
        """The inputs, then the outputs."""
        return (*self.inputs, *self.outputs)


def bench(
    library: Library,
    trace: Trace,
    about: tuple[str, ...] = (),
    laws: tuple[Law, ...] = (),
    name: str = "",
) -> Bench:
    """The bench for the outermost module of a library and a run of its circuit.

    Parameters
    ----------
    library : Library
    trace : Trace
    about : tuple of str
        Lines for people.
    laws : tuple of Law
        What is to be asserted, too.
    name : str
        What the bench is called; as the library has it unless given.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> design = catalogue.design("serial-adder", n=4)
    >>> library = Library("VHDL", folds_case=True)
    >>> _ = library.top("adder", design.circuit, ())
    >>> bench(library, run(design, a=5, b=6)).rows[8]
    Row(number=8, phase='add', fed=('1', 'x', 'x'), shown=('1011', '0'))
    """
    module, netlist = library.modules[-1], trace.design.netlist
    taken = [port for port in module.ports if port.direction == "in"]
    clocked = len(taken) > len(netlist.inputs)
    inputs = tuple(taken[clocked:])
    outputs = tuple(port for port in module.ports if port.direction == "out")
    names = library.scope()
    for port in module.ports:
        names.inner(port.signal.name)
    by_name = dict(zip(netlist.outputs, outputs, strict=True))

    return Bench(
        module,
        CLOCK if clocked else "",
        inputs,
        outputs,
        tuple(_rows(trace)),
        tuple((by_name[law.output], law) for law in laws),
        about,
        name or library.bench,
        names.inner("circuit_on_bench"),
        names.inner("check_row"),
        names.inner("row_number"),
        tuple(names.inner(f"{port.signal.name}_is") for port in (*inputs, *outputs)),
        tuple(names.inner(f"{port.signal.name}_known") for port in outputs),
    )


def _rows(trace: Trace) -> Iterator[Row]:
    netlist = trace.design.netlist

    def bits(row: int, words: Iterable[tuple[int, ...]]) -> tuple[str, ...]:
        values = trace.rows[row]
        return tuple("".join(DIGITS[values[net]] for net in reversed(nets)) for nets in words)

    for row in range(trace.edges + 1):
        phase = trace.phase(row)
        fed, shown = bits(row, netlist.inputs.values()), bits(row, netlist.outputs.values())
        yield Row(row, phase.name if phase else "", fed, shown)
