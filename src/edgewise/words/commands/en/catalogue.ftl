### What is refused in catalogue/, and why.

## __init__

designs-listed = ; edgewise list shows them
design-unknown = the catalogue has no design { $name }{ $hint }

## digits

digits-unfit = digits of { $d } bits don't fill a word of { $n }; d can be { $fitting }
