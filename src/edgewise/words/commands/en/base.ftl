### What is refused by the modules that every room stands on, and why.

## files

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
is-folder = is a directory
unwritten = can't write { $path }: { $why }

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

## trace

row-unknown = there is no row { $row }: { $last ->
    [0] there is only row 0
   *[other] the rows are 0..{ $last }
  }
