"""Metastability: how often a flip-flop is still undecided when its output is looked at.

A flip-flop whose data changes too near its clock edge may stand between 0 and 1; with time it
falls to one side, and the chance that it has not yet is halved again and again. On the average
once in

    MTBF = exp(t / tau) / (window x clock x data)

it is undecided still at the time t after the edge. `tau` and `window` (also called T0) belong to
the part and are measured; clock and data are how often edges and changes come.

References
----------
T. Chaney and C. Molnar, "Anomalous behavior of synchronizer and arbiter circuits", IEEE Trans.
Computers C-22(4), 1973; R. Ginosar, "Metastability and synchronizers: a tutorial", IEEE Design &
Test 28(5), 2011 (both from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import e, floor, log10
from typing import Final

from edgewise.errors import DesignError, Message

YEAR: Final = 365.25 * 24 * 3600
"""Seconds."""
_PLAIN: Final = (-3, 6)
"""Powers of ten whose numbers are written out."""


@dataclass(frozen=True, slots=True)
class Rarity:
    """A mean time between failures, which may be longer than any number of seconds that fits.

    Parameters
    ----------
    power : float
        Its decimal logarithm, in seconds.
    """

    power: float

    def figure(self, unit: float = 1.0) -> str:
        """The time in units of so many seconds, three digits.

        Examples
        --------
        >>> Rarity(10.179).figure(), Rarity(10.179).figure(YEAR), Rarity(-1.5).figure()
        ('1.51e10', '479', '0.0316')
        """
        power = self.power - log10(unit)
        if _PLAIN[0] <= power < _PLAIN[1]:
            return f"{float(f'{10**power:.3g}'):g}"
        whole = floor(power)
        return f"{10 ** (power - whole):.2f}e{whole}"


def mtbf(
    resolve: Fraction, tau: Fraction, window: Fraction, clock: Fraction, data: Fraction
) -> Rarity:
    """The mean time between two failures of a synchroniser.

    Parameters
    ----------
    resolve, tau, window : Fraction
        The time left to decide, and the constants of the part, in seconds.
    clock, data : Fraction
        Clock edges, and changes of the data, in a second.

    Raises
    ------
    DesignError
        A number that is not above 0; `resolve` may be 0.

    Examples
    --------
    >>> nano, mega = Fraction(1, 10**9), 10**6
    >>> part = {"tau": Fraction("0.135") * nano, "window": Fraction(9_800_000)}
    >>> mtbf(10 * nano, clock=50 * mega, data=20 * mega, **part).figure(YEAR)
    '478'
    """
    numbers = {"tau": tau, "window": window, "clock": clock, "data": data}
    for name, number in numbers.items():
        if number <= 0:
            raise DesignError(Message("mtbf-number", name=name, found=f"{float(number):g}"))
    if resolve < 0:
        raise DesignError(Message("mtbf-resolve", found=f"{float(resolve):g}"))
    rate = sum(log10(number) for number in (window, clock, data))
    return Rarity(float(resolve / tau) * log10(e) - rate)
