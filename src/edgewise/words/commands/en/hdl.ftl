### What is refused in hdl/, and why.

## cells

cell-unsupported = { $kind ->
    [tribuf] a tri-state driver; expected that each net is driven at all times
    [tbuf] a tri-state driver; expected that each net is driven at all times
    [dlatch] a latch is inferred: the value is kept where it is not assigned; assign it in every case
    [adlatch] a latch is inferred; assign the value in every case
    [dlatchsr] a latch is inferred; assign the value in every case
    [sr] a latch of set and reset; expected flip-flops at one clock
   *[other] { $kind } is not supported
  }

## clocking

set-and-reset = a flip-flop has both set and reset; use one of them
set-by-logic = { $name } is set asynchronously by logic; expected an input that resets it to constants
reset-by-both = { $name } resets both by 0 and by 1
clock-by-logic = the clock of { $name } is computed by logic; expected an input, or one AND gate with it
clock-second = { $name } is a second clock, beside { $first }; expected one
clock-both-edges = both edges of { $name } are used; expected one of them
clock-as-data = the clock { $name } is read as data
output-is-clock = output { $output } is the clock itself; leave it out

## elaboration

hdl-extra = reading a hardware description needs the extra hdl: pip install edgewise[hdl]
vhdl-program = reading VHDL needs the program ghdl (Debian: apt install ghdl)
top-none = there is no { $what } with ports in this file
top-unknown = there is no { $what } { $name }{ $suggestion }
top-which = which { $what } is the outermost? give --top NAME; there is: { $names }
description-slow = the description takes more than { $seconds } s to read; make it smaller
description-circuit-large = the circuit of this description is too large; make it smaller
description-unmade = the description can't be made into a circuit: it needs too much memory, or a part of the language that is not supported; make it smaller or plainer

## netlist

cells-many = the description comes to { NUMBER($count, useGrouping: "true") } cells; the limit is { NUMBER($most, useGrouping: "true") }
driven-twice = { $name } is driven twice{ $line ->
    [0] {""}
   *[other] , here and in line { $line }
  }; drive it in one place
port-inout = port { $name } is inout; a port is an input or an output here

## sources

sources-large = with what it includes, the description has more than { NUMBER($most, useGrouping: "true") } characters or { $files } files; leave out what the circuit does not need
file-large = the file is too large; the limit is { $most }
description-reads = { $told }: a description can't read files or the command line
include-bare = include can only stand as `include "file"
include-elsewhere = `include { $name }: what is included lies in the same folder; give its name only, as in `include "part.svh"
file-beside-unknown = there is no file { $name } beside this one
