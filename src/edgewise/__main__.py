"""``python -m edgewise`` runs the command line."""

from edgewise.cli import main

main()
