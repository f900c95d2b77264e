### What is refused by the modules that every room stands on, and why.

## arithmetic

exponent-negative = { $formula }: the exponent must not be negative
division-by-zero = { $formula }: division by zero
number-for-truth = found { $found } where something true or false was expected
truth-for-number = found a truth value where a number was expected
number-large = the number is too large: more than { $most } bits
number-alone = { $name } is a number; nothing can stand behind it
number-unknown = there is no number named { $name }{ $suggestion }
timed-in-text = { $timed }: “{ $relation }” has no meaning in a circuit text; time is the procedure's
function-without-value = { $function }({ $number }) has no value; the number must be 1 or more
x-without-value = X has no value
function-takes = { $function } takes { $count ->
    [one] { $count } number
   *[other] { $count } numbers
  }, found { $found }

## bits

word-negative = a word can't have { $width } bits; the width is 0 or more
bits-unfit = the bits given don't fit a word of { $width ->
    [one] { $width } bit
   *[other] { $width } bits
  }
value-unfit = { $value } doesn't fit in { $width ->
    [one] { $width } bit
   *[other] { $width } bits
  }; the range is 0..{ $most } unsigned or { $lowest }..{ $highest } in two's complement
no-bit = { $found } is not a bit; a bit is 0, 1 or bits.X
no-word = { $found } is not a word: { $odd } is not 0, 1 or X
no-slice = ({ $high }..{ $low }) is not a slice of a word of { $width ->
    [one] { $width } bit
   *[other] { $width } bits
  }; write (high..low) with { $top } >= high >= low >= 0
widths-bitwise = { $first } has { $width ->
    [one] { $width } bit
   *[other] { $width } bits
  } and { $second } has { $other }; a bitwise operation needs equal widths
bit-outside = there is no bit { $index } in a word of { $width ->
    [one] { $width } bit
   *[other] { $width } bits
  }; { $width ->
    [0] it has none
   *[other] the bits are { $top }..0
  }
bits-unknown = { $word } has no value: { $count ->
    [one] bit { $first } is
   *[other] { $count } bits are
  } unknown (X)

## blueprint

name-parameter = { $name } is a parameter already; choose another name
operands-many = more than { NUMBER($most, useGrouping: "true") } operands
operand-width = operand { $name } is { $width ->
    [1] { $width } bit
   *[other] { $width } bits
  } wide; expected 1..{ $most }
phases-many = more than { NUMBER($most, useGrouping: "true") } phases, or more than { NUMBER($inputs, useGrouping: "true") } inputs fed in all of them; make longer phases of them
phase-edges = phase { $name } has { $edges ->
    [1] { $edges } edge
   *[other] { $edges } edges
  }; expected 0..{ $most }
purpose-without-value = { $name } needs value: FORMULA, beside after
circuits-idle = { $count } circuits of this text are used by none; the limit is { $most }: leave them out
phase-nameless = this phase does not say phase: NAME; add it
phase-without-edges = this phase does not say edges: NUMBER; add it
width-of = width of { $name }
edges-of = edges of phase { $phase }

## cache

cache-relative = { $variable } is { $found }, a relative path; nothing is cached: give the whole path of a folder

## characters

half-character = half a character (U+{ $code })
invisible-character = the invisible character U+{ $code }
character-here = { $found } stands here; delete it

## codes

code-width-bcd = BCD takes { $digit } bits a digit, and { $width } bits are no whole number of digits
code-width-none = a word without bits stands for no number

## design

operand-or-parameter-unknown = there is no operand or parameter { $name }{ $suggestion }
operand-family-unknown = { $name } is not a family of operands
procedure-long = the procedure has { $edges } edges; the limit is { $most }
input-width = input { $name } has { $width ->
    [one] { $width } bit
   *[other] { $width } bits
  }, but operand { $name } has { $operand }; make them equal
input-unfed = nothing feeds input { $name }: there is no procedure and no operand { $name }; add { $name } to the operands, or a procedure that feeds it
phase-twice = there are two phases named { $name }; give each its own name
phase-input-unfed = phase { $phase } does not say what input { $name } is fed; write { $name }: X if it does not matter
phase-input-unknown = phase { $phase } feeds { $name }, but the circuit has no input of that name{ $suggestion }
fed-serially = { $name } has { $width } bits; { $order } feeds inputs of 1 bit
output-unknown-design = there is no output { $name }{ $suggestion }
purpose-outside = { $output } is said to stand after edge { $after }; the edges are 0..{ $last }
purpose-timed = found “{ $relation }”; what a design computes is told by its operands, not by its rows
run-large = a run of { $edges ->
    [one] { $edges } edge
   *[other] { $edges } edges
  } of { NUMBER($count, useGrouping: "true") } { $what ->
    [inputs] input bits
   *[nets] nets
  } is too large; the limit for one times the other is { NUMBER($most, useGrouping: "true") }
fed-width = phase { $phase } feeds { $name } ({ $width ->
    [one] { $width } bit
   *[other] { $width } bits
  }) with { $operand } ({ $given ->
    [one] { $given } bit
   *[other] { $given } bits
  }); { $width ->
    [1] write { $operand } lsb-first or { $operand } msb-first, or make the widths equal
   *[other] make the widths equal
  }
fed-number = phase { $phase } feeds { $name } with { $number }; expected 0..{ $most } in { $unit ->
    [edges] { $count ->
        [one] { $count } edge
       *[other] { $count } edges
      }
   *[bits] { $count ->
        [one] { $count } bit
       *[other] { $count } bits
      }
  }

## designtext

altered-without-text = { $design } runs an altered circuit, which has no text

## files

file-is-link = { $name } is a link; copy the file itself into this folder
file-no-utf8 = byte { $start } is not UTF-8 text; save the file as UTF-8
folder-missing = can't write { $path }: there is no folder { $folder }; make it first
unwritable = can't be written: { $why }
unreadable = { $name } can't be read: { $why }
unreadable-here = can't be read: { $why }
written-otherwise = can't write { $path }: its name { $found ->
    [suffix] ends in { $suffix }
   *[none] has no suffix
  }; { $expected }
written-as = { $kind ->
    [figure] a figure
    [chart] a chart
    [dump] a value change dump
    [sheet] a bench sheet
   *[other] { $kind }
  } is written as { $suffixes }
unwritten = can't write { $path }: { $why }

## formula

claim-after = a claim about time is about what happens after an edge: write after

formula-long = the formula is too long: { $count } characters, { $depth } levels of parentheses; the limits are { $most } and { $deepest }
formula-empty = found nothing where a formula was expected
formula-tall = the formula has more than { $most } operators one inside another; split it
formula-second-relation = found a second { $token }: put parentheses around each “NAME after k”, as in (S after 2) + (C after 2)
formula-equals = found '=': a comparison is written ==
formula-second-comparison = found a second comparison, { $token }: compare two at a time, as in a < b and b < c
formula-unread = can't read { $formula }: { $why }
formula-dot = { $found } needs a name behind it
formula-letter = { $found } can't be part of a name: names are made of the letters a-z and A-Z, digits and _
formula-sign = { $found } has no meaning in a formula{ $sign ->
    [power] ; for a power write **, as in 2**n
    [remainder] ; for the remainder write mod, as in a mod 4
    [quotient] ; for the quotient write div, as in a div 4
    [and] ; write and
    [or] ; write or
    [not] ; write not
    [times] ; write *
    [div] ; write div
    [at-most] ; write <=
    [at-least] ; write >=
    [unequal] ; write !=
   *[none] {""}
  }
formula-found = found { $found }
formula-ends = the formula ends too early
formula-product = { $found }; for a product write { $product }
formula-hyphen = { $found }; a name is made of letters, digits and _ (hyphens are for the ports of ready parts): { $meant }
formula-expected = { $found }; expected { $expected }
formula-value = a name or a number
formula-operator = an operator

## guests

guest = { $what } { $name } of the package { $package }
one-of = { $begins ->
    [vowel] an { $kind }
   *[other] a { $kind }
  }
guest-found = found { $found }, expected { $expected }
guest-renamed = it calls itself { $found }; expected the name of its entry point
guest-field = its { $field } is { $found }, expected { $expected }
guest-among = { $found } is among its { $field }, expected { $expected }
guest-failed = it failed with { $error }
guest-unimported = can't be imported: { $error }
guest-gave = it gave { $found }, expected { $expected }
guest-name = its name is to be of small letters and digits, with hyphens between
guest-name-taken = edgewise has { $what } of this name itself; give it another name
guests-same = { $what } { $name }: the packages { $packages } bring one each; uninstall all but one
guest-entry-points = the entry points of the package { $package } can't be read: { $why }
guest-piece = a piece of a lesson
guest-suffix = its suffix is { $found }; expected one such as '.txt'
guest-optional = its { $field } is { $found }; expected { $expected } or None
guest-role = its role is { $found }; expected { $expected }
guest-design = it makes a wrong design of { $design }: { $why }
guest-answer = it changes which outputs of { $design } are the answer
guest-area = its area is { $found }; expected two numbers, all of it and what of it stores bits
guest-timing = its timing is not of this netlist; expected a delay for each gate, and clock-to-Q and set-up times for each flip-flop

## numerals

number-long = { $name }: found a number of { NUMBER($count, useGrouping: "true") } characters; the limit is { NUMBER($most, useGrouping: "true") }
range-unread = { $name }: found { $found }{ $hint }
range-meant = ; write { $range }

## operands

number-no-list = { $name } is one number, not a list
operand-unknown = there is no operand { $name }{ $suggestion }
operand-missing = operand { $name } is missing; give a number in { $least }..{ $most }
operand-as-list = ; give { $name } as a list
operand-range = operand { $name } is { $value }, which is { $why ->
    [large] too large
    [small] too small
   *[negative] negative
  }; the range is { $least }..{ $most } in { $width ->
    [one] { $width } bit
   *[other] { $width } bits
  }{ $code ->
    [twos-complement] {" "}of two's complement
    [ones-complement] {" "}of ones' complement
    [sign-magnitude] {" "}of sign and magnitude
    [bcd] {" "}of BCD
    [gray] {" "}of Gray code
   *[unsigned] {""}
  }
codes-differ = { $first } and { $name } are one word, declared as { $one } and as { $other }; give it one code
family-members-given = { $name } has { $count ->
    [one] { $count } value
   *[other] { $count } values
  }; expected { $expected }, for { $first } to { $last }

## parameter

parameter-unknown = { $owner } has no parameter { $name }{ $suggestion }
parameter-name = { $found } can't be the name of a parameter; write a plain name, as in n
parameter-range = parameter { $name } is { $value }; the range is { $low }..{ $high }

## procedure

operand-fed = found { $found }; an operand is fed whole or bit by bit: { $name }, { $name } lsb-first, { $name } msb-first

## progress

progress = { $percent } %, { $speed } { $what } a second,
progress-left = left
progress-designs = designs
progress-faults = faults
progress-figures = figures
progress-files = files
progress-frames = frames
progress-operand-sets = operand sets
progress-sheets = sheets
progress-slides = slides
progress-submissions = submissions

## rehearse

rehearsal-kept = { $lesson } -> { $cues }, { $took } long; planned { $planned }
rehearsal-address = { $address } rehearses { $lesson }; Ctrl-C ends it
rehearsal-ended = the rehearsal has ended
cues-long = no cues: too long

## serve

port-in-use = port { $port } is in use by another program; choose another with --port, or leave it out
port-unusable = port { $port } can't be used: { $why }
preview-address = { $address }; Ctrl-C ends it
preview-built = built in { $ms } ms
preview-ended = the preview has ended
terminal-gone = the terminal takes no more lines ({ $why }); all that is said stands here

## shelf

part-unknown = there is no part { $name }{ $suggestion }
no-file = this is not a file
file-name-no-utf8 = the name of this file is not UTF-8 text; give it another
no-file-name = this is not the name of a file
circuit-empty = the circuit text is empty; it begins with circuit: NAME
circuit-twice = there are two circuits named { $name }; the first is in line { $first }: give each its own name
circuit-expected = found { $found }, expected a circuit text that begins with circuit: NAME
circuit-entry = the entry circuit: NAME is missing
circuit-bare = { $name } is a name with no circuit behind it; expected inputs, parts or outputs: add what is in it, as in outputs: {"{"}y: x{"}"}
circuit-in-itself = a circuit can't contain itself: { $ring }
circuits-deep = circuits are nested more than { $most } deep
circuit-without-folder = { $name }: this circuit text has no folder; put the circuit into the text itself, after a line ---
circuit-elsewhere = { $name }: a circuit file used as a part lies in the same folder; give its name only
circuit-unknown = there is no circuit file { $name } here{ $suggestion }
file-large-characters = the file is too large; the limit is { $most } characters

## trace

row-unknown = there is no row { $row }: { $last ->
    [0] there is only row 0
   *[other] the rows are 0..{ $last }
  }

## waveform

waveform-option = { $option }: found { $found }, expected NAME: { $example }; others after a semicolon
waveform-expected = waveform of { $name }: expected { $example }
waveform-found = waveform of { $name }: found { $found }, expected { $example }
waveform-steps-many = waveform of { $name }: { NUMBER($count, useGrouping: "true") } steps are too many; the limit is { NUMBER($most, useGrouping: "true") }
waveform-back = waveform of { $name }: { $time } comes after { $before }; expected times that rise
waveform-pulses = waveform of { $name }: say how many pulses, { $example }
waveform-clock = waveform of { $name }: expected a first pulse after 0, one that is high for less than the period, and 0..{ NUMBER($most, useGrouping: "true") } of them
waveform-time = waveform of { $name }: the time { $time } is negative; expected 0 or more

## widget

stage-large = { $design } is too large for a stage: it has { $edges } edges and { $gates } gates, and the limits are { $most-edges } and { $most-gates }; draw its figures instead
widget-package = a widget needs the package anywidget; install it with: pip install edgewise[notebook]

## yamltext

colon-missing = a colon is missing after { $key }; write { $key }: …
text-large = the text has { $count } characters; the limit is { $most }
yaml = not valid YAML: { $why }
character-unknown = there is no character U+{ $code }; the last is U+10FFFF
yaml-anchors = anchors (&name) and aliases (*name) are not used here; write the value out, or put it in quotes
yaml-tags = tags such as { $tag } are not used here; leave it out
yaml-deep = nested more than { $most } levels deep
yaml-escape = this value has { $found } in it, written as an escape; leave it out
yaml-line-break = this value in quotes has a line break in it; write it on one line, or as lines under | or >
key-line-break = a key can't have a line break in it
key-twice = the key { $key } stands here twice (first in line { $first }); leave one out
key-without-blank = found { $key }; put a blank after the colon: { $left }: { $right }
value-with-comma = a comma ended the value before this one; put a value that has commas into quotes, as in "min(a, b)"
value-empty = an empty value
entry-unknown = { $what ->
    [front] the front matter
    [step] a step
    [circuit] a circuit text
    [purpose] a purpose
   *[other] { $what }
  } has no entry { $key }{ $suggestion }
node = { $kind ->
    [scalar] a single value
    [sequence] a list
   *[mapping] keys and values
  }
scalar-expected = { $entry }: found { $found }, expected a single value
mapping-expected = { $entry }: found { $found }, expected keys and values, as in { $example }
sequence-expected = { $entry }: found { $found }, expected a list, as in { $example }
a-key = a key
yaml-directive = something in it can't be read; leave out lines that begin with %
yaml-quote = this quote is never closed; add the closing quote
yaml-comma = a comma is missing before this, or the bracket opened in { $line ->
    [0] {""}
   *[other] line { $line }
  } is not closed
yaml-tab = a tab stands here; indent with blanks
yaml-start = a value can't begin with { $found }; put the value in quotes
yaml-colon = this colon is not expected here; the line is indented too far, or a value with a colon in it needs quotes
yaml-no-colon = this line has no colon; write key: value, with a blank after the colon
yaml-block = this does not go on with what began in { $line ->
    [0] {""}
   *[other] line { $line }
  }; look for a wrong indentation, or for a quote, colon or bracket missing before it
yaml-other = { $problem }; look for a missing quote, colon, bracket or blank
