### What is refused of a circuit, and why.

## builder

one-bit-meant = { $told }; for one bit write { $meant }
part-no-port = part { $part } has no port { $port }
look-known = part { $part }: look is { $look }; expected { $known } or { $last }
part-port-unnamed = name a port of { $part }
join-widths = a join needs equal widths: { $to } has { $to-width ->
    [one] { $to-width } bit
   *[other] { $to-width } bits
  }, { $source } has { $source-width }
in-part = part { $part }: { $told }
port-unfed = nothing feeds port { $port } of { $kind }; add { $port }: NET
digit-none = { $what ->
    [none] { $word }
   *[other] { $what } is { $word }
  }, which has no value: a digit of BCD is 0000 to 1001
code-unknown = there is no code { $found }{ $suggestion }

## check

driver-join = the join from { $source }
driver-clock = the clock itself
driver-input = the input { $name }
name-taken = { $name } is { $what ->
    [input] an input
    [net] a net
   *[part] a part
  }, but { $taken ->
    [clock] the clock
    [input] an input
    [net] a net
   *[part] a part
  } has that name already
output-taken = { $name } is an output, but { $taken ->
    [clock] the clock
    [input] an input
    [net] a net
    [part] a part
   *[output] another output
  } has that name already; give the output another name
net-unknown = there is no net named { $name }{ $suggestion }
output-clock = output { $output } shows the clock, but the clock is not data: every row stands for one of its edges already
constant-driven = { $driver } can't drive the constant { $bit }
drivers-two = { $net } has two drivers: { $first } and { $second }; leave one of them out
net-undriven = nothing drives net { $net }; let an output port or a join drive it

## clocks

in-time = ; to follow it in time, give it waveforms: edgewise trace --inside 0
clock-from-net = net { $net }
clock-from-gate = { $role ->
    [selector] { $kind } { $name }
   *[gate] { $kind } gate { $name }
  }
clock-gated-read = { $net } is a gated clock and is read as data{ $readers ->
    [0] {""}
   *[other] {" "}by { $reader }
  }; take the net before the gate instead{ in-time }
clock-made = the clock of { $name } comes from the { $source }: every edge would then depend on its delays and glitches, which are not modelled here; use the clock itself with an enable, or one AND gate of the clock and other nets{ in-time }
clock-not-awaited = port { $port } of { $name } does not wait for an edge, and a row tells what stands after one; use clear{ in-time }
clock-at-port = port { $port } of { $name } reads the clock, but the clock is not data; it goes to clock ports only{ in-time }
clock-at-gate = { $gate } reads the clock but drives no clock port; the clock is not data{ in-time }

## counters

modulo-range = modulo is { $modulo }; expected 2..{ $most } in { $width ->
    [1] { $width } bit
   *[other] { $width } bits
  }
ports-together = port { $fed } is fed but port { $unfed } is not; they go together

## family

parts-made = this text makes more than { NUMBER($most, useGrouping: "true") } parts in all
bits-made = this text makes more than { NUMBER($most, useGrouping: "true") } bits of nets in all
name-reserved = { $name } can't be a name: it is a word of the notation
index-parameter = the index { $index } of { $name } is also a parameter; choose another letter
family-members = { $name } has { $count } members; the limit is { $most }
name-unfit = { $found } can't be a name; write a plain name, or a family: { $base }(i = 0..3)

## flatten

joins-ring = nets joined in a ring have no driver: { $nets }

## gates

gate-inputs = found { $count ->
    [one] { $count } input
   *[other] { $count } inputs
  }; a gate of this kind takes 2 or more: in: [x, y]
value-range = value is { $value }; expected 0..{ $most } or X in { $width ->
    [1] { $width } bit
   *[other] { $width } bits
  }

## limits

nets-whole = the whole circuit has more than { $most } nets
parts-whole = the whole circuit has more than { $most } parts, those inside parts counted

## model

bit-unknown = { $name } has no bit { $index }; its bits are { $top }..0, MSB first
slice-unknown = { $name } has no slice ({ $high }..{ $low }); its bits are { $top }..0, MSB first

## multiplexers

data-input-last = found the data input d{ $found }; expected d0 to d{ $last }
data-inputs-even = the last data input is d{ $last }; expected d1, d3, d7, …, so that there are 2, 4, 8, … of them

## netlist

name-unknown-here = there is no { $name } here{ $suggestion }

## notation

output-name-unfit = { $found } can't be the name of an output; write a plain name, as in { $base }_0
net-width = { $name } is { $width ->
    [1] { $width } bit
   *[other] { $width } bits
  } wide; expected 1..{ $most }
clock-declared = clock can't be declared: every circuit has it, and it is not data
bits-many = the circuit has more than { $most } bits of nets
part-twice = there are two parts named { $name }; the first is in line { $first }
parts-many = more than { $most } parts
part-kind-missing = part { $name } does not say what it is; add part: full-adder
bits-connected = more than { NUMBER($most, useGrouping: "true") } bits are connected to parts

## order

loop-left-out = … { $count } more …
loop = combinational loop: { $nets }; put a flip-flop into it, or break it{ in-time }

## parts

part-port-unknown = { $kind } has no port { $name }{ $suggestion }
part-port-or-setting-unknown = { $kind } has no port or setting { $name }{ $suggestion }
port-feeder = what feeds it
port-driven = the net it drives
port-width = port { $port } of { $kind } is { $width ->
    [one] { $width } bit
   *[other] { $width } bits
  } wide, but { $other } has { $found ->
    [one] { $found } bit
   *[other] { $found } bits
  }
setting-unknown = { $kind } has no setting { $name }{ $suggestion }
setting-missing = { $kind } needs { $name }; add, for example, { $name }: 4

## registers

start-range = start is { $start }; expected 0..{ $most } or X in { $width ->
    [1] { $width } bit
   *[other] { $width } bits
  }
direction-fixed = port left chooses the direction; leave out direction: left

## signals

part-outputs = { $part } has { $count ->
    [0] no outputs; it drives nothing
   *[other] { $count } outputs; name one, as in { $part }.{ $one }
  }
family-there = ; there are { $first } to { $last }{ $indexed ->
    [0] , each with its index
   *[other] {""}
  }
lists-many = the lists of all parts have more than { NUMBER($most, useGrouping: "true") } items
list-bits = this list has { $count } bits; the limit is { $most }
net-expected = found { $found } where a net was expected; a net, a port such as FA.sum, a list of them, or one of 0, 1, X can stand here
none-named = there is no { $what ->
    [part] part
   *[any] net or part
  } named { $name }{ $there }
port-is-input = { $part }.{ $port } is an input port; name the net that feeds it
output-unknown = part { $part }: { $kind } has no output { $port }{ $suggestion }
port-is-output = { $part }.{ $port } is an output port; an output port drives a net, not another output port
index-expected = { $name }: an index or a slice was expected here

## truth

truth-count = { $operation } of { $count } in a truth; expected { $least }{ $more ->
    [0] {""}
   *[other] {" "}or more
  }
truth-reads = the truth reads { $found }; expected { $ports }
truth-operation = { $found } is no operation; expected { $known }
truth-found = found { $found } in a truth, expected a port, 0, 1 or an operation
