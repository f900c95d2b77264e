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

## What happened at an edge, on the stage; each fact was so just before the edge

stage-list = { $most } and { $last }
stage-sentence = { $clauses }.
stage-sentence-by = { $clauses } ({ $control } = { $bit }).
stage-start = At the start: { $values }.
stage-start-nothing = At the start: nothing is stored.
stage-edge = Edge { $edge }:
stage-edge-nothing = Edge { $edge }: nothing is stored.
stage-edge-of-phase = Edge { $edge }, phase { $phase }:
stage-edge-of-phase-nothing = Edge { $edge }, phase { $phase }: nothing is stored.
stage-own-row = Row { $row } is your own: { $own }. From row { $before } would follow { $follows }.
stage-took = { $store } took { $bits }
stage-loaded = { $store } loaded { $bits }
stage-shifted = { $count ->
    [one] { $stores }
   *[other] { $stores }
  } shifted { $way ->
    [left] left
   *[right] right
  } ({ $moves })
stage-move = { $came } in, { $gone } out
stage-move-fed = { $came } = { $source } in, { $gone } out
stage-fed-back = { $store } shifted and became { $bits }: the feedback { $bit } = { $source } entered { $taps }.
stage-counted = { $store } counted from { $from } to { $to }
stage-counted-unknown = { $store } counted from or to a value that is not all known
stage-cleared = { $count ->
    [one] { $stores } was cleared.
   *[other] { $stores } were cleared.
  }
stage-cleared-by = { $count ->
    [one] { $stores } was cleared ({ $control } = { $bit }).
   *[other] { $stores } were cleared ({ $control } = { $bit }).
  }
stage-kept = { $count ->
    [one] { $stores } kept its value.
   *[other] { $stores } kept their values.
  }
stage-kept-by = { $count ->
    [one] { $stores } kept its value ({ $control } = { $bit }).
   *[other] { $stores } kept their values ({ $control } = { $bit }).
  }
stage-unsure = What { $stores } did is unknown.
stage-unsure-by = What { $stores } did is unknown ({ $control } = { $bit }).
stage-others-kept = The others kept their values.
stage-all-kept = Every storing part kept its value.

## What adders added at an edge

stage-by-adder = { $adder }: { $said }
stage-found = found { $given }; { $goes }.
stage-found-words = found { $given }, together { $total }; { $goes }.
stage-found-unknown = found { $given }, not all known; { $goes }.
stage-carry-from-store = stored carry { $bits }
stage-carry-from-outside = incoming carry { $bits }
stage-complemented = { $told } ({ $name } complemented)
stage-complemented-by = { $told } ({ $name } complemented, as { $control } = 1)
stage-let-through = { $told } ({ $control } = 1 let it through)
stage-kept-back = { $told } ({ $control } = 0 kept { $name } back)
stage-sum-entered = sum { $bits } entered { $stores }
stage-carry-stored = carry { $bits } was stored in { $stores }
stage-store-same = { $store } (unchanged)
stage-store-held = { $store } (it held { $old })
stage-carry-lost = carry 1 is lost
stage-carry-of-lost = carry 1 of { $adder } is lost
stage-share-all = all of it { $way ->
    [entered] entered
   *[went] went to
  } { $store }
stage-share-sum = sum { $bits } { $way ->
    [entered] entered
   *[went] went to
  } { $store }
stage-share-wide-sum = the sum { $way ->
    [entered] entered
   *[went] went to
  } { $store }
stage-share-bits = bits { $high }..{ $low } { $way ->
    [entered] entered
   *[went] went to
  } { $store }
stage-share-bit = bit { $index } { $way ->
    [entered] entered
   *[went] went to
  } { $store }
stage-cells = { $count } adders added { $inputs ->
    [two] two bits
    [three] three bits
   *[both] two or three bits
  } each, { $carries ->
    [0] none
   *[other] { $carries }
  } with a carry; { $goes }.
stage-cells-unknown = { $count } adders added { $inputs ->
    [two] two bits
    [three] three bits
   *[both] two or three bits
  } each, not all known; { $goes }.
stage-sums-entered = { $count ->
    [one] sum bit { $bits } entered { $stores }
   *[other] sum bits { $bits } entered { $stores }
  }
stage-carries-stored = { $count ->
    [one] carry { $bits } was stored in { $stores }
   *[other] carries { $bits } were stored in { $stores }
  }
stage-all-zero = all 0

## What stands at an output when it is due

stage-reads = { $output } reads { $bits }.
stage-reads-number-right = { $output } reads { $bits }, which is { $number } = { $formula }.
stage-reads-number-right-plainly = { $output } reads { $bits }, which is { $number }, as expected.
stage-reads-number-wrong = { $output } reads { $bits }, which is { $number }; { $formula } is { $wanted }.
stage-reads-number-wrong-plainly = { $output } reads { $bits }, which is { $number }; expected: { $wanted }.
stage-reads-bit-right = { $output } reads { $bits } = { $formula }.
stage-reads-bit-right-plainly = { $output } reads { $bits }, as expected.
stage-reads-bit-wrong = { $output } reads { $bits }; { $formula } is { $wanted }.
stage-reads-bit-wrong-plainly = { $output } reads { $bits }; expected: { $wanted }.
stage-reads-unknown = { $output } reads { $bits }, not all of it known; { $formula } is { $wanted }.
stage-reads-unknown-plainly = { $output } reads { $bits }, not all of it known; expected: { $wanted }.

## The stage: its buttons, its fields, what it says of tries

stage-larger = Larger figure
stage-step-through = Step through: { $title }
stage-back = Back
stage-next-edge = Next edge
stage-play = Play
stage-pause = Pause
stage-speed = Speed
stage-speed-slow = slow
stage-speed-steady = steady
stage-speed-quick = quick
stage-own-rows = (Your own rows.)
stage-moment-start = at the start
stage-moment-after = after edge { $edge }
stage-moment-with = { $when }, with the inputs of phase { $phase }
stage-spoken = Block diagram of { $title }: { $values }
stage-spoken-when = Block diagram of { $title }, { $when }: { $values }
stage-scrolls = Block diagram, scrolls
stage-power-up-all = at power-up all { $bit }
stage-all-unknown = all { $count } bits unknown
stage-some-unknown = { $count } of { $all } bits unknown
stage-show-all = Show all rows
stage-begin = Begin
stage-ahead = Work it out ahead
stage-left-out = Rows left out at the end
stage-begin-here = Begin after the row shown
stage-forget = Forget my progress
stage-fill-in = Fill in
stage-take-back = Take back
stage-run-changed = The run has changed, so the rows you were working out are gone.
stage-nothing-follows = Nothing follows the last row; go back some edges first.
stage-bit-of = { $name } bit { $index }
stage-what-stands = What stands after edge { $edge }?
stage-bit-empty = { $bit }, empty
stage-bit-right = { $bit }, { $value }, right
stage-bit-wrong = { $bit }, { $value }, wrong
stage-said-right = { $bit }: { $value }, right.
stage-said-wrong = { $bit }: { $value }, not what follows.
stage-row-right = Row { $row } is right.
stage-row-right-from = Row { $row } is right, as it follows from your own row { $own }.
stage-bits-differ = { $count } bits
stage-row-differs = { $count ->
    [one] In row { $row }, { $places } differs from what follows.
   *[other] In row { $row }, { $places } differ from what follows.
  }
stage-change-or = Change the marked bits, or:
stage-go-on = Go on with my row
stage-went-on = You went on with your own row { $row }; what follows is marked against it.
stage-show-follows = Show what follows
stage-as-follows = This is row { $row } as it follows.
stage-idea = Your row is just what would come out if this were so: “{ $one }” It is worth having met that idea once; this circuit does otherwise.
stage-two-ideas = Your row is just what would come out if this were so: “{ $one }” or “{ $other }” It is worth having met that idea once; this circuit does otherwise.
stage-last-row = That was the last row.
stage-last-row-own = That was the last row. The rows shown are your own; show all rows to compare.
stage-one-more = Leave out one row more
stage-forgotten = Your progress on this page is forgotten.
stage-tally = Right at the first try: { $right } of { $bits } bits.
stage-tally-finished = { $count ->
    [1] Right at the first try: { $right } of { $bits } bits. Finished once.
   *[other] Right at the first try: { $right } of { $bits } bits. Finished { $count } times.
  }
stage-holds = holds for these numbers
stage-fails = does not hold for these numbers
stage-silent = does not apply to these numbers
stage-start-designed = as the circuit says
stage-start-unknown = unknown (X)
stage-start-zero = all 0
stage-start-one = all 1
stage-at-power-up = At power-up
stage-longest-carry = Longest carry
stage-at-random = At random
stage-lesson-numbers = The lesson's numbers
stage-try-others = Try other numbers
stage-only-with = This page has { $name } = { $wanted } only with { $other } = { $value }.
stage-now-with = This page has no { $name } = { $wanted } with { $other } = { $before }; { $other } is { $value } now.
stage-recheck-later = The claims are checked again when every operand is in its range.
stage-not-checked = not checked for these numbers
stage-one-claim-holds = The lesson's claim holds for these numbers.
stage-one-claim-fails = The lesson's claim does not hold for these numbers.
stage-one-claim-silent = The lesson's claim does not apply to these numbers.
stage-none-holds = None of the lesson's { $all } claims holds for these numbers.
stage-none-applies = None of the lesson's { $all } claims applies to these numbers.
stage-operand-missing = Operand { $name } is missing; give a number in 0..{ $most }.
stage-does-not-fit = { $width ->
    [1] { $name } = { $value } does not fit in 1 bit; its lowest bit is { $low }.
   *[other] { $name } = { $value } does not fit in { $width } bits; its low { $width } bits make { $low }.
  }
stage-claims-tally = Of the lesson's { $all } claims { $held } { $held ->
    [one] holds
   *[other] hold
  } for these numbers{ $failed ->
    [0] {""}
    [one] , 1 does not
   *[other] , { $failed } do not
  }{ $silent ->
    [0] {""}
    [one] , 1 does not apply to them
   *[other] , { $silent } do not apply to them
  }.
stage-operand-not-whole = { $width ->
    [one] Operand { $name }: “{ $written }” is not a whole number; the range is 0..{ $most } in { $width } bit.
   *[other] Operand { $name }: “{ $written }” is not a whole number; the range is 0..{ $most } in { $width } bits.
  }
stage-operand-negative = { $width ->
    [one] Operand { $name } is { $written }, which is negative; the range is 0..{ $most } in { $width } bit.
   *[other] Operand { $name } is { $written }, which is negative; the range is 0..{ $most } in { $width } bits.
  }
stage-operand-large = { $width ->
    [one] Operand { $name } is { $written }, which is too large; the range is 0..{ $most } in { $width } bit.
   *[other] Operand { $name } is { $written }, which is too large; the range is 0..{ $most } in { $width } bits.
  }
stage-distinctive = distinctive shapes
stage-rectangular = rectangles
stage-open = open
stage-closed = closed
stage-bits = bits
stage-bits-numbers = bits and numbers
stage-change-looks = Change how it is shown
stage-symbols = Symbols
stage-words-in-table = Words in the table
stage-clock-edge = Clock edge
stage-start-mark = start
stage-edges-of-phase = The edges of phase { $phase }
stage-timing = Timing diagram
stage-edge-mark = edge
stage-clock = clock
stage-timing-about = Levels of nets and words over the edges; the edge table has the same values
stage-timing-too-long = The timing diagram of these { $edges } edges is too long for paper; the table has the same values.
stage-words-each = The words after each edge, with the inputs that the next one samples; MSB left
stage-words = The words, MSB left
stage-edge-table = Edge table
stage-word-table = Table of the words
stage-further-columns = Further columns: { $names }
stage-phase-head = phase
stage-after-edge-head = after edge
stage-not-yet = not yet
stage-view-diagram = Diagram
stage-view-signals = Signals
stage-view-table = Table
stage-project = Project
stage-black = Black
stage-white = White
stage-notes = Notes
stage-end = End
stage-keys-rows = ← → rows
stage-keys-views = V { $views }
stage-keys-ink = B black or white
stage-keys-notes = N notes
stage-keys-help = ? these keys
stage-keys-end = Esc ends
stage-show-view = Show { $view }
stage-view-diagram-plain = diagram
stage-view-signals-plain = signals
stage-view-table-plain = table
stage-speaks-of = it speaks of { $name } { $range } only
stage-speaks-in = in { $least }..{ $most }
stage-side-expected = expected { $text }
stage-side-is = { $text } is { $value }
stage-side-is-number = { $text } is { $value } ({ $number })
stage-no-value = no value
## Headings, titles and marks of block diagrams

figure-heading-start = at the start
figure-heading-start-with = at the start, inputs of phase { $phase }
figure-heading-after = after edge { $edge }
figure-heading-after-with = after edge { $edge }, inputs of phase { $phase }
figure-diagram-name = Block diagram
figure-diagram-of = Block diagram of { $design }
figure-diagram = Block diagram: { $subject }
figure-diagram-start = Block diagram at the start: { $subject }
figure-diagram-after = Block diagram after edge { $edge }: { $subject }
figure-strips-from-start = Block diagram from the start to edge { $last }: { $subject }
figure-strips-from-edge = Block diagram from edge { $first } to edge { $last }: { $subject }
figure-strips-after = Block diagram after { $count ->
    [one] edge
   *[other] edges
  } { $edges }: { $subject }
figure-strips-start-and-after = Block diagram at the start and after { $count ->
    [one] edge
   *[other] edges
  } { $edges }: { $subject }
figure-last-of-list = { $list } and { $last }
figure-fault-elsewhere = { $fault } (not drawn here)
figure-bits-unknown = { $unknown } of { $width } bits unknown
figure-all-bits-unknown = all { $width } bits unknown
figure-unknown = unknown

## Legends

legend-unknown = unknown
legend-changed = changed at this edge

## Timing diagrams

timing-clock = clock
timing-edge = edge
timing-start = start
timing-title = Timing diagram, edges { $first } to { $last }: { $subject }
timing-title-start = Timing diagram, at the start: { $subject }
timing-title-after = Timing diagram, after edge { $edge }: { $subject }

## Edge tables

table-phase = phase
table-after-edge = after edge
table-start = start
table-title = Edge table, edges { $first } to { $last }: { $subject }
table-title-start = Edge table, at the start: { $subject }
table-title-after = Edge table, after edge { $edge }: { $subject }
table-title-values = Table of values: { $subject }
table-caption = { $subject }. Each line: after that clock edge, with the inputs of its phase, which the next edge samples. Words in bits, MSB left.
table-caption-values = { $subject }. Words in bits, MSB left.

## What figures show, for those who can't see them

about-holds = { $name } is { $value }
about-state = { $held }.
about-state-start = At the start: { $held }.
about-state-start-with = At the start, with the inputs of phase { $phase }: { $held }.
about-state-after = After edge { $edge }: { $held }.
about-state-after-with = After edge { $edge }, with the inputs of phase { $phase }: { $held }.
about-from-start = { $value } at the start
about-from-edge = { $value } after edge { $edge }
about-history = { $name } is { $values }.
about-history-cut = { $name } is { $values }, { $left } more values, and at last { $last }.
about-throughout = { $name } is { $value } throughout.
about-phase-edge = { $phase } is edge { $edge }
about-phase-edges = { $phase } is edges { $first } to { $last }
about-phases = Phase { $phases }.
about-more = { $count } more are in the figure.
about-part = { $name }, { $kind }
about-parts-alike = { $first } to { $last }, each { $kind }
about-parts = Its parts: { $parts }.
about-kind-wide = { $kind } of { $width } bits
about-kind-guest = a { $kind }
about-faulty = Marked as faulty: { $fault }.
about-station = { $name } at { $delay }
about-path = The marked path: { $stations }.
about-path-in = The marked path: { $stations } { $unit }.
about-gated-clock = Caution: the signal that gates a clock must not change while the clock is high: a rise makes a false edge, a fall cuts the pulse short. An enable on the flip-flop has no such risk.

## Kinds of parts, as a part is introduced

kind-half-adder = a half adder
kind-full-adder = a full adder
kind-flip-flop = a flip-flop
kind-register = a register
kind-shift-register = a shift register
kind-counter = a counter
kind-and = an and
kind-or = an or
kind-xor = a xor
kind-nand = a nand
kind-nor = a nor
kind-xnor = a xnor
kind-not = a not
kind-buffer = a buffer
kind-constant = a constant
kind-multiplexer = a multiplexer

## Designs of the catalogue

design-serial-adder = bit-serial adder
design-serial-adder-parallel-load = bit-serial adder with parallel load
design-serial-adder-gated-clock = bit-serial adder with a gated clock
design-digit-serial-adder = digit-serial adder
design-serial-subtractor = bit-serial subtractor
design-serial-adder-subtractor = bit-serial adder and subtractor
design-serial-accumulator = serial accumulator
design-serial-accumulator-cleared = serial accumulator, carry cleared
design-carry-save-accumulator = carry-save accumulator
design-ripple-carry-adder = ripple-carry adder
design-ripple-carry-adder-without-carry-in = ripple-carry adder without carry-in
design-carry-lookahead-adder = carry-lookahead adder
design-carry-lookahead-adder-without-carry-in = carry-lookahead adder
design-carry-skip-adder = carry-skip adder
design-carry-select-adder = carry-select adder
design-carry-increment-adder = carry-increment adder
design-sklansky-adder = Sklansky adder
design-kogge-stone-adder = Kogge-Stone adder
design-brent-kung-adder = Brent-Kung adder
design-han-carlson-adder = Han-Carlson adder
design-ladner-fischer-adder = Ladner-Fischer adder
design-ripple-carry-adder-subtractor = ripple-carry adder and subtractor
design-shift-add-multiplier = shift-add multiplier
design-bit-serial-multiplier = bit-serial multiplier
design-serial-in-serial-out = serial-in, serial-out shift register
design-serial-in-parallel-out = serial-in, parallel-out shift register
design-parallel-in-serial-out = parallel-in, serial-out shift register
design-universal-shift-register = universal shift register
design-ring-counter = ring counter
design-johnson-counter = Johnson counter
design-binary-counter = binary up counter
design-modulo-counter = modulo-m counter
design-lfsr = linear feedback shift register
design-crc-register = CRC register

## Charts

chart-area = Area over { $parameter }
chart-logic = Area without flip-flops over { $parameter }
chart-gates = Gates over { $parameter }
chart-flip-flops = Flip-flops over { $parameter }
chart-edges = Edges over { $parameter }
chart-period = Clock period over { $parameter }, of designs with a clock
chart-time = Time of one result over { $parameter }
chart-rate = Rate of results over { $parameter }; without a clock, pipelined
chart-toggles = Toggles of one result over { $parameter }
chart-area-time = Area against time, { $parameter } = { $at }; filled: nothing beats it in both
chart-area-time-alike = Area against time, { $parameter } = { $at }; filled: nothing with its operands and outputs beats it in both
chart-axis-area = area, { $unit }
chart-axis-logic = area without flip-flops, { $unit }
chart-axis-gates = gates
chart-axis-flip-flops = flip-flops
chart-axis-edges = edges
chart-axis-period = period, { $unit }
chart-axis-time = time, { $unit }
chart-axis-rate = results in 1000 { $unit }
chart-axis-toggles = toggles
chart-about = { $title }.
chart-about-point = { $name }: { $y } { $y-title } at { $x-title } { $x }.
chart-about-curve = { $name }: { $first-y } at { $x-title } = { $first-x }, { $last-y } at { $x-title } = { $last-x }.
chart-about-spot = { $name }: { $x-title } { $x }, { $y-title } { $y }.
chart-about-best = Beaten by nothing in both: { $names }.
chart-about-best-none = Beaten by nothing in both: none.
