"""A design at other sizes: which of its parameters can stay parameters of its module."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Final

from edgewise.blueprint import Blueprint
from edgewise.design import Design
from edgewise.errors import EdgewiseError
from edgewise.lab import generic
from edgewise.lab.description import Module
from edgewise.lab.language import Language
from edgewise.lab.module import Library

_MOST_KEPT: Final = 2
"""Parameters that stay parameters."""
_STEPS: Final = 8
"""How far the next value of a parameter may be: it may have to be a multiple of another one."""


def library_of(design: Design, used: Language) -> Library:
    """The modules of a design, for a language.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.lab import language
    >>> library = library_of(catalogue.design("serial-adder", n=4), language.find("vhdl"))
    >>> [module.name for module in library.modules]
    ['full_adder', 'serial_adder']
    """
    library = Library(used.title, used.folds_case)
    library.top(design.name, design.circuit, ())
    return library


@dataclass(frozen=True)
class Sizes:
    """A design with other parameters.

    Parameters
    ----------
    blueprint : Blueprint
    design : Design
        As it is asked for.
    used : Language
    """

    blueprint: Blueprint
    design: Design
    used: Language

    @cached_property
    def usual(self) -> tuple[Module, ...]:
        """The modules as they are asked for."""
        return tuple(library_of(self.design, self.used).modules)

    def at(self, **values: int) -> tuple[Module, ...]:
        """The modules at other values of some parameters.

        Raises
        ------
        EdgewiseError
            There is no such design.
        """
        given = self.blueprint.numbers({**self.design.parameters, **values})
        return tuple(library_of(self.blueprint.make(given), self.used).modules)

    def kept(self, plain: Module) -> Module:
        """The outermost module, with the first two parameters that can stay ones.

        Parameters
        ----------
        plain : Module
            With numbers for all.
        """
        found: dict[str, Module] = {}
        for name, value in self.design.parameters.items():

            def at(one: int, name: str = name) -> tuple[Module, ...]:
                return self.at(**{name: one})

            made = generic.kept(name, value, at, folds_case=self.used.folds_case)
            if made is not None:
                found[name] = made
            if len(found) == _MOST_KEPT:
                return self._both(plain, found)
        return next(iter(found.values()), plain)

    def _both(self, plain: Module, found: dict[str, Module]) -> Module:
        """The module with two parameters, or with the first of them."""
        (one, first), (other, second) = found.items()

        def at(a: int, b: int) -> Module | None:
            try:
                *inner, outermost = self.at(**{one: a, other: b})
            except EdgewiseError:  # they don't go together
                return None
            return outermost if tuple(inner) == self.usual[:-1] else None

        return generic.both(plain, first, second, at) or first

    def matters(self, name: str) -> bool:
        """Whether the circuit is another one where a parameter is the next one that there is."""
        value = self.design.parameters[name]
        for step in range(1, _STEPS + 1):
            for other in (value - step, value + step):
                try:
                    return self.at(**{name: other}) != self.usual
                except EdgewiseError:  # out of its range
                    continue
        return False
