### What is refused in publish/, and why.

## formats

format-unknown = there is no format { $name }{ $suggestion }
overwrites-lesson = this would overwrite the lesson; choose another folder

## handout

picture-unprintable = the picture { $name } can't be printed: it is damaged; export it again, or replace it
paper-unknown = there is no paper { $paper }{ $hint }
papers-there = ; { $of ->
    [handout] a handout is printed on
    [sheet] a bench sheet is printed on
    [marks] expected
   *[papers] papers are
  } { $papers }
glyph-missing = the typefaces of a PDF have no sign for { $text } ({ $codes }); they have Latin, Greek and Cyrillic letters and the usual signs: write it in another way
handout-unprintable = the handout can't be printed: { $why }

## html

page-overwrites-lesson = the page would overwrite the lesson; choose another folder

## marking

marks-table-unknown = there is no table of marks as { $found }; expected { $known }
marks-sheets-unknown = there are no sheets as { $found }; expected { $known }
marks-overwrite-answers = { $path } would take the place of the answers; choose another folder with -o

## papers

qti-version = there is no version { $found } of QTI here; there are { $known }

## qti

qti-no-utf8 = { $kind ->
    [item] an item
   *[manifest] a manifest
  } is text in UTF-8; this one is not
qti-doctype = { $kind ->
    [item] an item
   *[manifest] a manifest
  } has no document type; leave out <!DOCTYPE …>
qti-no-xml = { $kind ->
    [item] an item
   *[manifest] a manifest
  } is XML: { $why }
qti-root = found { $found }, expected { $kind ->
    [item] an assessment item
   *[manifest] the manifest of a package
  } of QTI { $versions }
item-without-maxscore = an item of ours has the outcome MAXSCORE; this one has none
qti-unmarkable = no course platform can mark { $questions }: a formula is marked by equivalence, several operands by running them
package-foreign = the package has items that edgewise did not write, or that were changed
package-large = the package is larger than { NUMBER($size, useGrouping: "true") } bytes or has more than { NUMBER($most, useGrouping: "true") } files
package-twice = the package has two files of the same name
package-compressed = the package is compressed in a way that is not read
package-no-zip = a package is a zip file: { $why }
package-without-file = a package has a file { $file }; this one has none

## slides

step-show-unknown = a step can't show { $found }{ $hint }
step-shows = ; it shows { $names }
overwrites-template = this would overwrite the template; choose another folder
slides-letters-small = the smallest letters of the figures are { $points } points high on the slides, too small for the last row: take fewer bits or columns, open fewer parts, or try --show table or --show timing
slides-steps-many = { NUMBER($count, useGrouping: "true") } steps are too many for slides; the limit is { $most }: say in a steps block which rows to show
slides-package = slides need the package python-pptx; install it with: pip install edgewise[slides]
slide-shape-unknown = slides are not { $found }{ $hint }
slide-shapes = ; they are { $names }
template-cramped = leaves { $width } x { $height } points below its title, too little for a figure; leave { $least } each way in its barest layout with a title
unreadable-here = can't be read: { $why }
template-no-presentation = is no presentation that can be read; save it as .pptx, without macros
template-without-title = has no layout with a title; add one in its master
template-large = is larger than { $most } MB
template-unpacked-large = unpacks to more than { $most } MB
