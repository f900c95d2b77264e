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
