"""Names as both languages allow them: IEEE 1800-2017 clause 5.6 and IEEE 1076-2008 clause 15.4.

A name of a circuit may have an index, a point, a hyphen; an identifier has letters, digits and
single underscores, begins with a letter and is no reserved word of either language, so that
a circuit has the same ports in both. VHDL does not tell capital letters from small ones.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass, field
from itertools import chain, count
from typing import Final

from edgewise.errors import DesignError, Message, Place
from edgewise.lab.reserved import RESERVED

_ODD: Final = re.compile(r"[^A-Za-z0-9]+")


def identifier(name: str) -> str:
    """A name as an identifier.

    Examples
    --------
    >>> identifier("FA(3).carry-out"), identifier("a_in"), identifier("select"), identifier("_2nd")
    ('FA_3_carry_out', 'a_in', 'select_id', 'n2nd')
    """
    plain = _ODD.sub("_", name).strip("_") or "unnamed"
    if plain[0].isdigit():
        plain = f"n{plain}"
    return f"{plain}_id" if plain.lower() in RESERVED else plain


@dataclass(slots=True)
class Identifiers:
    """The identifiers of one scope, each given once.

    Examples
    --------
    >>> taken = Identifiers("VHDL", folds_case=True)
    >>> taken.inner("rain"), taken.inner("Rain")
    ('rain', 'Rain_2')
    """

    language: str
    folds_case: bool
    _owners: dict[str, str] = field(default_factory=dict)

    def _key(self, name: str) -> str:
        return name.lower() if self.folds_case else name

    def port(self, name: str, place: Place | None = None) -> str:
        """The identifier of a port; ports are named by others, so that none gets a number.

        Raises
        ------
        DesignError
            Another port has it.
        """
        found = identifier(name)
        owner = self._owners.get(self._key(found))
        if owner is not None:
            raise DesignError(
                Message(
                    "identifier-shared",
                    first=owner,
                    second=name,
                    name=found,
                    language=self.language,
                ),
                place,
            )
        self._owners[self._key(found)] = name
        return found

    def inner(self, name: str, *others: str, hidden: Collection[str] = ()) -> str:
        """An identifier that nobody outside uses: the first free one; else one with a number.

        Those in `hidden` would be hidden where they are used.
        """
        hides = {self._key(one) for one in hidden}
        wishes = [identifier(wish) for wish in (name, *others)]
        numbered = (f"{wishes[0]}_{number}" for number in count(2))
        found = next(
            one
            for one in chain(wishes, numbered)
            if self._key(one) not in self._owners and self._key(one) not in hides
        )
        self._owners[self._key(found)] = name
        return found

    def hide(self, name: str) -> None:
        """Take an identifier away, that of the module itself."""
        self._owners[self._key(name)] = name
