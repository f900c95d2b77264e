### What commands tell, what they refuse, and why. English only; the README of the syntax: projectfluent.org.

## Options of every command

option-idle = { $options } { $count ->
    [one] has
   *[other] have
  } no effect { $because }
option-list = { $option }: { $name } is one number, not a list
option-number = { $option }: found { $found }; expected NAME=NUMBER, as in a=22,b=43 or w=[5,9,3]
option-range-named = { $option }: found { $found }; expected NAME=LOW..HIGH, as in n=1..32,x=2..16
option-range = { $option }: found { $found }; expected LOW..HIGH, as in 2..16
option-time = { $option }: found { $found }; expected a time of 0 or more with two decimals at most, each as in NAME=12.5
option-time-alone = { $option }: found { $found }; expected a time of 0 or more with two decimals at most, as in 12.5
option-edge = { $option }: found { $found }; expected an edge or a range of edges, as in 8 or 8..9
option-edges = { $option }: { $low }..{ $high } is empty; write { $high }..{ $low }
option-decimal = { $option }: found { $found }; expected a number, as in 0.31 or 9.6e-9
option-lesson = { $name } is a lesson; name a design of the catalogue, or a circuit file that ends in .yaml
rows-form = --rows: found { $found }; expected 6..12 or 0,6,12
rows-empty = --rows: { $low }..{ $high } is empty; write { $high }..{ $low }
rows-many = --rows: { NUMBER($count, useGrouping: "true") } rows are too many to show; the limit is { NUMBER($most, useGrouping: "true") }

## list, show, trace, draw

list-none = no design has “{ $word }” in its name or text; edgewise list shows them all
trace-both = give --json or --csv, not both
inside-before = --before is for a circuit without clock edges, --inside 0; the row before an edge is known
inside-waveforms = --waveforms goes with --inside 0, the whole time from the start; found --inside { $inside }
inside-figure = --inside has no effect in a { $figure }; draw it with --figure timing
draw-clock = --clock wires has no effect in a timing diagram; expected wedge or hidden

## new, build

new-language = --language: found { $found }, expected { $known }
build-two-formats = --handout is --as handout, --slides is --as slides; give one of these
build-no-folder = { $out } is not a folder; name a folder with -o
build-file = { $out } is the name of a file; -o names a folder, and what is built in it is called after its lesson: -o { $folder }
build-same = { $path }: its page would take the place of that of { $other } in { $out }; rename one of them, or build it into another folder

## paper, mark

paper-file = { $out } is the name of a file; -o names a folder, and what is made in it is called after its paper: -o { $folder }
mark-file = { $out } is the name of a file; -o names a folder, for the table of marks, the report and the sheets: -o { $folder }

## import

import-kind = { $file }: import reads hardware descriptions, { $known }, and packages of questions, { $package }
import-file = { $out } is the name of a file; -o names a folder, and a package is called after the one that is read: -o { $folder }

## export

export-nothing = there is nothing to export; give --hdl LANGUAGE, --wave FILE, or both

## verify

verify-file = { $out } is the name of a file; -o names a folder, for a page and a table of all submissions: -o { $folder }

## compare

comparing-chart-missing = -o names the file of a chart; add --chart time, area or area-delay
comparing-at-idle = --at is the number of --chart area-delay; add that, or leave out --at
comparing-activity-idle = --need counts toggles where it names them; leave out --activity
comparing-chart-toggles = --chart toggles: the need names no toggles, so that none are counted
comparing-chart-period = --chart period: none of these designs has a clock
comparing-at-outside = --at: { $name } = { $at } is not compared; expected { $expected }
comparing-elsewhere = { $option }: designs of the catalogue are measured there, circuit files are not; leave it out
comparing-range = --with: found { $found }, a range; give it as --over
comparing-digits = --over: found { $found }; expected numbers of up to 18 digits
comparing-ranges = --over: found { $count } ranges, expected one; --with is for numbers
comparing-none-over = no design of the catalogue is compared over { $parameter }; see edgewise list
comparing-none-called = no design that can be compared is called { $name }; see edgewise list

## prove, choose, break

prove-model = a claim about time holds with some delays only; name whose: --model 74hc, or another of { $known }
prove-limit = --limit is { $limit }; expected seconds, { NUMBER($most, useGrouping: "true") } at most
choose-between = --between: { $range } is empty; expected LOW..HIGH, as in 20..99
choose-members = --operands: { $name }: found { $count ->
    [one] { $count } number
   *[other] { $count } numbers
  }, expected { $members ->
    [0] one, no list
   *[other] { $members }
  }
break-fault = --draw: there is no fault { $name }; did you mean { $meant }?
break-faults = --draw: there is no fault { $name }; without --draw, edgewise break lists all

## What choose says of its examples

choose-one-right = The one misconception, { $name }, leads to the right answer.
choose-one-wrong = The one misconception, { $name }, gives a wrong answer.
choose-all-wrong = Each of the { $count } misconceptions{ $scope ->
    [detectable] {" "}that operands can detect
   *[all] {""}
  } gives a wrong answer.
choose-some-wrong = { $wrong } of the { $count ->
    [one] { $count } misconception
   *[other] { $count } misconceptions
  }{ $scope ->
    [detectable] {" "}that operands can detect
   *[all] {""}
  } { $wrong ->
    [one] gives
   *[other] give
  } a wrong answer; { $names } { $hidden ->
    [one] leads
   *[other] lead
  } to the right one.
choose-alike = It does not tell { $names } apart: each gives { $answer }.
choose-best = Best of all { NUMBER($sets, useGrouping: "true") } operand sets of { $asked }.
choose-solved = { $asked } has { NUMBER($sets, useGrouping: "true") } operand sets, too many to look at each: a solver found these, and better ones are not ruled out.
choose-rows-best = No operands{ $where } cover all eight truth-table rows of the full adder: even the best cover { $rows }.
choose-rows-these = Of the full adder's eight truth-table rows, these cover { $rows }.
choose-least = The least width at which all eight are covered is { $least }.
choose-never-detected = Whatever the operands, { $count ->
    [one] { $count } misconception is
   *[other] { $count } misconceptions are
  } never detected on this design: { $names }.
choose-never-apart = No operands tell these misconceptions apart: { $groups }.
choose-never-toggle = No operands make { $names } { $what ->
    [stored] toggle in both directions
   *[gates] take both values
  }.

## What break says of an example

break-coverage = { $example } detects { $detected } of { $count ->
    [one] { $count } single fault
   *[other] { $count } single faults
  }: fault coverage { $percent } %.
break-example = The example { $given }
break-run = The run
break-wires = Only { NUMBER($broken, useGrouping: "true") } of the { NUMBER($wires, useGrouping: "true") } places at which a wire can be broken were tried, drawn at random: it is too large to try them all.
break-by = { $fault } (by { $operands })
break-others = Other operands detect { $names }.
break-never = { $given ->
    [operands] No operands detect { $names }: in this procedure, the circuit gives the same answers with or without the fault.
   *[none] It does not detect { $names }: in this procedure, the circuit gives the same answer with or without the fault.
  }
break-open = Whether any operands detect { $names } is not known: time was up.
break-column-fault = fault
break-column-answer = answer
break-column-detected = detected
break-column-smallest = smallest operands that detect it
break-no-operands = no operands
break-not-known = not known
break-yes = yes
break-no = no

## What a command prints

print-letter = { $what } has { $letter } (U+{ $code }), which { $encoding } lacks; set the environment variable PYTHONIOENCODING=utf-8
wire-family = --parts: there is no family { $found }; there is { $known }
wire-language = --language: a sheet is written in { $known }; found { $found }

## What ends “--rows has no effect …”

idle-with = with { $option }
idle-without = without { $option }
idle-show-text = with --text, which prints the circuit
idle-in-time = in time; a diagram shows how it stands --until
idle-time-claim = with a claim about time
idle-no-time-claim = without a claim about time
idle-inside-rows = with --inside; it names the edges
idle-figure = { $figure ->
    [diagram] in a diagram; it shows one row, --after K, and all its nets
    [timing] in a timing diagram; choose --rows and --columns
    [table] in a table; choose --rows and --columns
    [filmstrip] in a filmstrip; choose --rows
   *[states] in a state diagram; choose --after
  }
idle-path-or-inside = without --path or --inside
idle-scale = on { $suffix ->
    [svg] an SVG
    [eps] an EPS
   *[pdf] a PDF
  }; it is for a PNG, -o FILE.png
idle-text = on { $suffix ->
    [png] a PNG
    [eps] an EPS
   *[pdf] a PDF
  }; it is for an SVG
idle-voice-time = with --voice, which says the time itself
idle-gif = in a GIF, which has no sound and a size of its own
idle-outcome = without --outcome old, new or either
idle-package = on a package of questions; expected a description
idle-description = on a hardware description; expected a package of questions
idle-page = without --handout; a page has no paper and no blanks
idle-template = with --template, which has a shape of its own
idle-sheets-page = with --sheets page
idle-folder = with a folder
idle-json-counts = with --json, which has all counts
idle-json-misconceptions = with --json, which has every misconception
idle-draw = with --draw, which draws one fault
idle-without-draw = without --draw, which names the fault to draw
idle-without-waveforms = without waveforms
idle-waveforms = in time, where waveforms feed the inputs

## What commands tell

stopped = stopped
ended-by = ended by { $signal }
output-closed = the standard output is closed
answer-unwritten = the answer can't be written: { $why }
printed-circuit = the circuit text
printed-table = the table
result-after = { $output } after edge { $row }
result-right = { $what }: { $read }, as it should be
result-wrong = { $what }: { $read }, but it should be { $expected }
warning = warning: { $told }
note-at = note: { $place }: { $told }
new-next = Now open it in an editor, and in another window: edgewise watch { $lesson }
film-made = { $lesson } -> { $film }, { $length } long{ $count ->
    [0] {""}
   *[other] ; beside it { $beside }
  }
written-cues = cues are written as .cues
written-script = a script is written as .pdf
written-circuit = circuit text is written as .yaml
guests-none = no installed package brings anything to edgewise
guests-kind = kind
guests-named = name
guests-package = package
guests-unusable = can't be used
package-item = item
package-marks = marks
package-asks = asks for
package-told = { $count ->
    [one] { $count } item
   *[other] { $count } items
  } of QTI { $version }; { $state ->
    [unchanged] they are as they were packed
   *[changed] other text is around them
  }.
package-of-paper = All are as the paper makes them.
package-choices = { $count ->
    [one] { $count } choice
   *[other] { $count } choices
  }
package-fields = { $count ->
    [one] { $count } field
   *[other] { $count } fields
  }
mark-doubts = { $count ->
    [one] { $count } answer
   *[other] { $count } answers
  } to look at: see { $table ->
    [csv] readings.csv
   *[sheet] the sheet “readings”
  }
mark-kept = the table of marks as it was is kept as { $path }
mark-no-paper = no paper
mark-no-page = no code
mark-idea = idea
mark-learners = learners
paper-unpacked = Not in the package, since no platform can mark them: { $questions }.
