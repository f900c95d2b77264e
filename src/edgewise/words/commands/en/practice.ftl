### What is refused in practice/, and why.

## answer_sheet

column-unknown = there is no column { $name }{ $suggestion }
columns-same = there are { $count } columns { $name }; remove all but one
row-without-learner = this row has answers, but nothing under { $heading }: write who they are from, or a number
row-of-same-learner = this row is for the same learner as row { $first }; remove one of them, or tell the two learners apart

## attempt_code

attempts-no-code = this is no code of attempts, or only a part of one
attempts-damaged = the code is damaged or changed: its checksum does not fit
attempts-other-lesson = the code is of another lesson, or of the lesson before it was changed
attempts-made-up = the code was not made by a page: a field in it can't be read

## attempt_folder

attempts-file-unreadable = the file can't be read: { $why }
attempts-same-code = the same code as in row { $row }
attempts-no-file = there is no { $suffix } file in this folder; expected one for each learner, with the code that the page gave
attempts-files-many = has { NUMBER($count, useGrouping: "true") } files; the limit is { NUMBER($most, useGrouping: "true") }
attempts-file-large = the file is larger than { NUMBER($most, useGrouping: "true") } bytes
attempts-file-without-code = there is no code in the file
attempts-codes-many = there are { $count } codes in the file; at most { $most } may be

## attempts

misfit-end = it has a row { $row }; the run ends with row { $last }
misfit-numbers = the page has no run with its numbers
misfit-bits = row { $row } has { $count } bits in it and { $bits } in the run
misfit-left = row { $row } was left, and yet gone on from
misfit-unfilled = row { $row } was ended with a bit that was never filled in
misfit-said = row { $row } is said to be { $end ->
    [right] right at the first try
    [own] the learner's own
   *[corrected] wrong at first
  }, and is not
misfit-ideas = row { $row } does not show the ideas that were recognised in it
attempts-misfit = the code does not fit the run: { $why }

## count

tells-nothing = no wrong idea leads to another answer, so it tells nothing

## fault

about-of-fault = about names misconceptions; of a fault, write among: [...]
fault-unseen = the table does not show { $fault }: with these operands it is that of the sound circuit; take other operands, rows or columns
faults-alike = { $first } and { $second } give the same table, so the answer is not unique; name another fault, or show more columns

## given

answer-given = { $word } stands { $where ->
    [beside] beside it
    [question] in { $question }
    [options] in the options of { $question }
    [table] in a table
    [diagram] in a diagram
    [figure] in a figure
    [stage] in a stage
   *[text] in the text
  }, so the answer can be copied; ask for something else, or show less

## operands

operands-no-choice = { $which ->
    [all] all
   *[none] no
  } operands show { $wish }, so there is nothing to choose
operands-no-example = its own operands { $operands } do not show { $wish }; they are to be an example

## paper

variants-few = there { $count ->
    [one] is only { $count } equally hard variant
   *[other] are only { $count } equally hard variants
  } of this paper, { $asked } are asked for; take wider operands, or fewer questions about one run
variants-few-tried = only { $count ->
    [one] { $count } equally hard variant of this paper was
   *[other] { $count } equally hard variants of this paper were
  } found in the operand sets that were tried, { $asked } are asked for; take wider operands, or fewer questions about one run
in-paper = in a paper with { $given }
seed-outside = seed { $seed }; expected 0..{ $most }
variants-expected = { $count } variants; expected 1..{ $most }
questions-none = there is no question in it; a block begins with ```question and ask: next-rows

## paper_code

paper-code-unknown = { $found } is no code of this paper: a letter is wrong, or the paper's circuit, operands or questions have changed since it was printed

## question

heading-unknown = there is no heading { $name }; there are { $names }
number-expected = { $name }: found { $found }, expected a number in decimal

## results

papers-two = this learner has items of two papers, { $first } and { $second }
item-unknown = { $found } is no item of a paper; expected one as paper-CODE-q1
response-unknown = { $item } has no response { $found }; expected R1{ $last ->
    [one] {""}
   *[other] {" "}to R{ $last }
  }
paper-without-question = paper { $paper } has no question { $question }

## statement

statements-tell-nothing = no wrong idea finds another statement false, so it tells nothing: let the false statement say what a wrong idea leads to
statements-all-true = every statement is true of this run; one must be false
statements-many-false = { $statements } are false of this run; only one may be
statements-another-false = another statement is false of this run

## table

table-unknown = is no table that can be read here; expected { $kinds }
table-large = has { NUMBER($count, useGrouping: "true") } bytes; the limit for a table is { NUMBER($most, useGrouping: "true") }
table-empty = is empty; expected a row of headings and a row for each learner
table-columns-many = has { NUMBER($count, useGrouping: "true") } columns; the limit is { NUMBER($most, useGrouping: "true") }
table-rows-many = has more than { NUMBER($count, useGrouping: "true") } rows of { NUMBER($columns, useGrouping: "true") } columns; mark it in parts
table-row-unreadable = this row can't be read: a quotation mark is not closed, or a cell is longer than { NUMBER($most, useGrouping: "true") } characters; save the table again as CSV
table-slow = takes too long to read; save it as CSV
table-unreadable = can't be read as a spreadsheet: it is damaged, locked by a password, or too large; open it, and save it again as XLSX, ODS or CSV

## task

luck = { $ideas } { $count ->
    [one] gives
   *[other] give
  } the right answer here: take other operands, or ask for more{ $left ->
    [0] {""}
   *[other] ; or write about: [{ $about }] to ask about these alone
  }
question-not-about = { $question } can't be about { $idea }: { $why }

## value

options-few = { $count ->
    [0] no misconception gives a wrong answer here
    [one] misconceptions give only { $count } wrong answer here, each another
   *[other] misconceptions give only { $count } wrong answers here, each another
  }; one of four needs { $most }
options-about = about names { $count ->
    [one] { $count } misconception
   *[other] { $count } misconceptions
  }; one of four needs { $most }
options-right = { $ideas } { $count ->
    [one] gives
   *[other] give
  } the right answer here{ $wrong ->
    [0] {""}
   *[other] ; each of { $others } gives another wrong one
  }
options-alike = { $ideas } both give { $answer }, so two options would be alike: take other operands, or name another misconception
no-answer-of-its-own = { $idea } gives no answer of its own here; take other operands

## variant

papers-made = { $papers ->
    [one] { $papers } paper
   *[other] { $papers } papers
  } of { $questions ->
    [one] { $questions } question
   *[other] { $questions } questions
  }, { $marks ->
    [one] { $marks } mark
   *[other] { $marks } marks
  } each, seed { $seed }: { $codes }.
papers-span = { $first } to { $last }
papers-equal = Equal in all of them: { $features }.
papers-unequal = Not equal: { $features }.
papers-levels = Levels, of 5: { $levels }.
papers-exist = There { $count ->
    [one] is { $count } variant
   *[other] are { $count } variants
  } as equal as that, { $each ->
    [runs] no run twice
   *[operands] no operands twice
  }.
papers-found = { NUMBER($count, useGrouping: "true") } variants as equal as that were found, { $each ->
    [runs] no run twice
   *[operands] no operands twice
  }, in a part of all operand sets drawn at random; there may be more.
papers-refused = { $count ->
    [one] { $count } set of operands that was drawn
   *[other] { $count } sets of operands that were drawn
  } could not be used: a question would not have been fair.
feature-generated = carries generated
feature-propagated = propagated
feature-killed = killed
feature-chain = places in the longest carry chain
feature-special = special operands
feature-told = answers of misconceptions told from the truth
feature-apart = pairs of them told apart
feature-digits = digits to write
