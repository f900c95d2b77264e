#!/bin/bash
# Install what the page's script is made and tested with: node and npm from Debian, and the packages
# that tests/web/package-lock.json pins.
set -euo pipefail

here=$(cd "$(dirname "$0")" && pwd)
bash "$here/need_package.sh" nodejs 'the tests of the page' node nodejs
bash "$here/need_package.sh" npm 'the tests of the page' npm

cd "$here/../tests/web"
npm ci --no-audit --no-fund --ignore-scripts --loglevel=error
