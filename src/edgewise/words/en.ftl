### What learners read, in English. The README of the syntax: projectfluent.org.

## The page around a lesson

clock-edges = { $count ->
    [one] { $count } clock edge
   *[other] { $count } clock edges
  }
page-footer = Every value set as a computed one, every table of a run and every figure drawn from the circuit was computed from it, its procedure and the operands, and every claim was checked as it says. Other numbers in the text were typed and not checked. Figures are for teaching, not for signing off hardware.
claims-checked = Claims, checked
law-checked = Law, checked
proved = Proved
values-as-table = The values as a table

## What the cells of a table mean

key-one = one
key-zero = zero
key-unknown = unknown
key-changed = changed at this edge

## Captions of tables and figures that have none of their own

caption-words = The words, MSB left
caption-words-of = The words, MSB left ({ $given })
caption-words-start = The words before the first edge, MSB left
caption-words-start-of = The words before the first edge, MSB left ({ $given })
caption-words-after = The words after edge { $edge }, MSB left
caption-words-after-of = The words after edge { $edge }, MSB left ({ $given })
caption-words-each = The words after each edge, with the inputs that the next one samples; MSB left
caption-words-each-of = The words after each edge, with the inputs that the next one samples; MSB left ({ $given })
caption-edges = Edges { $first } to { $last }
caption-start = Before the first edge
caption-start-with = Before the first edge, with the inputs of phase { $phase }
caption-after = After edge { $edge }
caption-after-with = After edge { $edge }, with the inputs of phase { $phase }
caption-chart = { $designs } in the model { $model }
