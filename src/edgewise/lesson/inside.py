"""The ``inside`` block: what happens between clock edges, with the delays of a model."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final, cast, get_args

from edgewise import formula, yamltext
from edgewise.errors import EdgewiseError, Message, TextError
from edgewise.inside import Inside
from edgewise.lesson.claims import Checked, FalseClaim, Statement, refuse
from edgewise.lesson.claims import read as read_claim
from edgewise.lesson.expression import Run
from edgewise.lesson.options import Gathering, choice_of, names_of, row_of, text_of
from edgewise.lesson.pieces import Figure
from edgewise.numerals import meant_range, whole
from edgewise.views.registry import Wish, possible
from edgewise.words.messages import ENGLISH, Words
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import Scalar, Tree, scalar, shortened

if TYPE_CHECKING:  # few lessons look inside
    from edgewise.formula import TimeClaim
    from edgewise.study.cost.technology import Technology
    from edgewise.study.inside import Manner
    from edgewise.study.inside.time_claim import TimeVerdict

OPTIONS: Final = (
    "edges",
    "model",
    "period",
    "pulses",
    "spread",
    "seed",
    "when",
    "late",
    "outcome",
    "before",
    "columns",
    "claim",
    "expect",
    "clock",
    "legend",
    "caption",
)
"""The entries of an ``inside`` block."""
MOST_TOLD: Final = 12
"""Sentences of a block, at most."""
_TIME: Final = re.compile(r"\d{1,9}(\.\d{1,2})?", re.ASCII)


@dataclass(frozen=True, slots=True)
class Opened:
    """Clock periods opened up in a lesson: what happens in them, and its figure.

    Parameters
    ----------
    inside : Inside
    figure : Figure
        The timing diagram, to scale.
    claims : Checked
        Claims about these periods.
    """

    inside: Inside
    figure: Figure
    claims: Checked

    def claimed(self, words: Words = ENGLISH) -> list[tuple[str, str]]:
        """Each claim about these periods, and how it came out."""
        pairs = zip(self.claims.statements, self.claims.verdicts, strict=True)
        return [(one.text, _how(cast("TimeVerdict", verdict), words)) for one, verdict in pairs]

    def title(self, words: Words = ENGLISH) -> str:
        """What the figure shows, in a few words."""
        moment = self.inside
        if self.figure.caption:
            return self.figure.caption
        if not moment.first:
            return words("inside-caption-inputs", model=moment.model)
        if moment.first == moment.last:
            return words("inside-caption-edge", edge=moment.first, model=moment.model)
        edges = {"first": moment.first, "last": moment.last}
        return words("inside-caption-edges", model=moment.model, **edges)

    def sentences(self, words: Words = ENGLISH) -> list[str]:
        """What is to be said, `MOST_TOLD` at most, each as a whole sentence."""
        said = self.inside.sentences(words)
        told = [f"{one[:1].upper()}{one[1:]}." for one in said[:MOST_TOLD]]
        left = len(said) - len(told)
        return [*told, words("inside-more", count=left)] if left else told

    def lines(self, words: Words = ENGLISH) -> list[list[str]]:
        """Every change of what is shown, a heading before them."""
        columns = ("edge", "time", "net", "from", "to")
        heading = [words(f"inside-column-{column}") for column in columns]
        shown = self.inside.table(self.figure.names)
        rows = [[edge, words.decimal(time), *rest] for edge, time, *rest in shown]
        return [heading, *rows]


def read(
    options: Keys, run: Run | None, model: Scalar | None = None, words: Words = ENGLISH
) -> Opened | None:
    """Open what a block asks for; without a run it is only read.

    Parameters
    ----------
    options : Keys
        ``edges: 8`` or ``8..9``, ``columns: [A, FA.sum]``, ``caption: …``; ``model: 74hc``,
        ``period: 40``, ``when: {shift: 9}``, ``late: {B: 5}`` and more, as of
        ``edgewise trace --inside``; ``before: {a: 0}`` in a circuit without clock edges.
    run : Run, optional
        The lesson's.
    model : Scalar, optional
        The lesson's, where the block names none.

    Raises
    ------
    EdgewiseError or Problems
        Options that can't be read, edges and names that there are not.
    """
    from edgewise.study.inside import inside
    from edgewise.views.timing.inside_plan import names_of as usual

    with Gathering() as gathering:
        caption = gathering.add(text_of, options, "caption") or ""
        clock = gathering.add(choice_of, options, "clock", ("shown", "hidden"))
        legend = gathering.add(choice_of, options, "legend", ("hidden", "shown")) == "shown"
        manner = gathering.add(_manner, options, model)
        edges = gathering.add(_edges, options, run)
        before = gathering.add(_before, options.get("before"), run)
        tree = options.get("columns")
        names = None if tree is None else gathering.add(names_of, tree, "columns", run)
    if run is None or manner is None or edges is None:
        return None
    trace = run.trace
    moment = inside(
        trace,
        *edges,
        manner,
        before=None if before is None else Run(run.design, before).trace,
        place=options.place,
    )
    shown = usual(moment) if names is None else names
    wish = Wish(
        names=shown,
        inside=moment,
        clock="hidden" if clock == "hidden" else "wedge",
        legend=legend,
        words=words,
    )
    possible(trace, "timing", wish)
    claims = _claims(options, moment, manner)
    rows = tuple(range(edges[0], edges[1] + 1))
    figure = Figure(trace, "timing", wish, rows, shown, caption, options.place)
    return Opened(moment, figure, claims)


def _how(verdict: TimeVerdict, words: Words) -> str:
    if verdict.holds or verdict.why is None:
        return verdict.evidence.told(words)
    return words("time-claim-false", why=verdict.why.told(words))


def _claims(options: Keys, moment: Inside, manner: Manner) -> Checked:
    """The claims of the block, as it expects them.

    Raises
    ------
    FalseClaim
        One that comes out otherwise.
    """
    from edgewise.study.inside.time_claim import settle_moment

    tree = options.get("claim")
    expected = choice_of(options, "expect", ("true", "false")) == "true"
    if tree is None:
        if not expected:
            raise TextError(Message("expect-idle"), options.place)
        return Checked((), ())
    items = tree.items if isinstance(tree, yamltext.Sequence) else (tree,)
    statements: list[Statement] = []
    verdicts: list[TimeVerdict] = []
    with Gathering() as gathering:
        for item in items:
            given = gathering.add(scalar, item, "claim")
            statement = None if given is None else gathering.add(_statement, given)
            if given is None or statement is None:
                continue
            claim, place = cast("TimeClaim", statement.claim), given.place
            verdict = gathering.add(settle_moment, claim, moment, manner, place)
            if verdict is None:
                continue
            statements.append(statement)
            verdicts.append(verdict)
            gathering.add(_as_expected, statement, verdict, expected=expected)
    return Checked(tuple(statements), tuple(verdicts))


def _as_expected(statement: Statement, verdict: TimeVerdict, *, expected: bool) -> None:
    if expected:
        refuse(statement, verdict)
    elif verdict.holds:
        told = Message("claim-time-true", claim=statement.text, how=verdict.how)
        raise FalseClaim(told, statement.place)


def _statement(given: Scalar) -> Statement:
    if not formula.of_time(given.text):
        told = Message("claim-time-expected", found=shortened(given.text))
        raise TextError(told, given.place)
    return read_claim(given.text, given.place)


def technology(named: Scalar | None) -> Technology:
    """The model of a name; the one that counts gate delays where none is named."""
    from edgewise.study.cost import models

    if named is None:
        return models.technology("unit-gate")
    return models.technology(named.text, named.place)


def _manner(options: Keys, model: Scalar | None) -> Manner:
    """How it is looked into."""
    from edgewise.engines.timed.delays import Outcome
    from edgewise.study.inside import Manner

    with Gathering() as gathering:
        tree = options.get("model")
        named = model if tree is None else gathering.add(scalar, tree, "model")
        known = gathering.add(technology, named)
        period = gathering.add(_time_of, options, "period")
        pulses = gathering.add(choice_of, options, "pulses", ("inertial", "transport"))
        spread = gathering.add(_count, options, "spread", 0)
        seed = gathering.add(_count, options, "seed", 1)
        when = gathering.add(_times, options, "when", "{shift: 9}")
        late = gathering.add(_times, options, "late", "{B: 5}")
        outcome = gathering.add(choice_of, options, "outcome", get_args(Outcome))
    if options.get("seed") is not None and not spread:
        raise TextError(Message("seed-idle"), options.place)
    assert known is not None
    return Manner(
        known,
        period,
        pulses == "transport",
        spread or 0,
        1 if seed is None else seed,
        when or {},
        late or {},
        outcome,  # type: ignore[arg-type]  # one of them, as was seen
    )


def _edges(options: Keys, run: Run | None) -> tuple[int, int] | None:
    """The first and the last edge; 0 where there are none."""
    tree = options.get("edges")
    if run is None:
        return None
    if tree is None:
        if run.design.edges:
            raise TextError(Message("inside-edges-absent"), options.place)
        return 0, 0
    given = scalar(tree, "edges")
    if not run.design.edges:
        raise TextError(Message("inside-edges-idle", name=run.design.name), given.place)
    if hint := meant_range(given.text):
        told = Message("range-unread", name="edges", found=given.text, hint=hint)
        raise TextError(told, given.place)
    low, dots, high = given.text.partition("..")
    first = _edge(Scalar(low, given.place), run)
    last = _edge(Scalar(high, given.place.moved(len(low) + 2)), run) if dots else first
    if first > last:
        raise TextError(Message("inside-edges-backwards", found=given.text), given.place)
    return first, last


def _edge(given: Scalar, run: Run) -> int:
    edge = row_of(given, run)
    if not edge:
        raise TextError(Message("edge-zero-none", last=run.design.edges), given.place)
    return edge


def _before(tree: Tree | None, run: Run | None) -> Mapping[str, int] | None:
    """The operands that stood before, in a circuit without clock edges."""
    if tree is None or run is None:
        return None
    if run.design.edges:
        raise TextError(Message("inside-before-idle"), tree.place)
    found: dict[str, int] = {}
    for name, value in yamltext.mapping(tree, "before", "{a: 0, b: 0}").pairs:
        given = scalar(value, name.text)
        number = whole(given.text, name.text)
        if number is None:
            told = Message("inside-number", name=name.text, found=shortened(given.text))
            raise TextError(told, given.place)
        found[name.text] = number
    try:
        return run.design.values(found)
    except EdgewiseError as wrong:
        raise wrong.placed(tree.place) from None


def _count(options: Keys, key: str, otherwise: int) -> int:
    tree = options.get(key)
    if tree is None:
        return otherwise
    given = scalar(tree, key)
    number = whole(given.text, key)
    if number is None or number < 0:
        told = Message("inside-count", name=key, found=shortened(given.text))
        raise TextError(told, given.place)
    return number


def _time(given: Scalar, key: str) -> Fraction:
    if not _TIME.fullmatch(given.text.strip()):
        told = Message("inside-time", name=key, found=shortened(given.text))
        raise TextError(told, given.place)
    return Fraction(given.text.strip())


def _time_of(options: Keys, key: str) -> Fraction | None:
    tree = options.get(key)
    return None if tree is None else _time(scalar(tree, key), key)


def _times(options: Keys, key: str, example: str) -> dict[str, Fraction]:
    tree = options.get(key)
    if tree is None:
        return {}
    pairs = yamltext.mapping(tree, key, example).pairs
    return {name.text: _time(scalar(value, name.text), name.text) for name, value in pairs}
