#!/bin/bash
# Make the virtual environment with the first Python 3.11 or newer on this machine.
#   make_venv.sh FOLDER
# PYTHON=/path/to/python chooses another one.
set -euo pipefail

folder=$1
here=$(dirname "$0")

if [ -x "$folder/bin/python" ] && "$folder/bin/python" -m pip --version >/dev/null 2>&1; then
    exit 0
fi

new_enough='import sys; sys.exit(sys.version_info < (3, 11))'
python=
for name in ${PYTHON:-python3 python3.13 python3.12 python3.11}; do
    if "$name" -c "$new_enough" >/dev/null 2>&1; then
        python=$name
        break
    fi
done
if [ -z "$python" ]; then
    echo "edgewise needs Python 3.11 or newer; none was found." >&2
    echo "Install it and run make again:  sudo apt-get install python3 python3-venv" >&2
    exit 1
fi

if ! "$python" -c 'import ensurepip, venv' >/dev/null 2>&1; then
    version=$("$python" -c 'import sys; print("%d.%d" % sys.version_info[:2])')
    bash "$here/need_package.sh" "python$version-venv" 'its virtual environment'
fi
"$python" -m venv --clear "$folder"
