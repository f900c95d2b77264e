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
