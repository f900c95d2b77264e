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
key-bus = several bits
key-black-node = g and p
key-carry = { $written }: carry
key-sum = { $written }: sum
key-grey-node = g alone
key-buffer-node = buffer

## Captions of tables and figures that have none of their own

caption-words = The words, MSB left
caption-words-of = The words, MSB left ({ $given })
caption-words-start = The words before the first edge, MSB left
caption-words-start-of = The words before the first edge, MSB left ({ $given })
caption-words-after = The words after edge { $edge }, MSB left
caption-words-after-of = The words after edge { $edge }, MSB left ({ $given })
caption-words-each = The words after each edge, with the inputs that the next one samples; MSB left
caption-words-each-of = The words after each edge, with the inputs that the next one samples; MSB left ({ $given })
caption-edges = Edges { $first } to { $last }; between two edges stand the inputs that the later one samples
caption-start = Before the first edge
caption-start-with = Before the first edge, with the inputs of phase { $phase }
caption-after = After edge { $edge }
caption-after-with = After edge { $edge }, with the inputs of phase { $phase }
caption-chart = { $designs } in the model { $model }

## What happened at an edge, on the stage; each fact was so just before the edge

stage-sentence = { $clauses }.
stage-sentence-by = { $clauses } ({ $control } = { $bit }).
stage-sentence-as = { $clauses }, as { $control } = { $bit }.
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
stage-all-kept = Every storage element kept its value.

## What adders added at an edge

stage-by-adder = { $adder }: { $said }
stage-found = found { $given }; { $goes }.
stage-found-words = found { $given }, together { $total }; { $goes }.
stage-found-unknown = found { $given }, not all known; { $goes }.
stage-carry-from-store = stored carry { $bits }
stage-carry-from-outside = incoming carry { $bits }
stage-complemented = { $told } ({ $name } inverted)
stage-complemented-by = { $told } ({ $name } inverted, as { $control } = 1)
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
stage-moment-with = { $when }, with the inputs of phase { $phase }
stage-spoken = Block diagram of { $title }: { $values }
stage-spoken-when = Block diagram of { $title }, { $when }: { $values }
stage-scrolls = Block diagram, scrolls
stage-power-up-all = at power-up all { $bit }
stage-all-unknown = all { $count } bits unknown
stage-some-unknown = { $count } of { $all } bits unknown
stage-show-all = Show all rows
stage-begin = Begin
stage-predict = Predict the next rows
stage-left-out = Rows left out at the end
stage-begin-here = Begin after the row shown
stage-forget = Forget my progress
stage-hand-in-about = For your teacher: what you filled in here, as a code without a name. Nothing is sent by itself.
stage-hand-in-copy = Copy my attempts
stage-hand-in-save = Save them as a file
stage-hand-in-code = Code of my attempts
stage-hand-in-copied = Copied, { $count } letters: paste them where your teacher collects them.
stage-hand-in-not-copied = This browser does not let a page copy: copy the marked code yourself.
stage-hand-in-saved = Saved as { $file }.
stage-fill-in = Fill in
stage-take-back = Take back
stage-run-changed = The run has changed, so the rows you were working out are gone.
stage-nothing-follows = Nothing follows the last row; go back some edges first.
stage-bit-of = { $name }({ $index })
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
stage-longest-carry = Longest carry chain
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
stage-operand-missing = Operand { $name } is missing; give a number in { $least }..{ $most }.
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
    [one] Operand { $name }: “{ $written }” is not a whole number; the range is { $least }..{ $most } in { $width } bit.
   *[other] Operand { $name }: “{ $written }” is not a whole number; the range is { $least }..{ $most } in { $width } bits.
  }
stage-operand-negative = { $width ->
    [one] Operand { $name } is { $written }, which is negative; the range is { $least }..{ $most } in { $width } bit.
   *[other] Operand { $name } is { $written }, which is negative; the range is { $least }..{ $most } in { $width } bits.
  }
stage-operand-large = { $width ->
    [one] Operand { $name } is { $written }, which is too large; the range is { $least }..{ $most } in { $width } bit.
   *[other] Operand { $name } is { $written }, which is too large; the range is { $least }..{ $most } in { $width } bits.
  }
stage-operand-small = Operand { $name } is { $written }, which is too small; the range is { $least }..{ $most } in { $width } bits.
stage-bcd-width = BCD takes 4 bits a digit; found { $width }
stage-no-bcd = { $word } is { $bits }, which has no value: a digit of BCD is 0000 to 1001
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
stage-edges-of-phase = The edges of phase { $phase }
stage-timing = Timing diagram
stage-timing-about = Levels of nets and words over the edges; the edge table has the same values
stage-timing-too-long = The timing diagram of these { $edges } edges is too long for paper; the table has the same values.
stage-edge-table = Edge table
stage-word-table = Table of the words
stage-further-columns = Further columns: { $names }
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
stage-x-no-value = X has no value
stage-no-edge = there is no edge { $edge }; the edges are { $first }..{ $last }
stage-no-edges = there is no edge { $edge }; this design has no clock edges
stage-negative-exponent = { $base }**{ $exponent }: the exponent must not be negative
stage-too-large = the number is too large: more than { $bits } bits
stage-division-by-zero = { $number } { $operator } 0: division by zero
stage-truth-no-number = a truth value is not a number
stage-number-no-truth = a number is not true or false
stage-word-no-value = { $word } is { $bits }, which has no value
stage-none-here = there is no { $name } here
stage-no-phase = there is no phase { $name }
stage-reads-word = { $name }(…) reads a word of bits
stage-no-family = { $name } is not a family of operands
stage-needs-one = { $name }({ $number }) has no value; the number must be 1 or more
stage-no-bit = there is no bit { $index } in { $name }; it has { $width } bits
stage-changes = { $name } changes from edge to edge
stage-no-value = no value
## Headings, titles and marks of block diagrams

figure-heading-start = at the start
figure-heading-start-with = at the start, inputs of phase { $phase }
figure-heading-after = after edge { $edge }
figure-heading-after-with = after edge { $edge }, inputs of phase { $phase }
figure-diagram-name = Block diagram
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
figure-goes-on = A wire goes on where its number in a circle stands again.
figure-last-of-list = { $list } and { $last }
figure-fault-elsewhere = { $fault } (not drawn here)
figure-bits-unknown = { $unknown } of { $width } bits unknown
figure-all-bits-unknown = all { $width } bits unknown
figure-unknown = unknown

## Legends


## Timing diagrams

timing-clock = clock
timing-edge = edge
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
table-left-open = Left open in row { $row }: { $names }.

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
about-kind-wide = { $kind } of { $width } { $width ->
    [one] bit
   *[other] bits
  }
about-kind-guest = a { $kind }
about-faulty = Marked as faulty: { $fault }.
about-pointed = Arrows point at: { $names }.
about-station = { $name } at { $delay }
about-path = The marked path: { $stations }.
about-path-in = The marked path: { $stations } { $unit }.

## Kinds of parts, as a part is introduced

kind-half-adder = a half adder
kind-full-adder = a full adder
kind-flip-flop = a flip-flop
kind-jk-flip-flop = a JK flip-flop
kind-t-flip-flop = a T flip-flop
kind-sr-latch = an SR latch
kind-sr-latch-nand = an SR latch of NAND gates
kind-gated-sr-latch = a gated SR latch
kind-d-latch = a D latch
kind-master-slave-flip-flop = a master-slave flip-flop
kind-jk-master-slave = a JK master-slave flip-flop
kind-six-nand-flip-flop = a flip-flop of six NAND gates
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
kind-lookahead-unit = a lookahead unit
kind-lookahead-group = a lookahead group
kind-ripple-group = a ripple-carry group
kind-carry-skip-group = a carry-skip group
kind-carry-select-group = a carry-select group
kind-carry-increment-group = a carry-increment group
kind-prefix-node = a prefix node
kind-carry-node = a carry node

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
design-carry-lookahead-adder-without-carry-in = carry-lookahead adder without carry-in
design-carry-skip-adder = carry-skip adder
design-carry-select-adder = carry-select adder
design-carry-increment-adder = carry-increment adder
design-sklansky-adder = Sklansky adder
design-kogge-stone-adder = Kogge-Stone adder
design-brent-kung-adder = Brent-Kung adder
design-han-carlson-adder = Han-Carlson adder
design-ladner-fischer-adder = Ladner-Fischer adder
design-ripple-carry-adder-subtractor = ripple-carry adder and subtractor
design-twos-complement-adder-subtractor = two's complement adder and subtractor
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

## How the designs of the catalogue work

design-about-serial-adder = adds two words fed bit by bit, LSB first, with one full adder; the sum goes to a register of its own
design-about-serial-adder-parallel-load = adds two words that are loaded at once; the load edge is an edge of its own phase, load, so there are n + 1 in all (the usual "n edges" counts the additions only)
design-about-serial-adder-gated-clock = the bit-serial adder, but its carry flip-flop has no enable: an AND gate lets the clock through to it while shift is 1
design-about-digit-serial-adder = adds d bits at each edge, d dividing n, after one edge of load: d = 1 is the bit-serial adder, d = n the parallel one
design-about-serial-subtractor = subtracts b from a bit by bit, LSB first: the full adder gets the complement of b, and the carry flip-flop starts with the 1 of the two's complement; no_borrow is 1 where a >= b
design-about-serial-adder-subtractor = adds, or with subtract 1 subtracts, bit by bit, LSB first: an XOR gate complements b, and the carry flip-flop is loaded with subtract, the 1 of the two's complement
design-about-serial-accumulator = adds x words of m bits that enter B one after another; each sum goes back to A; a carry out of one word enters the next, so the sum is right only while the words before the last don't overflow A
design-about-serial-accumulator-cleared = the serial accumulator, its carry cleared by the last edge of every word but the last: the sum is right for all words, and the carry is that of the last addition
design-about-carry-save-accumulator = adds x words, one an edge: each place keeps a sum and a carry, and no carry moves further than one place in an edge; then n - 1 edges with word 0 carry them to the end
design-about-ripple-carry-adder = a row of full adders; each passes its carry to the next
design-about-ripple-carry-adder-without-carry-in = a half adder at the LSB, then a row of full adders; each passes its carry to the next
design-about-carry-lookahead-adder = forms all carries of a group at once; 4-bit groups, lookahead between them
design-about-carry-lookahead-adder-without-carry-in = forms all carries of a group at once; 4-bit groups, lookahead between them; no carry comes in
design-about-carry-skip-adder = the carry skips a group of m places in which every place propagates: a multiplexer hands it on
design-about-carry-select-adder = each group adds for both carries, the carry chooses; groups of m places, 0: of 1, 2, 3, …
design-about-carry-increment-adder = each group adds without carry, then adds the carry; groups of m places, 0: of 1, 2, 3, …
design-about-sklansky-adder = prefix adder of the least depth and few nodes; fan-out of a carry up to n/2
design-about-kogge-stone-adder = prefix adder of the least depth and of small fan-out; most nodes and wires
design-about-brent-kung-adder = prefix adder of few nodes and small fan-out, at about twice the least depth
design-about-han-carlson-adder = prefix adder between Kogge-Stone and Brent-Kung: half the nodes, one level more
design-about-ladner-fischer-adder = prefix adder with up to k levels more than the least, for fewer nodes
design-about-ripple-carry-adder-subtractor = adds, or with subtract 1 subtracts: XOR gates complement b, and subtract itself is the carry-in, the 1 of the two's complement; then carry is 1 where a >= b
design-about-twos-complement-adder-subtractor = adds, or with subtract 1 subtracts, numbers with a sign; overflow is 1 where the result has no word of n bits: the carry into the sign's place and the carry out of it then differ
design-about-shift-add-multiplier = multiplies two words in n edges after the load: where the lowest bit of Q is 1, M is added to H, and H and Q together move one place right; Q gives away b and takes in the product
design-about-bit-serial-multiplier = multiplies a, held in M, by b, which comes bit by bit, LSB first, followed by n zeros; carries are saved in flip-flops beside each full adder, and one bit of the product leaves at each edge
design-about-serial-in-serial-out = delays a word by n edges: bit 0, fed first, stands at the output after edge n, the last bit after edge 2n - 1
design-about-serial-in-parallel-out = collects a word fed bit by bit, LSB first; after n edges it stands there whole
design-about-parallel-in-serial-out = loads a word at once and gives it out bit by bit, LSB first: bit 0 after the load edge, the last bit after n edges
design-about-universal-shift-register = holds (mode 0), shifts right (1), shifts left (2) or loads (3), chosen by a multiplexer at each bit; here a word goes k places right and k left again, which clears its k low bits
design-about-ring-counter = a single 1 goes round a shift register of n bits; n states
design-about-johnson-counter = a shift register of n bits whose last bit returns inverted (switch-tail ring); 2n states, and it never leaves a loop of unused states
design-about-binary-counter = counts the edges modulo 2**n; terminal_count is 1 in the last state
design-about-modulo-counter = counts the edges modulo m; terminal_count is 1 in state m - 1, after which 0 follows
design-about-lfsr = k steps of a register that feeds the XOR of its taps back; bit i - 1 of taps stands for stage i, 0 for taps of maximal length
design-about-crc-register = the checksum of x bytes, one message bit an edge; any polynomial, start value, reflection

## Charts

chart-about = { $title }.
chart-about-bars = { $title }: { $bars }.
chart-about-point = { $name }: { $y } { $y-title } at { $x-title } { $x }.
chart-about-curve = { $name }: { $first-y } at { $x-title } = { $first-x }, { $last-y } at { $x-title } = { $last-x }.
chart-about-spot = { $name }: { $x-title } { $x }, { $y-title } { $y }.
chart-about-best = Beaten by nothing in both: { $names }.
chart-about-best-none = Beaten by nothing in both: none.
## The handout

handout-figure = Figure { $number }
handout-table = Table { $number }
handout-continued = { $caption }, continued
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

formula-remainder = the remainder of { $dividend } ÷ { $divisor }
formula-quotient = the quotient of { $dividend } ÷ { $divisor }
number-thousands = ,
number-decimal = .
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
claim-induction = proved for every row by induction, the last phase going on for ever
claim-not-inductive = no 32 rows in a row were enough for an induction
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
finding-claim-more = A stronger claim may do: say also what keeps it true from one row to the next.
finding-more-time = Give it more time, or take smaller words.
finding-false = False{ $kind ->
    [smallest] {" "}for { $operands }, the smallest such operands
    [fewest] {" "}for { $operands }, such operands with the fewest ones
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
coverage-register-empty = { $name } never holds a 1.
coverage-nothing = Without clock edges and adders there is nothing to count: the one row of the run is all there is to see.
coverage-idle-phase = Phase { $name } stores nothing that gets into the answer.
coverage-beside = { $name } also stands in { $count ->
    [one] row { $rows }, but no sum of that row gets
   *[other] rows { $rows }, but no sum of those rows gets
  } into the answer.
coverage-rows-all = All { $total } truth-table rows are covered by { $adders ->
    [1] { $name }
   *[other] the { $adders } full adders together
  }.
coverage-rows-none = None of the { $total } truth-table rows is covered by { $adders ->
    [1] { $name }
   *[other] the { $adders } full adders together
  } in a sum that gets into the answer.
coverage-rows-few = Only { $covered } of the { $total } truth-table rows { $covered ->
    [one] is
   *[other] are
  } covered by { $adders ->
    [1] { $name }
   *[other] the { $adders } full adders together
  }{ $where ->
    [beside] {" "}in sums that get into the answer
   *[everywhere] {""}
  }: { $rows } (a, b, carry-in).
coverage-rows-most = { $covered } of the { $total } truth-table rows are covered by { $adders ->
    [1] { $name }
   *[other] the { $adders } full adders together
  }{ $where ->
    [beside] {" "}in sums that get into the answer
   *[everywhere] {""}
  }, all but { $rows } (a, b, carry-in).
coverage-carries = A carry { $generated ->
    [0] comes in from outside, is
    [1] is generated once,
    [2] is generated twice,
   *[other] is generated { $generated } times,
  } propagated { $propagated ->
    [1] once
    [2] twice
   *[other] { $propagated } times
  } and killed { $killed ->
    [1] once
    [2] twice
   *[other] { $killed } times
  }; the longest carry chain has { $longest ->
    [one] { $longest } place
   *[other] { $longest } places
  }.
coverage-carries-unkilled = A carry { $generated ->
    [0] comes in from outside and is
    [1] is generated once and
    [2] is generated twice and
   *[other] is generated { $generated } times and
  } propagated { $propagated ->
    [1] once
    [2] twice
   *[other] { $propagated } times
  }; the longest carry chain has { $longest ->
    [one] { $longest } place
   *[other] { $longest } places
  }. None is killed: no carry meets 0 + 0.
coverage-carries-unpropagated = A carry { $generated ->
    [0] comes in from outside and is
    [1] is generated once and
    [2] is generated twice and
   *[other] is generated { $generated } times and
  } killed { $killed ->
    [1] once
    [2] twice
   *[other] { $killed } times
  }, but never propagated from place to place.
coverage-carries-generated = A carry { $generated ->
    [0] comes in from outside
    [1] is generated once
    [2] is generated twice
   *[other] is generated { $generated } times
  }, but never propagated from place to place, and none is killed.
coverage-flip-flops-all = { $total ->
    [1] { $name } toggles in both directions.
   *[other] All { $total } flip-flops toggle in both directions.
  }
coverage-flip-flops = { $both } of { $total ->
    [one] { $total } flip-flop
   *[other] { $total } flip-flops
  } { $both ->
    [one] toggles
   *[other] toggle
  } in both directions{ $rest }.
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
coverage-column-covered = covered
coverage-column-of = of
coverage-column-uncovered = not covered
coverage-line-rows = truth-table rows of all { $adders } full adders
coverage-line-rows-of = truth-table rows of { $name }
coverage-line-generated = carries generated
coverage-line-propagated = carries propagated
coverage-line-killed = carries killed
coverage-line-longest = longest carry chain
coverage-line-flip-flops = flip-flops toggling in both directions
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
fault-undetected = The fault is not detected in this table: in these columns the words are as they should be. Other operands, rows or columns may detect it.
fault-detected = { $place ->
    [table] The fault is detected in the table
    [start] The fault is first detected at the start
   *[row] The fault is first detected in the row of edge { $edge }
  }: { $differences }.
fault-differing = { $name } is { $found } and should be { $expected }
fault-differing-phase = its phase is { $found } and should be { $expected }
fault-short = The fault is detected at the end: every row is as it should be, but the run stops at edge { $edge }, { $missing ->
    [one] { $missing } edge
   *[other] { $missing } edges
  } before its time.
fault-long = The fault is first detected in the row of edge { $edge }: the right run ends with edge { $last }, this is one more{ $phase ->
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
choice-rows = { $count } of the 8 truth-table rows of the full adder
choice-carries = a carry chain of { $count ->
    [one] { $count } place
   *[other] { $count } places
  }
choice-flip-flops = { $count } of { $total ->
    [one] { $total } flip-flop
   *[other] { $total } flip-flops
  } toggling in both directions
choice-none-better = no others show more

## Comparisons

compare-satisfies = What satisfies: { $need }
compare-span = { $first } to { $last }
compare-critical-path = The critical path of { $design }, { $given }, with the arrival time
compare-title = Area in { $area }, time in { $time }, { $over }; ranks in parentheses
compare-column-design = design
compare-column-area = area
compare-column-logic = logic
compare-column-gates = gates
compare-column-flip-flops = flip-flops
compare-column-period = period
compare-column-edges = edges
compare-column-time = time
compare-column-throughput = throughput
compare-column-area-delay = area-delay
compare-column-true-delay = true delay
compare-column-toggles = toggles
compare-column-toggles-in-time = with glitches
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
compare-axis-throughput = results in 1000 { $unit }
compare-axis-toggles = toggles
compare-chart-area = Area over { $over }
compare-chart-logic = Area without flip-flops over { $over }
compare-chart-gates = Gates over { $over }
compare-chart-flip-flops = Flip-flops over { $over }
compare-chart-edges = Edges over { $over }
compare-chart-period = Clock period over { $over }, of designs with a clock
compare-chart-time = Time of one result over { $over }
compare-chart-throughput = Throughput over { $over }; without a clock, pipelined
compare-chart-toggles = Toggles of one result over { $over }
compare-chart-area-delay = Area against time, { $over }; filled: nothing{ $among ->
    [alike] {" "}with its operands and outputs
   *[all] {""}
  } beats it in both

## Feedback for a learner on a marked paper

feedback-title = Feedback: { $title }
feedback-footer = Computed from your own answers.
feedback-no-paper = No paper has this code, so that nothing could be marked. Ask your teacher.
feedback-no-code = No code that fits was handed in, so that nothing could be marked. Ask your teacher.
feedback-total = You have { $marks } of { $most ->
    [one] { $most } mark
   *[other] { $most } marks
  }.
feedback-question = Question { $number }: { $marks } of { $most }
feedback-row = After edge { $number }: { $marks } of { $most }
feedback-right = { $right } of { $count ->
    [one] { $count } cell
   *[other] { $count } cells
  } { $right ->
    [one] is right.
   *[other] are right.
  }
feedback-began = The error begins at { $cell }: you wrote { $wrote }, but { $follows } follows from your other cells.
feedback-follows = { $count ->
    [one] One wrong cell follows from your own, and counts for the method.
   *[other] { $count } wrong cells follow from your own, and count for the method.
  }
feedback-blank = { $count ->
    [one] One answer is missing.
   *[other] { $count } answers are missing.
  }
feedback-unread = { $count ->
    [one] One answer can’t be read.
   *[other] { $count } answers can’t be read.
  }
feedback-more = … and { $count ->
    [one] { $count } cell more.
   *[other] { $count } cells more.
  }
feedback-read-as = (read as { $word })
feedback-whole-right = { $wrote } is right.
feedback-whole-wrong = You wrote { $wrote }; a right answer is { $right }.
feedback-whole-unread = { $wrote } can’t be read as an answer to this question.
feedback-column-cell = where
feedback-column-wrote = you wrote
feedback-column-right = right
feedback-column-follows = from your own cells
feedback-column-verdict = this is
feedback-verdict-right = right
feedback-verdict-follows = what follows
feedback-verdict-wrong = an error
feedback-verdict-blank = missing
feedback-verdict-unread = not readable
feedback-idea = { $count ->
    [one] { $more ->
        [one] Your answers look as if you thought:
       *[other] Your answers look as if you thought two things together:
      }
   *[other] Your answers look as if you thought one of these, which they don’t tell apart:
  }
feedback-thought = “{ $thought }”
feedback-and = { $one } and { $other }
feedback-evidence = That gives { $explained } of your { $wrong ->
    [one] { $wrong } wrong answer
   *[other] { $wrong } wrong answers
  }{ $contradicted ->
    [0] .
    [one] ; one right answer speaks against it.
   *[other] ; { $contradicted } right answers speak against it.
  }
feedback-careless = { $count ->
    [one] There is one error; one alone does not show a wrong idea.
   *[other] There are { $count } errors, and no idea that is known here fits them and all else you wrote.
  }
feedback-unexplained = No idea that is known here explains these errors. Talk about them with your teacher.
feedback-nothing = There is nothing yet that could be marked. The worked solutions show how each answer comes about; ask where you would like to begin.
feedback-hardly-readable = Most of what you wrote can’t be read here, so nothing is said about the ideas behind it. Show your teacher what you meant.

## The report on a class

report-title = Report: { $title }
report-footer = Computed from the answers and from what a marker typed. No learner is named here.
report-learners = { $count ->
    [one] { $count } learner
   *[other] { $count } learners
  }
report-counted = { $count } counted below
report-blank = { $count } without an answer that can be read
report-without-paper = { $count } whose code is of no paper
report-without-page = { $count } without a code that fits
report-nothing = There is no answer to report on.
report-mean = On average a learner has { $share } of the marks, with follow-through and what was overruled.
report-chart-marks = Learners by their share of the marks
report-questions = Questions
report-table-questions = How the class did, question by question
report-chart-facility = Facility of each question
report-column-question = question
report-column-marks = marks
report-column-facility = facility
report-column-answers = answers alone
report-column-discrimination = discrimination
report-column-cell = cell
report-column-asked = asked
report-column-right = right
report-column-follows = follows from own
report-column-began = error begins
report-column-code = code
report-column-learners = learners
report-column-share = mean share of the marks
report-alpha = Cronbach’s alpha over the questions is { $value }, its { $level } % interval { $low } to { $high }.
report-kr-20 = KR-20 over single cells, right or wrong, is { $value }, its { $level } % interval { $low } to { $high }. Cells of one table hang together, which makes it high.
report-ideas = Ideas behind the errors
report-chart-ideas = Learners by what explains their errors
report-careless = careless
report-unexplained = unexplained
report-hardly-readable = hardly readable
report-right = nothing wrong
report-or = {" or "}
report-began = Where errors begin
report-table-began = Cells in which the error of a learner begins, the most frequent first
report-variants = Were the variants equally hard?
report-table-variants = Marks by variant
report-equally-hard = { $differ ->
    [yes] The means differ by more than chance would make them
   *[no] The means differ by no more than chance may make them
  }: F = { $ratio } with { $between } and { $within } degrees of freedom, p = { $probability }.
report-definitions = What the figures mean
report-term-share = Share of the marks
report-define-share = The marks that count as a share of all marks of the learner’s paper; on average their arithmetic mean. A wrong answer that follows from an earlier one counts for the method: common practice in marking, no source.
report-term-facility = Facility
report-define-facility = The mean mark as a share of all marks of the question; 1 is easy. Under “answers alone” without follow-through. Definition: Lord and Novick, Statistical Theories of Mental Test Scores, 1968.
report-term-discrimination = Discrimination
report-define-discrimination = The correlation of a question’s marks with the sum of the others, the point-biserial one where a question is right or wrong. High: whoever does well has it. Ebel and Frisbie, Essentials of Educational Measurement, 1991.
report-term-alpha = Cronbach’s alpha
report-define-alpha = How far the questions measure one thing. Cronbach, Psychometrika 16(3), 1951. The { $level } % interval: Feldt, Psychometrika 30(3), 1965.
report-term-kr-20 = KR-20
report-define-kr-20 = The same for items that are right or wrong. Kuder and Richardson, Psychometrika 2(3), 1937, formula 20.
report-term-idea = Idea
report-define-idea = A wrong procedure that gives a learner’s wrong answers and spares the right ones; each must explain { $earns } answers more than are explained without it, and what is left must be no more than { $rate } % of careless answers account for. After Brown and Burton, Cognitive Science 2(2), 1978.
report-term-began = Error begins
report-define-began = A learner’s first cell of a question that is neither right nor follows from the cells before it; what follows is computed by running the circuit on from the learner’s own row. Our own count, no source.
report-term-variants = Equally hard
report-define-variants = One-way analysis of variance of the learners’ shares. Fisher, Statistical Methods for Research Workers, 1925.
compare-together = { $one } and { $other } are never there at the same { $parameter }.
compare-tied = { $one } and { $other } { $quantity ->
    [area] are equal in area
    [logic] are equal in area without flip-flops
    [time] are equal in time
    [toggles] can't be told apart in toggles
   *[area_delay] are equal in area-delay product
  } at every { $range }{ $told }.
compare-is = { $name } is { $quantity ->
    [area] smaller
    [logic] smaller without flip-flops
    [time] faster
    [toggles] quieter
   *[area_delay] better in area-delay product
  }
compare-pair = { compare-is } than { $loser } { $where }: { $told }.
compare-where-every = at every { $range }
compare-where-one = at { $at }{ $end ->
    [last] , the last compared
   *[inner] {""}
  }
compare-where-run = from { $name } = { $first } to { $last }{ $end ->
    [last] , the last compared
   *[inner] {""}
  }
compare-equal = { $quantity ->
    [toggles] no difference to be seen
   *[other] equal
  }
compare-against = { $first } against { $second } at { $at }
compare-against-unit = { $first } against { $second } { $unit } at { $at }
compare-elsewhere = { $told } at { $at }
compare-takes-too = { $name } takes { $operands } too
compare-unlike = { $one } and { $other } don't compute the same
compare-sooner = { $name } settles sooner than its critical path, which no operands take, at { $at }
compare-take = Which to take: { $told }.
compare-take-for = { $quantity ->
    [area] for the least area
    [logic] for the least area without flip-flops
    [time] for the least time
    [toggles] for the fewest toggles
   *[area_delay] for the least area-delay product
  }, { $told }
compare-best = { $quantity ->
    [area] Smallest
    [logic] Smallest without flip-flops
    [time] Fastest
    [toggles] Quietest
   *[area_delay] Best in area-delay product
  }{ $whose }: { $told }.
compare-best-at = { $names } at { $range } ({ $figures })
compare-whose-operands = of those with { $count ->
    [one] operand { $operands }
   *[other] operands { $operands }
  }
compare-whose-none = of those without operands
compare-whose-outputs = of those that are to give { $outputs }
compare-whose-nothing = of those that say nothing of what they compute
compare-alike = those named together can't be told apart
compare-cheapest = Cheapest by area{ $whose }: { $name } at { $at }, { $area } { $area-unit }, { $time } { $time-unit }.
compare-nothing = Nothing satisfies { $need }.
compare-too-near = Too near to { $condition } for the sample to tell: { $designs }.
compare-design-at = { $name } at { $at } ({ $figure })
compare-none-has = No design has { $condition }.
compare-none-has-closest = No design has { $condition }; the { $end ->
    [most] most
   *[least] least
  } { $quantity } is { $figure }, of { $name }.

## Notes under comparisons

compare-model = Model { $name }: { $about }.
compare-model-gate-count = every gate is one gate and one level, however many inputs it has; inverters and buffers are free; a flip-flop is 6 gates, clock-to-Q 3 levels and set-up time 2
compare-model-unit-gate = a gate of two inputs is 1 unit and takes 1 delay, XOR and XNOR 2 and 2, a multiplexer 3 and 2, wider gates are trees, inverters are free; a flip-flop is 7 units, clock-to-Q 4 delays and set-up time 2
compare-model-cmos = static CMOS cells of up to 4 inputs; delay by logical effort: every gate as strong as the smallest inverter, and slower the greater its fan-out; a flip-flop is 24 transistors, clock-to-Q 10 tau and set-up time 5
compare-model-74hc = gates of 2 to 4 inputs, 74HC157 multiplexers (four share a select) and 74HC74 flip-flops; whole packages; typical delays and set-up times at 25 °C, 5 V, 15 pF
compare-model-74hc-worst = gates of 2 to 4 inputs, 74HC157 multiplexers (four share a select) and 74HC74 flip-flops; whole packages; worst delays and set-up times at 25 °C, 4.5 V, 50 pF
compare-units = Area in { $area }, time in { $time }; { path-counts }.
compare-toggles = Toggles: outputs of gates and flip-flops that change in one result, on average over { $results } random results (seed { $seed }), hazards left out; ± is the standard error, and what is within { $sure } standard errors of the difference counts as equal.
compare-clock-toggles = The clock's own toggles, 2 an edge at each flip-flop, are not in these figures: { $most } a flip-flop in one result at { $at }.
compare-ranked = Ranked are designs with the same operands and outputs, each group for itself.
compare-alone = { $names } { $count ->
    [one] has
   *[other] have
  } no equal here, hence no rank.
compare-those = { $count } of these designs
compare-registers = Flip-flops count: { $names } { $count ->
    [one] keeps
   *[other] keep
  } words in registers, { $rest ->
    [one] the other keeps none
   *[other] the others keep none
  }.
compare-absent = { $name } is not there at { $at }: { $why }.
compare-idle = { $name }: { $inputs } { $count ->
    [one] stays
   *[other] stay
  } the same at every edge, so the hardware that only waits for a change is left out: at { $at } area { $area } instead of { $built-area } { $unit }{ $changed ->
    [period] , period { $period } instead of { $built-period }
   *[area] {""}
  }.

## Critical paths

compare-toggles-in-time = With glitches each change of these nets in between counts too, with the delays of the model; gates swallow pulses that are shorter than their delay.
compare-true-delay = The true delay is the latest change over all operands, whatever stood before: a critical path that is longer is false.
path-counts = a path counts whether or not operands take it
path-none = there is no path
path-summary = critical path: { $length } { $unit }, from { $from } to { $to }
path-true = true delay: { $time } { $unit }; whatever operands follow on others, nothing changes later
path-true-clocked = true delay: at most { $time } { $unit }, clock-to-Q and set-up time counted, whatever is stored
path-true-within = true delay: { $low } to { $high } { $unit }; more was not found with the effort there is
path-false = { $paths ->
    [one] one path is longer and false: no operands take it; it ends
   *[other] { NUMBER($paths, useGrouping: "true") } paths are longer and false: no operands take them; they end
  } in { $ends }
path-shown = shown by { $operands } after { $before }: the last output changes { $time } { $unit } later{ $pulses ->
    [transport] , where gates pass pulses of any length
   *[inertial] {""}
  }
path-port = { $port } of { $part }
path-column-net = net
path-column-through = through
path-column-delay = delay
path-column-arrival = arrival
path-input = input
path-output = output
path-flip-flop = flip-flop
## Questions

question-heading = Question { $number }
question-marks = { $count ->
    [one] { $count } mark
   *[other] { $count } marks
  }
question-facts = { $marks }, level { $level } of 5
question-own = Another run, with { $given }: { $asked }
question-cells = { $count ->
    [one] Fill in the open cell of the table.
   *[other] Fill in the { $count } open cells of the table.
  }
question-lane = Draw the missing lane of { $lane } into the timing diagram.
question-cell = { $what } after { $edge }
question-value = What does { $what } hold after edge { $edge }?
question-value-start = What does { $what } hold before any edge?
question-value-plain = What is { $what }?
question-choice-plain = Which of these is { $what }?
question-choice = Which of these does { $what } hold after edge { $edge }?
question-choice-start = Which of these does { $what } hold before any edge?
question-false-statement = Which of these statements about the run is false?
question-fault = One thing is wrong with the circuit whose run is shown in the table. Which of these is it?
question-edges = How many clock edges does the whole procedure take for { $given }?
question-edges-plain = How many clock edges does the whole procedure take?
question-formula = Give a formula in { $names } for { $quantity ->
    [edges] the number of clock edges of the whole procedure
    [gates] the number of gates, inverters not counted
    [flip-flops] the number of flip-flops
   *[depth] the number of gates on the critical path
  }.
question-operands = Choose { $names } ({ $range }) so that { $shown }.
question-operands-given = Given { $given }: choose { $names } ({ $range }) so that { $shown }.
feature-carry-runs = { $count ->
    [one] a carry chain is { $count } place long or longer
   *[other] a carry chain is { $count } places long or longer
  }
feature-no-carry = no carry is generated
feature-all-rows = all eight rows of the full adder's truth table are met
feature-row = the full adder meets a = { $a }, b = { $b }, carry-in = { $carry }
feature-sum-fits = the sum fits
feature-sum-overflows = the sum overflows
feature-misconception = somebody gets a wrong answer who thinks: “{ $thought }”
question-hint = Hint
question-answer = Answer
question-lane-missing = The same figure, the lane of { $lane } left to be drawn.
question-solution = Worked solution
answer-for-example = for example { $given }
solution-start = At the start: { $what }.
solution-plain = { $what }.
solution-given = Given, after edge { $edge }: { $what }.
solution-row = After edge { $edge }: { $what }.
solution-edge = Edge { $edge }: { $what }.
solution-kept = { $store } keeps { $word }
solution-cleared = { $store } is cleared: { $word }
solution-shifted = { $store } shifts { $came } in: { $word }
solution-took = { $store } takes { $word }
solution-added = { $adder } adds { $inputs }: sum { $sum }, carry { $carry }
solution-phase = { $phase } takes { $count ->
    [one] { $count } edge
   *[other] { $count } edges
  }
solution-edges = { $each }: { $sum } = { $total }.
solution-edges-one = { $each }.
solution-formula = { $quantity } = { $formula }; a formula that gives the same numbers is as right.
solution-checked = This is { $how }.
solution-operands = Others are as right if a run with them shows it.
solution-false = “{ $text }” is false: { $why }.
solution-option = { $letter }) is what one gets who thinks: “{ $thought }”

## Papers

paper-code = Paper { $code }
paper-key = Answers: { $title }
paper-worked = Worked solutions: { $title }
paper-total = { $marks } in all
paper-question = Question
paper-marks = Marks
paper-instructions = Write words with the MSB on the left; write X for a bit that is unknown.

## Wrong ideas, as a learner would say them


## Misconceptions, as a learner would say them

misconception-one-after-another = The stages change one after another from the input side, so each sees what the one before it has just become.
misconception-wrong-end = The new bit enters at the other end of the register.
misconception-re-enters = The bit that leaves the register comes in again at its other end.
misconception-carry-dropped = Each place is added by itself; the carry is left out.
misconception-carry-stays-set = Once there is a carry, it is added in every place that follows.
misconception-carry-kept-between-words = The carry that is left from one word is added to the next.
misconception-carry-too-far = The carry goes one place further left than it should.
misconception-or-for-sum = One and one make one: the sum bit is 1 if any input is 1.
misconception-carry-of-two = There is a carry only if both operand bits are 1; the carry coming in does not matter.
misconception-msb-first = The words are fed from the left end, as one reads them.
misconception-one-edge-early = The start counts as edge 1, so the answer stands one edge sooner.
misconception-one-edge-late = One more edge is needed to bring the answer out.
misconception-loading-not-counted = Only the edges after loading count.
misconception-enable-ignored = A register takes its input at every edge, enabled or not.
misconception-unknown-as-0 = What is not known is 0.
misconception-unknown-as-1 = What is not known is 1.
misconception-read-backwards = The answer is read with its LSB on the left.

## Packages of the 74HC family

chip-74hc00 = quad 2-input NAND
chip-74hc02 = quad 2-input NOR
chip-74hc04 = hex inverter
chip-74hc08 = quad 2-input AND
chip-74hc10 = triple 3-input NAND
chip-74hc11 = triple 3-input AND
chip-74hc20 = dual 4-input NAND
chip-74hc21 = dual 4-input AND
chip-74hc27 = triple 3-input NOR
chip-74hc32 = quad 2-input OR
chip-74hc74 = dual D flip-flop
chip-74hc86 = quad 2-input XOR
chip-74hc153 = dual 4:1 multiplexer
chip-74hc157 = quad 2:1 multiplexer
chip-74hc161 = 4-bit counter, asynchronous clear
chip-74hc163 = 4-bit counter, synchronous clear
chip-74hc164 = 8-bit shift register, serial in, parallel out
chip-74hc165 = 8-bit shift register, asynchronous load, serial out
chip-74hc166 = 8-bit shift register, synchronous load, serial out
chip-74hc173 = 4-bit register with enable
chip-74hc174 = hex D flip-flop
chip-74hc175 = quad D flip-flop
chip-74hc194 = 4-bit universal shift register
chip-74hc195 = 4-bit shift register with parallel load
chip-74hc273 = octal D flip-flop
chip-74hc283 = 4-bit adder
chip-74hc595 = 8-bit shift register with output register

## The bench sheet

bench-title = Bench sheet: { $title }
bench-packages = { $count ->
    [one] { $count } package
   *[other] { $count } packages
  }
bench-lines = { $count ->
    [one] { $count } line to tick
   *[other] { $count } lines to tick
  }
bench-net-pressed = button pressed
bench-net-resting = button at rest
bench-net-clear = power-up clear
bench-resistor = { $value } { $net }
bench-fewest = No choice among the ways that were tried takes fewer packages: a solver proved it.
bench-best-found = This is the best choice found; that no other takes fewer packages is not proved.
bench-equal = Read off the table of wires, the packages compute the design: { $count ->
    [one] the one bit that is stored or shown was
   *[other] all { $count } bits that are stored or shown were
  } proved equal for every state and every input.
bench-finding-floating = nothing drives { $where }
bench-finding-shorted = these outputs are joined: { $where }
bench-finding-no-supply = { $where } is not at its rail
bench-finding-loop = the outputs before { $where } feed themselves
bench-finding-clear = an asynchronous clear or preset of { $where } can act during the run
bench-finding-start = the power-up clear does not give { $where } its initial value
bench-finding-clock = the edges of { $where } are not those of the design
bench-finding-stored = { $where } can take another bit than in the design
bench-finding-shown = { $where } can show another bit than in the design
bench-finding-time = { $where } could not be settled in time
bench-cautions = Before you begin
bench-caution-rules = The rules of your laboratory and the makers’ data sheets come first. The pins here are those of the usual dual in-line packages; compare them with the data sheet of your own part.
bench-caution-supply = The supply is { $volts } V (the family works from { $least } V to { $most } V; above { $absolute } V it is destroyed). Check the polarity before you switch on: the wrong way round, packages get hot and are lost.
bench-caution-off = Switch the supply off before you move a wire or a package.
bench-caution-floating = No input may float: an open CMOS input takes any level and can make a package oscillate. That is why unused inputs are tied.
bench-caution-static = Static electricity destroys CMOS inputs: touch earthed metal first, hold packages by their bodies.
bench-caution-outputs = Never join two outputs, and never join an output to VCC or GND.
bench-caution-lights = Each light has a resistor of { $ohms } kΩ of its own: about { $current } mA, below the { $rated } mA up to which an output keeps its levels.
bench-caution-gated = { $switches } { $count ->
    [one] lets
   *[other] let
  } the clock through a gate: move { $count ->
    [one] it
   *[other] them
  } only while S1 is not pressed, or the move itself is a clock edge.
bench-parts = Parts
bench-column-count = Number
bench-column-part = Part
bench-column-what = What it is
bench-column-names = On the board
bench-column-done = Done
bench-column-wire = No.
bench-column-from = From
bench-column-to = To
bench-column-net = Carries
bench-item-decoupling = ceramic capacitor, one close to each package from VCC to GND
bench-item-bulk = electrolytic capacitor from VCC to GND where the supply enters; mind its polarity
bench-item-switch = switch to GND
bench-item-light = red light-emitting diode, its cathode (short leg) to GND
bench-item-button = push-button, change-over
bench-item-clear = push-button to GND
bench-item-resistor = resistor, one in series with each light-emitting diode
bench-item-pull = resistor, from VCC to each contact that a switch or button closes to GND
bench-board = The packages
bench-board-caption = Seen from above, the notch at the top: pin 1 is at the top left, and the count goes down the left side and up the right one. A bar over a name: active low. A ring: a measuring point. What stands outside a pin is wired to it.
bench-board-about = { $packages }. Each pin with what is wired to it stands in the tables of wires.
bench-build = Building
bench-build-note = Tick a line when it is in; where a resistor’s value stands in it, the resistor takes the place of a wire. A pin is written as package and number: { $example } is pin { $pin } of { $package }. A stroke before a pin’s name stands for the bar over it: active low.
bench-place = Put the packages on the board, all notches to the same side, in the order { $names }. Put a capacitor of { $value } beside each, and one of { $bulk } where the supply enters.
bench-stage-power = Supply: every package to VCC and GND.
bench-stage-ties = Inputs that have a fixed level, the unused ones among them.
bench-stage-clock = The clock: a change-over button and two NAND gates that hold its level, so that bounces of the contact make no second edge. S1-3 is the contact that moves: pressed it touches S1-1, released S1-2.
bench-stage-clear = The power-up clear: 0 while S2 is pressed, else 1 through its resistor.
bench-stage-signals = Wires between the packages.
bench-stage-inputs = Switches: open is 1, through the resistor to VCC; closed is 0.
bench-stage-outputs = Lights: from the pin through a resistor to the anode (+, the longer leg), from the cathode (−) to GND. Lit is 1.
bench-test = Before you switch on
bench-test-short = With the supply off, the meter shows no short between VCC and GND.
bench-test-notches = All notches point to the same side, and no leg is bent.
bench-test-count = All { $count } lines are ticked.
bench-test-on = Switch on: the current stays in the range of milliamperes (lights included), and no package gets warm. Otherwise switch off at once.
bench-test-supply = The meter shows { $volts } V between VCC and GND at each package.
bench-run = The run
bench-run-clocked = Press S2 once: row 0 stands. Then for each row: set the switches as it says, compare the lights, tick, press S1. What a row shows stands after that many presses of S1.
bench-run-unclocked = Set the switches, and compare the lights.
bench-run-either = – stands for either level: set a switch as you like; a light may show anything.
bench-run-part = The sheet has the first { $count } rows of { $of }.
bench-run-caption = Row by row: lights, switches, measuring points; words with the MSB at the left.
bench-row = Row
bench-phase = Phase
bench-set = set { $name }
bench-places = { $name }: { $places }
bench-legend-light = Lights, left to right: { $list }.
bench-legend-set = Switches, left to right: { $list }. For 1 open, for 0 closed.
bench-legend-point = Measuring points, left to right: { $list }.
bench-differs = If a row differs
bench-differs-first = Take the first row that differs, and there the leftmost measuring point that does: what drives that pin is where to look. Switch off before you change anything.
bench-differs-capture = With a logic analyser, record the clock and the lights; edgewise capture lines the recording up with this run and says which single fault explains it.
bench-footer = Every value and wire on this sheet was computed from the circuit and checked against it; that your own parts have these pins was not. Data sheets and the rules of your laboratory come first.

## What a logic analyser saw

capture-clock = The clock is channel { $channel }{ $how ->
    [name] {""}
   *[data] , as its edges tell
  }; its { $edge ->
    [falling] falling edge is the active one: the channel is inverted
   *[rising] rising edge is the active one
  }. { $found ->
    [one] { $found } edge was found
   *[other] { $found } edges were found
  }, the run has { $expected }.
capture-samples = Each sample is taken as the state before one clock edge. { $found ->
    [one] { $found } sample was found
   *[other] { $found } samples were found
  }, the run has { $expected }.
capture-unclocked = The circuit has no clock; what stands at the end of the recording was compared.
capture-noise = { $bounces ->
    [0] The clock did not bounce
    [one] The clock bounced: { $bounces } more edge than the run has
   *[other] The clock bounced: { $bounces } more edges than the run has
  }; { $glitches ->
    [0] there were no glitches late in a period.
    [one] there was { $glitches } change late in a period, after the circuit should have come to rest.
   *[other] there were { $glitches } changes late in a period, after the circuit should have come to rest.
  }
capture-short = The recording ends early: it has rows 0 to { $last } of 0 to { $of }.
capture-channels = The channels
capture-column-channel = Channel
capture-column-net = Net
capture-column-how = Known by
capture-by-name = its name
capture-by-data = what it shows
capture-inverted = { $how }; inverted
capture-unmatched = Channels that fit no net and were left out: { $list }.
capture-agrees = The recording is as the run should be.
capture-agrees-but = The recording is as the run should be, but for { $count ->
    [one] one sample
   *[other] { $count } samples
  }, which no single fault explains better than a disturbance does.
capture-first = The first difference is in row { $row }: { $net } is { $seen }, and should be { $expected }.
capture-differences = Row by row, what differs
capture-column-row = Row
capture-column-seen = Seen
capture-column-expected = Expected
capture-misset = { $count } samples of inputs are not what these operands need: were the switches set for them?
capture-explanations = What explains it, the best first
capture-column-explanation = Explanation
capture-column-unexplained = Samples left over
capture-column-alike = As good on these channels
capture-right = Nothing is wrong.
capture-double = Clock edge { $edge } came twice: the clock bounced.
capture-triple = Clock edge { $edge } came three times: the clock bounced.
capture-missed = Clock edge { $edge } did not reach the circuit.
capture-uncleared = { $part } was not cleared before the first edge: it held { $word }.
capture-nothing-cleared = Nothing was cleared before the first edge: what stores began as it came up.
capture-switch = Input { $input } was { $bit } in row { $row }.
capture-probes = The channels { $first } and { $second } are each at the net of the other.
capture-dead = Channel { $channel } shows one level only, and all else is right: its lead is off, or the wire that it is put to.
capture-none = Nothing that was tried explains the recording well: more than one thing may be wrong, or the recording is of another design or of other operands.
capture-next = To tell these apart, measure { $net } in row { $row }: 0 speaks for { $zero }; 1 for { $one }.
capture-next-none = No net of this run tells these apart; take other operands, or look at the board itself.

## A first lesson, as edgewise new writes it

scaffold-title = First lesson
scaffold-scene = Down at the pier stands a tide hut, and in it works a { $design }. *Put a scene of your own here: who needs the answer, and what happens if it is wrong?*
scaffold-what = **What it is.** { $design }{ $about ->
    [none] {""}
   *[told] : { $text }
  }.
scaffold-given = What it is given
scaffold-given-none = It is given no numbers: all it needs is the clock.
scaffold-operand = operand
scaffold-number = number
scaffold-bits = bits
scaffold-circuit = The circuit
scaffold-before = Before the first edge.
scaffold-all = All values.
scaffold-edges = Edge by edge
scaffold-run = A run takes `? edges` clock edges: { $phases }. Row *k* of the table shows what stands after edge *k*, with the inputs that edge *k* + 1 samples; so the first row is what the first edge of the phase finds.
scaffold-in-phase = `? edges({ $phase })` in phase { $name }
scaffold-phase = Phase { $phase }, edge by edge.
scaffold-signals = The same edges as signals.
scaffold-values = The values
scaffold-no-clock = All of it stands at once; there is no clock.
scaffold-answer = The answer
scaffold-output = { $at ->
    [no] `{ $output }` is
   *[edge] After edge `? { $edge }` `{ $output }` is
  } `? { $formula }`{ $known ->
    [no] {""}
   *[yes] , as a number `? value({ $formula })`
  }{ $right ->
    [no] ; that is **not** `{ $wanted }`: here the circuit goes wrong
   *[yes] {""}
  }.
scaffold-checked = A number typed by hand can be wrong. Those above are not typed, and these statements are checked every time the lesson is built:
scaffold-how = How this file works
scaffold-how-delete = *For you, not for your readers: delete this section when you know it.*
scaffold-how-front = The lines between the two `---` say what runs. Change an operand, save, and every value, table and figure follows.
scaffold-how-value = Inline code that begins with a question mark is computed:
scaffold-how-blocks = The blocks above ({ $kinds }) are figures, tables and claims. A claim that is false stops the build and says what is true instead.
scaffold-how-say = A block `say` holds what you want to say while you project the lesson; readers don't see it.
scaffold-say = Ask first: what do you expect to see at the end? Then step.

## Hazards

hazard-title = Hazards of { $design }
hazard-column-output = output
hazard-column-kind = hazard
hazard-column-changes = changes
hazard-column-before = before
hazard-column-seen = seen
hazard-column-added = added gates
hazard-static-0 = static 0
hazard-static-1 = static 1
hazard-dynamic = dynamic
hazard-seed = { $bits } (seed { $seed })
hazard-unseen = not seen
hazard-no-gate = –
hazard-count = { $wrong ->
    [0] no output has a hazard while one input changes, however long each gate and each wire takes
    [one] 1 output of { $outputs } has a hazard while one input changes: gates and wires may take so long that it changes more often than it has to
   *[other] { $wrong } outputs of { $outputs } have a hazard while one input changes: gates and wires may take so long that they change more often than they have to
  }
hazard-clean = without a hazard: { $outputs }
hazard-added = with its added gates each output computes the same and has no hazard of this kind any more: proved; an AND goes into an OR behind the output, an OR into an AND
hazard-partly = where … stands it takes more than { $most } gates; the one that is named takes the hazard away for these operands
hazard-spread = a seed stands where the delays of the model show no pulse: they are moved by up to { $percent } %
hazard-incomplete = there may be more: not all was settled in the time there was

## Inside a clock period

inside-column-edge = edge
inside-column-time = time
inside-column-net = net
inside-column-from = from
inside-column-to = to
# unit: gate delays, ns
inside-settled = after edge { $edge } all nets have settled within { $time } { $unit }
inside-moving = { inside-after-edge }the circuit is not at rest when the period ends; its last change comes after { $time } { $unit }
inside-moving-later = { inside-after-edge }the circuit is not at rest when the period ends, and no net but the clock has changed
inside-after-edge = { $edge ->
    [0] {""}
   *[other] after edge { $edge }{" "}
  }
inside-settled-inputs = all nets have settled within { $time } { $unit }
inside-nothing = after edge { $edge } no net but the clock changes
inside-nothing-inputs = no net changes
inside-glitch-static = glitch: { $net } is { $bits }{ inside-after }; it ends as it was
inside-glitch-dynamic = glitch: { $net } is { $bits }{ inside-after }; it changes more than once
inside-after = { $edge ->
    [0] {""}
   *[other] { " " }after edge { $edge }
  }
inside-setup = set-up time not kept: { $net } stood for { $stood } of { $needed } { $unit } before an edge at { $part }
inside-hold = hold time not kept: { $net } stood for { $stood } of { $needed } { $unit } after an edge at { $part }
inside-astray = { $net } ends at { $here }; row by row it is { $row }{ inside-after }
inside-restless = changes are still to come at the end: the period is too short, or the circuit never settles

## Followed in time

# unit: gate delays, ns
followed-title = { $name } in time, delays of { $model }
followed-at = { $name } at { $at } { $unit }
response-oscillates = { $nets } { $count ->
    [one] oscillates
   *[other] oscillate
  } from { $begin } to { $end }, with a period of { $period } { $unit }
response-busy = inputs change while changes are still to come: at { $times }
response-moving = changes are still to come at { $end }
response-settled = once the inputs stand still all nets have settled within { $time } { $unit }; that long it takes at { $at }
response-race = race at { $at }: { $one } and { $other } change together; { $one } first: { $first }; { $other } first: { $second }
response-unlooked = so many inputs change at { $at } that their order was not looked into
response-word = { $word } at { $at }
response-passes = { $name } is { $before }, then { $passed }, before it is { $after } at { $at }
response-glitch-static = glitch: { $net } is { $bits } from { $begin } on; it ends as it was
response-glitch-dynamic = glitch: { $net } is { $bits } from { $begin } on; it changes more than once
response-mtbf = undecided on the average once in { $seconds } s, which is { $years } years
response-setup = set-up time not kept at { $at }: { $net } stood for { $stood } of { $needed } { $unit } before an edge at { $part }
response-hold = hold time not kept at { $at }: { $net } stood for { $stood } of { $needed } { $unit } after an edge at { $part }
inside-least = every set-up time is kept, along whatever path, from a period of { $least } { $unit } on; this one is { $own }
inside-skew = the clock comes { $time } { $unit } late to { $names }
inside-late-bit = too late: at edge { $edge } { $part } finds { $net } at { $after }, not at { $before }; it changed { $time } { $unit } after the edge
inside-false-edge = false edge: { $net } rises { $time } { $unit } after edge { $edge }; row by row no edge arrives there
inside-cut-pulse = cut pulse: { $net } is high for { $time } { $unit } after edge { $edge }; the clock is high for { $whole }
# count: how many lie too close together to be marked one by one
inside-mark-glitch = { $count ->
    [one] glitch
   *[other] { $count } glitches
    }
inside-mark-false-edge = { $count ->
    [one] false edge
   *[other] { $count } false edges
    }
inside-mark-cut-pulse = { $count ->
    [one] cut pulse
   *[other] { $count } cut pulses
    }
inside-mark-late-clock = late clock
inside-mark-setup = set-up time not kept
inside-mark-hold = hold time not kept
inside-mark-settled = settled: { $time }
time-claim-run-settled = checked on this run in time: no change comes later than { $time } { $unit } (delays of { $model })
time-claim-run-glitchless = checked on this run in time (delays of { $model })
time-claim-sets-settled = checked in time on all { NUMBER($sets, useGrouping: "true") } runs: no change comes later than { $time } { $unit } (delays of { $model })
time-claim-sets-glitchless = checked in time on all { NUMBER($sets, useGrouping: "true") } runs (delays of { $model })
time-claim-paths = proved for all operands: no path takes longer than { $time } { $unit } (delays of { $model })
time-claim-sat = proved for all operands by a SAT solver: no change comes later than { $time } { $unit }, whatever stood before (delays of { $model })
time-claim-stored = proved for all operands: it follows an input or a flip-flop alone, which changes once an edge
time-claim-undecided = time was up
time-claim-falsified = false with the delays of { $model }
time-claim-late = { inside-after-edge }{ $name } changes as late as { $time } { $unit }
time-claim-moving = { inside-after-edge }the circuit is not at rest when the period ends
time-claim-glitch = { inside-after-edge }{ $name } is { $bits }
time-claim-false-edge = { inside-after-edge }{ $name } rises where row by row no edge arrives
time-claim-cut-pulse = { inside-after-edge }{ $name } falls while the clock is high
time-claim-false = false, as the lesson expects: { $why }
inside-slow-open = Slow motion
inside-slow-close = End slow motion
inside-slow-back = Back
inside-slow-next = Next event
inside-slow-events = Event
inside-slow-own = Slow motion shows the lesson's own operands; with others its events would not be these.
inside-slow-start = Just before edge { $edge }.
inside-slow-start-with = Just before edge { $edge }, with { $given }.
inside-slow-start-inputs = Just before the inputs change.
inside-slow-start-inputs-with = Just before the inputs change, with { $given }.
inside-slow-when = { $edge ->
    [0] after { $time } { $unit }
   *[other] { $time } { $unit } after edge { $edge }
  }
inside-slow-event = { $when }: { $changes }.
inside-slow-net = { $name } goes from { $before } to { $after }
inside-slow-others = { $count ->
    [one] one other net changes
   *[other] { $count } other nets change
  }
inside-caption-inputs = What happens when the inputs change, delays of { $model }
inside-caption-edge = What happens after edge { $edge }, delays of { $model }
inside-caption-edges = What happens after edges { $first } to { $last }, delays of { $model }
inside-more = { $count ->
    [one] One more is among the events.
   *[other] { $count } more are among the events.
  }
inside-events = Events
inside-key-window = set-up and hold time: what leads to a flip-flop has to stand
inside-title-inputs = Inside, delays of { $model }: { $subject }
inside-title-edge = Inside edge { $edge }, delays of { $model }: { $subject }
inside-title-edges = Inside edges { $first } to { $last }, delays of { $model }: { $subject }
inside-about-first = { $value } at first
inside-about-after = { $value } from { $time } { $unit } after edge { $edge }
inside-about-time = { $value } from { $time } { $unit }
inside-about-left = and { $count ->
    [one] one more value
   *[other] { $count } more values
    }

## Slides

slides-goes-on = (What was said before goes on.)
slides-wait = (Wait for answers.)
slides-predict = What will { $names } hold after edge { $edge }?
slides-answer = { $question }: answer
slides-continued = { $title } ({ $number })
slides-refuted = Refuted

## Film

film-unchanged = Nothing changes at edge { $edge }.
film-captions = Captions
film-chapters = Chapters
film-descriptions = Descriptions of what is to be seen
## Hardware descriptions, and submissions judged

hdl-reset = { $name } resets asynchronously: understood as a reset at the start, and then inactive
hdl-falling = everything is stored at the falling edge of { $name }: that is the clock edge
hdl-blocking = { $name }: a blocking assignment in a clocked block
hdl-sensitivity = the sensitivity list lacks { $name }
hdl-truncation = { $name }
hdl-unused = input { $name } is not used
hdl-undriven = { $name } has no value: nothing drives it, or it is kept where it is not assigned (a latch)
hdl-gated = the clock { $name } passes through a gate
judged-title = Submissions judged: { $title }
judged-count = { $count ->
    [one] { $count } submission
   *[other] { $count } submissions
  }
judged-count-right = { $count } right
judged-count-wrong = { $count } wrong
judged-count-undecided = { $count } undecided
judged-count-refused = { $count } not judged
judged-right = right: proved equal for all operands
judged-undecided = undecided within the time limit
judged-refused = not judged: { $reason }
judged-wrong = wrong: { $count ->
    [0] {""}
   *[other] for { $operands },{" "}
  }{ $answer } is { $found }{ $clocked ->
    [yes] {" "}after edge { $edge }
   *[no] {""}
  } and should be { $should }
judged-unfinished = the time limit ended the search for what explains it
judged-unexplained = nothing that was tried explains it: no misconception, no two of them together, no single fault
judged-start = right if all that stores starts at 0, for all operands: an initial value or a reset is missing
judged-late = right, but one edge late, for all operands
judged-early = right, but one edge early, for all operands
judged-inverted = right, but { $names } { $count ->
    [one] is
   *[other] are
  } inverted, for all operands
judged-low = right, but { $names } { $count ->
    [one] is
   *[other] are
  } taken as active low, for all operands
judged-reversed = right, but the bits of { $names } are reversed, for all operands
judged-exchanged = right, but { $names } are exchanged, for all operands
judged-idea = does exactly what { $count ->
    [one] the idea { $ideas } leads
   *[other] the ideas { $ideas } together lead
  } to, for all operands
judged-fault = does exactly what the design does with a single fault, for all operands: { $fault }
judged-port-near = port { $port } is taken for { $name }
judged-port-alone = port { $port } is taken for { $name }, the only one left of its width
judged-port-order = port { $port } is taken for { $name }, by the order of the ports
judged-port-tried = port { $port } is taken for { $name }: with these ports it is right
judged-reset = { $name } resets at an edge where it is { $level }: understood as a reset at the start, and then inactive
judged-lane-design = { $name }: design
judged-lane-submitted = { $name }: submitted
judged-lane-differs = differs
judged-column-edge = After edge
judged-errors = Errors
judged-error = Error { $number }: { $count ->
    [one] { $count } submission
   *[other] { $count } submissions
  }
judged-alike = These give the same answers for all operands, which was proved.
judged-drawn = { $file } beside the design, { $operands }. The first bits that differ stand after edge { $edge }.
judged-drawn-start = { $file } beside the design, { $operands }.
judged-all = Every submission
judged-table-all = Every submission and its verdict
judged-table-remarks = Places to look at, by file and line
judged-column-file = File
judged-column-verdict = Verdict
judged-column-group = Error
judged-column-why = Why
judged-column-remarks = To look at
judged-verdict-right = right
judged-verdict-wrong = wrong
judged-verdict-undecided = undecided
judged-verdict-refused = not judged
judged-remarks = What an examiner looks for
judged-remarks-note = These say nothing about whether a submission is right.
judged-taken = What was taken for what
judged-table-taken = What was understood how, by file and line
judged-column-taken = Understood
judged-footer = Right means proved: the answers of the submission equal those of the design for all operands, run by the design’s procedure. Wrong comes with operands for which they differ. An explanation was proved for all operands, too.
film-rehearse-begin = Start your recorder, then press the space bar as you say the first word. Press it again at each next step, and once more when you have finished. ← takes a press back that came too early; Esc begins anew.
film-rehearse-next = Then:
film-rehearse-last = The last step: press the space bar when you have finished.
film-rehearse-clock = you
film-rehearse-script = script
film-rehearse-saving = The cues are being written …
film-rehearse-lost = The cues could not be sent: edgewise has ended. Nothing was written.
film-rehearse-saved = { $count ->
    [one] { $count } cue is
   *[other] { $count } cues are
  } in { $file }. Give them to the film with your recording: --voice RECORDING --cues { $file }. Press the space bar to rehearse again; that writes the file anew.
# A state diagram.
states-title = State diagram: { $subject }
states-title-after = State diagram after edge { $edge }: { $subject }
states-circle = In a circle: { $words }.
states-below = Below the line: { $outputs }.
states-arrow = At an arrow: { $inputs }.
states-either = –: 0 or 1.
states-slash = Behind the slash: { $outputs }.
states-starts = It may start in any of { $count } states.
states-dashed = Dashed: not reached from the start.
states-left-out = { $count ->
    [one] One state that is not reached is left out.
   *[other] { $count } states that are not reached are left out.
  }
states-column = state ({ $words })
states-column-next = next state
states-column-use = use
states-use = { $which ->
    [start] start
    [used] used
   *[unused] unused
  }
states-period = { $count ->
    [one] Every edge leaves the circuit at its start: { $states }.
   *[other] After every { $count } edges the circuit is at its start again: { $states }.
  }
states-passed = { $count ->
    [one] The circuit leaves its start, { $states }, for good.
   *[other] The circuit passes { $count } states once: { $states }.
  }
states-loop = { $count ->
    [one] Then it stays in one: { $states }.
   *[other] Then it goes round in a loop of { $count }: { $states }.
  }
states-unused-loop = { $count ->
    [one] { $which ->
        [they] It is
       *[others] One of them is
      } followed by itself: { $states }.
   *[other] { $which ->
        [they] They go
       *[others] { $count } of them go
      } round in a loop{ $which ->
        [they] {" "}of { $count }
       *[others] {""}
      }: { $states }.
  }
states-about-count = { $reached } of { $all } states are reached from the start.
states-about-present = { $edge ->
    [0] At the start the state is { $state }.
   *[other] After edge { $edge } the state is { $state }.
  }
states-about-after = After { $state } comes { $ways }.
states-about-way = { $target } with { $when }
states-about-unused = { $count ->
    [one] One state is not reached
   *[other] { $count } states are not reached
  }; { $which ->
    [all] a way leads back from there to those that are used
    [none] no way leads back to those that are used
   *[some] from { $back } of them a way leads back to those that are used
  }.
