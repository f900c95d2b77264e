### What is refused in lab/, and why.

## explanation

recording-clock-only = there is no channel beside the clock; record the lights too

## export

is-folder = is a directory

## file

recording-suffix = a recording is read from a .vcd or a .csv file
recording-large = the file is larger than { $most } MB; record fewer channels or less

## identifier

identifier-shared = { $first } and { $second } would both be called { $name } in { $language }; rename one of them

## language

hdl-unknown = --hdl: there is no language { $name }{ $suggestion }

## lining

recording-without-edge = no channel has an edge, so none can be the clock; record the clock beside the lights

## mapping

gate-without-package = there is no package for the gate { $gate } ({ $operator })

## placement

board-gates-many = { $design } has { $count } gates and flip-flops; a bench sheet is made for up to { $most }: give smaller parameters
board-empty = { $design } has no gate and no flip-flop; there is nothing to wire
board-packages-many = { $design } takes { $count } packages; a bench sheet holds up to { $most }: give smaller parameters

## ports

submission-port = no { $what } matches { $name } of the design, of { $count ->
    [one] { $count } bit
   *[other] { $count } bits
  }; those of the submission, with their bits: { $there }; say in a map of ports which it is
submission-width = { $what } { $name } has { $count ->
    [one] { $count } bit
   *[other] { $count } bits
  }; expected { $expected }
submission-inputs-many = the design has no input for { $names }; hold it at a level in a map of ports: { $first }: 0
submission-reset = the design has no input for { $name }, and it resets nothing; hold it at a level in a map of ports: { $name }: 0
port-map-name = the map of ports names { $name }, no port of the design{ $suggestion }
port-map-input = the map of ports names { $name }, no input of the submission{ $suggestion }
port-map-port = the map of ports names { $name }, no port of the submission{ $suggestion }

## powered

board-oscillates = the board oscillates: some outputs feed themselves

## submission

descriptions-none = there is no hardware description in { $path }; expected files that end in { $suffixes }
submission-slow = it takes more than { $seconds } s or { $memory } GB to judge; make it smaller
submission-lost = the process that judges ended by itself

## table

recording-without-sample = there is no sample; expected a line of names and a line for each sample
recording-time-back = time goes back
recording-samples = found { $count } samples; expected { $expected }, one for each channel
recording-no-table = this is no table of comma-separated values: { $why }
recording-names = the first line must name each channel, each by a name of its own
recording-channels-many = there are { $count } channels; a recording of up to { $most } is read
recording-samples-many = there are more than { NUMBER($most, useGrouping: "true") } samples; record fewer
recording-time = found { $found }; expected a time, a number
recording-bit = found { $found }; expected 0 or 1, or X

## value_change_dump

vcd-open = { $section } has no $end
vcd-words-many = { $section } has more than { $most } words; is its $end missing?
vcd-no-dump = this is no value change dump: it has no $enddefinitions; expected a .vcd file
vcd-timescale = $timescale is { $found }; expected 1, 10 or 100 and s to fs
vcd-section = found { $found } before $enddefinitions; expected a $ section
vcd-no-variable = there is no $var: nothing was recorded
vcd-variable = found $var { $found }; expected type, size, code, name
vcd-bits-many = { $name } has { $count } bits; a recording of up to { $most } channels is read
vcd-time = found { $found }; expected a time: # and a number
vcd-time-back = time goes back from { $before } to { $time }
vcd-undeclared = found { $found }, a change of { $code }, which no $var declares
vcd-digits = found { $found }; expected digits 0, 1, x, z
vcd-changes-many = there are more than { NUMBER($most, useGrouping: "true") } changes; record fewer
