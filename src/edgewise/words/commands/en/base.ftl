### What is refused by the modules that every room stands on, and why.

## files

written-otherwise = can't write { $path }: its name { $found ->
    [suffix] ends in { $suffix }
   *[none] has no suffix
  }; { $expected }
unwritten = can't write { $path }: { $why }

## trace

row-unknown = there is no row { $row }: { $last ->
    [0] there is only row 0
   *[other] the rows are 0..{ $last }
  }
