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
key-bus = mehrere Bits
key-black-node = g und p
key-carry = { $written }: Übertrag
key-sum = { $written }: Summe
key-grey-node = nur g
key-buffer-node = Puffer

## Beschriftungen von Tabellen und Abbildungen ohne eigene

caption-words = Die Wörter, MSB links
caption-words-of = Die Wörter, MSB links ({ $given })
caption-words-start = Die Wörter vor der ersten Flanke, MSB links
caption-words-start-of = Die Wörter vor der ersten Flanke, MSB links ({ $given })
caption-words-after = Die Wörter nach Flanke { $edge }, MSB links
caption-words-after-of = Die Wörter nach Flanke { $edge }, MSB links ({ $given })
caption-words-each = Die Wörter nach jeder Flanke, mit den Eingängen, die die nächste abtastet; MSB links
caption-words-each-of = Die Wörter nach jeder Flanke, mit den Eingängen, die die nächste abtastet; MSB links ({ $given })
caption-edges = Flanken { $first } bis { $last }; zwischen zwei Flanken stehen die Eingänge, die die spätere abtastet
caption-start = Vor der ersten Flanke
caption-start-with = Vor der ersten Flanke, mit den Eingängen der Phase { $phase }
caption-after = Nach Flanke { $edge }
caption-after-with = Nach Flanke { $edge }, mit den Eingängen der Phase { $phase }
caption-chart = { $designs } im Modell { $model }

## Was an einer Flanke geschah, auf der Bühne; jede Angabe galt unmittelbar vor der Flanke

stage-sentence = { $clauses }.
stage-sentence-by = { $clauses } ({ $control } = { $bit }).
stage-sentence-as = { $clauses }, da { $control } = { $bit }.
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
stage-all-kept = Jedes Speicherelement behielt seinen Wert.

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
stage-moment-with = { $when }, mit den Eingängen der Phase { $phase }
stage-spoken = Blockschaltbild von { $title }: { $values }
stage-spoken-when = Blockschaltbild von { $title }, { $when }: { $values }
stage-scrolls = Blockschaltbild, verschiebbar
stage-power-up-all = beim Einschalten alle { $bit }
stage-all-unknown = alle { $count } Bits unbekannt
stage-some-unknown = { $count } von { $all } Bits unbekannt
stage-show-all = Alle Zeilen zeigen
stage-begin = Beginnen
stage-predict = Die nächsten Zeilen vorhersagen
stage-left-out = Am Ende ausgelassene Zeilen
stage-begin-here = Nach der gezeigten Zeile beginnen
stage-forget = Meinen Fortschritt vergessen
stage-hand-in-about = Für Ihre Lehrkraft: was Sie hier eingetragen haben, als Code ohne Namen. Von selbst wird nichts gesendet.
stage-hand-in-copy = Meine Versuche kopieren
stage-hand-in-save = Als Datei speichern
stage-hand-in-code = Code meiner Versuche
stage-hand-in-copied = Kopiert, { $count } Zeichen: fügen Sie sie dort ein, wo Ihre Lehrkraft sie einsammelt.
stage-hand-in-not-copied = Dieser Browser lässt eine Seite nicht kopieren: kopieren Sie den markierten Code selbst.
stage-hand-in-saved = Gespeichert als { $file }.
stage-fill-in = Ausfüllen
stage-take-back = Zurücknehmen
stage-run-changed = Der Lauf hat sich geändert; die begonnenen Zeilen sind weg.
stage-nothing-follows = Nach der letzten Zeile folgt nichts; gehen Sie erst einige Flanken zurück.
stage-bit-of = { $name }({ $index })
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
stage-operand-missing = Operand { $name } fehlt; geben Sie eine Zahl in { $least }..{ $most } an.
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
    [one] Operand { $name }: „{ $written }“ ist keine ganze Zahl; der Bereich ist { $least }..{ $most } in { $width } Bit.
   *[other] Operand { $name }: „{ $written }“ ist keine ganze Zahl; der Bereich ist { $least }..{ $most } in { $width } Bits.
  }
stage-operand-negative = { $width ->
    [one] Operand { $name } ist { $written }, also negativ; der Bereich ist { $least }..{ $most } in { $width } Bit.
   *[other] Operand { $name } ist { $written }, also negativ; der Bereich ist { $least }..{ $most } in { $width } Bits.
  }
stage-operand-large = { $width ->
    [one] Operand { $name } ist { $written }, also zu groß; der Bereich ist { $least }..{ $most } in { $width } Bit.
   *[other] Operand { $name } ist { $written }, also zu groß; der Bereich ist { $least }..{ $most } in { $width } Bits.
  }
stage-operand-small = Operand { $name } ist { $written }, also zu klein; der Bereich ist { $least }..{ $most } in { $width } Bits.
stage-bcd-width = BCD braucht 4 Bits je Ziffer; hier sind es { $width }
stage-no-bcd = { $word } ist { $bits } und hat keinen Wert: eine BCD-Ziffer ist 0000 bis 1001
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
stage-edges-of-phase = Die Flanken der Phase { $phase }
stage-timing = Impulsdiagramm
stage-timing-about = Pegel von Netzen und Wörtern über den Flanken; die Flankentabelle hat dieselben Werte
stage-timing-too-long = Das Impulsdiagramm dieser { $edges } Flanken ist zu lang für Papier; die Tabelle hat dieselben Werte.
stage-edge-table = Flankentabelle
stage-word-table = Tabelle der Wörter
stage-further-columns = Weitere Spalten: { $names }
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
stage-x-no-value = X hat keinen Wert
stage-no-edge = Flanke { $edge } gibt es nicht; die Flanken sind { $first }..{ $last }
stage-no-edges = Flanke { $edge } gibt es nicht; dieser Entwurf hat keine Taktflanken
stage-negative-exponent = { $base }**{ $exponent }: Der Exponent darf nicht negativ sein
stage-too-large = die Zahl ist zu groß: mehr als { $bits } Bits
stage-division-by-zero = { $number } { $operator } 0: Division durch null
stage-truth-no-number = ein Wahrheitswert ist keine Zahl
stage-number-no-truth = eine Zahl ist nicht wahr oder falsch
stage-word-no-value = { $word } ist { $bits } und hat keinen Wert
stage-none-here = { $name } gibt es hier nicht
stage-no-phase = Phase { $name } gibt es nicht
stage-reads-word = { $name }(…) liest ein Wort aus Bits
stage-no-family = { $name } ist keine Familie von Operanden
stage-needs-one = { $name }({ $number }) hat keinen Wert; die Zahl muss mindestens 1 sein
stage-no-bit = Bit { $index } von { $name } gibt es nicht; { $name } hat { $width } Bits
stage-changes = { $name } ändert sich von Flanke zu Flanke
stage-no-value = kein Wert
## Überschriften, Titel und Marken von Blockschaltbildern

figure-heading-start = am Anfang
figure-heading-start-with = am Anfang, Eingänge der Phase { $phase }
figure-heading-after = nach Flanke { $edge }
figure-heading-after-with = nach Flanke { $edge }, Eingänge der Phase { $phase }
figure-diagram-name = Blockschaltbild
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
figure-goes-on = Eine Leitung geht dort weiter, wo ihre Zahl im Kreis wieder steht.
figure-last-of-list = { $list } und { $last }
figure-fault-elsewhere = { $fault } (hier nicht gezeichnet)
figure-bits-unknown = { $unknown } von { $width } Bits unbekannt
figure-all-bits-unknown = alle { $width } Bits unbekannt
figure-unknown = unbekannt

## Legenden


## Impulsdiagramme

timing-clock = Takt
timing-edge = Flanke
timing-title = Impulsdiagramm, Flanken { $first } bis { $last }: { $subject }
timing-title-start = Impulsdiagramm am Anfang: { $subject }
timing-title-after = Impulsdiagramm nach Flanke { $edge }: { $subject }

## Tabellen der Flanken

table-phase = Phase
table-after-edge = nach Flanke
table-start = Start
table-title = Tabelle der Flanken { $first } bis { $last }: { $subject }
table-title-start = Tabelle am Anfang: { $subject }
table-title-after = Tabelle nach Flanke { $edge }: { $subject }
table-title-values = Wertetabelle: { $subject }
table-caption = { $subject }. Jede Zeile: nach dieser Taktflanke, mit den Eingängen ihrer Phase, die die nächste Flanke abtastet. Wörter in Bits, MSB links.
table-caption-values = { $subject }. Wörter in Bits, MSB links.
table-left-open = In Zeile { $row } offen gelassen: { $names }.

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
about-pointed = Pfeile zeigen auf: { $names }.
about-station = { $name } bei { $delay }
about-path = Der markierte Pfad: { $stations }.
about-path-in = Der markierte Pfad: { $stations } { $unit }.

## Arten von Bausteinen, wie ein Baustein eingeführt wird

kind-half-adder = ein Halbaddierer
kind-full-adder = ein Volladdierer
kind-flip-flop = ein Flipflop
kind-jk-flip-flop = ein JK-Flipflop
kind-t-flip-flop = ein T-Flipflop
kind-sr-latch = ein SR-Latch
kind-sr-latch-nand = ein SR-Latch aus NAND-Gattern
kind-gated-sr-latch = ein getaktetes SR-Latch
kind-d-latch = ein D-Latch
kind-master-slave-flip-flop = ein Master-Slave-Flipflop
kind-jk-master-slave = ein JK-Master-Slave-Flipflop
kind-six-nand-flip-flop = ein Flipflop aus sechs NAND-Gattern
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
kind-lookahead-unit = eine Carry-Lookahead-Einheit
kind-lookahead-group = eine Carry-Lookahead-Gruppe
kind-ripple-group = eine Ripple-Carry-Gruppe
kind-carry-skip-group = eine Carry-Skip-Gruppe
kind-carry-select-group = eine Carry-Select-Gruppe
kind-carry-increment-group = eine Carry-Increment-Gruppe
kind-prefix-node = ein Präfixknoten
kind-carry-node = ein Übertragsknoten

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
design-carry-lookahead-adder-without-carry-in = Carry-Lookahead-Addierer ohne Übertragseingang
design-carry-skip-adder = Carry-Skip-Addierer
design-carry-select-adder = Carry-Select-Addierer
design-carry-increment-adder = Carry-Increment-Addierer
design-sklansky-adder = Sklansky-Addierer
design-kogge-stone-adder = Kogge-Stone-Addierer
design-brent-kung-adder = Brent-Kung-Addierer
design-han-carlson-adder = Han-Carlson-Addierer
design-ladner-fischer-adder = Ladner-Fischer-Addierer
design-ripple-carry-adder-subtractor = Ripple-Carry-Addierer und -Subtrahierer
design-twos-complement-adder-subtractor = Zweierkomplement-Addierer und -Subtrahierer
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

## Wie die Entwürfe des Katalogs arbeiten

design-about-serial-adder = addiert zwei Wörter, die Bit für Bit eintreffen, das LSB zuerst, mit einem Volladdierer; die Summe kommt in ein eigenes Register
design-about-serial-adder-parallel-load = addiert zwei Wörter, die auf einmal geladen werden; das Laden ist eine Flanke einer eigenen Phase, load, es sind also insgesamt n + 1 (die üblichen „n Flanken“ zählen nur die Additionen)
design-about-serial-adder-gated-clock = der bitserielle Addierer, aber das Übertrags-Flipflop hat keine Freigabe: Ein UND-Gatter lässt den Takt zu ihm durch, solange shift 1 ist
design-about-digit-serial-adder = addiert je Flanke d Bits, wobei d ein Teiler von n ist, nach einer Flanke load: d = 1 ist der bitserielle Addierer, d = n der parallele
design-about-serial-subtractor = subtrahiert b von a, Bit für Bit, das LSB zuerst: Der Volladdierer bekommt das Komplement von b, und das Übertrags-Flipflop beginnt mit der 1 des Zweierkomplements; no_borrow ist 1, wenn a >= b
design-about-serial-adder-subtractor = addiert oder subtrahiert (bei subtract 1) Bit für Bit, das LSB zuerst: Ein XOR-Gatter bildet das Komplement von b, und das Übertrags-Flipflop wird mit subtract geladen, der 1 des Zweierkomplements
design-about-serial-accumulator = addiert x Wörter mit m Bits, die nacheinander in B eintreten; jede Summe kehrt nach A zurück; ein Übertrag aus einem Wort geht in das nächste ein, die Summe stimmt also nur, solange die Wörter vor dem letzten A nicht überlaufen lassen
design-about-serial-accumulator-cleared = der serielle Akkumulator, dessen Übertrag die letzte Flanke jedes Wortes außer dem letzten löscht: Die Summe stimmt für alle Wörter, und der Übertrag ist der der letzten Addition
design-about-carry-save-accumulator = addiert x Wörter, eines je Flanke: Jede Stelle behält eine Summe und einen Übertrag, und kein Übertrag kommt in einer Flanke weiter als eine Stelle; danach bringen n - 1 Flanken mit dem Wort 0 sie ans Ende
design-about-ripple-carry-adder = eine Reihe von Volladdierern; jeder gibt seinen Übertrag an den nächsten weiter
design-about-ripple-carry-adder-without-carry-in = ein Halbaddierer am LSB, dann eine Reihe von Volladdierern; jeder gibt seinen Übertrag an den nächsten weiter
design-about-carry-lookahead-adder = bildet alle Überträge einer Gruppe auf einmal; Gruppen von 4 Bits, Vorausberechnung auch zwischen ihnen
design-about-carry-lookahead-adder-without-carry-in = bildet alle Überträge einer Gruppe auf einmal; Gruppen von 4 Bits, Vorausberechnung auch zwischen ihnen; kein Übertrag kommt herein
design-about-carry-skip-adder = der Übertrag überspringt eine Gruppe von m Stellen, in der jede Stelle weitergibt: Ein Multiplexer reicht ihn weiter
design-about-carry-select-adder = jede Gruppe addiert für beide Überträge, der Übertrag wählt aus; Gruppen von m Stellen, bei 0 von 1, 2, 3, …
design-about-carry-increment-adder = jede Gruppe addiert ohne Übertrag und addiert dann den Übertrag; Gruppen von m Stellen, bei 0 von 1, 2, 3, …
design-about-sklansky-adder = Präfix-Addierer mit der kleinsten Tiefe und wenigen Knoten; Fan-out eines Übertrags bis n/2
design-about-kogge-stone-adder = Präfix-Addierer mit der kleinsten Tiefe und kleinem Fan-out; die meisten Knoten und Leitungen
design-about-brent-kung-adder = Präfix-Addierer mit wenigen Knoten und kleinem Fan-out, bei etwa der doppelten kleinsten Tiefe
design-about-han-carlson-adder = Präfix-Addierer zwischen Kogge-Stone und Brent-Kung: die Hälfte der Knoten, eine Stufe mehr
design-about-ladner-fischer-adder = Präfix-Addierer mit bis zu k Stufen mehr als der kleinsten Zahl, dafür mit weniger Knoten
design-about-ripple-carry-adder-subtractor = addiert oder subtrahiert (bei subtract 1): XOR-Gatter bilden das Komplement von b, und subtract selbst ist der Übertrag am Eingang, die 1 des Zweierkomplements; carry ist dann 1, wenn a >= b
design-about-twos-complement-adder-subtractor = addiert oder subtrahiert (bei subtract 1) Zahlen mit Vorzeichen; overflow ist 1, wenn das Ergebnis kein Wort von n Bits hat: Der Übertrag in die Stelle des Vorzeichens und der Übertrag aus ihr sind dann verschieden
design-about-shift-add-multiplier = multipliziert zwei Wörter in n Flanken nach dem Laden: Wo das niedrigste Bit von Q 1 ist, wird M zu H addiert, und H und Q rücken zusammen eine Stelle nach rechts; Q gibt b her und nimmt das Produkt auf
design-about-bit-serial-multiplier = multipliziert a, das in M steht, mit b, das Bit für Bit kommt, das LSB zuerst, gefolgt von n Nullen; Überträge stehen in Flipflops neben jedem Volladdierer, und je Flanke verlässt ein Bit des Produkts die Schaltung
design-about-serial-in-serial-out = verzögert ein Wort um n Flanken: Bit 0, das zuerst kommt, steht nach Flanke n am Ausgang, das letzte Bit nach Flanke 2n - 1
design-about-serial-in-parallel-out = sammelt ein Wort, das Bit für Bit eintrifft, das LSB zuerst; nach n Flanken steht es ganz da
design-about-parallel-in-serial-out = lädt ein Wort auf einmal und gibt es Bit für Bit aus, das LSB zuerst: Bit 0 nach der Flanke load, das letzte Bit nach n Flanken
design-about-universal-shift-register = hält (mode 0), schiebt nach rechts (1), schiebt nach links (2) oder lädt (3), was an jedem Bit ein Multiplexer auswählt; hier geht ein Wort k Stellen nach rechts und k zurück nach links, was seine k niedrigen Bits löscht
design-about-ring-counter = eine einzelne 1 läuft in einem Schieberegister mit n Bits im Kreis; n Zustände
design-about-johnson-counter = ein Schieberegister mit n Bits, dessen letztes Bit invertiert zurückkehrt; 2n Zustände, und einen Kreis ungenutzter Zustände verlässt es nie
design-about-binary-counter = zählt die Flanken modulo 2**n; terminal_count ist im letzten Zustand 1
design-about-modulo-counter = zählt die Flanken modulo m; terminal_count ist im Zustand m - 1 1, auf den 0 folgt
design-about-lfsr = k Schritte eines Registers, das das XOR seiner Abgriffe zurückführt; Bit i - 1 von taps steht für Stufe i, 0 für Abgriffe der größten Länge
design-about-crc-register = die Prüfsumme von x Bytes, ein Bit der Nachricht je Flanke; Polynom, Anfangswert und Spiegelung sind frei

## Diagramme von Vergleichen

chart-about = { $title }.
chart-about-bars = { $title }: { $bars }.
chart-about-point = { $name }: { $y-title }: { $y } bei { $x-title } = { $x }.
chart-about-curve = { $name }: { $first-y } bei { $x-title } = { $first-x }, { $last-y } bei { $x-title } = { $last-x }.
chart-about-spot = { $name }: { $x-title } { $x }, { $y-title } { $y }.
chart-about-best = In beidem unübertroffen: { $names }.
chart-about-best-none = In beidem unübertroffen: keine.
## Das Arbeitsblatt

handout-figure = Abbildung { $number }
handout-table = Tabelle { $number }
handout-continued = { $caption }, Fortsetzung
handout-name = Name
handout-date = Datum
handout-emptied = { $title }, zum Ausfüllen
handout-emptied-description = Dieselbe Abbildung mit leer gelassenen Werten.
handout-solution-elsewhere = { $figure } und { $table } verraten den Fehler; sie stehen auf dem Lösungsblatt.
handout-answers = { $title }: Lösungen
handout-blanks = Lücken im Text
handout-blank = Lücke
handout-formula = Formel
handout-answer = Lösung
handout-no-blanks = Dieses Arbeitsblatt hat keine Lücken: Die Lektion berechnet nur Gegebenes.
handout-wrong = Was falsch ist
handout-tables-and-figures = Tabellen und Abbildungen
handout-broken = Die fehlerhafte Schaltung { $edge ->
    [0] zu Beginn
   *[other] nach Flanke { $edge }
  }{ $fault ->
    [marked] , der Fehler markiert
   *[unmarked] {""}
  }

## Aufzählungen im Satz

formula-remainder = der Rest von { $dividend } ÷ { $divisor }
formula-quotient = der Quotient von { $dividend } ÷ { $divisor }
number-thousands = .
number-decimal = ,
list-and = { $first } und { $last }
list-more = { $count } weitere

## Wie eine Behauptung geprüft wurde, und warum sie falsch ist

claim-run = an diesem Lauf geprüft
claim-each = geprüft
claim-sets = geprüft mit allen { NUMBER($sets, useGrouping: "true") } { $operands ->
    [1] Werten von { $name }
    [2] Operandenpaaren
   *[other] Operandensätzen
  }
claim-structure = bewiesen durch Rückführung beider Seiten auf dieselbe Logik
claim-sat = mit SAT bewiesen
claim-induction = durch Induktion für jede Zeile bewiesen, auch wenn die letzte Phase immer weitergeht
claim-not-inductive = auch 32 Zeilen hintereinander reichten nicht für eine Induktion
claim-mixed = { claim-sets } und { $proof } bei { $proofs } der { $designs } Entwürfe, für { $over }
claim-over = { $how } für { $over }
claim-range = { $name } = { $first } bis { $last }
claim-refuted = mit SAT widerlegt
claim-falsified = im Lauf als falsch erkannt
claim-undecided = nicht entschieden: { $why }
claim-time-up = kein Beweis in { $seconds } s
claim-contrast = { $what } ist { $value }, erwartet { $relation ->
    [other] etwas anderes als { $expected }
    [less] weniger als { $expected }
    [most] höchstens { $expected }
    [more] mehr als { $expected }
    [least] mindestens { $expected }
   *[equal] { $expected }
  }
claim-truth = { $what } ist { $truth ->
    [true] wahr
   *[false] falsch
  }
claim-is = { $what } ist { $value }
claim-since = { $said } ({ $leaves })
claim-and = { $first }; und { $second }
claim-unknown = { $what } ist { $word } und hat damit keinen Wert: { $count ->
    [0] Das Bit ist unbekannt
    [1] Bit { $bits } ist unbekannt
   *[other] Die Bits { $bits } sind unbekannt
  } (X)
claim-unvalued = { $word } hat keinen Wert{ $count ->
    [0] {""}
    [1] : Bit { $bit } ist unbekannt (X)
   *[other] : { $count } Bits sind unbekannt (X)
  }
claim-holds = Sie gilt { $where }.
claim-holds-only = Sie gilt nur { $where }.
claim-holds-example = Sie gilt zum Beispiel { $where }.
claim-from-edge = ab Flanke { $edge }
claim-at-start = zu Beginn
claim-after-edges = { $count ->
    [one] nach Flanke { $edges }
   *[other] nach den Flanken { $edges }
  }
claim-edges-range = { $first } bis { $last }
claim-more-stretches = { $count } weitere Abschnitte

## Was eine Frage über alle Operanden ergab

finding-same = dieselben Ergebnisse für alle Operanden
finding-with = { $claim }, mit { $given }
finding-true = Wahr: { $how }{ $ran }.
finding-undecided = Nicht entschieden: { $why }{ $ran }.
finding-claim-more = Vielleicht hilft eine stärkere Behauptung: was sie von einer Zeile zur nächsten wahr hält.
finding-more-time = Mehr Zeit geben oder kürzere Wörter nehmen.
finding-false = Falsch{ $kind ->
    [smallest] {" "}für { $operands }, die kleinsten solchen Operanden
    [fewest] {" "}für { $operands }, solche Operanden mit den wenigsten Einsen
    [some] {" "}für { $operands }
   *[any] {""}
  }{ $ran }.
finding-why = { $why }.
finding-at = Für { $case }: { $why }.
finding-answer = { $value } in { $design }{ $edge ->
    [0] {""}
   *[other] {" "}nach Flanke { $edge }
  }
finding-difference = { $output } ist { $first } und { $second }.
finding-leak = Nach Flanke { $edge }, der letzten von { $phase }, hält { $part } einen Übertrag, und { $following } beginnt damit.
finding-leak-alone = Mit 0 in { $part } in dieser Zeile, alles Übrige unverändert, wäre die Behauptung wahr.

## Gesetze

law-designs = { NUMBER($count, useGrouping: "true") } Entwürfen, { $over }
law-range = { $name } = { $first } bis { $last }
law-up-to = { $name } bis { $last }
law-checked-all = geprüft an { $asked }; keiner liegt darüber
law-checked-beyond = geprüft an { $asked }; an { $count } darüber hinaus, mit { $further }
law-agree = { $solved } davon bestimmten die Formel, die übrigen { NUMBER($rest, useGrouping: "true") } stimmen damit überein
law-none = { $found ->
    [hinted] keine Formel gefunden für
   *[none] keine Formel der Familie passt auf
  } { $quantity ->
    [depth] die Tiefe
    [edges] die Zahl der Flanken
    [flip-flops] die Zahl der Flipflops
    [gates] die Zahl der Gatter
   *[other] { $quantity }
  } von { $design }
law-counted = gezählt an { $asked }
law-family =
    versucht: Polynome in den Parametern bis Grad 3 und bis Grad 2 mit floor_log2,
    ceil_log2, 2**ceil_log2, 2**n, Vierergruppen (div 4, mod 4) oder Viererstufen
law-ends = geprüft an { $asked }, und darüber hinaus falsch: für { $case } ist { $quantity ->
    [depth] die Tiefe
    [edges] die Zahl der Flanken
    [flip-flops] die Zahl der Flipflops
    [gates] die Zahl der Gatter
   *[other] { $quantity }
  } { $count }, und die Formel gibt { $value }
law-too-few = zu wenige für ein Urteil: { $formula } stimmt mit allen { $agree } überein, aber { $solved } davon bestimmten sie; ein solches Gesetz braucht mindestens { $needed } Entwürfe
law-accident = { $formula } stimmt mit allen { $agree } überein, aber nicht darüber hinaus: für { $case } gibt sie { $value }, gezählt werden { $count }
law-later = ab { $name } = { $first } passt { $law }, also { $name } dort beginnen lassen

## Was ein Beispiel zeigt

coverage-title = Was es zeigt
coverage-title-of = Was das Beispiel { $given } zeigt
coverage-unset-carry = Das Übertrags-Flipflop { $name } wird nie gesetzt: Dieses Beispiel sähe ohne es genauso aus.
coverage-no-carry = Es gibt keinen Übertrag: Dieses Beispiel sähe ohne die Übertragsleitungen genauso aus.
coverage-register-still = { $name } wechselt nie von einem bekannten Wert zu einem anderen.
coverage-register-empty = { $name } hält nie eine 1.
coverage-nothing = Ohne Taktflanken und Addierer gibt es nichts zu zählen: Die eine Zeile des Laufs ist alles, was zu sehen ist.
coverage-idle-phase = Phase { $name } speichert nichts, was ins Ergebnis gelangt.
coverage-beside = { $name } steht auch in { $count ->
    [one] Zeile { $rows }, aber keine Summe dieser Zeile
   *[other] den Zeilen { $rows }, aber keine Summe dieser Zeilen
  } gelangt ins Ergebnis.
coverage-rows-all = { $adders ->
    [1] { $name } deckt
   *[other] Die { $adders } Volladdierer zusammen decken
  } alle { $total } Zeilen der Wahrheitstabelle ab.
coverage-rows-none = { $adders ->
    [1] { $name } deckt
   *[other] Die { $adders } Volladdierer zusammen decken
  } keine der { $total } Zeilen der Wahrheitstabelle in einer Summe ab, die ins Ergebnis gelangt.
coverage-rows-few = { $adders ->
    [1] { $name } deckt
   *[other] Die { $adders } Volladdierer zusammen decken
  }{ $where ->
    [beside] {" "}in Summen, die ins Ergebnis gelangen,
   *[everywhere] {""}
  } nur { $covered } der { $total } Zeilen der Wahrheitstabelle ab: { $rows } (a, b, Übertragseingang).
coverage-rows-most = { $adders ->
    [1] { $name } deckt
   *[other] Die { $adders } Volladdierer zusammen decken
  }{ $where ->
    [beside] {" "}in Summen, die ins Ergebnis gelangen,
   *[everywhere] {""}
  } { $covered } der { $total } Zeilen der Wahrheitstabelle ab, alle außer { $rows } (a, b, Übertragseingang).
coverage-carries = Ein Übertrag { $generated ->
    [0] wird von außen zugeführt
    [1] wird einmal erzeugt
    [2] wird zweimal erzeugt
   *[other] wird { $generated }-mal erzeugt
  }, { $propagated ->
    [1] einmal
    [2] zweimal
   *[other] { $propagated }-mal
  } weitergegeben und { $killed ->
    [1] einmal
    [2] zweimal
   *[other] { $killed }-mal
  } absorbiert; die längste Übertragskette hat { $longest ->
    [one] { $longest } Stelle
   *[other] { $longest } Stellen
  }.
coverage-carries-unkilled = Ein Übertrag { $generated ->
    [0] wird von außen zugeführt
    [1] wird einmal erzeugt
    [2] wird zweimal erzeugt
   *[other] wird { $generated }-mal erzeugt
  } und { $propagated ->
    [1] einmal
    [2] zweimal
   *[other] { $propagated }-mal
  } weitergegeben; die längste Übertragskette hat { $longest ->
    [one] { $longest } Stelle
   *[other] { $longest } Stellen
  }. Keiner wird absorbiert: Kein Übertrag trifft auf 0 + 0.
coverage-carries-unpropagated = Ein Übertrag { $generated ->
    [0] wird von außen zugeführt
    [1] wird einmal erzeugt
    [2] wird zweimal erzeugt
   *[other] wird { $generated }-mal erzeugt
  } und { $killed ->
    [1] einmal
    [2] zweimal
   *[other] { $killed }-mal
  } absorbiert, aber nie von Stelle zu Stelle weitergegeben.
coverage-carries-generated = Ein Übertrag { $generated ->
    [0] wird von außen zugeführt
    [1] wird einmal erzeugt
    [2] wird zweimal erzeugt
   *[other] wird { $generated }-mal erzeugt
  }, aber nie von Stelle zu Stelle weitergegeben, und keiner wird absorbiert.
coverage-flip-flops-all = { $total ->
    [1] { $name } wechselt in beide Richtungen.
   *[other] Alle { $total } Flipflops wechseln in beide Richtungen.
  }
coverage-flip-flops = { $both } von { $total ->
    [one] { $total } Flipflop
   *[other] { $total } Flipflops
  } { $both ->
    [one] wechselt
   *[other] wechseln
  } in beide Richtungen{ $rest }.
coverage-rising = { $names } { $count ->
    [one] steigt, fällt aber nie
   *[other] steigen, fallen aber nie
  }
coverage-falling = { $names } { $count ->
    [one] fällt, steigt aber nie
   *[other] fallen, steigen aber nie
  }
coverage-unchanging = { $names } { $count ->
    [one] ändert sich nie
   *[other] ändern sich nie
  }
coverage-gates-all = Jedes Gatter nimmt beide Werte an.
coverage-gates = { $both } von { $total ->
    [one] { $total } Gatter
   *[other] { $total } Gattern
  } { $both ->
    [one] nimmt
   *[other] nehmen
  } beide Werte an{ $rest }.
coverage-nets-all = Jedes Netz nimmt beide Werte an.
coverage-nets = { $both } von { $total ->
    [one] { $total } Netz
   *[other] { $total } Netzen
  } { $both ->
    [one] nimmt
   *[other] nehmen
  } beide Werte an{ $rest }.
coverage-zero = { $names } { $count ->
    [one] bleibt 0
   *[other] bleiben 0
  }
coverage-one = { $names } { $count ->
    [one] bleibt 1
   *[other] bleiben 1
  }
coverage-unknown = { $names } { $count ->
    [one] bleibt unbekannt
   *[other] bleiben unbekannt
  }
coverage-column-what = was
coverage-column-covered = abgedeckt
coverage-column-of = von
coverage-column-uncovered = nicht abgedeckt
coverage-line-rows = Wahrheitstabellenzeilen aller { $adders } Volladdierer
coverage-line-rows-of = Wahrheitstabellenzeilen von { $name }
coverage-line-generated = erzeugte Überträge
coverage-line-propagated = weitergegebene Überträge
coverage-line-killed = absorbierte Überträge
coverage-line-longest = längste Übertragskette
coverage-line-flip-flops = Flipflops, die in beide Richtungen wechseln
coverage-line-gates = Gatter, die beide Werte annehmen
coverage-line-nets = Netze, die beide Werte annehmen
coverage-line-phases = Phasen, die zählen

## Fehler

fault-figure = Die Schaltung, wie sie sein soll
fault-hidden = ein Fehler steckt darin
fault-table = Die Wörter einer fehlerhaften Schaltung, MSB links: { $what }
fault-table-of = { $table } ({ $given })
fault-name-stuck = { $wire } hängt auf { $bit }
fault-stuck = Die Leitung { $wire } hängt auf { $bit }: Wer sie liest, liest { $bit }.
fault-name-branch-stuck = { $gate }, Eingang von { $wire }, hängt auf { $bit }
fault-branch-stuck = Der Abzweig von { $wire } zu { $gate } hängt auf { $bit }.
fault-name-swapped-at = { $part }: { $first } und { $second } vertauscht
fault-swapped-at = An { $part } sind die Leitungen von { $first } und { $second } vertauscht.
fault-name-swapped = { $first } und { $second } vertauscht
fault-swapped = Die Leitungen von { $first } und { $second } sind vertauscht.
fault-name-never-cleared = { $part } nie gelöscht
fault-never-cleared = Der Löscheingang von { $part } hängt auf 0.
fault-name-always-cleared = { $part } immer gelöscht
fault-always-cleared = Der Löscheingang von { $part } hängt auf 1.
fault-name-early-clear = Löschen von { $part } eine Flanke zu früh
fault-early-clear = Das Löschen von { $part } kommt eine Flanke zu früh.
fault-name-no-clock = kein Takt an { $part }
fault-no-clock = Keine Taktflanke erreicht { $part }: Der Anfangszustand bleibt.
fault-name-late-enable = verspätete Freigabe am Takt von { $part }
fault-late-enable = Das Signal, das den Takt von { $part } freigibt, fällt zu spät: Eine falsche Flanke kommt noch durch, nachdem Schluss sein sollte.
fault-name-edges = { $change ->
    [more] eine Flanke mehr
   *[fewer] eine Flanke weniger
  } in { $phase }
fault-edges = Phase { $phase } hat { $edges ->
    [one] { $edges } Flanke
   *[other] { $edges } Flanken
  }: { $change ->
    [more] eine Flanke mehr
   *[fewer] eine Flanke weniger
  }.
fault-name-unknown-start = { $part } beginnt unbekannt
fault-unknown-start = { $part } wird vor der ersten Flanke nicht gesetzt: Der Inhalt kann beliebig sein.
fault-name-wrong-start = { $part } beginnt mit { $bit }
fault-wrong-start = { $part } hält vor der ersten Flanke { $bit }.
fault-caution-open-input = Eine hängende Leitung ist ein Modell. Ein wirklich offener Eingang ist keine sichere 0: An einem CMOS-Eingang ist das Potential unbestimmt, und was gelesen wird, ist nicht festgelegt und kann sich ändern; ein TTL-Eingang liest meist 1.
fault-caution-gated-clock = Vorsicht: Das Signal, das einen Takt durchlässt oder sperrt, darf sich nicht ändern, solange der Takt auf 1 ist: Steigt es, entsteht eine falsche Flanke; fällt es, wird der Impuls verkürzt. Ein Freigabeeingang am Flipflop birgt diese Gefahr nicht.
fault-undetected = Der Fehler wird in dieser Tabelle nicht erkannt: In diesen Spalten sind die Wörter, wie sie sein sollen. Mit anderen Operanden, Zeilen oder Spalten kann er erkannt werden.
fault-detected = { $place ->
    [table] Der Fehler wird in der Tabelle erkannt
    [start] Der Fehler wird zuerst am Start erkannt
   *[row] Der Fehler wird zuerst in der Zeile von Flanke { $edge } erkannt
  }: { $differences }.
fault-differing = { $name } ist { $found } statt { $expected }
fault-differing-phase = die Phase ist { $found } statt { $expected }
fault-short = Der Fehler wird am Ende erkannt: Jede Zeile ist, wie sie sein soll, aber der Lauf endet mit Flanke { $edge }, { $missing ->
    [one] { $missing } Flanke
   *[other] { $missing } Flanken
  } zu früh.
fault-long = Der Fehler wird zuerst in der Zeile von Flanke { $edge } erkannt: Der richtige Lauf endet mit Flanke { $last }, dies ist eine mehr{ $phase ->
    [in] {" "}in Phase { $name }
   *[none] {""}
  }.

## Operanden, die beim Bauen gewählt wurden

choice-note = gewählt: { $operands }, denn { $because }
choice-said = Gewählt: { $operands }, denn { $because }.
choice-shows = { $operands ->
    [one] dieser Operand zeigt { $what }
   *[other] diese Operanden zeigen { $what }
  }
choice-rows = { $count } der 8 Zeilen der Wahrheitstabelle des Volladdierers
choice-carries = eine Übertragskette von { $count ->
    [one] { $count } Stelle
   *[other] { $count } Stellen
  }
choice-flip-flops = { $count } von { $total ->
    [one] { $total } Flipflop
   *[other] { $total } Flipflops
  } mit Wechseln in beide Richtungen
choice-none-better = keine anderen zeigen mehr

## Vergleiche

compare-satisfies = Was die Bedingung erfüllt: { $need }
compare-span = { $first } bis { $last }
compare-critical-path = Der kritische Pfad durch { $design }, { $given }, mit der Ankunftszeit
compare-title = Fläche in { $area }, Zeit in { $time }, { $over }; Ränge in Klammern
compare-column-design = Entwurf
compare-column-area = Fläche
compare-column-logic = Logik
compare-column-gates = Gatter
compare-column-flip-flops = Flipflops
compare-column-period = Periode
compare-column-edges = Flanken
compare-column-time = Zeit
compare-column-throughput = Durchsatz
compare-column-area-delay = Fläche × Zeit
compare-column-true-delay = wahre Verzögerung
compare-column-toggles = Umschaltungen
compare-column-toggles-in-time = mit Störimpulsen
compare-column-storage = Speicher
compare-unit-gates = Gattern
compare-unit-levels = Gatterstufen
compare-unit-units = Gattereinheiten
compare-unit-delays = Gatterlaufzeiten
compare-unit-transistors = Transistoren
compare-unit-packages = Gehäusen
compare-axis-area = Fläche in { $unit }
compare-axis-logic = Fläche ohne Flipflops in { $unit }
compare-axis-gates = Gatter
compare-axis-flip-flops = Flipflops
compare-axis-edges = Flanken
compare-axis-period = Taktperiode in { $unit }
compare-axis-time = Zeit in { $unit }
compare-axis-throughput = Ergebnisse in 1000 { $unit }
compare-axis-toggles = Umschaltungen
compare-chart-area = Fläche über { $over }
compare-chart-logic = Fläche ohne Flipflops über { $over }
compare-chart-gates = Gatter über { $over }
compare-chart-flip-flops = Flipflops über { $over }
compare-chart-edges = Flanken über { $over }
compare-chart-period = Taktperiode über { $over }, von Entwürfen mit Takt
compare-chart-time = Zeit für ein Ergebnis über { $over }
compare-chart-throughput = Durchsatz über { $over }; ohne Takt im Fließbandbetrieb
compare-chart-toggles = Umschaltungen für ein Ergebnis über { $over }
compare-chart-area-delay = Fläche gegen Zeit, { $over }; gefüllt: Nichts{ $among ->
    [alike] {" "}mit denselben Operanden und Ausgängen
   *[all] {""}
  } ist in beidem besser

## Feedback for a learner on a marked paper

feedback-title = Rückmeldung: { $title }
feedback-footer = Berechnet aus deinen eigenen Antworten.
feedback-no-paper = Zu diesem Code gibt es kein Blatt, deshalb konnte nichts bewertet werden. Frag deine Lehrkraft.
feedback-no-code = Es wurde kein Code abgegeben, der passt; darum ließ sich nichts bewerten. Frag deine Lehrkraft.
feedback-total = Du hast { $marks } von { $most ->
    [one] { $most } Punkt
   *[other] { $most } Punkten
  }.
feedback-question = Aufgabe { $number }: { $marks } von { $most }
feedback-row = Nach Flanke { $number }: { $marks } von { $most }
feedback-right = { $right } von { $count ->
    [one] { $count } Feld
   *[other] { $count } Feldern
  } { $right ->
    [one] ist richtig.
   *[other] sind richtig.
  }
feedback-began = Der Fehler beginnt bei { $cell }: Du hast { $wrote } geschrieben, aus deinen anderen Feldern folgt aber { $follows }.
feedback-follows = { $count ->
    [one] Ein falsches Feld folgt aus deinen eigenen und zählt als richtiger Rechenweg.
   *[other] { $count } falsche Felder folgen aus deinen eigenen und zählen als richtiger Rechenweg.
  }
feedback-blank = { $count ->
    [one] Eine Antwort fehlt.
   *[other] { $count } Antworten fehlen.
  }
feedback-unread = { $count ->
    [one] Eine Antwort ist nicht zu lesen.
   *[other] { $count } Antworten sind nicht zu lesen.
  }
feedback-more = … und { $count ->
    [one] { $count } weiteres Feld.
   *[other] { $count } weitere Felder.
  }
feedback-read-as = (gelesen als { $word })
feedback-whole-right = { $wrote } ist richtig.
feedback-whole-wrong = Du hast { $wrote } geschrieben; eine richtige Antwort ist { $right }.
feedback-whole-unread = { $wrote } ist nicht als Antwort auf diese Frage zu lesen.
feedback-column-cell = wo
feedback-column-wrote = deine Antwort
feedback-column-right = richtig
feedback-column-follows = aus deinen eigenen Feldern
feedback-column-verdict = das ist
feedback-verdict-right = richtig
feedback-verdict-follows = was folgt
feedback-verdict-wrong = ein Fehler
feedback-verdict-blank = leer
feedback-verdict-unread = nicht lesbar
feedback-idea = { $count ->
    [one] { $more ->
        [one] Deine Antworten sehen so aus, als hättest du gedacht:
       *[other] Deine Antworten sehen so aus, als hättest du zweierlei zugleich gedacht:
      }
   *[other] Deine Antworten sehen so aus, als hättest du eines davon gedacht; sie unterscheiden es nicht:
  }
feedback-thought = „{ $thought }“
feedback-and = { $one } und { $other }
feedback-evidence = Das ergibt { $explained } deiner { $wrong ->
    [one] { $wrong } falschen Antwort
   *[other] { $wrong } falschen Antworten
  }{ $contradicted ->
    [0] .
    [one] ; eine richtige Antwort spricht dagegen.
   *[other] ; { $contradicted } richtige Antworten sprechen dagegen.
  }
feedback-careless = { $count ->
    [one] Es ist ein einzelner Fehler; einer allein zeigt keine falsche Vorstellung.
   *[other] Es sind { $count } Fehler, und keine hier bekannte Vorstellung passt zu ihnen und allem anderen, was du geschrieben hast.
  }
feedback-unexplained = Keine hier bekannte Vorstellung erklärt diese Fehler. Sprich mit deiner Lehrkraft darüber.
feedback-nothing = Hier ist noch nichts, was sich bewerten ließe. Die Lösungswege zeigen, wie jede Antwort zustande kommt; frag, wo du anfangen möchtest.
feedback-hardly-readable = Das meiste, was du geschrieben hast, ist hier nicht lesbar; darum wird nichts über die Vorstellungen dahinter gesagt. Zeig deiner Lehrkraft, was du gemeint hast.

## The report on a class

report-title = Bericht: { $title }
report-footer = Berechnet aus den Antworten und aus dem, was bei der Korrektur eingetragen wurde. Niemand wird hier mit Namen genannt.
report-learners = { $count ->
    [one] { $count } Lernende(r)
   *[other] { $count } Lernende
  }
report-counted = { $count } davon unten gezählt
report-blank = { $count } ohne lesbare Antwort
report-without-paper = { $count } mit einem Code, zu dem es kein Blatt gibt
report-without-page = { $count } ohne einen Code, der passt
report-nothing = Es gibt keine Antwort, über die zu berichten wäre.
report-mean = Im Mittel sind { $share } der Punkte erreicht, Folgefehler und Korrekturen von Hand berücksichtigt.
report-chart-marks = Lernende nach ihrem Anteil der Punkte
report-questions = Aufgaben
report-table-questions = Wie die Klasse abschnitt, Aufgabe für Aufgabe
report-chart-facility = Lösungsgrad jeder Aufgabe
report-column-question = Aufgabe
report-column-marks = Punkte
report-column-facility = Lösungsgrad
report-column-answers = nur Antworten
report-column-discrimination = Trennschärfe
report-column-cell = Feld
report-column-asked = gefragt
report-column-right = richtig
report-column-follows = folgt aus Eigenem
report-column-began = Fehler beginnt
report-column-code = Code
report-column-learners = Lernende
report-column-share = mittlerer Anteil der Punkte
report-alpha = Cronbachs Alpha über die Aufgaben ist { $value }, sein { $level }-%-Intervall { $low } bis { $high }.
report-kr-20 = KR-20 über einzelne Felder, richtig oder falsch, ist { $value }, sein { $level }-%-Intervall { $low } bis { $high }. Felder einer Tabelle hängen zusammen, was den Wert erhöht.
report-ideas = Vorstellungen hinter den Fehlern
report-chart-ideas = Lernende nach dem, was ihre Fehler erklärt
report-careless = unachtsam
report-unexplained = ungeklärt
report-hardly-readable = kaum lesbar
report-right = nichts falsch
report-or = {" oder "}
report-began = Wo Fehler beginnen
report-table-began = Felder, in denen der Fehler von Lernenden beginnt, die häufigsten zuerst
report-variants = Waren die Varianten gleich schwer?
report-table-variants = Punkte nach Variante
report-equally-hard = { $differ ->
    [yes] Die Mittelwerte unterscheiden sich mehr, als der Zufall es täte
   *[no] Die Mittelwerte unterscheiden sich nicht mehr, als der Zufall es kann
  }: F = { $ratio } bei { $between } und { $within } Freiheitsgraden, p = { $probability }.
report-definitions = Was die Zahlen bedeuten
report-term-share = Anteil der Punkte
report-define-share = Die Punkte, die zählen, als Anteil an allen Punkten des Blatts; im Durchschnitt ihr arithmetisches Mittel. Eine falsche Antwort, die aus einer früheren folgt, zählt für den Weg: beim Korrigieren üblich, ohne Quelle.
report-term-facility = Lösungsgrad
report-define-facility = Die mittlere Punktzahl als Anteil an allen Punkten der Aufgabe; 1 ist leicht. Unter „nur Antworten“ ohne Folgefehler. Definition: Lord und Novick, Statistical Theories of Mental Test Scores, 1968.
report-term-discrimination = Trennschärfe
report-define-discrimination = Die Korrelation der Punkte einer Aufgabe mit der Summe der anderen, punktbiserial, wo eine Aufgabe richtig oder falsch ist. Hoch: Wer gut abschneidet, hat sie. Ebel und Frisbie, Essentials of Educational Measurement, 1991.
report-term-alpha = Cronbachs Alpha
report-define-alpha = Wie weit die Aufgaben dasselbe messen. Cronbach, Psychometrika 16(3), 1951. Das { $level }-%-Intervall: Feldt, Psychometrika 30(3), 1965.
report-term-kr-20 = KR-20
report-define-kr-20 = Dasselbe für Fragen, die richtig oder falsch sind. Kuder und Richardson, Psychometrika 2(3), 1937, Formel 20.
report-term-idea = Vorstellung
report-define-idea = Ein falsches Verfahren, das die falschen Antworten ergibt und die richtigen verschont; jedes muss { $earns } Antworten mehr erklären, als ohne es erklärt sind, und was übrig bleibt, darf nicht mehr sein, als { $rate } % unachtsame Antworten ausmachen. Nach Brown und Burton, Cognitive Science 2(2), 1978.
report-term-began = Fehler beginnt
report-define-began = Das erste Feld einer Aufgabe, das weder richtig ist noch aus den Feldern davor folgt; was folgt, ist berechnet: die Schaltung läuft von der eigenen Zeile aus weiter. Eigene Zählung, ohne Quelle.
report-term-variants = Gleich schwer
report-define-variants = Einfaktorielle Varianzanalyse der Anteile. Fisher, Statistical Methods for Research Workers, 1925.
compare-together = { $one } und { $other } gibt es nie beim selben { $parameter }.
compare-tied = { $one } und { $other } { $quantity ->
    [area] haben gleiche Fläche
    [logic] haben ohne Flipflops gleiche Fläche
    [time] sind gleich schnell
    [toggles] sind in den Umschaltungen nicht zu unterscheiden
   *[area_delay] haben gleiches Flächen-Verzögerungs-Produkt
  } bei jedem { $range }{ $told }.
compare-is = { $name } ist { $quantity ->
    [area] kleiner
    [logic] ohne Flipflops kleiner
    [time] schneller
    [toggles] sparsamer an Umschaltungen
   *[area_delay] im Flächen-Verzögerungs-Produkt besser
  }
compare-pair = { compare-is } als { $loser } { $where }: { $told }.
compare-where-every = bei jedem { $range }
compare-where-one = bei { $at }{ $end ->
    [last] , dem letzten verglichenen Wert
   *[inner] {""}
  }
compare-where-run = von { $name } = { $first } bis { $last }{ $end ->
    [last] , dem letzten verglichenen Wert
   *[inner] {""}
  }
compare-equal = { $quantity ->
    [toggles] kein erkennbarer Unterschied
   *[other] gleich
  }
compare-against = { $first } gegenüber { $second } bei { $at }
compare-against-unit = { $first } gegenüber { $second } { $unit } bei { $at }
compare-elsewhere = { $told } bei { $at }
compare-takes-too = { $name } nimmt außerdem { $operands }
compare-unlike = { $one } und { $other } berechnen nicht dasselbe
compare-sooner = { $name } schwingt früher ein, als sein kritischer Pfad sagt, den keine Operanden nehmen, bei { $at }
compare-take = Welcher Entwurf wann: { $told }.
compare-take-for = { $quantity ->
    [area] für die kleinste Fläche
    [logic] für die kleinste Fläche ohne Flipflops
    [time] für die kürzeste Zeit
    [toggles] für die wenigsten Umschaltungen
   *[area_delay] für das kleinste Flächen-Verzögerungs-Produkt
  } { $told }
compare-best = { $quantity ->
    [area] Am kleinsten
    [logic] Ohne Flipflops am kleinsten
    [time] Am schnellsten
    [toggles] Am sparsamsten an Umschaltungen
   *[area_delay] Im Flächen-Verzögerungs-Produkt am besten
  }{ $whose }: { $told }.
compare-best-at = { $names } bei { $range } ({ $figures })
compare-whose-operands = von denen mit { $count ->
    [one] Operand { $operands }
   *[other] Operanden { $operands }
  }
compare-whose-none = von denen ohne Operanden
compare-whose-outputs = von denen, die { $outputs } liefern sollen
compare-whose-nothing = von denen, die nicht sagen, was sie berechnen
compare-alike = zusammen genannte sind nicht zu unterscheiden
compare-cheapest = Nach Fläche am günstigsten{ $whose }: { $name } bei { $at }, mit { $area } { $area-unit } und { $time } { $time-unit }.
compare-nothing = Nichts erfüllt { $need }.
compare-too-near = Für ein Urteil aus der Stichprobe zu nahe an { $condition }: { $designs }.
compare-design-at = { $name } bei { $at } ({ $figure })
compare-none-has = Kein Entwurf erfüllt { $condition }.
compare-none-has-closest = Kein Entwurf erfüllt { $condition }; der { $end ->
    [most] größte
   *[least] kleinste
  } Wert von { $quantity } ist { $figure }, bei { $name }.

## Anmerkungen unter Vergleichen

compare-model = Modell { $name }: { $about }.
compare-model-gate-count = jedes Gatter ist ein Gatter und eine Stufe, wie viele Eingänge es auch hat; Inverter und Treiber sind frei; ein Flipflop ist 6 Gatter, Clock-to-Q 3 Stufen und Setup-Zeit 2
compare-model-unit-gate = ein Gatter mit zwei Eingängen ist 1 Einheit mit 1 Laufzeit, XOR und XNOR 2 und 2, ein Multiplexer 3 und 2, breitere Gatter sind Bäume, Inverter sind frei; ein Flipflop ist 7 Einheiten, Clock-to-Q 4 Laufzeiten und Setup-Zeit 2
compare-model-cmos = statische CMOS-Zellen mit bis zu 4 Eingängen; Verzögerung nach Logical Effort: jedes Gatter so stark wie der kleinste Inverter und umso langsamer, je größer sein Fan-out ist; ein Flipflop ist 24 Transistoren, Clock-to-Q 10 tau und Setup-Zeit 5
compare-model-74hc = Gatter mit 2 bis 4 Eingängen, Multiplexer 74HC157 (vier teilen sich eine Auswahl) und Flipflops 74HC74; ganze Gehäuse; typische Verzögerungen und Setup-Zeiten bei 25 °C, 5 V, 15 pF
compare-model-74hc-worst = Gatter mit 2 bis 4 Eingängen, Multiplexer 74HC157 (vier teilen sich eine Auswahl) und Flipflops 74HC74; ganze Gehäuse; ungünstigste Verzögerungen und Setup-Zeiten bei 25 °C, 4,5 V, 50 pF
compare-units = Fläche in { $area }, Zeit in { $time }; { path-counts }.
compare-toggles = Umschaltungen: Ausgänge von Gattern und Flipflops, die sich während eines Ergebnisses ändern, im Mittel über { $results } zufällige Ergebnisse (Startwert { $seed }), ohne Hazards; ± ist der Standardfehler, und was innerhalb von { $sure } Standardfehlern des Unterschieds liegt, gilt als gleich.
compare-clock-toggles = Die Umschaltungen des Takts selbst, 2 je Flanke an jedem Flipflop, sind nicht enthalten: { $most } je Flipflop während eines Ergebnisses bei { $at }.
compare-ranked = Ränge gibt es unter Entwürfen mit denselben Operanden und Ausgängen, für jede Gruppe eigene.
compare-alone = { $names } { $count ->
    [one] hat
   *[other] haben
  } hier nichts Gleiches, daher keinen Rang.
compare-those = { $count } dieser Entwürfe
compare-registers = Flipflops zählen mit: { $names } { $count ->
    [one] hält
   *[other] halten
  } Wörter in Registern, { $rest ->
    [one] der andere keine
   *[other] die anderen keine
  }.
compare-absent = { $name } gibt es nicht bei { $at }: { $why }.
compare-idle = { $name }: { $inputs } { $count ->
    [one] bleibt
   *[other] bleiben
  } an jeder Flanke gleich; was nur auf einen Wechsel wartet, wird daher nicht mitgezählt: bei { $at } Fläche { $area } statt { $built-area } (in { $unit }){ $changed ->
    [period] , Periode { $period } statt { $built-period }
   *[area] {""}
  }.

## Kritische Pfade

compare-toggles-in-time = Mit Störimpulsen zählt auch jede Änderung dieser Netze dazwischen, mit den Verzögerungen des Modells; Gatter verschlucken Impulse, die kürzer sind als ihre Verzögerung.
compare-true-delay = Die wahre Verzögerung ist die späteste Änderung über alle Operanden, was auch vorher anlag: ein kritischer Pfad, der länger ist, ist falsch.
path-counts = ein Pfad zählt, ob Operanden ihn nehmen oder nicht
path-none = es gibt keinen Pfad
path-summary = kritischer Pfad: { $length } { $unit }, von { $from } bis { $to }
path-true = wahre Verzögerung: { $time } { $unit }; welche Operanden auch auf andere folgen, später ändert sich nichts
path-true-clocked = wahre Verzögerung: höchstens { $time } { $unit }, Clock-to-Q und Setup-Zeit mitgezählt, was auch gespeichert ist
path-true-within = wahre Verzögerung: { $low } bis { $high } { $unit }; mehr war mit dem Aufwand nicht zu finden
path-false = { $paths ->
    [one] ein Pfad ist länger und falsch: keine Operanden nehmen ihn; er endet
   *[other] { NUMBER($paths, useGrouping: "true") } Pfade sind länger und falsch: keine Operanden nehmen sie; sie enden
  } in { $ends }
path-shown = gezeigt von { $operands } nach { $before }: der letzte Ausgang ändert sich { $time } { $unit } später{ $pulses ->
    [transport] , wenn Gatter Pulse jeder Länge durchlassen
   *[inertial] {""}
  }
path-port = { $port } von { $part }
path-column-net = Netz
path-column-through = durch
path-column-delay = Verzögerung
path-column-arrival = Ankunftszeit
path-input = Eingang
path-output = Ausgang
path-flip-flop = Flipflop
## Fragen

question-heading = Aufgabe { $number }
question-marks = { $count ->
    [one] { $count } Punkt
   *[other] { $count } Punkte
  }
question-facts = { $marks }, Stufe { $level } von 5
question-own = Ein anderer Lauf, mit { $given }: { $asked }
question-cells = { $count ->
    [one] Füllen Sie die offene Zelle der Tabelle aus.
   *[other] Füllen Sie die { $count } offenen Zellen der Tabelle aus.
  }
question-lane = Zeichnen Sie die fehlende Spur von { $lane } in das Impulsdiagramm.
question-cell = { $what } nach { $edge }
question-value = Was enthält { $what } nach Flanke { $edge }?
question-value-start = Was enthält { $what } vor der ersten Flanke?
question-value-plain = Was ist { $what }?
question-choice-plain = Was davon ist { $what }?
question-choice = Was davon enthält { $what } nach Flanke { $edge }?
question-choice-start = Was davon enthält { $what } vor der ersten Flanke?
question-false-statement = Welche dieser Aussagen über den Lauf ist falsch?
question-fault = An der Schaltung, deren Lauf die Tabelle zeigt, ist eines falsch. Was davon ist es?
question-edges = Wie viele Taktflanken braucht der ganze Ablauf für { $given }?
question-edges-plain = Wie viele Taktflanken braucht der ganze Ablauf?
question-formula = Geben Sie eine Formel in { $names } an für { $quantity ->
    [edges] die Zahl der Taktflanken des ganzen Ablaufs
    [gates] die Zahl der Gatter, Inverter nicht gezählt
    [flip-flops] die Zahl der Flipflops
   *[depth] die Zahl der Gatter auf dem kritischen Pfad
  }.
question-operands = Wählen Sie { $names } ({ $range }) so, dass gilt: { $shown }.
question-operands-given = Gegeben ist { $given }: Wählen Sie { $names } ({ $range }) so, dass gilt: { $shown }.
feature-carry-runs = { $count ->
    [one] eine Übertragskette ist { $count } Stelle lang oder länger
   *[other] eine Übertragskette ist { $count } Stellen lang oder länger
  }
feature-no-carry = es entsteht kein Übertrag
feature-all-rows = alle acht Zeilen der Wahrheitstabelle des Volladdierers kommen vor
feature-row = am Volladdierer kommt a = { $a }, b = { $b }, Übertrag = { $carry } vor
feature-sum-fits = die Summe passt
feature-sum-overflows = die Summe läuft über
feature-misconception = wer so denkt, kommt zu einer falschen Antwort: „{ $thought }“
question-hint = Tipp
question-answer = Antwort
question-lane-missing = Dieselbe Abbildung, die Spur von { $lane } ist zu zeichnen.
question-solution = Lösungsweg
answer-for-example = zum Beispiel { $given }
solution-start = Am Anfang: { $what }.
solution-plain = { $what }.
solution-given = Gegeben, nach Flanke { $edge }: { $what }.
solution-row = Nach Flanke { $edge }: { $what }.
solution-edge = Flanke { $edge }: { $what }.
solution-kept = { $store } behält { $word }
solution-cleared = { $store } wird gelöscht: { $word }
solution-shifted = { $store } schiebt { $came } hinein: { $word }
solution-took = { $store } übernimmt { $word }
solution-added = { $adder } addiert { $inputs }: Summe { $sum }, Übertrag { $carry }
solution-phase = { $phase } braucht { $count ->
    [one] { $count } Flanke
   *[other] { $count } Flanken
  }
solution-edges = { $each }: { $sum } = { $total }.
solution-edges-one = { $each }.
solution-formula = { $quantity } = { $formula }; eine Formel, die dieselben Zahlen gibt, ist genauso richtig.
solution-checked = Das ist { $how }.
solution-operands = Andere sind genauso richtig, wenn ein Lauf mit ihnen es zeigt.
solution-false = „{ $text }“ ist falsch: { $why }.
solution-option = { $letter }) ergibt sich, wenn man denkt: „{ $thought }“

## Aufgabenblätter

paper-code = Blatt { $code }
paper-key = Antworten: { $title }
paper-worked = Lösungswege: { $title }
paper-total = { $marks } insgesamt
paper-question = Aufgabe
paper-marks = Punkte
paper-instructions = Schreiben Sie Wörter mit dem MSB links und X für ein unbekanntes Bit.

## Falsche Gedanken, wie Lernende sie sagen würden


## Fehlvorstellungen, wie Lernende sie sagen würden

misconception-one-after-another = Die Stufen ändern sich nacheinander, vom Eingang her, sodass jede sieht, was die vor ihr gerade geworden ist.
misconception-wrong-end = Das neue Bit tritt am anderen Ende des Registers ein.
misconception-re-enters = Das Bit, das das Register verlässt, kommt am anderen Ende wieder herein.
misconception-carry-dropped = Jede Stelle wird für sich addiert; der Übertrag fällt weg.
misconception-carry-stays-set = Ist einmal ein Übertrag da, wird er an jeder folgenden Stelle addiert.
misconception-carry-kept-between-words = Der Übertrag, der von einem Wort übrig ist, wird zum nächsten addiert.
misconception-carry-too-far = Der Übertrag geht eine Stelle weiter nach links, als er sollte.
misconception-or-for-sum = Eins und eins ist eins: Das Summenbit ist 1, wenn irgendein Eingang 1 ist.
misconception-carry-of-two = Einen Übertrag gibt es nur, wenn beide Operandenbits 1 sind; auf den ankommenden Übertrag kommt es nicht an.
misconception-msb-first = Die Wörter werden vom linken Ende her zugeführt, so wie man sie liest.
misconception-one-edge-early = Der Start zählt als Flanke 1, also steht das Ergebnis eine Flanke früher da.
misconception-one-edge-late = Eine Flanke mehr ist nötig, um das Ergebnis herauszubringen.
misconception-loading-not-counted = Nur die Flanken nach dem Laden zählen.
misconception-enable-ignored = Ein Register übernimmt seinen Eingang bei jeder Flanke, freigegeben oder nicht.
misconception-unknown-as-0 = Was nicht bekannt ist, ist 0.
misconception-unknown-as-1 = Was nicht bekannt ist, ist 1.
misconception-read-backwards = Das Ergebnis wird mit dem LSB links gelesen.

## Bausteine der Familie 74HC

chip-74hc00 = vier NAND mit 2 Eingängen
chip-74hc02 = vier NOR mit 2 Eingängen
chip-74hc04 = sechs Inverter
chip-74hc08 = vier UND mit 2 Eingängen
chip-74hc10 = drei NAND mit 3 Eingängen
chip-74hc11 = drei UND mit 3 Eingängen
chip-74hc20 = zwei NAND mit 4 Eingängen
chip-74hc21 = zwei UND mit 4 Eingängen
chip-74hc27 = drei NOR mit 3 Eingängen
chip-74hc32 = vier ODER mit 2 Eingängen
chip-74hc74 = zwei D-Flipflops
chip-74hc86 = vier XOR mit 2 Eingängen
chip-74hc153 = zwei 4:1-Multiplexer
chip-74hc157 = vier 2:1-Multiplexer
chip-74hc161 = 4-Bit-Zähler, asynchrones Löschen
chip-74hc163 = 4-Bit-Zähler, synchrones Löschen
chip-74hc164 = 8-Bit-Schieberegister, serieller Eingang, parallele Ausgänge
chip-74hc165 = 8-Bit-Schieberegister, asynchrones Laden, serieller Ausgang
chip-74hc166 = 8-Bit-Schieberegister, synchrones Laden, serieller Ausgang
chip-74hc173 = 4-Bit-Register mit Freigabe
chip-74hc174 = sechs D-Flipflops
chip-74hc175 = vier D-Flipflops
chip-74hc194 = 4-Bit-Universalschieberegister
chip-74hc195 = 4-Bit-Schieberegister mit parallelem Laden
chip-74hc273 = acht D-Flipflops
chip-74hc283 = 4-Bit-Addierer
chip-74hc595 = 8-Bit-Schieberegister mit Ausgangsregister

## Das Aufbaublatt

bench-title = Aufbaublatt: { $title }
bench-packages = { $count ->
    [one] { $count } Baustein
   *[other] { $count } Bausteine
  }
bench-lines = { $count ->
    [one] { $count } Zeile zum Abhaken
   *[other] { $count } Zeilen zum Abhaken
  }
bench-net-pressed = Taster gedrückt
bench-net-resting = Taster los
bench-net-clear = Anfangslöschen
bench-resistor = { $value } { $net }
bench-fewest = Keine Wahl unter den versuchten Wegen braucht weniger Bausteine: Ein Solver hat es bewiesen.
bench-best-found = Das ist die beste gefundene Wahl; dass keine andere weniger Bausteine braucht, ist nicht bewiesen.
bench-equal = So wie sie nach der Drahtliste verbunden sind, berechnen die Bausteine den Entwurf: { $count ->
    [one] Das eine gespeicherte oder angezeigte Bit ist
   *[other] Alle { $count } gespeicherten oder angezeigten Bits sind
  } für jeden Zustand und jede Eingabe als gleich bewiesen.
bench-finding-floating = { $where } wird von nichts getrieben
bench-finding-shorted = diese Ausgänge sind verbunden: { $where }
bench-finding-no-supply = { $where } liegt nicht an seiner Versorgung
bench-finding-loop = die Ausgänge vor { $where } speisen sich selbst
bench-finding-clear = ein asynchrones Löschen oder Setzen von { $where } kann im Lauf wirken
bench-finding-start = das Löschen nach dem Einschalten gibt { $where } nicht den Anfangswert
bench-finding-clock = die Flanken von { $where } sind nicht die des Entwurfs
bench-finding-stored = { $where } kann ein anderes Bit übernehmen als im Entwurf
bench-finding-shown = { $where } kann ein anderes Bit zeigen als im Entwurf
bench-finding-time = { $where } war nicht in der Zeit zu entscheiden
bench-cautions = Bevor es losgeht
bench-caution-rules = Die Laborordnung und die Datenblätter der Hersteller gehen vor. Die Anschlüsse hier sind die der üblichen DIL-Gehäuse; vergleiche sie mit dem Datenblatt deines Bausteins.
bench-caution-supply = Die Versorgung ist { $volts } V (die Familie arbeitet von { $least } V bis { $most } V; über { $absolute } V wird sie zerstört). Prüfe vor dem Einschalten die Polung: Verkehrt herum werden Bausteine heiß und sind verloren.
bench-caution-off = Schalte die Versorgung aus, bevor du einen Draht oder einen Baustein bewegst.
bench-caution-floating = Kein Eingang darf offen bleiben: Ein offener CMOS-Eingang nimmt irgendeinen Pegel an und kann den Baustein schwingen lassen. Darum liegen unbenutzte Eingänge fest.
bench-caution-static = Statische Elektrizität zerstört CMOS-Eingänge: Fasse erst geerdetes Metall an, halte Bausteine am Gehäuse.
bench-caution-outputs = Verbinde nie zwei Ausgänge miteinander und nie einen Ausgang mit VCC oder GND.
bench-caution-lights = Jede Leuchtdiode hat ihren eigenen Widerstand von { $ohms } kΩ: etwa { $current } mA, weniger als die { $rated } mA, bis zu denen ein Ausgang seine Pegel hält.
bench-caution-gated = { $switches } { $count ->
    [one] lässt
   *[other] lassen
  } den Takt durch ein Gatter: Bewege { $count ->
    [one] ihn
   *[other] sie
  } nur, solange S1 nicht gedrückt ist, sonst ist schon die Bewegung eine Taktflanke.
bench-parts = Teile
bench-column-count = Anzahl
bench-column-part = Teil
bench-column-what = Was es ist
bench-column-names = Auf dem Brett
bench-column-done = Fertig
bench-column-wire = Nr.
bench-column-from = Von
bench-column-to = Nach
bench-column-net = Führt
bench-item-decoupling = keramischer Kondensator, je einer dicht am Baustein von VCC nach GND
bench-item-bulk = Elektrolytkondensator von VCC nach GND, wo die Versorgung ankommt; auf die Polung achten
bench-item-switch = Schalter nach GND
bench-item-light = rote Leuchtdiode, Kathode (kurzes Bein) nach GND
bench-item-button = Taster mit Wechsler
bench-item-clear = Taster nach GND
bench-item-resistor = Widerstand, je einer in Reihe mit jeder Leuchtdiode
bench-item-pull = Widerstand, von VCC zu jedem Kontakt, den ein Schalter oder Taster nach GND schließt
bench-board = Die Bausteine
bench-board-caption = Von oben gesehen, die Kerbe oben: Anschluss 1 ist oben links, gezählt wird links hinunter und rechts hinauf. Ein Strich über dem Namen: aktiv bei 0. Ein Ring: ein Messpunkt. Was außen an einem Anschluss steht, ist mit ihm verbunden.
bench-board-about = { $packages }. Jeder Anschluss steht mit dem, was an ihm liegt, in den Drahtlisten.
bench-build = Aufbau
bench-build-note = Hake eine Zeile ab, wenn sie steckt; wo der Wert eines Widerstands in ihr steht, kommt er an die Stelle eines Drahts. Ein Anschluss ist als Baustein und Nummer geschrieben: { $example } ist Anschluss { $pin } von { $package }. Ein Schrägstrich vor dem Namen eines Anschlusses steht für den Strich darüber: aktiv bei 0.
bench-place = Setze die Bausteine auf das Brett, alle Kerben zur selben Seite, in der Reihenfolge { $names }. Setze neben jeden einen Kondensator von { $value } und einen von { $bulk } dorthin, wo die Versorgung ankommt.
bench-stage-power = Versorgung: jeder Baustein an VCC und GND.
bench-stage-ties = Eingänge mit festem Pegel, darunter die unbenutzten.
bench-stage-clock = Der Takt: ein Wechsler und zwei NAND-Gatter, die seinen Pegel halten, sodass Prellen des Kontakts keine zweite Flanke macht. S1-3 ist der bewegliche Kontakt: Gedrückt berührt er S1-1, losgelassen S1-2.
bench-stage-clear = Das Löschen nach dem Einschalten: 0, solange S2 gedrückt ist, sonst 1 über den Widerstand.
bench-stage-signals = Drähte zwischen den Bausteinen.
bench-stage-inputs = Schalter: Offen ist 1, über den Widerstand nach VCC; geschlossen ist 0.
bench-stage-outputs = Leuchtdioden: vom Anschluss über einen Widerstand zur Anode (+, das längere Bein), von der Kathode (−) nach GND. Leuchten heißt 1.
bench-test = Vor dem Einschalten
bench-test-short = Bei ausgeschalteter Versorgung zeigt das Messgerät keinen Kurzschluss zwischen VCC und GND.
bench-test-notches = Alle Kerben zeigen zur selben Seite, kein Bein ist verbogen.
bench-test-count = Alle { $count } Zeilen sind abgehakt.
bench-test-on = Einschalten: Der Strom bleibt im Bereich von Milliampere (mit den Leuchtdioden), kein Baustein wird warm. Sonst sofort ausschalten.
bench-test-supply = Das Messgerät zeigt an jedem Baustein { $volts } V zwischen VCC und GND.
bench-run = Der Lauf
bench-run-clocked = Drücke einmal S2: Zeile 0 steht da. Dann für jede Zeile: Schalter stellen, wie sie sagt, Leuchtdioden vergleichen, abhaken, S1 drücken. Was eine Zeile zeigt, steht nach so vielen Drücken von S1.
bench-run-unclocked = Stelle die Schalter und vergleiche die Leuchtdioden.
bench-run-either = – steht für beide Pegel: Stelle den Schalter beliebig; eine Leuchtdiode darf zeigen, was sie will.
bench-run-part = Das Blatt hat die ersten { $count } von { $of } Zeilen.
bench-run-caption = Zeile für Zeile: Leuchtdioden, Schalter, Messpunkte; Wörter mit dem MSB links.
bench-row = Zeile
bench-phase = Phase
bench-set = { $name } stellen
bench-places = { $name }: { $places }
bench-legend-light = Leuchtdioden, von links nach rechts: { $list }.
bench-legend-set = Schalter, von links nach rechts: { $list }. Für 1 offen, für 0 geschlossen.
bench-legend-point = Messpunkte, von links nach rechts: { $list }.
bench-differs = Wenn eine Zeile abweicht
bench-differs-first = Nimm die erste Zeile, die abweicht, und darin den am weitesten links stehenden Messpunkt, der abweicht: Was diesen Anschluss treibt, ist der Ort zum Nachsehen. Schalte aus, bevor du etwas änderst.
bench-differs-capture = Mit einem Logikanalysator: Zeichne den Takt und die Leuchtdioden auf; edgewise capture legt die Aufzeichnung neben diesen Lauf und sagt, welcher einzelne Fehler sie erklärt.
bench-footer = Alle Werte und Drähte auf diesem Blatt sind aus der Schaltung berechnet und an ihr geprüft; dass deine Bausteine diese Anschlüsse haben, nicht. Datenblätter und Laborordnung gehen vor.

## Was ein Logikanalysator sah

capture-clock = Der Takt ist Kanal { $channel }{ $how ->
    [name] {""}
   *[data] , wie seine Flanken sagen
  }; aktiv ist seine { $edge ->
    [falling] fallende Flanke: Der Kanal ist invertiert
   *[rising] steigende Flanke
  }. { $found ->
    [one] { $found } Flanke wurde gefunden
   *[other] { $found } Flanken wurden gefunden
  }, der Lauf hat { $expected }.
capture-samples = Jeder Messwert gilt als der Zustand vor einer Taktflanke. { $found ->
    [one] { $found } Messwert wurde gefunden
   *[other] { $found } Messwerte wurden gefunden
  }, der Lauf hat { $expected }.
capture-unclocked = Die Schaltung hat keinen Takt; verglichen wurde, was am Ende der Aufzeichnung steht.
capture-noise = { $bounces ->
    [0] Der Takt prellte nicht
    [one] Der Takt prellte: { $bounces } Flanke mehr, als der Lauf hat
   *[other] Der Takt prellte: { $bounces } Flanken mehr, als der Lauf hat
  }; { $glitches ->
    [0] spät in einer Periode gab es keine Störimpulse.
    [one] spät in einer Periode, als die Schaltung schon ruhig sein sollte, gab es { $glitches } Wechsel.
   *[other] spät in einer Periode, als die Schaltung schon ruhig sein sollte, gab es { $glitches } Wechsel.
  }
capture-short = Die Aufzeichnung endet früh: Sie hat die Zeilen 0 bis { $last } von 0 bis { $of }.
capture-channels = Die Kanäle
capture-column-channel = Kanal
capture-column-net = Netz
capture-column-how = Erkannt an
capture-by-name = seinem Namen
capture-by-data = dem, was er zeigt
capture-inverted = { $how }; invertiert
capture-unmatched = Kanäle, die zu keinem Netz passen und beiseiteblieben: { $list }.
capture-agrees = Die Aufzeichnung ist, wie der Lauf sein soll.
capture-agrees-but = Die Aufzeichnung ist, wie der Lauf sein soll, bis auf { $count ->
    [one] einen Messwert
   *[other] { $count } Messwerte
  }; kein einzelner Fehler erklärt das besser als eine Störung.
capture-first = Der erste Unterschied ist in Zeile { $row }: { $net } ist { $seen } und soll { $expected } sein.
capture-differences = Zeile für Zeile, was abweicht
capture-column-row = Zeile
capture-column-seen = Gesehen
capture-column-expected = Erwartet
capture-misset = { $count } Messwerte von Eingängen sind nicht, was diese Operanden brauchen: Waren die Schalter für sie gestellt?
capture-explanations = Was es erklärt, das Beste zuerst
capture-column-explanation = Erklärung
capture-column-unexplained = Messwerte, die bleiben
capture-column-alike = Auf diesen Kanälen ebenso gut
capture-right = Nichts ist falsch.
capture-double = Taktflanke { $edge } kam zweimal: Der Takt prellte.
capture-triple = Taktflanke { $edge } kam dreimal: Der Takt prellte.
capture-missed = Taktflanke { $edge } erreichte die Schaltung nicht.
capture-uncleared = { $part } wurde vor der ersten Flanke nicht gelöscht: Es enthielt { $word }.
capture-nothing-cleared = Vor der ersten Flanke wurde nichts gelöscht: Was speichert, begann, wie es gerade war.
capture-switch = Eingang { $input } war { $bit } in Zeile { $row }.
capture-probes = Die Kanäle { $first } und { $second } liegen jeder am Netz des anderen.
capture-dead = Kanal { $channel } zeigt nur einen Pegel, und alles andere ist richtig: Seine Leitung ist ab oder der Draht, an dem sie liegt.
capture-none = Nichts von dem, was versucht wurde, erklärt die Aufzeichnung gut: Vielleicht ist mehr als eines falsch, oder sie ist von einem anderen Entwurf oder anderen Operanden.
capture-next = Um diese zu unterscheiden, miss { $net } in Zeile { $row }: 0 spricht für { $zero }; 1 für { $one }.
capture-next-none = Kein Netz dieses Laufs unterscheidet diese; nimm andere Operanden, oder sieh dir das Brett selbst an.

## Eine erste Lektion, wie edgewise new sie schreibt

scaffold-title = Erste Lektion
scaffold-scene = Unten am Anleger steht eine Pegelhütte, und in ihr arbeitet ein { $design }. *Setzen Sie hier eine eigene Szene ein: Wer braucht das Ergebnis, und was geschieht, wenn es falsch ist?*
scaffold-what = **Was es ist.** { $design }{ $about ->
    [none] {""}
   *[told] : { $text }
  }.
scaffold-given = Was gegeben ist
scaffold-given-none = Zahlen sind keine gegeben: Der Takt genügt.
scaffold-operand = Operand
scaffold-number = Zahl
scaffold-bits = Bits
scaffold-circuit = Die Schaltung
scaffold-before = Vor der ersten Flanke.
scaffold-all = Alle Werte.
scaffold-edges = Flanke für Flanke
scaffold-run = Ein Lauf hat `? edges` Taktflanken: { $phases }. Zeile *k* der Tabelle zeigt, was nach Flanke *k* dasteht, mit den Eingängen, die Flanke *k* + 1 abtastet; die erste Zeile ist also das, was die erste Flanke der Phase vorfindet.
scaffold-in-phase = `? edges({ $phase })` in Phase { $name }
scaffold-phase = Phase { $phase }, Flanke für Flanke.
scaffold-signals = Dieselben Flanken als Signale.
scaffold-values = Die Werte
scaffold-no-clock = Alles steht zugleich da; es gibt keinen Takt.
scaffold-answer = Das Ergebnis
scaffold-output = { $at ->
    [no] `{ $output }` ist
   *[edge] Nach Flanke `? { $edge }` ist `{ $output }` gleich
  } `? { $formula }`{ $known ->
    [no] {""}
   *[yes] , als Zahl `? value({ $formula })`
  }{ $right ->
    [no] ; das ist **nicht** `{ $wanted }`: Hier rechnet die Schaltung falsch
   *[yes] {""}
  }.
scaffold-checked = Eine von Hand getippte Zahl kann falsch sein. Die Zahlen oben sind nicht getippt, und diese Aussagen werden jedes Mal geprüft, wenn die Lektion gebaut wird:
scaffold-how = Wie diese Datei funktioniert
scaffold-how-delete = *Für Sie, nicht für Ihre Leserinnen und Leser: Löschen Sie diesen Abschnitt, wenn Sie ihn kennen.*
scaffold-how-front = Die Zeilen zwischen den beiden `---` sagen, was läuft. Ändern Sie einen Operanden, speichern Sie, und jeder Wert, jede Tabelle und jede Abbildung folgt.
scaffold-how-value = Code im Text, der mit einem Fragezeichen beginnt, wird berechnet:
scaffold-how-blocks = Die Blöcke oben ({ $kinds }) sind Abbildungen, Tabellen und Behauptungen. Eine falsche Behauptung bricht den Bau ab, und es wird gesagt, was stattdessen stimmt.
scaffold-how-say = Ein Block `say` enthält, was Sie beim Projizieren der Lektion sagen wollen; Leserinnen und Leser sehen ihn nicht.
scaffold-say = Fragen Sie zuerst: Was erwarten Sie am Ende zu sehen? Dann weiter, Schritt für Schritt.

## Hazards

hazard-title = Hazards von { $design }
hazard-column-output = Ausgang
hazard-column-kind = Hazard
hazard-column-changes = Änderung
hazard-column-before = vorher
hazard-column-seen = gesehen
hazard-column-added = zusätzliche Gatter
hazard-static-0 = statisch 0
hazard-static-1 = statisch 1
hazard-dynamic = dynamisch
hazard-seed = { $bits } (Startwert { $seed })
hazard-unseen = nicht gesehen
hazard-no-gate = –
hazard-count = { $wrong ->
    [0] kein Ausgang hat einen Hazard, während ein Eingang sich ändert, wie lange Gatter und Leitungen auch brauchen
    [one] 1 Ausgang von { $outputs } hat einen Hazard, während ein Eingang sich ändert: Gatter und Leitungen können so lange brauchen, dass er sich öfter ändert als nötig
   *[other] { $wrong } Ausgänge von { $outputs } haben einen Hazard, während ein Eingang sich ändert: Gatter und Leitungen können so lange brauchen, dass sie sich öfter ändern als nötig
  }
hazard-clean = ohne Hazard: { $outputs }
hazard-added = mit seinen zusätzlichen Gattern berechnet jeder Ausgang dasselbe und hat keinen Hazard dieser Art mehr: bewiesen; ein UND kommt in ein ODER hinter dem Ausgang, ein ODER in ein UND
hazard-partly = wo … steht, braucht es mehr als { $most } Gatter; das genannte nimmt den Hazard für diese Operanden weg
hazard-spread = ein Startwert steht, wo die Verzögerungen des Modells keinen Impuls zeigen: sie sind um bis zu { $percent } % verschoben
hazard-incomplete = es kann mehr geben: in der Zeit ließ sich nicht alles klären

## In einer Taktperiode

inside-column-edge = Flanke
inside-column-time = Zeit
inside-column-net = Netz
inside-column-from = von
inside-column-to = nach
# unit: Gatterlaufzeiten, ns
inside-settled = nach Flanke { $edge } sind alle Netze nach { $time } { $unit } eingeschwungen
inside-moving = { inside-after-edge }ist die Schaltung am Ende der Periode nicht in Ruhe; ihre letzte Änderung kommt nach { $time } { $unit }
inside-moving-later = { inside-after-edge }ist die Schaltung am Ende der Periode nicht in Ruhe, und kein Netz außer dem Takt hat sich geändert
inside-after-edge = { $edge ->
    [0] nach der Eingabe{" "}
   *[other] nach Flanke { $edge }{" "}
  }
inside-settled-inputs = nach { $time } { $unit } sind alle Netze eingeschwungen
inside-nothing = nach Flanke { $edge } ändert sich außer dem Takt kein Netz
inside-nothing-inputs = kein Netz ändert sich
inside-glitch-static = Störimpuls: { $net } ist { $bits }{ inside-after } und endet, wie es war
inside-glitch-dynamic = Störimpuls: { $net } ist { $bits }{ inside-after } und ändert sich mehr als einmal
inside-after = { $edge ->
    [0] {""}
   *[other] { " " }nach Flanke { $edge }
  }
inside-setup = Setup-Zeit nicht eingehalten: { $net } stand { $stood } von { $needed } { $unit } vor einer Flanke an { $part }
inside-hold = Hold-Zeit nicht eingehalten: { $net } stand { $stood } von { $needed } { $unit } nach einer Flanke an { $part }
inside-astray = { $net } endet bei { $here }; Zeile für Zeile ist es{ inside-after } { $row }
inside-restless = am Ende stehen noch Änderungen aus: die Periode ist zu kurz, oder die Schaltung kommt nie zur Ruhe

## In der Zeit verfolgt

followed-title = { $name } in der Zeit, Verzögerungen von { $model }
followed-at = { $name } bei { $at } { $unit }
response-oscillates = { $nets } { $count ->
    [one] schwingt
   *[other] schwingen
  } von { $begin } bis { $end } mit einer Periode von { $period } { $unit }
response-busy = Eingänge ändern sich, während noch Änderungen ausstehen: bei { $times }
response-moving = bei { $end } stehen noch Änderungen aus
response-settled = sobald die Eingänge stillstehen, sind nach höchstens { $time } { $unit } alle Netze eingeschwungen; so lange dauert es bei { $at }
response-race = Wettlauf bei { $at }: { $one } und { $other } ändern sich gleichzeitig; { $one } zuerst: { $first }; { $other } zuerst: { $second }
response-unlooked = bei { $at } ändern sich so viele Eingänge, dass ihre Reihenfolge nicht untersucht wurde
response-word = { $word } bei { $at }
response-passes = { $name } ist { $before }, dann { $passed }, ehe es bei { $at } { $after } ist
response-glitch-static = Störimpuls: { $net } ist { $bits } von { $begin } an und endet, wie es war
response-glitch-dynamic = Störimpuls: { $net } ist { $bits } von { $begin } an und ändert sich mehr als einmal
response-mtbf = im Mittel einmal in { $seconds } s unentschieden, das sind { $years } Jahre
response-setup = Setup-Zeit bei { $at } nicht eingehalten: { $net } stand { $stood } von { $needed } { $unit } vor einer Flanke an { $part }
response-hold = Hold-Zeit bei { $at } nicht eingehalten: { $net } stand { $stood } von { $needed } { $unit } nach einer Flanke an { $part }
inside-least = jede Setup-Zeit wird eingehalten, auf jedem Pfad, ab einer Periode von { $least } { $unit }; diese hat { $own }
inside-skew = der Takt kommt { $time } { $unit } zu spät an { $names }
inside-late-bit = zu spät: an Flanke { $edge } findet { $part } { $net } bei { $after }, nicht bei { $before }; es änderte sich { $time } { $unit } nach der Flanke
inside-false-edge = falsche Flanke: { $net } steigt { $time } { $unit } nach Flanke { $edge }; Zeile für Zeile kommt dort keine Flanke an
inside-cut-pulse = abgeschnittener Impuls: { $net } ist nach Flanke { $edge } für { $time } { $unit } auf 1; der Takt ist es für { $whole }
inside-mark-glitch = { $count ->
    [one] Störimpuls
   *[other] { $count } Störimpulse
    }
inside-mark-false-edge = { $count ->
    [one] falsche Flanke
   *[other] { $count } falsche Flanken
    }
inside-mark-cut-pulse = { $count ->
    [one] abgeschnittener Impuls
   *[other] { $count } abgeschnittene Impulse
    }
inside-mark-late-clock = später Takt
inside-mark-setup = Setup-Zeit nicht eingehalten
inside-mark-hold = Hold-Zeit nicht eingehalten
inside-mark-settled = eingeschwungen: { $time }
time-claim-run-settled = an diesem Ablauf zeitlich geprüft: keine Änderung kommt später als nach { $time } { $unit } (Laufzeiten von { $model })
time-claim-run-glitchless = an diesem Ablauf zeitlich geprüft (Laufzeiten von { $model })
time-claim-sets-settled = an allen { NUMBER($sets, useGrouping: "true") } Abläufen zeitlich geprüft: keine Änderung kommt später als nach { $time } { $unit } (Laufzeiten von { $model })
time-claim-sets-glitchless = an allen { NUMBER($sets, useGrouping: "true") } Abläufen zeitlich geprüft (Laufzeiten von { $model })
time-claim-paths = für alle Operanden bewiesen: kein Pfad dauert länger als { $time } { $unit } (Laufzeiten von { $model })
time-claim-sat = für alle Operanden mit einem SAT-Solver bewiesen: keine Änderung kommt später als nach { $time } { $unit }, was immer vorher anlag (Laufzeiten von { $model })
time-claim-stored = für alle Operanden bewiesen: es folgt allein einem Eingang oder einem Flipflop, die sich je Flanke einmal ändern
time-claim-undecided = die Zeit war um
time-claim-falsified = falsch mit den Laufzeiten von { $model }
time-claim-late = { inside-after-edge }ändert sich { $name } noch nach { $time } { $unit }
time-claim-moving = { inside-after-edge }ist die Schaltung am Ende der Periode nicht in Ruhe
time-claim-glitch = { inside-after-edge }ist { $name } { $bits }
time-claim-false-edge = { inside-after-edge }steigt { $name }, wo Zeile für Zeile keine Flanke ankommt
time-claim-cut-pulse = { inside-after-edge }fällt { $name }, während der Takt auf 1 ist
time-claim-false = falsch, wie die Lektion erwartet: { $why }
inside-slow-open = Zeitlupe
inside-slow-close = Zeitlupe beenden
inside-slow-back = Zurück
inside-slow-next = Nächstes Ereignis
inside-slow-events = Ereignis
inside-slow-own = Die Zeitlupe zeigt die Operanden der Lektion; mit anderen wären es andere Ereignisse.
inside-slow-start = Kurz vor Flanke { $edge }.
inside-slow-start-with = Kurz vor Flanke { $edge }, mit { $given }.
inside-slow-start-inputs = Kurz bevor sich die Eingänge ändern.
inside-slow-start-inputs-with = Kurz bevor sich die Eingänge ändern, mit { $given }.
inside-slow-when = { $edge ->
    [0] nach { $time } { $unit }
   *[other] { $time } { $unit } nach Flanke { $edge }
  }
inside-slow-event = { $when }: { $changes }.
inside-slow-net = { $name } geht von { $before } auf { $after }
inside-slow-others = { $count ->
    [one] ein weiteres Netz ändert sich
   *[other] { $count } weitere Netze ändern sich
  }
inside-caption-inputs = Was geschieht, wenn sich die Eingänge ändern; Laufzeiten von { $model }
inside-caption-edge = Was nach Flanke { $edge } geschieht; Laufzeiten von { $model }
inside-caption-edges = Was nach den Flanken { $first } bis { $last } geschieht; Laufzeiten von { $model }
inside-more = { $count ->
    [one] Ein weiteres Ergebnis steht bei den Ereignissen.
   *[other] { $count } weitere Ergebnisse stehen bei den Ereignissen.
  }
inside-events = Ereignisse
inside-key-window = Setup- und Hold-Zeit: was zu einem Flipflop führt, muss stehen
inside-title-inputs = In der Schaltung, Laufzeiten von { $model }: { $subject }
inside-title-edge = Nach Flanke { $edge }, Laufzeiten von { $model }: { $subject }
inside-title-edges = Nach den Flanken { $first } bis { $last }, Laufzeiten von { $model }: { $subject }
inside-about-first = { $value } zuerst
inside-about-after = { $value } von { $time } { $unit } nach Flanke { $edge } an
inside-about-time = { $value } von { $time } { $unit } an
inside-about-left = und { $count ->
    [one] ein weiterer Wert
   *[other] { $count } weitere Werte
    }

## Slides

slides-goes-on = (Das zuvor Gesagte geht weiter.)
slides-wait = (Auf Antworten warten.)
slides-predict = Was steht nach Flanke { $edge } in { $names }?
slides-answer = { $question }: Antwort
slides-continued = { $title } ({ $number })
slides-refuted = Widerlegt

## Film

film-unchanged = An Flanke { $edge } ändert sich nichts.
film-captions = Untertitel
film-chapters = Kapitel
film-descriptions = Beschreibungen dessen, was zu sehen ist
## Hardware descriptions, and submissions judged

hdl-reset = { $name } setzt asynchron zurück: verstanden als Rücksetzen am Anfang, danach inaktiv
hdl-falling = alles wird an der fallenden Flanke von { $name } gespeichert: das ist die Taktflanke
hdl-blocking = { $name }: eine blockierende Zuweisung in einem getakteten Block
hdl-sensitivity = in der Sensitivitätsliste fehlt { $name }
hdl-truncation = { $name }
hdl-unused = der Eingang { $name } wird nicht benutzt
hdl-undriven = { $name } hat keinen Wert: nichts treibt es, oder es wird gehalten, wo nichts zugewiesen wird (ein Latch)
hdl-gated = der Takt { $name } geht durch ein Gatter
judged-title = Beurteilte Abgaben: { $title }
judged-count = { $count ->
    [one] { $count } Abgabe
   *[other] { $count } Abgaben
  }
judged-count-right = { $count } richtig
judged-count-wrong = { $count } falsch
judged-count-undecided = { $count } unentschieden
judged-count-refused = { $count } nicht beurteilt
judged-right = richtig: für alle Operanden als gleich bewiesen
judged-undecided = innerhalb der Zeitgrenze nicht entschieden
judged-refused = nicht beurteilt: { $reason }
judged-wrong = falsch: { $count ->
    [0] {""}
   *[other] für { $operands } ist{" "}
  }{ $answer }{ $count ->
    [0] {" "}ist
   *[other] {""}
  } { $clocked ->
    [yes] nach Flanke { $edge }{" "}
   *[no] {""}
  }{ $found } und sollte { $should } sein
judged-unfinished = die Zeitgrenze hat die Suche nach einer Erklärung beendet
judged-unexplained = nichts, was versucht wurde, erklärt es: keine Fehlvorstellung, keine zwei zusammen, kein einzelner Fehler
judged-start = richtig, wenn alles Gespeicherte mit 0 beginnt, für alle Operanden: ein Anfangswert oder ein Rücksetzen fehlt
judged-late = richtig, aber eine Flanke zu spät, für alle Operanden
judged-early = richtig, aber eine Flanke zu früh, für alle Operanden
judged-inverted = richtig, aber { $names } { $count ->
    [one] ist
   *[other] sind
  } invertiert, für alle Operanden
judged-low = richtig, aber { $names } { $count ->
    [one] wird
   *[other] werden
  } als aktiv bei 0 verstanden, für alle Operanden
judged-reversed = richtig, aber die Bits von { $names } stehen in umgekehrter Reihenfolge, für alle Operanden
judged-exchanged = richtig, aber { $names } sind vertauscht, für alle Operanden
judged-idea = tut genau das, wozu { $count ->
    [one] die Vorstellung { $ideas } führt
   *[other] die Vorstellungen { $ideas } zusammen führen
  }, für alle Operanden
judged-fault = tut genau das, was der Entwurf mit einem einzelnen Fehler tut, für alle Operanden: { $fault }
judged-port-near = Anschluss { $port } gilt als { $name }
judged-port-alone = Anschluss { $port } gilt als { $name }, der einzige dieser Breite, der übrig ist
judged-port-order = Anschluss { $port } gilt als { $name }, nach der Reihenfolge der Anschlüsse
judged-port-tried = Anschluss { $port } gilt als { $name }: mit diesen Anschlüssen ist es richtig
judged-reset = { $name } setzt an einer Flanke zurück, bei { $level }: verstanden als Rücksetzen am Anfang, danach inaktiv
judged-lane-design = { $name }: Entwurf
judged-lane-submitted = { $name }: Abgabe
judged-lane-differs = verschieden
judged-column-edge = Nach Flanke
judged-errors = Fehler
judged-error = Fehler { $number }: { $count ->
    [one] { $count } Abgabe
   *[other] { $count } Abgaben
  }
judged-alike = Diese geben für alle Operanden die gleichen Antworten; das wurde bewiesen.
judged-drawn = { $file } neben dem Entwurf, { $operands }. Die ersten verschiedenen Bits stehen nach Flanke { $edge }.
judged-drawn-start = { $file } neben dem Entwurf, { $operands }.
judged-all = Alle Abgaben
judged-table-all = Jede Abgabe und ihr Urteil
judged-table-remarks = Stellen zum Ansehen, nach Datei und Zeile
judged-column-file = Datei
judged-column-verdict = Urteil
judged-column-group = Fehler
judged-column-why = Warum
judged-column-remarks = Anzusehen
judged-verdict-right = richtig
judged-verdict-wrong = falsch
judged-verdict-undecided = unentschieden
judged-verdict-refused = nicht beurteilt
judged-remarks = Worauf Prüfende achten
judged-remarks-note = Dies sagt nichts darüber, ob eine Abgabe richtig ist.
judged-taken = Was wofür gehalten wurde
judged-table-taken = Was wie verstanden wurde, nach Datei und Zeile
judged-column-taken = Verstanden
judged-footer = Richtig heißt bewiesen: Die Antworten der Abgabe gleichen denen des Entwurfs für alle Operanden, mit dem Ablauf des Entwurfs. Zu Falsch gehören Operanden, bei denen sie sich unterscheiden. Auch eine Erklärung wurde für alle Operanden bewiesen.
film-rehearse-begin = Starten Sie die Aufnahme, und drücken Sie die Leertaste, wenn Sie das erste Wort sagen. Drücken Sie sie bei jedem weiteren Schritt wieder, und noch einmal, wenn Sie fertig sind. ← nimmt einen Druck zurück, der zu früh kam; Esc beginnt von vorn.
film-rehearse-next = Danach:
film-rehearse-last = Der letzte Schritt: Leertaste, wenn Sie fertig sind.
film-rehearse-clock = Sie
film-rehearse-script = Skript
film-rehearse-saving = Die Einsätze werden geschrieben …
film-rehearse-lost = Die Einsätze konnten nicht gesendet werden: edgewise läuft nicht mehr. Nichts wurde geschrieben.
film-rehearse-saved = { $count ->
    [one] { $count } Einsatz steht
   *[other] { $count } Einsätze stehen
  } in { $file }. Geben Sie sie dem Film mit Ihrer Aufnahme: --voice AUFNAHME --cues { $file }. Die Leertaste beginnt eine neue Probe; sie schreibt die Datei neu.
# Ein Zustandsdiagramm.
states-title = Zustandsdiagramm: { $subject }
states-title-after = Zustandsdiagramm nach Flanke { $edge }: { $subject }
states-circle = Im Kreis: { $words }.
states-below = Unter dem Strich: { $outputs }.
states-arrow = Am Pfeil: { $inputs }.
states-either = –: 0 oder 1.
states-slash = Hinter dem Schrägstrich: { $outputs }.
states-starts = Jeder von { $count } Zuständen kann der erste sein.
states-dashed = Gestrichelt: vom Start aus nicht erreicht.
states-left-out = { $count ->
    [one] Ein nicht erreichter Zustand fehlt.
   *[other] { $count } nicht erreichte Zustände fehlen.
  }
states-column = Zustand ({ $words })
states-column-next = Folgezustand
states-column-use = Gebrauch
states-use = { $which ->
    [start] Start
    [used] benutzt
   *[unused] unbenutzt
  }
states-period = { $count ->
    [one] Jede Flanke lässt die Schaltung im Startzustand: { $states }.
   *[other] Nach je { $count } Flanken ist die Schaltung wieder im Startzustand: { $states }.
  }
states-passed = { $count ->
    [one] Den Startzustand { $states } verlässt die Schaltung für immer.
   *[other] { $count } Zustände durchläuft die Schaltung einmal: { $states }.
  }
states-loop = { $count ->
    [one] Dann bleibt sie in einem: { $states }.
   *[other] Dann läuft sie in einer Schleife von { $count }: { $states }.
  }
states-unused-loop = { $count ->
    [one] { $which ->
        [they] Ihm folgt er selbst
       *[others] Einem von ihnen folgt er selbst
      }: { $states }.
   *[other] { $which ->
        [they] Sie bilden eine Schleife von { $count }
       *[others] { $count } von ihnen bilden eine Schleife
      }: { $states }.
  }
states-about-count = { $reached } von { $all } Zuständen werden vom Start aus erreicht.
states-about-present = { $edge ->
    [0] Am Start ist der Zustand { $state }.
   *[other] Nach Flanke { $edge } ist der Zustand { $state }.
  }
states-about-after = Auf { $state } folgt { $ways }.
states-about-way = { $target } bei { $when }
states-about-unused = { $count ->
    [one] Ein Zustand wird nicht erreicht
   *[other] { $count } Zustände werden nicht erreicht
  }; { $which ->
    [all] von dort führt ein Weg zurück zu den benutzten
    [none] kein Weg führt zurück zu den benutzten
   *[some] von { $back } davon führt ein Weg zurück zu den benutzten
  }.
