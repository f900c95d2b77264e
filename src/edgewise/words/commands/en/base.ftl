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
unwritten = can't write { $path }: { $why }

## numerals

number-long = { $name }: found a number of { NUMBER($count, useGrouping: "true") } characters; the limit is { NUMBER($most, useGrouping: "true") }
range-unread = { $name }: found { $found }{ $hint }
range-meant = ; write { $range }

## trace

row-unknown = there is no row { $row }: { $last ->
    [0] there is only row 0
   *[other] the rows are 0..{ $last }
  }
