### What is refused in lesson/, and why.

## broken

time-large = the block shows too much; choose a shorter time, or fewer columns
time-rows = { $count } rows are too many for a table in a lesson; the limit is { $most }: choose from and to, or fewer columns
time-after-end = at { $at }: the circuit was followed to { $end }; give a later until
entry-expected = { $entry }: found { $found }, expected { $expected }
fault-missing = a fault block says what is wrong: fault: C stuck at 0
fault-unknown = { $design } has no fault { $name }{ $hint }
faults-listed = ; edgewise break lists them

## charts

toggles-uncounted = toggles were not counted; compare with activity
chart-clockless = chart: { $kind }: no design here has a clock
chart-unknown = there is no chart { $name }{ $suggestion }
chart-outside = { $name } = { $found } was not compared; expected { $expected }

## checking

circuit-block-idle = a circuit block, but the front matter says design: { $design }; write design: here to use it
circuit-blocks = design: here needs one circuit block in the lesson; { $count ->
    [0] there is none
   *[other] there are { $count }
  }

## claims

claims-untried = this claim{ $more ->
    [0] {" "}was
    [one] {" "}and { $more } more claim of this block were
   *[other] {" "}and { $more } more claims of this block were
  } not tried: { $why }
claim-open = the claim "{ $claim }" is { $how }{ $count ->
    [0] {""}
   *[other] {" "}for { $case }
  }; claim it for smaller words
claim-false = the claim "{ $claim }" is false{ $count ->
    [0] {""}
   *[other] {" "}for { $case }
  }: { $why }.{ $instead }

claim-time-open = the claim "{ $claim }" is undecided: { $why }; claim it for smaller words
claim-time-model = a claim about time holds with some delays only; write model: 74hc in the front matter, or another of { $known }
claim-time-false = the claim "{ $claim }" is false{ $count ->
    [0] {""}
   *[other] {" "}for { $case }
  }: { $why }
claim-time-true = expected false, but the claim "{ $claim }" is true: { $how }
claim-time-expected = claim: found { $found }, expected a claim about time, as in settled(S) within 12 ns or no glitch on FA.sum; others stand in a claim block

## inside

expect-idle = expect has no effect without claim
seed-idle = seed has no effect without spread
inside-edges-absent = inside needs the edges behind which it looks, as in edges: 8 or edges: 8..9
inside-edges-idle = edges: { $name } has no clock edges; leave the entry out
inside-edges-backwards = edges { $found } is empty; write low..high
inside-before-idle = before is for a circuit without clock edges; the row before an edge is known
inside-number = { $name }: found { $found }, expected a number
inside-count = { $name }: found { $found }, expected a number of 0 or more
inside-time = { $name }: found { $found }, expected a time of 0 or more in units of the model, with two decimals at most

## compared

compare-over-absent = compare needs the parameter it is over, as in over: {"{"}n: 4..32{"}"}
compare-designs-many = these are { NUMBER($count, useGrouping: "true") } designs; a lesson compares up to { NUMBER($most, useGrouping: "true") }
compare-designs-absent = compare needs designs, as in designs: [ripple-carry-adder, carry-skip-adder]
list-empty = { $entry }: found an empty list, expected one design at least
design-named-twice = { $name } is named twice
compare-at-idle = at: is of chart: area-delay; add that, or leave at out
with-and-over = { $name } stands behind over; leave it out of with
compare-no-toggles = chart: a lesson counts no toggles; edgewise compare --activity does
path-expected = path: found { $found }, expected a design, as in ripple-carry-adder at n=8
path-number = path: found { $found }, expected NAME=NUMBER, as in n=8
path-twice = path: { $name } is given twice

## covered

covered-shown = show: found { $found }, expected both, table or sentences
covered-part-unknown = an example has no { $name } to show{ $suggestion }

## document

lesson-large = the lesson has { $count } characters; the limit is { $most }
character-crowd = the character { $character } stands { NUMBER($count, useGrouping: "true") } times in this paragraph; the limit is { NUMBER($most, useGrouping: "true") }
entity-unfit = this stands for { $found }; leave it out
value-open = this computed value has no end; close it with a second `
value-in-picture = the description of a picture can't have a computed value; put it into the text beside the picture
block-unknown = there is no block { $name }{ $suggestion }
lesson-many = the lesson has { $count } { $what ->
    [values] computed values
   *[blocks] blocks
  }; the limit is { $most }
nested-deep = lists and quotes are nested more than { $most } deep

## fences

block-open = the block from line { $first } has no closing { $markup }; close it in a line of its own
block-open-before = the block from line { $first } has no closing { $markup } before the next one begins in line { $next }
block-indented = this { $kind } block is indented by four blanks or more, which makes it text to be shown; indent it less, or show it between two lines ~~~
value-indented = this computed value is indented by four blanks or more, which makes it text to be shown; indent it less, or show it between two lines ~~~

## front

front-open = the front matter has no end; close it with a line ---
front-absent = the lesson has no front matter; begin it with a line ---, then title: … and design: …, then a line ---
front-missing = the front matter does not say { $entry }: { $example }
entry-empty = { $entry }: found nothing behind it
title-long = the title is longer than { $most } characters
language-expected = language: found { $found }, expected a language tag such as en, de or pt-BR
examples-expected = examples: found { $found }, expected strict, or no such entry
operands-expected = operands: found { $found }, expected choose, or operands such as {"{"}a: 22, b: 43{"}"}
range-between = , expected low..high: 20..99
seed-expected = seed: found { $found }, expected a number: 7
operand-expected = { $name }: found { $found }, expected a number or a list of numbers

## law

law-over-absent = law needs the parameters it is over, as in over: {"{"}n: 1..16{"}"}
range-form = , expected low..high
law-false = the law "{ $quantity } = { $formula }" is false for { $case }: { $quantity } is { $count }, expected { $expected }{ $found }
law-found = ; { $quantity } = { $law } ({ $checked })

## mark

mark-meant = found { $found } (U+{ $code }) at the beginning of a code span; a computed value begins with { $mark }

## naming

circuit-file-elsewhere = { $name }: a circuit file lies beside the lesson; give its name only
circuit-file-unknown = there is no circuit file { $name } beside the lesson{ $suggestion }

## options

rows-shown-many = { NUMBER($count, useGrouping: "true") } rows are too many to show; the limit is { NUMBER($most, useGrouping: "true") }: write rows: low..high
range-fade = , expected 1..k, such as 1..3
fade-outside = fade: { $count } rows can't be left out; { $last ->
    [0] this design has no clock edges
   *[other] the last row is { $last }
  }
blank-outside = blank: row { $row } is not among the rows of this table
rows-backwards = rows { $found } is empty; write low..high
net-name-expected = expected the name of a net, found { $found }
part-without-inside = { $name } is a { $kind }; it has no inside

## patience

patience-out = the { $seconds } s that the claims and proofs of a lesson may take together are used up: claim less, or for smaller words, or make two lessons of it

## picking

note-chosen = { $chosen }{ $hint }
note-misconceptions = { $count ->
    [0] {""}
    [one] ; the one misconception { $wrong ->
        [0] leads to the right
       *[other] gives a wrong
      } answer
   *[other] ; { $wrong } of { $count } misconceptions { $wrong ->
        [one] gives
       *[other] give
      } a wrong answer
  }
note-unread = nothing reads { $part }: connect what it gives, or leave it out
strict = examples: strict. { $warning } Take other operands, or write operands: choose.
strict-wanted = examples: strict. { $warning }

## picture_formats

picture-not = it is no { $kind }
picture-sum = a check sum in it is wrong
picture-cut = the file stops in the middle
picture-block = there is a block in it that no GIF has
picture-entities = it declares entities; save it as plain SVG
picture-no-xml = it is no XML from its line { $line }, column { $column } on
picture-encoding = its encoding can't be read; save it as UTF-8

## pictures

picture-undescribed = the picture { $name } has no description; write ![what it shows]({ $name })
picture-elsewhere = the picture { $name } is not a file beside the lesson; a page makes no request, so put the file into the lesson's folder and give its name only
picture-expected = { $name }: expected a picture: { $kinds }
picture-damaged = the picture { $name } is damaged: { $why }; export it again, or replace it
picture-unknown = there is no picture { $name } beside the lesson{ $suggestion }
picture-large = { $name } has { NUMBER($count, useGrouping: "true") } bytes; the limit is { NUMBER($most, useGrouping: "true") }
picture-unreadable = the picture { $name } can't be read: { $why }

## proof

proof-untried = this proof was not tried: { $why }
proof-open = { $asked }: { $how }; take smaller words
proof-true = expected false, but it is true: { $how }
proof-false = expected true, but it is false{ $count ->
    [0] {""}
   *[other] {" "}for { $given }
  }: { $why }

## question

question-ask-missing = a question says what it asks for: ask: { $example }
question-unknown = ask: there is no question { $found }{ $hint }
question-kinds = ; one of { $names }
question-no-entry = ask: { $kind } has no entry { $entry }; it has { $known }

## question_kinds

question-say = { $question }: say { $entry }, as in { $entry }: { $example }
blank-expected = blank: found { $found }, expected a word after an edge: S after 8
blank-not-in-table = blank: { $name } after { $row } is not in the table of this question
lane-outside = lane: { $name } is not among the columns of this timing diagram
lane-rows = lane: a timing diagram has two rows or more
over-parameter-unknown = over: there is no parameter { $name }{ $suggestion }
over-no-designs = over: none of these numbers makes such a design
statement-elsewhere = a statement of a question is about its own run; leave out for …
among-expected = among: found { $count ->
    [one] { $count } fault
   *[other] { $count } faults
  }, expected { $expected }
faults-few = { $question }: only { $count ->
    [one] { $count } other fault
   *[other] { $count } other faults
  } can be told from it by this table; one of four needs { $most }
given-without-example = { $question }: given needs operands of its own, an example: operands: {"{"}…{"}"}
given-all = { $question }: all operands are given
question-copied = { $question }: the paper's own operands show { $wish }, so the answer can be copied; ask for something else

## report

checked = { $values ->
    [one] { $values } value
   *[other] { $values } values
  } computed, { $claims ->
    [one] { $claims } claim
   *[other] { $claims } claims
  } true
asked = { $questions ->
    [one] { $questions } question
   *[other] { $questions } questions
  } asked, { $marks ->
    [one] { $marks } mark
   *[other] { $marks } marks
  }
false-as-expected = false, as expected

## scaffold

circuit-beside-lesson = a lesson finds { $file } only beside itself; put the two into one folder
file-there = there is a file of this name already; choose another name
lesson-nameless = { $found } names no file; give the lesson a name, as in edgewise new tide-hut
lesson-not-utf8 = { $found } is not a name in UTF-8; give the lesson another
lesson-other-kind = { $path } has the name of another kind of file; a lesson ends in { $suffix }: edgewise new { $meant }

## steps

steps-none = steps: found none, expected a list, such as - { $example }
steps-many = { NUMBER($count, useGrouping: "true") } steps are too many to show; the limit is { NUMBER($most, useGrouping: "true") }
step-without-rows = a step does not say its rows; write { $example }
step-rows-empty = rows: found nothing behind it, expected rows such as 6..12
step-say-empty = say: found nothing behind it; leave it out, and the computed sentence is said
step-predict-start = predict: row 0 is the start, which does not follow from a row before it
step-points-many = point: { $count } things are too many to be seen at once; the limit is { $most }
step-point-expected = point: found { $found }, expected the name of a part or net
step-point-unknown = there is no { $name } to point at{ $suggestion }

## typed

typed-number = { $typed } is typed, { $same ->
    [yes] and { $formula } is { $number } too: if that is meant, write `? { $formula }`, so that it follows
   *[no] but { $formula } is { $number }: if that is meant, write `? { $formula }`
  }; a typed number is not checked{ $where ->
    [caption] ; a caption computes nothing, so say it in the text beside
   *[prose] {""}
  }
typed-equation = `= { $formula }` is shown as code, and { $formula } is { $value }: if that is meant, write `? { $formula }`
