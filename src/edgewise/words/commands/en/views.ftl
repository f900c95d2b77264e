### What is refused in views/, and why.

## column

width-expected = a width is { $found }; expected 85mm, 12cm, slide or phone
width-outside = a width is { $found }; expected { $least }mm to { $most }mm
figure-wide = this figure needs { $needed }mm for letters of { $least } pt; in { $column } they would have { $size } pt: choose --width { $needed }mm, fewer bits, fewer rows or columns

## converter

chart-memory = a chart can't be drawn within the memory limit of { NUMBER($most, useGrouping: "true") } MB: the chart library needs room for addresses, most of which it never uses; raise the limit (ulimit -v unlimited), or leave the chart out

## elk

layout-failed = the layout engine gave up on this figure: { $why }; draw less in one figure, or leave some containers closed
connections-many = this figure has { NUMBER($count, useGrouping: "true") } connections, too many to be laid out; the limit is { NUMBER($most, useGrouping: "true") }: draw less in one figure, or leave some containers closed

## export

scale-outside = a scale of { $scale } can't be drawn; expected a number over 0 and up to { $most } for this figure of { $width } x { $height } px
figure-expected = this is not an SVG figure: { $why }
figure-sizeless = this SVG figure has no size: give it a width and a height

## fault_mark

mark-unknown = there is nothing called { $name } to mark{ $suggestion }

## filmstrip

strips-many = { $count } rows are too many for one filmstrip; choose up to { $most }, for example { $first }..{ $last }
strips-across = { $count } strips side by side can't be drawn; expected 1 or more

## graph

graph-twice = { $count } { $kind } have the id { $name }; ids must differ: rename all but one
graph-size = the { $size } of box { $box } is { $found }; it must be a number from 0 up
graph-port-outside = port { $port } lies at { $found } of the { $side } side of box { $box }, which is { $length } long; it must lie on it
graph-label = the label of wire { $wire } is { $found }; both sizes must be from 0 up
graph-seeds-some = some boxes { $where ->
    [box] in { $box }
   *[page] of the page
  } have a seed, but not { $boxes }; give all or none
graph-seeds-same = boxes { $boxes } have the same seed { $seed }; give each its own row or column
graph-wire-stranger = wire { $wire } goes to port { $port }, which no box has{ $suggestion }
graph-wire-open = wire { $wire } has no target; give it one or leave it out
graph-wire-twice = wire { $wire } comes to one port twice ({ $ports }); name each once
graph-wire-rooms = wire { $wire } joins { $ports }, which don't lie in one room; end it at a port of the container and go on from there with another wire
graph-hangs-stranger = box { $box } hangs on { $port }, which no box has{ $suggestion }
graph-hangs-rooms = box { $box } hangs on { $port }; both must be plain boxes in one room, and that one may not hang itself
graph-hangs-side = box { $box } hangs on { $port }; it must have one port, on its { $side } side
graph-hangs-wires = box { $box } hangs on { $port }; no wire but the one between the two may come to either port
graph-wires-meet = wires { $wires } meet at port { $port }; make them one wire with several targets

## looks

look-unmade = { $part } asks for look: { $look }, but the parts do not make { $look ->
    [row] a row of equal cells
    [array] an array of adders
    [groups] groups that hand one bit on
    [datapath] a datapath
   *[prefix-graph] a prefix graph
  }; leave look out, or write look: plain
looks-two = { $first } asks for look: { $look }, { $second } for look: { $other }; a figure has one of them: leave one out

## options

part-to-open-unknown = there is no part { $name } to open{ $suggestion }
part-to-open-without-inside = { $name } is a { $kind }; it has no inside to open

## path_highlight

path-of-words = a path has single bits; { $name } has { $count }
path-without-end = a path has a net and an end at least
path-end-unknown = the path can't end at { $name }: there is no such port{ $suggestion }

## picture

wire-undrawn = no wire of this figure carries { $name }; name a net between two parts that are drawn, or open the part that it is in

## raster

film-packages = a film needs PyAV and skia-python; install them with: pip install edgewise[film]

## registry

figure-name-unknown = there is no figure { $name }{ $suggestion }
state-graph-missing = a state diagram is drawn of a state graph; give it one

## scale

timing-lines-many = the { $periods } clock periods need { $count } lines; a figure has up to { $most }: draw fewer edges, or wider

## selection

rows-none = no row was chosen; { $last ->
    [0] there is row 0
   *[other] the rows are 0..{ $last }
  }
nets-none = no net was chosen; name at least one of: { $names }

## state_diagram

state-diagram-large = a state diagram shows up to { $most-states } states and { $most-transitions } transitions; { $design } reaches { NUMBER($reached, useGrouping: "true") } of { NUMBER($states, useGrouping: "true") } states, with { NUMBER($transitions, useGrouping: "true") } transitions: choose a smaller size

## timing_diagram

timing-clockless = { $design } has no clock edges, so there is no timing to draw; draw its diagram or its table
timing-rows = the rows of a timing diagram follow one another; row { $row } comes after row { $before }

## timing/scale

