### What learners read, in English. The README of the syntax: projectfluent.org.

## The page around a lesson

clock-edges = { $count ->
    [one] { $count } clock edge
   *[other] { $count } clock edges
  }
page-footer = Every value set as a computed one, every table of a run and every figure drawn from the circuit was computed from it, its procedure and the operands, and every claim was checked as it says. Other numbers in the text were typed and not checked. Figures are for teaching, not for signing off hardware.
claims-checked = Claims, checked
law-checked = Law, checked
proved = Proved
values-as-table = The values as a table

## What the cells of a table mean

key-one = one
key-zero = zero
key-unknown = unknown
key-changed = changed at this edge

## Captions of tables and figures that have none of their own

caption-words = The words, MSB left
caption-words-of = The words, MSB left ({ $given })
caption-words-start = The words before the first edge, MSB left
caption-words-start-of = The words before the first edge, MSB left ({ $given })
caption-words-after = The words after edge { $edge }, MSB left
caption-words-after-of = The words after edge { $edge }, MSB left ({ $given })
caption-words-each = The words after each edge, with the inputs that the next one samples; MSB left
caption-words-each-of = The words after each edge, with the inputs that the next one samples; MSB left ({ $given })
caption-edges = Edges { $first } to { $last }
caption-start = Before the first edge
caption-start-with = Before the first edge, with the inputs of phase { $phase }
caption-after = After edge { $edge }
caption-after-with = After edge { $edge }, with the inputs of phase { $phase }
caption-chart = { $designs } in the model { $model }

## The handout

handout-figure = Figure { $number }
handout-table = Table { $number }
handout-continued = { $caption }, continued
handout-phase = phase
handout-after-edge = after edge
handout-start = start
handout-name = Name
handout-date = Date
handout-emptied = { $title }, to be filled in
handout-emptied-description = The same figure with its values left empty.
handout-solution-elsewhere = { $figure } and { $table } tell what is wrong; they are on the answer sheet.
handout-answers = { $title }: answers
handout-blanks = Blanks in the text
handout-blank = blank
handout-formula = formula
handout-answer = answer
handout-no-blanks = This handout has no blanks: the lesson computes nothing but givens.
handout-wrong = What is wrong
handout-tables-and-figures = Tables and figures
handout-broken = The broken circuit { $edge ->
    [0] at the start
   *[other] after edge { $edge }
  }{ $fault ->
    [marked] , the fault marked
   *[unmarked] {""}
  }

## Lists in a sentence

list-and = { $first } and { $last }
list-more = { $count } more

## How a claim was checked, and why it is false

claim-run = checked on this run
claim-each = checked
claim-sets = checked on all { NUMBER($sets, useGrouping: "true") } { $operands ->
    [1] values of { $name }
    [2] operand pairs
   *[other] sets of operands
  }
claim-structure = proved by reducing both sides to the same logic
claim-sat = proved by SAT
claim-mixed = { claim-sets }, and { $proof } in { $proofs } of the { $designs } designs, for { $over }
claim-over = { $how } for { $over }
claim-range = { $name } = { $first } to { $last }
claim-refuted = refuted by SAT
claim-falsified = found false by running it
claim-undecided = undecided: { $why }
claim-time-up = no proof in { $seconds } s
claim-contrast = { $what } is { $value }, expected { $relation ->
    [other] something else than { $expected }
    [less] less than { $expected }
    [most] at most { $expected }
    [more] more than { $expected }
    [least] at least { $expected }
   *[equal] { $expected }
  }
claim-truth = { $what } is { $truth }
claim-is = { $what } is { $value }
claim-since = { $said } ({ $leaves })
claim-and = { $first }; and { $second }
claim-unknown = { $what } is { $word }, which has no value: { $count ->
    [0] its bit is unknown
    [1] bit { $bits } is unknown
   *[other] bits { $bits } are unknown
  } (X)
claim-unvalued = { $word } has no value{ $count ->
    [0] {""}
    [1] : bit { $bit } is unknown (X)
   *[other] : { $count } bits are unknown (X)
  }
claim-holds = It holds { $where }.
claim-holds-only = It holds { $where } only.
claim-holds-example = It holds, for example, { $where }.
claim-from-edge = from edge { $edge } on
claim-at-start = at the start
claim-after-edges = { $count ->
    [one] after edge { $edges }
   *[other] after edges { $edges }
  }
claim-edges-range = { $first } to { $last }
claim-more-stretches = { $count } more stretches

## What came of a question about all operands

finding-same = the same answers for all operands
finding-with = { $claim }, with { $given }
finding-true = True: { $how }{ $ran }.
finding-undecided = Undecided: { $why }{ $ran }.
finding-more-time = Give it more time, or take smaller words.
finding-false = False{ $kind ->
    [smallest] {" "}for { $operands }, the smallest such operands
    [some] {" "}for { $operands }
   *[any] {""}
  }{ $ran }.
finding-why = { $why }.
finding-at = At { $case }: { $why }.
finding-answer = { $value } in { $design }{ $edge ->
    [0] {""}
   *[other] {" "}after edge { $edge }
  }
finding-difference = { $output } is { $first }, and { $second }.
finding-leak = After edge { $edge }, the last of { $phase }, { $part } holds a carry, and { $following } begins with it.
finding-leak-alone = With 0 in { $part } in that row, and all else as it was, the claim would be true.

## Laws

law-designs = { NUMBER($count, useGrouping: "true") } designs, { $over }
law-range = { $name } = { $first } to { $last }
law-up-to = { $name } up to { $last }
law-checked-all = checked on { $asked }; none lies beyond
law-checked-beyond = checked on { $asked }; on { $count } beyond, with { $further }
law-agree = { $solved } of them determined the formula, the other { NUMBER($rest, useGrouping: "true") } agree with it
law-none = { $found ->
    [hinted] no formula found for the { $quantity } of { $design }
   *[none] no formula of the family fits the { $quantity } of { $design }
  }
law-counted = counted on { $asked }
law-family =
    tried: polynomials in the parameters up to degree 3, and up to degree 2 with floor_log2,
    ceil_log2, 2**ceil_log2, 2**n, groups of four (div 4, mod 4) or levels of four
law-ends = checked on { $asked }, and false beyond: for { $case }, { $quantity } is { $count } and the formula gives { $value }
law-too-few = too few to tell: { $formula } agrees with all { $agree }, but { $solved } of them determined it; a law like this needs { $needed } designs or more
law-accident = { $formula } agrees with all { $agree }, but not beyond: for { $case } it gives { $value }, and { $count } is counted
law-later = from { $name } = { $first } on, { $law } fits, so let { $name } begin there

## What an example shows

coverage-title = What it shows
coverage-title-of = What the example { $given } shows
coverage-unset-carry = The carry flip-flop { $name } is never set: this example would look the same without it.
coverage-no-carry = There is no carry: this example would look the same without the carry wires.
coverage-register-still = { $name } never changes from one known value to another.
coverage-register-empty = { $name } never holds a 1: nothing is seen of it.
coverage-nothing = Without clock edges and adders there is nothing to count: the one row of the run is all there is to see.
coverage-idle-phase = Phase { $name } stores nothing that gets into the answer.
coverage-beside = { $name } also stands in { $count ->
    [one] row { $rows }, but no sum of that row gets
   *[other] rows { $rows }, but no sum of those rows gets
  } into the answer.
coverage-rows-all = { $adders ->
    [1] { $name } meets all { $total } rows of its
   *[other] The { $adders } full adders together meet all { $total } rows of the
  } truth table.
coverage-rows-none = { $adders ->
    [1] { $name } meets none of the { $total } rows of its
   *[other] The { $adders } full adders together meet none of the { $total } rows of the
  } truth table where it counts.
coverage-rows-few = { $adders ->
    [1] { $name } meets only { $used } of the { $total } rows of its
   *[other] The { $adders } full adders together meet only { $used } of the { $total } rows of the
  } truth table{ $where ->
    [beside] {" "}in sums that get into the answer
   *[everywhere] {""}
  }: { $rows } (a, b, carry-in).
coverage-rows-most = { $adders ->
    [1] { $name } meets { $used } of the { $total } rows of its
   *[other] The { $adders } full adders together meet { $used } of the { $total } rows of the
  } truth table{ $where ->
    [beside] {" "}in sums that get into the answer, not
   *[everywhere] , never
  } { $rows } (a, b, carry-in).
coverage-carries = A carry { $born ->
    [0] comes in from outside
    [1] is born once
    [2] is born twice
   *[other] is born { $born } times
  }, travels on { $travelling ->
    [1] once
    [2] twice
   *[other] { $travelling } times
  } and dies { $dying ->
    [1] once
    [2] twice
   *[other] { $dying } times
  }; the longest run is { $longest ->
    [one] { $longest } place
   *[other] { $longest } places
  }.
coverage-carries-undying = A carry { $born ->
    [0] comes in from outside
    [1] is born once
    [2] is born twice
   *[other] is born { $born } times
  } and travels on { $travelling ->
    [1] once
    [2] twice
   *[other] { $travelling } times
  }; the longest run is { $longest ->
    [one] { $longest } place
   *[other] { $longest } places
  }. None dies: no carry meets 0 + 0.
coverage-carries-staying = A carry { $born ->
    [0] comes in from outside
    [1] is born once
    [2] is born twice
   *[other] is born { $born } times
  } and dies { $dying ->
    [1] once
    [2] twice
   *[other] { $dying } times
  }, but never travels on from place to place.
coverage-carries-born = A carry { $born ->
    [0] comes in from outside
    [1] is born once
    [2] is born twice
   *[other] is born { $born } times
  }, but never travels on from place to place, and none dies.
coverage-flip-flops-all = { $total ->
    [1] { $name } goes both ways.
   *[other] All { $total } flip-flops go both ways.
  }
coverage-flip-flops = { $both } of { $total ->
    [one] { $total } flip-flop
   *[other] { $total } flip-flops
  } { $both ->
    [one] goes
   *[other] go
  } both ways{ $rest }.
coverage-rising = { $names } { $count ->
    [one] rises but never falls
   *[other] rise but never fall
  }
coverage-falling = { $names } { $count ->
    [one] falls but never rises
   *[other] fall but never rise
  }
coverage-unchanging = { $names } { $count ->
    [one] never changes
   *[other] never change
  }
coverage-gates-all = Every gate takes both values.
coverage-gates = { $both } of { $total ->
    [one] { $total } gate
   *[other] { $total } gates
  } { $both ->
    [one] takes
   *[other] take
  } both values{ $rest }.
coverage-nets-all = Every net takes both values.
coverage-nets = { $both } of { $total ->
    [one] { $total } net
   *[other] { $total } nets
  } { $both ->
    [one] takes
   *[other] take
  } both values{ $rest }.
coverage-zero = { $names } { $count ->
    [one] stays 0
   *[other] stay 0
  }
coverage-one = { $names } { $count ->
    [one] stays 1
   *[other] stay 1
  }
coverage-unknown = { $names } { $count ->
    [one] stays unknown
   *[other] stay unknown
  }
coverage-column-what = what
coverage-column-seen = seen
coverage-column-of = of
coverage-column-unseen = not seen
coverage-line-rows = rows of all { $adders } full adders
coverage-line-rows-of = rows of { $name }
coverage-line-born = carries born
coverage-line-travelling = carries travelling on
coverage-line-dying = carries dying
coverage-line-longest = longest carry run
coverage-line-flip-flops = flip-flops going both ways
coverage-line-gates = gates taking both values
coverage-line-nets = nets taking both values
coverage-line-phases = phases that matter

## Faults

fault-figure = The circuit as it should be
fault-hidden = one thing is wrong
fault-table = The words of a broken circuit, MSB left: { $what }
fault-table-of = { $table } ({ $given })
fault-name-stuck = { $wire } stuck at { $bit }
fault-stuck = The wire { $wire } is stuck at { $bit }: what reads it reads { $bit }.
fault-name-branch-stuck = { $gate }, input from { $wire }, stuck at { $bit }
fault-branch-stuck = The branch of { $wire } to { $gate } is stuck at { $bit }.
fault-name-swapped-at = { $part }: { $first } and { $second } swapped
fault-swapped-at = At { $part }, the wires of { $first } and { $second } are swapped.
fault-name-swapped = { $first } and { $second } swapped
fault-swapped = The wires of { $first } and { $second } are swapped.
fault-name-never-cleared = { $part } never cleared
fault-never-cleared = The clear of { $part } is stuck at 0.
fault-name-always-cleared = { $part } always cleared
fault-always-cleared = The clear of { $part } is stuck at 1.
fault-name-early-clear = clear of { $part } one edge early
fault-early-clear = The clear of { $part } comes one edge too early.
fault-name-no-clock = no clock at { $part }
fault-no-clock = No clock edge reaches { $part }: it stays as it started.
fault-name-late-enable = late enable at the clock of { $part }
fault-late-enable = The signal that gates the clock of { $part } falls late: one false edge gets through after it should have ended.
fault-name-edges = { $change ->
    [more] one edge more
   *[fewer] one edge fewer
  } in { $phase }
fault-edges = Phase { $phase } has { $edges ->
    [one] { $edges } edge
   *[other] { $edges } edges
  }: { $change ->
    [more] one edge more
   *[fewer] one edge fewer
  }.
fault-name-unknown-start = { $part } starts unknown
fault-unknown-start = { $part } is not set before the first edge: it may hold anything.
fault-name-wrong-start = { $part } starts at { $bit }
fault-wrong-start = { $part } holds { $bit } before the first edge.
fault-caution-open-input = A stuck wire is a model. An input that is really left open is not a sure 0: at a CMOS input it floats, and what it reads is undefined and may change; at a TTL input it mostly reads 1.
fault-caution-gated-clock = Caution: the signal that gates a clock must not change while the clock is high: a rise makes a false edge, a fall cuts the pulse short. An enable on the flip-flop has no such risk.
fault-unseen = No row of this table shows it: in these columns the words are as they should be. Other operands, rows or columns may.
fault-seen = { $place ->
    [table] The table shows it
    [start] The start shows it first
   *[row] The row of edge { $edge } shows it first
  }: { $differences }.
fault-differing = { $name } is { $found } and should be { $expected }
fault-differing-phase = its phase is { $found } and should be { $expected }
fault-short = The end shows it: every row is as it should be, but the run stops at edge { $edge }, { $missing ->
    [one] { $missing } edge
   *[other] { $missing } edges
  } before its time.
fault-long = The row of edge { $edge } shows it first: the right run ends with edge { $last }, this is one more{ $phase ->
    [in] {" "}in phase { $name }
   *[none] {""}
  }.

## Operands that the builder chose

choice-note = chosen: { $operands }, because { $because }
choice-said = Chosen: { $operands }, because { $because }.
choice-shows = { $operands ->
    [one] it shows { $what }
   *[other] they show { $what }
  }
choice-rows = { $count } of the 8 rows of the full adder
choice-carries = a carry run of { $count ->
    [one] { $count } place
   *[other] { $count } places
  }
choice-flip-flops = { $count } of { $total ->
    [one] { $total } flip-flop
   *[other] { $total } flip-flops
  } going both ways
choice-none-better = no others show more

## Comparisons

compare-satisfies = What satisfies: { $need }
compare-span = { $first } to { $last }
compare-title = Area in { $area }, time in { $time }, { $over }; ranks in parentheses
compare-column-design = design
compare-column-area = area
compare-column-logic = logic
compare-column-gates = gates
compare-column-flip-flops = flip-flops
compare-column-period = period
compare-column-edges = edges
compare-column-time = time
compare-column-rate = rate
compare-column-area-time = area x time
compare-column-toggles = toggles
compare-column-storage = storage
compare-unit-gates = gates
compare-unit-levels = gate levels
compare-unit-units = gate units
compare-unit-delays = gate delays
compare-unit-transistors = transistors
compare-unit-packages = packages
compare-axis-area = area, { $unit }
compare-axis-logic = area without flip-flops, { $unit }
compare-axis-gates = gates
compare-axis-flip-flops = flip-flops
compare-axis-edges = edges
compare-axis-period = period, { $unit }
compare-axis-time = time, { $unit }
compare-axis-rate = results in 1000 { $unit }
compare-axis-toggles = toggles
compare-chart-area = Area over { $over }
compare-chart-logic = Area without flip-flops over { $over }
compare-chart-gates = Gates over { $over }
compare-chart-flip-flops = Flip-flops over { $over }
compare-chart-edges = Edges over { $over }
compare-chart-period = Clock period over { $over }, of designs with a clock
compare-chart-time = Time of one result over { $over }
compare-chart-rate = Rate of results over { $over }; without a clock, pipelined
compare-chart-toggles = Toggles of one result over { $over }
compare-chart-area-time = Area against time, { $over }; filled: nothing{ $among ->
    [alike] {" "}with its operands and outputs
   *[all] {""}
  } beats it in both
