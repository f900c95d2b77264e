### Was Lernende lesen, auf Deutsch.
### Fachwörter: docs/german.md nennt zu jedem die Quelle.

## Die Seite um eine Lektion

clock-edges = { $count ->
    [one] { $count } Taktflanke
   *[other] { $count } Taktflanken
  }
page-footer = Jeder als berechnet gesetzte Wert, jede Tabelle eines Laufs und jede aus der Schaltung gezeichnete Abbildung wurde aus ihr, ihrem Ablauf und den Operanden berechnet, und jede Behauptung wurde so geprüft, wie dabeisteht. Andere Zahlen im Text wurden getippt und nicht geprüft. Die Abbildungen sind zum Lehren gedacht, nicht zur Freigabe von Hardware.
claims-checked = Behauptungen, geprüft
law-checked = Gesetz, geprüft
proved = Bewiesen
values-as-table = Die Werte als Tabelle

## Was die Zellen einer Tabelle bedeuten

key-one = eins
key-zero = null
key-unknown = unbekannt
key-changed = an dieser Flanke geändert

## Beschriftungen von Tabellen und Abbildungen ohne eigene

caption-words = Die Wörter, MSB links
caption-words-of = Die Wörter, MSB links ({ $given })
caption-words-start = Die Wörter vor der ersten Flanke, MSB links
caption-words-start-of = Die Wörter vor der ersten Flanke, MSB links ({ $given })
caption-words-after = Die Wörter nach Flanke { $edge }, MSB links
caption-words-after-of = Die Wörter nach Flanke { $edge }, MSB links ({ $given })
caption-words-each = Die Wörter nach jeder Flanke, mit den Eingängen, die die nächste abtastet; MSB links
caption-words-each-of = Die Wörter nach jeder Flanke, mit den Eingängen, die die nächste abtastet; MSB links ({ $given })
caption-edges = Flanken { $first } bis { $last }
caption-start = Vor der ersten Flanke
caption-start-with = Vor der ersten Flanke, mit den Eingängen der Phase { $phase }
caption-after = Nach Flanke { $edge }
caption-after-with = Nach Flanke { $edge }, mit den Eingängen der Phase { $phase }
caption-chart = { $designs } im Modell { $model }

## Was an einer Flanke geschah, auf der Bühne; jede Angabe galt unmittelbar vor der Flanke

stage-list = { $most } und { $last }
stage-sentence = { $clauses }.
stage-sentence-by = { $clauses } ({ $control } = { $bit }).
stage-start = Am Anfang: { $values }.
stage-start-nothing = Am Anfang: Nichts ist gespeichert.
stage-edge = Flanke { $edge }:
stage-edge-nothing = Flanke { $edge }: Nichts ist gespeichert.
stage-edge-of-phase = Flanke { $edge }, Phase { $phase }:
stage-edge-of-phase-nothing = Flanke { $edge }, Phase { $phase }: Nichts ist gespeichert.
stage-own-row = Zeile { $row } ist Ihre eigene: { $own }. Aus Zeile { $before } würde { $follows } folgen.
stage-took = { $store } übernahm { $bits }
stage-loaded = { $store } lud { $bits }
stage-shifted = { $count ->
    [one] { $stores } schob
   *[other] { $stores } schoben
  } nach { $way ->
    [left] links
   *[right] rechts
  } ({ $moves })
stage-move = { $came } herein, { $gone } hinaus
stage-move-fed = { $came } = { $source } herein, { $gone } hinaus
stage-fed-back = { $store } schob und wurde { $bits }: Die Rückkopplung { $bit } = { $source } ging in { $taps } ein.
stage-counted = { $store } zählte von { $from } auf { $to }
stage-counted-unknown = { $store } zählte von einem oder auf einen nicht ganz bekannten Wert
stage-cleared = { $count ->
    [one] { $stores } wurde gelöscht.
   *[other] { $stores } wurden gelöscht.
  }
stage-cleared-by = { $count ->
    [one] { $stores } wurde gelöscht ({ $control } = { $bit }).
   *[other] { $stores } wurden gelöscht ({ $control } = { $bit }).
  }
stage-kept = { $count ->
    [one] { $stores } behielt seinen Wert.
   *[other] { $stores } behielten ihre Werte.
  }
stage-kept-by = { $count ->
    [one] { $stores } behielt seinen Wert ({ $control } = { $bit }).
   *[other] { $stores } behielten ihre Werte ({ $control } = { $bit }).
  }
stage-unsure = Was { $stores } tat, ist unbekannt.
stage-unsure-by = Was { $stores } tat, ist unbekannt ({ $control } = { $bit }).
stage-others-kept = Die anderen behielten ihre Werte.
stage-all-kept = Alles Speichernde behielt seinen Wert.

## Was Addierer an einer Flanke addierten

stage-by-adder = { $adder }: { $said }
stage-found = vorgefunden { $given }; { $goes }.
stage-found-words = vorgefunden { $given }, zusammen { $total }; { $goes }.
stage-found-unknown = vorgefunden { $given }, nicht alles bekannt; { $goes }.
stage-carry-from-store = gespeicherter Übertrag { $bits }
stage-carry-from-outside = eingehender Übertrag { $bits }
stage-complemented = { $told } (Komplement von { $name })
stage-complemented-by = { $told } (Komplement von { $name }, da { $control } = 1)
stage-let-through = { $told } ({ $control } = 1 ließ es durch)
stage-kept-back = { $told } ({ $control } = 0 hielt { $name } zurück)
stage-sum-entered = Summe { $bits } ging in { $stores } ein
stage-carry-stored = Übertrag { $bits } wurde in { $stores } gespeichert
stage-store-same = { $store } (unverändert)
stage-store-held = { $store } (vorher { $old })
stage-carry-lost = Übertrag 1 geht verloren
stage-carry-of-lost = Übertrag 1 von { $adder } geht verloren
stage-share-all = alles ging { $way ->
    [entered] in { $store } ein
   *[went] nach { $store }
  }
stage-share-sum = Summe { $bits } ging { $way ->
    [entered] in { $store } ein
   *[went] nach { $store }
  }
stage-share-wide-sum = die Summe ging { $way ->
    [entered] in { $store } ein
   *[went] nach { $store }
  }
stage-share-bits = die Bits { $high }..{ $low } gingen { $way ->
    [entered] in { $store } ein
   *[went] nach { $store }
  }
stage-share-bit = Bit { $index } ging { $way ->
    [entered] in { $store } ein
   *[went] nach { $store }
  }
stage-cells = { $count } Addierer addierten je { $inputs ->
    [two] zwei Bits
    [three] drei Bits
   *[both] zwei oder drei Bits
  }, { $carries ->
    [0] keiner
   *[other] { $carries }
  } mit Übertrag; { $goes }.
stage-cells-unknown = { $count } Addierer addierten je { $inputs ->
    [two] zwei Bits
    [three] drei Bits
   *[both] zwei oder drei Bits
  }, nicht alle bekannt; { $goes }.
stage-sums-entered = { $count ->
    [one] Summenbit { $bits } ging in { $stores } ein
   *[other] Summenbits { $bits } gingen in { $stores } ein
  }
stage-carries-stored = { $count ->
    [one] Übertrag { $bits } wurde in { $stores } gespeichert
   *[other] Überträge { $bits } wurden in { $stores } gespeichert
  }
stage-all-zero = alle 0

## Was an einem Ausgang steht, wenn er fällig ist

stage-reads = { $output } zeigt { $bits }.
stage-reads-number-right = { $output } zeigt { $bits }, das ist { $number } = { $formula }.
stage-reads-number-right-plainly = { $output } zeigt { $bits }, das ist { $number }, wie erwartet.
stage-reads-number-wrong = { $output } zeigt { $bits }, das ist { $number }; { $formula } ist { $wanted }.
stage-reads-number-wrong-plainly = { $output } zeigt { $bits }, das ist { $number }; erwartet: { $wanted }.
stage-reads-bit-right = { $output } zeigt { $bits } = { $formula }.
stage-reads-bit-right-plainly = { $output } zeigt { $bits }, wie erwartet.
stage-reads-bit-wrong = { $output } zeigt { $bits }; { $formula } ist { $wanted }.
stage-reads-bit-wrong-plainly = { $output } zeigt { $bits }; erwartet: { $wanted }.
stage-reads-unknown = { $output } zeigt { $bits }, nicht ganz bekannt; { $formula } ist { $wanted }.
stage-reads-unknown-plainly = { $output } zeigt { $bits }, nicht ganz bekannt; erwartet: { $wanted }.

## Die Bühne: ihre Knöpfe, ihre Felder, was sie zu Versuchen sagt

stage-larger = Größere Abbildung
stage-step-through = Schrittweise: { $title }
stage-back = Zurück
stage-next-edge = Nächste Flanke
stage-play = Abspielen
stage-pause = Pause
stage-speed = Tempo
stage-speed-slow = langsam
stage-speed-steady = gleichmäßig
stage-speed-quick = schnell
stage-own-rows = (Ihre eigenen Zeilen.)
stage-moment-start = am Anfang
stage-moment-after = nach Flanke { $edge }
stage-moment-with = { $when }, mit den Eingängen der Phase { $phase }
stage-spoken = Blockschaltbild von { $title }: { $values }
stage-spoken-when = Blockschaltbild von { $title }, { $when }: { $values }
stage-scrolls = Blockschaltbild, verschiebbar
stage-power-up-all = beim Einschalten alle { $bit }
stage-all-unknown = alle { $count } Bits unbekannt
stage-some-unknown = { $count } von { $all } Bits unbekannt
stage-show-all = Alle Zeilen zeigen
stage-begin = Beginnen
stage-ahead = Vorausberechnen
stage-left-out = Am Ende ausgelassene Zeilen
stage-begin-here = Nach der gezeigten Zeile beginnen
stage-forget = Meinen Fortschritt vergessen
stage-fill-in = Ausfüllen
stage-take-back = Zurücknehmen
stage-run-changed = Der Lauf hat sich geändert; die begonnenen Zeilen sind weg.
stage-nothing-follows = Nach der letzten Zeile folgt nichts; gehen Sie erst einige Flanken zurück.
stage-bit-of = { $name } Bit { $index }
stage-what-stands = Was steht nach Flanke { $edge }?
stage-bit-empty = { $bit }, leer
stage-bit-right = { $bit }, { $value }, richtig
stage-bit-wrong = { $bit }, { $value }, falsch
stage-said-right = { $bit }: { $value }, richtig.
stage-said-wrong = { $bit }: { $value }, das folgt nicht.
stage-row-right = Zeile { $row } stimmt.
stage-row-right-from = Zeile { $row } stimmt, so wie sie aus Ihrer eigenen Zeile { $own } folgt.
stage-bits-differ = { $count } Bits
stage-row-differs = { $count ->
    [one] In Zeile { $row } weicht { $places } von dem ab, was folgt.
   *[other] In Zeile { $row } weichen { $places } von dem ab, was folgt.
  }
stage-change-or = Ändern Sie die markierten Bits, oder:
stage-go-on = Mit meiner Zeile weitermachen
stage-went-on = Sie machen mit Ihrer eigenen Zeile { $row } weiter; was folgt, wird an ihr gemessen.
stage-show-follows = Zeigen, was folgt
stage-as-follows = Dies ist Zeile { $row }, wie sie folgt.
stage-idea = Ihre Zeile ist genau die, die herauskäme, wenn dies so wäre: „{ $one }“ Es lohnt sich, dieser Vorstellung einmal begegnet zu sein; diese Schaltung verhält sich anders.
stage-two-ideas = Ihre Zeile ist genau die, die herauskäme, wenn dies so wäre: „{ $one }“ oder „{ $other }“ Es lohnt sich, dieser Vorstellung einmal begegnet zu sein; diese Schaltung verhält sich anders.
stage-last-row = Das war die letzte Zeile.
stage-last-row-own = Das war die letzte Zeile. Die gezeigten Zeilen sind Ihre eigenen; zeigen Sie alle Zeilen, um zu vergleichen.
stage-one-more = Eine Zeile mehr auslassen
stage-forgotten = Ihr Fortschritt auf dieser Seite ist vergessen.
stage-tally = Beim ersten Versuch richtig: { $right } von { $bits } Bits.
stage-tally-finished = { $count ->
    [1] Beim ersten Versuch richtig: { $right } von { $bits } Bits. Einmal beendet.
   *[other] Beim ersten Versuch richtig: { $right } von { $bits } Bits. { $count }-mal beendet.
  }
stage-holds = gilt für diese Zahlen
stage-fails = gilt nicht für diese Zahlen
stage-silent = trifft auf diese Zahlen nicht zu
stage-start-designed = wie die Schaltung sagt
stage-start-unknown = unbekannt (X)
stage-start-zero = alle 0
stage-start-one = alle 1
stage-at-power-up = Beim Einschalten
stage-longest-carry = Längster Übertrag
stage-at-random = Zufällig
stage-lesson-numbers = Die Zahlen der Lektion
stage-try-others = Andere Zahlen versuchen
stage-only-with = Diese Seite hat { $name } = { $wanted } nur mit { $other } = { $value }.
stage-now-with = Diese Seite hat kein { $name } = { $wanted } mit { $other } = { $before }; { $other } ist jetzt { $value }.
stage-recheck-later = Die Behauptungen werden wieder geprüft, wenn jeder Operand in seinem Bereich liegt.
stage-not-checked = für diese Zahlen nicht geprüft
stage-one-claim-holds = Die Behauptung der Lektion gilt für diese Zahlen.
stage-one-claim-fails = Die Behauptung der Lektion gilt nicht für diese Zahlen.
stage-one-claim-silent = Die Behauptung der Lektion trifft auf diese Zahlen nicht zu.
stage-none-holds = Keine der { $all } Behauptungen der Lektion gilt für diese Zahlen.
stage-none-applies = Keine der { $all } Behauptungen der Lektion trifft auf diese Zahlen zu.
stage-operand-missing = Operand { $name } fehlt; geben Sie eine Zahl in 0..{ $most } an.
stage-does-not-fit = { $width ->
    [1] { $name } = { $value } passt nicht in 1 Bit; sein niederwertigstes Bit ist { $low }.
   *[other] { $name } = { $value } passt nicht in { $width } Bits; seine unteren { $width } Bits ergeben { $low }.
  }
stage-claims-tally = Von den { $all } Behauptungen der Lektion { $held ->
    [one] gilt 1
   *[other] gelten { $held }
  } für diese Zahlen{ $failed ->
    [0] {""}
    [one] , 1 gilt nicht
   *[other] , { $failed } gelten nicht
  }{ $silent ->
    [0] {""}
    [one] , 1 trifft auf sie nicht zu
   *[other] , { $silent } treffen auf sie nicht zu
  }.
stage-operand-not-whole = { $width ->
    [one] Operand { $name }: „{ $written }“ ist keine ganze Zahl; der Bereich ist 0..{ $most } in { $width } Bit.
   *[other] Operand { $name }: „{ $written }“ ist keine ganze Zahl; der Bereich ist 0..{ $most } in { $width } Bits.
  }
stage-operand-negative = { $width ->
    [one] Operand { $name } ist { $written }, also negativ; der Bereich ist 0..{ $most } in { $width } Bit.
   *[other] Operand { $name } ist { $written }, also negativ; der Bereich ist 0..{ $most } in { $width } Bits.
  }
stage-operand-large = { $width ->
    [one] Operand { $name } ist { $written }, also zu groß; der Bereich ist 0..{ $most } in { $width } Bit.
   *[other] Operand { $name } ist { $written }, also zu groß; der Bereich ist 0..{ $most } in { $width } Bits.
  }
stage-distinctive = unterscheidende Formen
stage-rectangular = Rechtecke
stage-open = offen
stage-closed = geschlossen
stage-bits = Bits
stage-bits-numbers = Bits und Zahlen
stage-change-looks = Darstellung ändern
stage-symbols = Symbole
stage-words-in-table = Wörter in der Tabelle
stage-clock-edge = Taktflanke
stage-start-mark = Anfang
stage-edges-of-phase = Die Flanken der Phase { $phase }
stage-timing = Impulsdiagramm
stage-edge-mark = Flanke
stage-clock = Takt
stage-timing-about = Pegel von Netzen und Wörtern über den Flanken; die Flankentabelle hat dieselben Werte
stage-timing-too-long = Das Impulsdiagramm dieser { $edges } Flanken ist zu lang für Papier; die Tabelle hat dieselben Werte.
stage-words-each = Die Wörter nach jeder Flanke, mit den Eingängen, die die nächste abtastet; MSB links
stage-words = Die Wörter, MSB links
stage-edge-table = Flankentabelle
stage-word-table = Tabelle der Wörter
stage-further-columns = Weitere Spalten: { $names }
stage-phase-head = Phase
stage-after-edge-head = nach Flanke
stage-not-yet = noch nicht
stage-view-diagram = Schaltbild
stage-view-signals = Signale
stage-view-table = Tabelle
stage-project = Projizieren
stage-black = Schwarz
stage-white = Weiß
stage-notes = Notizen
stage-end = Ende
stage-keys-rows = ← → Zeilen
stage-keys-views = V { $views }
stage-keys-ink = B schwarz oder weiß
stage-keys-notes = N Notizen
stage-keys-help = ? diese Tasten
stage-keys-end = Esc beendet
stage-show-view = { $view } zeigen
stage-view-diagram-plain = Schaltbild
stage-view-signals-plain = Signale
stage-view-table-plain = Tabelle
stage-speaks-of = sie spricht nur von { $name } { $range }
stage-speaks-in = in { $least }..{ $most }
stage-side-expected = erwartet { $text }
stage-side-is = { $text } ist { $value }
stage-side-is-number = { $text } ist { $value } ({ $number })
stage-no-value = kein Wert
## Überschriften, Titel und Marken von Blockschaltbildern

figure-heading-start = am Anfang
figure-heading-start-with = am Anfang, Eingänge der Phase { $phase }
figure-heading-after = nach Flanke { $edge }
figure-heading-after-with = nach Flanke { $edge }, Eingänge der Phase { $phase }
figure-diagram-name = Blockschaltbild
figure-diagram-of = Blockschaltbild: { $design }
figure-diagram = Blockschaltbild: { $subject }
figure-diagram-start = Blockschaltbild am Anfang: { $subject }
figure-diagram-after = Blockschaltbild nach Flanke { $edge }: { $subject }
figure-strips-from-start = Blockschaltbild vom Anfang bis Flanke { $last }: { $subject }
figure-strips-from-edge = Blockschaltbild von Flanke { $first } bis Flanke { $last }: { $subject }
figure-strips-after = Blockschaltbild nach { $count ->
    [one] Flanke
   *[other] den Flanken
  } { $edges }: { $subject }
figure-strips-start-and-after = Blockschaltbild am Anfang und nach { $count ->
    [one] Flanke
   *[other] den Flanken
  } { $edges }: { $subject }
figure-last-of-list = { $list } und { $last }
figure-fault-elsewhere = { $fault } (hier nicht gezeichnet)
figure-bits-unknown = { $unknown } von { $width } Bits unbekannt
figure-all-bits-unknown = alle { $width } Bits unbekannt
figure-unknown = unbekannt

## Legenden

legend-unknown = unbekannt
legend-changed = an dieser Flanke geändert

## Impulsdiagramme

timing-clock = Takt
timing-edge = Flanke
timing-start = Anfang
timing-title = Impulsdiagramm, Flanken { $first } bis { $last }: { $subject }
timing-title-start = Impulsdiagramm am Anfang: { $subject }
timing-title-after = Impulsdiagramm nach Flanke { $edge }: { $subject }

## Tabellen der Flanken

table-phase = Phase
table-after-edge = nach Flanke
table-start = Anfang
table-title = Tabelle der Flanken { $first } bis { $last }: { $subject }
table-title-start = Tabelle am Anfang: { $subject }
table-title-after = Tabelle nach Flanke { $edge }: { $subject }
table-title-values = Wertetabelle: { $subject }
table-caption = { $subject }. Jede Zeile: nach dieser Taktflanke, mit den Eingängen ihrer Phase, die die nächste Flanke abtastet. Wörter in Bits, MSB links.
table-caption-values = { $subject }. Wörter in Bits, MSB links.

## Was Abbildungen zeigen, für alle, die sie nicht sehen können

about-holds = { $name } ist { $value }
about-state = { $held }.
about-state-start = Am Anfang: { $held }.
about-state-start-with = Am Anfang, mit den Eingängen der Phase { $phase }: { $held }.
about-state-after = Nach Flanke { $edge }: { $held }.
about-state-after-with = Nach Flanke { $edge }, mit den Eingängen der Phase { $phase }: { $held }.
about-from-start = am Anfang { $value }
about-from-edge = nach Flanke { $edge } { $value }
about-history = { $name } ist { $values }.
about-history-cut = { $name } ist { $values }, dann { $left ->
    [one] ein weiterer Wert
   *[other] { $left } weitere Werte
  }, zuletzt { $last }.
about-throughout = { $name } ist durchgehend { $value }.
about-phase-edge = { $phase } ist Flanke { $edge }
about-phase-edges = { $phase } umfasst die Flanken { $first } bis { $last }
about-phases = Phasen: { $phases }.
about-more = { $count ->
    [one] Ein weiterer Satz stünde noch da; er ist
   *[other] { $count } weitere Sätze stünden noch da; sie sind
  } in der Abbildung zu sehen.
about-part = { $name }, { $kind }
about-parts-alike = { $first } bis { $last }, je { $kind }
about-parts = Die Bausteine: { $parts }.
about-kind-wide = { $kind } mit { $width ->
    [one] einem Bit
   *[other] { $width } Bits
  }
about-kind-guest = ein Baustein der Art { $kind }
about-faulty = Als fehlerhaft markiert: { $fault }.
about-station = { $name } bei { $delay }
about-path = Der markierte Pfad: { $stations }.
about-path-in = Der markierte Pfad: { $stations } { $unit }.
about-gated-clock = Vorsicht: Das Signal, das einen Takt durchlässt oder sperrt, darf sich nicht ändern, solange der Takt auf 1 ist: Steigt es, entsteht eine falsche Flanke; fällt es, wird der Impuls verkürzt. Ein Freigabeeingang am Flipflop birgt diese Gefahr nicht.

## Arten von Bausteinen, wie ein Baustein eingeführt wird

kind-half-adder = ein Halbaddierer
kind-full-adder = ein Volladdierer
kind-flip-flop = ein Flipflop
kind-register = ein Register
kind-shift-register = ein Schieberegister
kind-counter = ein Zähler
kind-and = ein UND-Gatter
kind-or = ein ODER-Gatter
kind-xor = ein XOR-Gatter
kind-nand = ein NAND-Gatter
kind-nor = ein NOR-Gatter
kind-xnor = ein XNOR-Gatter
kind-not = ein NICHT-Gatter
kind-buffer = ein Treiber
kind-constant = eine Konstante
kind-multiplexer = ein Multiplexer

## Schaltungen des Katalogs

design-serial-adder = bitserieller Addierer
design-serial-adder-parallel-load = bitserieller Addierer mit parallelem Laden
design-serial-adder-gated-clock = bitserieller Addierer mit Taktausblendung
design-digit-serial-adder = ziffernserieller Addierer
design-serial-subtractor = bitserieller Subtrahierer
design-serial-adder-subtractor = bitserieller Addierer und Subtrahierer
design-serial-accumulator = serieller Akkumulator
design-serial-accumulator-cleared = serieller Akkumulator, Übertrag gelöscht
design-carry-save-accumulator = Carry-Save-Akkumulator
design-ripple-carry-adder = Ripple-Carry-Addierer
design-ripple-carry-adder-without-carry-in = Ripple-Carry-Addierer ohne Übertragseingang
design-carry-lookahead-adder = Carry-Lookahead-Addierer
design-carry-lookahead-adder-without-carry-in = Carry-Lookahead-Addierer
design-carry-skip-adder = Carry-Skip-Addierer
design-carry-select-adder = Carry-Select-Addierer
design-carry-increment-adder = Carry-Increment-Addierer
design-sklansky-adder = Sklansky-Addierer
design-kogge-stone-adder = Kogge-Stone-Addierer
design-brent-kung-adder = Brent-Kung-Addierer
design-han-carlson-adder = Han-Carlson-Addierer
design-ladner-fischer-adder = Ladner-Fischer-Addierer
design-ripple-carry-adder-subtractor = Ripple-Carry-Addierer und -Subtrahierer
design-shift-add-multiplier = Multiplizierer durch Schieben und Addieren
design-bit-serial-multiplier = bitserieller Multiplizierer
design-serial-in-serial-out = Schieberegister, serieller Eingang, serieller Ausgang
design-serial-in-parallel-out = Schieberegister, serieller Eingang, parallele Ausgänge
design-parallel-in-serial-out = Schieberegister, parallele Eingänge, serieller Ausgang
design-universal-shift-register = Universalschieberegister
design-ring-counter = Ringzähler
design-johnson-counter = Johnson-Zähler
design-binary-counter = binärer Vorwärtszähler
design-modulo-counter = Modulo-m-Zähler
design-lfsr = linear rückgekoppeltes Schieberegister
design-crc-register = CRC-Register

## Diagramme von Vergleichen

chart-area = Fläche über { $parameter }
chart-logic = Fläche ohne Flipflops über { $parameter }
chart-gates = Gatter über { $parameter }
chart-flip-flops = Flipflops über { $parameter }
chart-edges = Flanken über { $parameter }
chart-period = Taktperiode über { $parameter }, von Schaltungen mit Takt
chart-time = Zeit für ein Ergebnis über { $parameter }
chart-rate = Durchsatz über { $parameter }; ohne Takt mit Pipeline
chart-toggles = Schaltvorgänge für ein Ergebnis über { $parameter }
chart-area-time = Fläche und Zeit, { $parameter } = { $at }; gefüllt: von keiner in beidem übertroffen
chart-area-time-alike = Fläche und Zeit, { $parameter } = { $at }; gefüllt: von keiner mit gleichen Operanden und Ausgängen in beidem übertroffen
chart-axis-area = Fläche, { $unit }
chart-axis-logic = Fläche ohne Flipflops, { $unit }
chart-axis-gates = Gatter
chart-axis-flip-flops = Flipflops
chart-axis-edges = Flanken
chart-axis-period = Periode, { $unit }
chart-axis-time = Zeit, { $unit }
chart-axis-rate = Ergebnisse in 1000 { $unit }
chart-axis-toggles = Schaltvorgänge
chart-about = { $title }.
chart-about-point = { $name }: { $y-title }: { $y } bei { $x-title } = { $x }.
chart-about-curve = { $name }: { $first-y } bei { $x-title } = { $first-x }, { $last-y } bei { $x-title } = { $last-x }.
chart-about-spot = { $name }: { $x-title } { $x }, { $y-title } { $y }.
chart-about-best = In beidem unübertroffen: { $names }.
chart-about-best-none = In beidem unübertroffen: keine.
