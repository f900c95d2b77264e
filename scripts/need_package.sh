#!/bin/bash
# Install a Debian package unless one of its commands is there already.
#   need_package.sh PACKAGE 'what it is for' [COMMAND...]
set -euo pipefail

package=$1
purpose=$2
shift 2

for command in "$@"; do
    if command -v "$command" >/dev/null; then
        exit 0
    fi
done

if [ "$(id -u)" = 0 ]; then
    root=()
elif sudo -n true 2>/dev/null; then
    root=(sudo -n)
else
    echo "edgewise needs the package $package for $purpose." >&2
    echo "Install it and run make again:  sudo apt-get install $package" >&2
    exit 1
fi

echo "installing $package for $purpose"
export DEBIAN_FRONTEND=noninteractive
"${root[@]}" apt-get update -qq
"${root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends \
    "$package" </dev/null >/dev/null
