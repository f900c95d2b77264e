"""``python -m edgewise`` runs the command line."""

from edgewise.cli import main

if __name__ == "__main__":
    main()
