### What is refused in engines/, and why.

## bounded

computes-missing = { $design } does not say what it computes; add, for example, computes: {"{"}sum: (a + b) mod 2**n{"}"}
time-limit = the limit of { $seconds } s was reached
solver-turned-back = the solver turned back { NUMBER($count, useGrouping: "true") } times

## check

nothing-computed = nothing is said of what { $design } computes, so there is nothing to check
unknown-answer = the answer of { $design } depends on an unknown bit: { $count ->
    [0] {""}
   *[other] for { $given },{" "}
  }{ $bit } is X in row { $row }; the X came in at { $net } in row { $entry }; { $remedy }
unknown-answer-start = give it an initial state, or clear it first
unknown-answer-feed = feed it 0 or 1 in that row

## compiler

llvm-unusable = LLVM can't compile for this machine ({ $why }): all operands are gone through in plain Python, about a thousand times slower; reinstall llvmlite for this machine (pip install --force-reinstall llvmlite)
unrolled-large = unrolled, the design has { $count } operations; the limit for going through all operands is { $most }: take smaller parameters, or have it proved

## delays

spread-range = the spread is { $percent } %; expected 0..{ $most }

## equivalence

compared-edges-missing = { $design } has flip-flops; say over how many edges to compare
not-comparable = { $first } can't be compared with { $second }: { $wrong }{ $alone ->
    [0] {""}
   *[other] ; give { $names } one value
  }
compared-first = the first
compared-second = the second
only-in = { $kind } { $name } is only in { $design }
widths-differ = { $kind } { $name } has { $width ->
    [one] { $width } bit
   *[other] { $width } bits
  } in { $first } and { $other } in { $second }

## gating

clock-gating-disturbed = edge { $edge } changes { $gating } from { $before } to { $after } while the clock is high: { $pulse ->
    [either] a false edge or a pulse cut short
    [false-edge] a false edge
   *[cut] a pulse cut short
  } on { $clock }, which is not computed here; let { $gating } come from outside, or give the part an enable in place of a gated clock

## k_induction

claim-begins-outside = the claim is made from row { $row } on; the rows of the procedure are 0..{ $last }
k-reached = k reached { $k }
input-not-fed-to-end = input { $name } is not fed to the end of its operand; give the last phase more edges, or one more phase, before a claim about every edge

## operand_space

operand-bit-unknown = { $name }({ $index }){ $row ->
    [-1] {""}
   *[other] {" "}in row { $row }
  } is not a bit of an operand; the operands are { $count ->
    [0] none
   *[other] { $operands }
  }
operand-bits-many = the operands have { $count } bits together; going through all of them is possible up to { $most } bits: take smaller parameters, or have it proved

## outcome

proof = { $outcome } by { $method } ({ NUMBER($clauses, useGrouping: "true") } clauses over { NUMBER($variables, useGrouping: "true") } variables{ $depth }, { $seconds } s){ $reason }
proof-depth = , k = { $k }
proof-reason = : { $reason }

## specification

power-without-constant = { $formula }: neither side of ** is constant
exponent-not-constant = { $formula }: an exponent that is not constant must be 0 or more and have at most { $most } bits
constant-expected = { $formula }: depends on operands where a constant is expected

## state_space

states-unknown-bit = { $design } reads a bit that is always unknown, so its states can't be told apart: drive every input of its parts
states-bits-many = { $design } has { $count } flip-flops and { $inputs } input bits that matter to them; its states are worked out up to { $most } together: choose a smaller size
states-none = { $design } has no flip-flop, so it has no states to draw or list
states-many = { $design } has { $count } flip-flops, { NUMBER($states, useGrouping: "true") } states; states are worked out for up to { $most } flip-flops: choose a smaller size

## terms

question-large = unrolled, the question has more than { NUMBER($most, useGrouping: "true") } operations; take smaller parameters
time-up = the time was up
