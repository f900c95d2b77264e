### What is refused in publish/, and why.

## build

frames-folder = { $folder } is there already; the frames are written to a new or an empty folder

## film

written-film = a film is written as .mp4, or as .gif
voice-failed = { $name } ended with code { $code }{ $lines ->
    [0] {""}
   *[other] : { $why }
  }

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

## pace

pace-words = { $words } words a minute is no pace; expected { $least } to { $most }
pace-pause = a pause is { $seconds } seconds; expected 0 to 30

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

## rehearsal

rehearsal-stage-large = the design is too large for a stage, so nothing can be projected; --script prints what to say
cues-strange = no cues: the page sent something else
cues-expected = no cues: expected { $scenes } times and an end
cues-back = no cues: a time is not behind the one before

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
template-no-presentation = is no presentation that can be read; save it as .pptx, without macros
template-without-title = has no layout with a title; add one in its master
template-large = is larger than { $most } MB
template-unpacked-large = unpacks to more than { $most } MB

## sound

sound-none = { $path } has no sound in it; give a recording, such as a WAV
recording-unreadable = can't read the recording { $path }: { $why }

## speech

voice-command-unread = --voice-command: { $found }: { $why }
voice-command-empty = --voice-command is empty; expected a program, such as espeak-ng
voice-command-unknown = --voice-command: there is no program { $name } on this machine
voice-slow = { $name } took over { $seconds } seconds for one step; a voice command reads a text from its standard input and writes a WAV to its standard output
voice-unrunnable = { $name } can't be run: { $why }
voice-silent = { $name } wrote no sound; a voice command reads a text from its standard input and writes a WAV to its standard output

## take

film-steps-many = { NUMBER($count, useGrouping: "true") } steps are too many for a film; the limit is { NUMBER($most, useGrouping: "true") }: say in a steps block which rows to show

## times

times-line = found { $found }, expected seconds, computed seconds and a step, as in 6.4 6.4 7
times-seconds = found { $found }, expected seconds from { $least } to { $most }, such as 6.4

## voice

recording-silent = the recording { $path } is silent; nothing can follow it
cues-plus = some times have a plus and some have none; all count from the same moment
cues-count = { $count } times for { $steps } steps; there is one time a step
cue-expected = found { $found }, expected a time such as 12.5 or 1:02.5
cue-back = { $found } is not behind the time before it
cue-late = { $found } lies behind the end of the recording, { $length } seconds
