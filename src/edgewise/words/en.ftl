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
