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
