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

## The handout

handout-figure = Figure { $number }
handout-table = Table { $number }
handout-continued = { $caption }, continued
handout-phase = phase
handout-after-edge = after edge
handout-start = start
handout-name = Name
handout-date = Date
handout-emptied = { $title }, to be filled in
handout-emptied-description = The same figure with its values left empty.
handout-solution-elsewhere = { $figure } and { $table } tell what is wrong; they are on the answer sheet.
handout-answers = { $title }: answers
handout-blanks = Blanks in the text
handout-blank = blank
handout-formula = formula
handout-answer = answer
handout-no-blanks = This handout has no blanks: the lesson computes nothing but givens.
handout-wrong = What is wrong
handout-tables-and-figures = Tables and figures
handout-broken = The broken circuit { $edge ->
    [0] at the start
   *[other] after edge { $edge }
  }{ $fault ->
    [marked] , the fault marked
   *[unmarked] {""}
  }
