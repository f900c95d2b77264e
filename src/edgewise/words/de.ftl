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
