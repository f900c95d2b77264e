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

## Das Arbeitsblatt

handout-figure = Abbildung { $number }
handout-table = Tabelle { $number }
handout-continued = { $caption }, Fortsetzung
handout-phase = Phase
handout-after-edge = nach Flanke
handout-start = Beginn
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
finding-more-time = Mehr Zeit geben oder kürzere Wörter nehmen.
finding-false = Falsch{ $kind ->
    [smallest] {" "}für { $operands }, die kleinsten solchen Operanden
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
    [hinted] keine Formel gefunden für { $quantity } von { $design }
   *[none] keine Formel der Familie passt auf { $quantity } von { $design }
  }
law-counted = gezählt an { $asked }
law-family =
    versucht: Polynome in den Parametern bis Grad 3 und bis Grad 2 mit floor_log2,
    ceil_log2, 2**ceil_log2, 2**n, Vierergruppen (div 4, mod 4) oder Viererstufen
law-ends = geprüft an { $asked }, und darüber hinaus falsch: für { $case } ist { $quantity } { $count }, und die Formel gibt { $value }
law-too-few = zu wenige für ein Urteil: { $formula } stimmt mit allen { $agree } überein, aber { $solved } davon bestimmten sie; ein solches Gesetz braucht mindestens { $needed } Entwürfe
law-accident = { $formula } stimmt mit allen { $agree } überein, aber nicht darüber hinaus: für { $case } gibt sie { $value }, gezählt werden { $count }
law-later = ab { $name } = { $first } passt { $law }, also { $name } dort beginnen lassen

## Was ein Beispiel zeigt

coverage-title = Was es zeigt
coverage-title-of = Was das Beispiel { $given } zeigt
coverage-unset-carry = Das Übertrags-Flipflop { $name } wird nie gesetzt: Dieses Beispiel sähe ohne es genauso aus.
coverage-no-carry = Es gibt keinen Übertrag: Dieses Beispiel sähe ohne die Übertragsleitungen genauso aus.
coverage-register-still = { $name } wechselt nie von einem bekannten Wert zu einem anderen.
coverage-register-empty = { $name } hält nie eine 1: Davon ist nichts zu sehen.
coverage-nothing = Ohne Taktflanken und Addierer gibt es nichts zu zählen: Die eine Zeile des Laufs ist alles, was zu sehen ist.
coverage-idle-phase = Phase { $name } speichert nichts, was ins Ergebnis gelangt.
coverage-beside = { $name } steht auch in { $count ->
    [one] Zeile { $rows }, aber keine Summe dieser Zeile
   *[other] den Zeilen { $rows }, aber keine Summe dieser Zeilen
  } gelangt ins Ergebnis.
coverage-rows-all = { $adders ->
    [1] { $name } durchläuft alle { $total } Zeilen seiner
   *[other] Die { $adders } Volladdierer durchlaufen zusammen alle { $total } Zeilen der
  } Wahrheitstabelle.
coverage-rows-none = { $adders ->
    [1] { $name } durchläuft keine der { $total } Zeilen seiner
   *[other] Die { $adders } Volladdierer durchlaufen zusammen keine der { $total } Zeilen der
  } Wahrheitstabelle dort, wo es zählt.
coverage-rows-few = { $adders ->
    [1] { $name } durchläuft nur { $used } der { $total } Zeilen seiner
   *[other] Die { $adders } Volladdierer durchlaufen zusammen nur { $used } der { $total } Zeilen der
  } Wahrheitstabelle{ $where ->
    [beside] {" "}in Summen, die ins Ergebnis gelangen
   *[everywhere] {""}
  }: { $rows } (a, b, Übertragseingang).
coverage-rows-most = { $adders ->
    [1] { $name } durchläuft { $used } der { $total } Zeilen seiner
   *[other] Die { $adders } Volladdierer durchlaufen zusammen { $used } der { $total } Zeilen der
  } Wahrheitstabelle{ $where ->
    [beside] {" "}in Summen, die ins Ergebnis gelangen, nicht
   *[everywhere] , nie
  } { $rows } (a, b, Übertragseingang).
coverage-carries = Ein Übertrag { $born ->
    [0] wird von außen zugeführt
    [1] wird einmal erzeugt
    [2] wird zweimal erzeugt
   *[other] wird { $born }-mal erzeugt
  }, { $travelling ->
    [1] einmal
    [2] zweimal
   *[other] { $travelling }-mal
  } weitergegeben und { $dying ->
    [1] einmal
    [2] zweimal
   *[other] { $dying }-mal
  } absorbiert; die längste Kette hat { $longest ->
    [one] { $longest } Stelle
   *[other] { $longest } Stellen
  }.
coverage-carries-undying = Ein Übertrag { $born ->
    [0] wird von außen zugeführt
    [1] wird einmal erzeugt
    [2] wird zweimal erzeugt
   *[other] wird { $born }-mal erzeugt
  } und { $travelling ->
    [1] einmal
    [2] zweimal
   *[other] { $travelling }-mal
  } weitergegeben; die längste Kette hat { $longest ->
    [one] { $longest } Stelle
   *[other] { $longest } Stellen
  }. Keiner wird absorbiert: Kein Übertrag trifft auf 0 + 0.
coverage-carries-staying = Ein Übertrag { $born ->
    [0] wird von außen zugeführt
    [1] wird einmal erzeugt
    [2] wird zweimal erzeugt
   *[other] wird { $born }-mal erzeugt
  } und { $dying ->
    [1] einmal
    [2] zweimal
   *[other] { $dying }-mal
  } absorbiert, aber nie von Stelle zu Stelle weitergegeben.
coverage-carries-born = Ein Übertrag { $born ->
    [0] wird von außen zugeführt
    [1] wird einmal erzeugt
    [2] wird zweimal erzeugt
   *[other] wird { $born }-mal erzeugt
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
coverage-column-seen = gesehen
coverage-column-of = von
coverage-column-unseen = nicht gesehen
coverage-line-rows = Zeilen aller { $adders } Volladdierer
coverage-line-rows-of = Zeilen von { $name }
coverage-line-born = erzeugte Überträge
coverage-line-travelling = weitergegebene Überträge
coverage-line-dying = absorbierte Überträge
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
fault-caution-gated-clock = Vorsicht: Das Signal, das einen Takt freigibt, darf sich nicht ändern, solange der Takt 1 ist: Eine steigende Flanke erzeugt eine falsche Taktflanke, eine fallende kürzt den Impuls. Ein Freigabeeingang am Flipflop birgt diese Gefahr nicht.
fault-unseen = Keine Zeile dieser Tabelle zeigt es: In diesen Spalten sind die Wörter, wie sie sein sollen. Andere Operanden, Zeilen oder Spalten können es zeigen.
fault-seen = { $place ->
    [table] Die Tabelle zeigt es
    [start] Der Beginn zeigt es zuerst
   *[row] Die Zeile von Flanke { $edge } zeigt es zuerst
  }: { $differences }.
fault-differing = { $name } ist { $found } statt { $expected }
fault-differing-phase = die Phase ist { $found } statt { $expected }
fault-short = Das Ende zeigt es: Jede Zeile ist, wie sie sein soll, aber der Lauf endet mit Flanke { $edge }, { $missing ->
    [one] { $missing } Flanke
   *[other] { $missing } Flanken
  } zu früh.
fault-long = Die Zeile von Flanke { $edge } zeigt es zuerst: Der richtige Lauf endet mit Flanke { $last }, dies ist eine mehr{ $phase ->
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
choice-rows = { $count } der 8 Zeilen des Volladdierers
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
compare-title = Fläche in { $area }, Zeit in { $time }, { $over }; Ränge in Klammern
compare-column-design = Entwurf
compare-column-area = Fläche
compare-column-logic = Logik
compare-column-gates = Gatter
compare-column-flip-flops = Flipflops
compare-column-period = Periode
compare-column-edges = Flanken
compare-column-time = Zeit
compare-column-rate = Durchsatz
compare-column-area-time = Fläche x Zeit
compare-column-toggles = Umschaltungen
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
compare-axis-rate = Ergebnisse in 1000 { $unit }
compare-axis-toggles = Umschaltungen
compare-chart-area = Fläche über { $over }
compare-chart-logic = Fläche ohne Flipflops über { $over }
compare-chart-gates = Gatter über { $over }
compare-chart-flip-flops = Flipflops über { $over }
compare-chart-edges = Flanken über { $over }
compare-chart-period = Taktperiode über { $over }, von Entwürfen mit Takt
compare-chart-time = Zeit für ein Ergebnis über { $over }
compare-chart-rate = Durchsatz über { $over }; ohne Takt im Fließbandbetrieb
compare-chart-toggles = Umschaltungen für ein Ergebnis über { $over }
compare-chart-area-time = Fläche gegen Zeit, { $over }; gefüllt: Nichts{ $among ->
    [alike] {" "}mit denselben Operanden und Ausgängen
   *[all] {""}
  } ist in beidem besser
