"""Truth tables in CSV files (RFC 4180): a column for each input, the output in the last one."""

import csv
from collections.abc import Iterator

from edgewise.circuit.builder import Builder
from edgewise.circuit.model import Signal, Tie
from edgewise.design import Design, Operand, Purpose
from edgewise.errors import EdgewiseError, Place, TextError, raise_all
from edgewise.formula import parse
from edgewise.importers import Importer

MOST_INPUTS = 8


def read(text: str, file: str) -> Design:
    """The design of a truth table: an OR of an AND gate for each row that gives 1."""
    lines = [[cell.strip() for cell in line] for line in csv.reader(text.splitlines())]
    raise_all(_faults(lines, file))
    *inputs, output = lines[0]
    ones = [line[:-1] for line in lines[1:] if line[-1] == "1"]
    b = Builder(output)
    at = {name: b.input(name) for name in inputs}
    inverted = {name: b.part(f"not_{name}", "not", {"in": at[name]})["out"] for name in inputs}
    products = []
    for number, row in enumerate(ones):
        bits = [at[n] if bit == "1" else inverted[n] for n, bit in zip(inputs, row, strict=True)]
        products.append(_gate(b, f"row{number}", "and", bits))
    b.output(output, _gate(b, "any", "or", products) if products else (Tie(0),))
    terms = [_term(inputs, row) for row in ones]
    computes = Purpose(output, parse(" + ".join(terms) or "0"), None)
    return Design(
        output, b.circuit(), operands=tuple(Operand(n, 1) for n in inputs), computes=(computes,)
    )


def _gate(b: Builder, name: str, operator: str, bits: list[Signal]) -> Signal:
    if len(bits) == 1:
        return bits[0]
    return b.part(name, operator, {"in": tuple(bit for one in bits for bit in one)})["out"]


def _term(inputs: list[str], row: list[str]) -> str:
    factors = [
        name if bit == "1" else f"(1 - {name})" for name, bit in zip(inputs, row, strict=True)
    ]
    return " * ".join(factors)


def _faults(lines: list[list[str]], file: str) -> Iterator[EdgewiseError]:
    heading = lines[0] if lines else []
    if not 2 <= len(heading) <= MOST_INPUTS + 1:
        told = f"found {len(heading)} columns, expected 1..{MOST_INPUTS} inputs and an output"
        yield TextError(told, Place(file, 1))
        return
    for name in heading:
        if not name.isidentifier() or heading.count(name) > 1:
            yield TextError(f"{name!r} is no name, or stands there twice", Place(file, 1))
    for number, line in enumerate(lines[1:], 2):
        if len(line) != len(heading) or not set(line) <= {"0", "1"}:
            told = f"found {','.join(line)}, expected {len(heading)} cells of 0 and 1"
            yield TextError(told, Place(file, number))
    rows = {tuple(line[:-1]) for line in lines[1:]}
    if len(rows) != len(lines) - 1 or len(rows) != 2 ** (len(heading) - 1):
        told = f"expected each of the {2 ** (len(heading) - 1)} rows of the truth table once"
        yield TextError(told, Place(file, 1))


TRUTH_TABLE = Importer("csv", "a truth table, the output in the last column", read)
