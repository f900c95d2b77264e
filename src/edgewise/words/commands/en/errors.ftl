### What ends or surrounds the messages of every room.

suggestion-meant = ; did you mean { $name }?
suggestion-there = ; there is: { $names }{ $left ->
    [0] {""}
   *[other] , …
  }
list-either = { $before } or { $name }
list-clauses = { $before }; { $name }
list-both = { $before } and { $name }
value-expected = { $name } is { $found }; expected { $expected }
bracketed = { $what } ({ $told })
within = { $what }: { $told }
errors-left = and { NUMBER($count, useGrouping: "true") } { $count ->
    [one] error
   *[other] errors
  } more; mend these first
out-of-memory = there is not enough memory for this; ask for less at once, or allow more
unforeseen = unforeseen error: { $error }; this is a mistake in edgewise: please report it with the file and what edgewise --debug prints
option-twice = { $option }: { $name } is given twice
nothing-found = nothing
