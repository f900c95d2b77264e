### What is refused in study/, and why.

## choose

wish-impossible = { $known ->
    [all] there are
   *[solver] the solver found
  } no operands of { $design } with { $wish }{ $hint }
wish-less = ; ask for less
wish-carries = ; the longest carry chain is then { $count ->
    [one] { $count } place
   *[other] { $count } places
  }
operands-none = { $design } has no operands to choose

## comparison

none-built = none of the designs can be built: { $design }, { $name }={ $value }: { $why }

## constraints

need-empty = a need has no condition; write, for example, n = 32, time <= 40
need-digits = { $need }…: found a number of { $count } digits, expected up to { $most }
need-decimal = { $need }: found { $found }, expected a whole number, since figures are rounded up to one first; write { $whole }
need-no-condition = { $need } is no condition; write a comparison, for example time <= 40
quantity-unknown = there is no quantity { $name }{ $suggestion }
need-unit = { $need }: found the unit { $found }; expected { $count ->
    [0] no unit
   *[other] { $units }
  } in the model { $model }
figure-missing = { $design } has no { $name }
need-timed = a need knows no edges by number; compare quantities

## contradictions

contradiction = { $output }{ $row ->
    [0] {""}
   *[other] {" "}after edge { $row }
  } is { $word }{ $known ->
    [yes] {" "}({ $value })
   *[no] {""}
  }, but the design's own computes says { $expected }

## covering_set

fewest-examples-bits = { $design } has { $count ->
    [one] { $count } operand bit
   *[other] { $count } operand bits
  }; the fewest examples are looked for up to { $most }: take smaller parameters

## decision

word-unknown-here = { $function }({ $of }): its word is not known here
number-not-truth = { $found } is a number, not a truth

## every_row

every-row-of-many = a claim about every row is made of one design, for all operands; leave out “for …”
every-row-timed = { $found } speaks of one row; a claim about every row has no “after”
every-row-unread = { $found } reads nothing of a row; name a register, a net or an output

## fit

count-unknown = there is no count { $name }{ $suggestion }
law-grid-designs = this grid has { NUMBER($count, useGrouping: "true") } { $count ->
    [one] design
   *[other] designs
  }; a law needs 4 to { NUMBER($most, useGrouping: "true") } of them
range-and-number = { $name } has a range and a number as well; leave one out
law-parameters-none = { $design } has no parameters, so there is no law to find; { $quantity }: { $count }
law-over-missing = say over which parameters, for example n=1..16; { $design } has { $names }

## misconceptions

misconception-needs = { $name } needs { $needs }; { $design } has none
misconception-unknown = there is no misconception { $name }{ $suggestion }

## models

cost-model-unknown = there is no cost model { $name }{ $suggestion }

## moment

edge-behind-unknown = there is no edge { $edges } to look behind; { $last ->
    [0] there are none: ask for 0
   *[other] the edges are 1..{ $last }
  }
loop-still = { $nets } is a loop of gates that take no time in the model { $model }; take another one: --model 74hc
waveform-input-unknown = there is no input { $name } for the waveform{ $suggestion }
waveform-word = waveform of { $name }: found { $found }, expected 0..{ $most } or X
waveform-missing = no waveform feeds { $name }; add one: waveforms, { $name }: { $clock ->
    [true] period 20, pulses 8
   *[false] 1, 0 after 10, 1 after 20
  }
waveforms-many = the waveforms have more than { NUMBER($most, useGrouping: "true") } steps of one bit in all
mtbf-number = { $name } is { $found }; expected a number above 0
mtbf-resolve = the time to resolve is { $found }; expected 0 or more
time-expected = { $what ->
    [time] the time of { $name }
    [wave] a time of { $name }
    [skew] the skew of { $name }
    [end] the end
    [resolve] the time to resolve
   *[period] the period
  } is { $found }; expected 0 or more { $unit }, with two decimals at most
periods-many = { $count } clock periods are too many to look into; the limit is { $most }
period-short = the period is too short; give more than 0
input-unknown = there is no input { $name }{ $suggestion }
input-late = input { $name } is to change { $time } { $unit } after the edge, but the period is { $period } { $unit }; make the period longer
stores-nothing = { $name } does not store: the clock does not come to it

## needs

need-sizeless = the need does not say for which size; add, for example, n = 32
parameter-missing = { $design } has no parameter { $name }; leave it out

## parameter_grid

design-twice = { $name } is named twice; name each design once
designs-missing = name the designs
parameter-of-none = none of these designs has a parameter { $name }{ $suggestion }
designs-many = these are { NUMBER($count, useGrouping: "true") } designs; the limit is { NUMBER($most, useGrouping: "true") }
range-empty = { $name } = { $low }..{ $high } is empty; write low..high
compare-over-missing = say over which parameter to compare, for example n=4..64
compare-over-many = found ranges for { $names }; compare over one of them and give the others one number

## partial_evaluation

edge-by-operand = { $formula }: an edge or an index that depends on an operand of “for all”

## proof_request

every-row-of-one = what holds in every row is claimed of one design; give a claim about one row, as in R != 0
claim-and-design = give a claim, or another design to compare with, not both
computes-missing-prove = { $design } does not say what it computes; give a claim, or add to the circuit, for example, computes: {"{"}sum: (a + b) mod 2**n{"}"}
parameter-of-neither = neither { $first } nor { $second } has a parameter { $name }{ $suggestion }
family-values = { $name } has { $found } values; expected { $count }

## requirements

wish-sum = a sum that { $sum }
wish-low = operands from { $low }
wish-high = operands up to { $high }
wish-low-high = operands { $low } to { $high }
feature-unknown = { $feature } is not a feature{ $known }
features-there = ; features are { $names }
sum-missing = { $design } has no output named sum, so none that { $how }
misconception-inapplicable = { $feature }: none of that name applies here{ $suggestion }
feature-inapplicable = { $feature }: the design has no full adder whose sum gets into the answer

## run

word-without-value = { $name } is { $word }, which has no value: { $count ->
    [one] { $width ->
        [1] its bit is
       *[other] bit { $last } is
      }
   *[other] bits { $before } and { $last } are
  } unknown (X)
word-expected = { $function }(…) reads a word of bits, found { $found }

## scope

edges-there = { $last ->
    [0] this design has no clock edges
   *[other] the edges are { $first }..{ $last }{ $first ->
        [0] ; 0 is the start
       *[other] {""}
      }
  }
total-of = { $name } is not a family of operands{ $suggestion }
total-of-none = total({ $name }): this design has no family of operands
operand-member-unknown = there is no { $name }; the operands are { $first } to { $last }
operand-family-whole = { $name } is a family of operands; write { $first } or total({ $name })
edge-unknown = { $timed }: there is no edge { $edge }; { $edges }
phase-unknown = there is no phase { $name }{ $suggestion }
word-for-edge = { $name } is a word in the circuit, not the number of an edge
name-timeless = { $name } changes from edge to edge; write { $name } after k, for example { $name } after { $last } ({ $edges })

## sweep

workers-range = { $count } workers can't be had; expected 1..{ $most }
workers-and-cluster = a cluster has workers of its own; leave out one of workers and cluster
cluster-address = --cluster: found { $found }, expected the address of a Dask scheduler, as in tcp://host:8786
cluster-package = a cluster needs the package distributed; pip install 'edgewise[cluster]'
cluster-unreachable = there is no Dask scheduler at { $where }: { $why }
cluster-silent = there is no Dask scheduler at { $where }: nothing answers as one does
cluster-strange = what is at { $where } is no Dask scheduler: { $why }
workers-lost = workers were lost { $tries } times; { $count } of { $total } pieces of work are not done

## verdict

span-not-parameter = { $name } is not a parameter of { $design }{ $suggestion }
span-empty = { $name } in { $low }..{ $high } is empty; write low..high
claim-designs-many = this claim asks for { NUMBER($count, useGrouping: "true") } designs; the limit is { NUMBER($most, useGrouping: "true") }
for-all-runs-many = for all { $names } means 2^{ $bits }{ $count ->
    [0] {""}
   *[other] {" "}= { NUMBER($count, useGrouping: "true") }
  } runs{ $parameters ->
    [0] {""}
   *[other] {" "}at { $given }
  }, one by one, since the claim can't be compiled ({ $why }); every combination is run up to 2^{ $most-bits } = { NUMBER($most, useGrouping: "true") }: claim it for smaller words, or for fewer operands
claim-runs-many = this claim asks for more than { NUMBER($most, useGrouping: "true") } runs, one by one, since it can't be compiled ({ $why }); claim it over fewer parameters
for-all-unknown = for all { $name }: there is no operand { $name }{ $suggestion }

## Hazards

hazards-stored = { $design } has flip-flops; hazards are looked for in circuits without
hazards-unknown = { $design } is fed an unknown bit; hazards are looked for where inputs are known
hazards-output = { $name } is not an output; the outputs are { $known }
## inside/time_claim

claim-time-one-run = an inside block is about one run; write the claim without for all, or in a claim block
claim-time-outside = the claim is about edge { $edge }, the block about { $first }..{ $last }
edge-zero-none = there is no edge 0: the edges are 1..{ $last }
claim-time-no-unit = within { $time } has no unit; the model { $model } counts in { $unit }: write within { $time } { $unit }
claim-time-unit = within { $time } { $found }: the model { $model } counts in { $unit }; write within { $time } { $unit }, or name another model
claim-time-fine = within { $time } { $found }: a time has two decimals at most
claim-time-before = without clock edges it depends on what stood before: claim it for all operands, or in an inside block with before
claim-time-many = for all { $names } means 2^{ $bits } = { $count } { $clocked ->
    [0] changes of operands, each run in time
   *[other] runs in time
  }; the limit is 2^{ $limit } = { NUMBER($most, useGrouping: "true") }: claim it for smaller words, or for fewer operands
