#!/bin/sh
# Opens this notebook in the browser, to be written in. Begun by double click, or with: sh "Open the bench.sh"
# It looks for Benchlore. Where there is none it makes a place of its own for it outside this folder, from the file
# benchlore-….whl that lies beside it. Nothing is ever fetched by name alone.
cd "$(dirname "$0")" || exit 1
case $(uname -s) in
  Darwin) own="$HOME/Library/Application Support/benchlore" ;;
  *) own="${XDG_DATA_HOME:-$HOME/.local/share}/benchlore" ;;
esac

stay() {  # the window would close before anybody has read why
  printf '%s\n' "$1"
  printf 'Press Enter to close this window. '
  read -r _
  exit 1
}

open_with() {
  "$1" bench --open || stay "The bench did not open. What it said stands above."
  exit 0
}

for one in "$own/env/bin/benchlore" "$(command -v benchlore)"; do
  if [ -n "$one" ] && "$one" --version >/dev/null 2>&1; then open_with "$one"; fi
done

wheel=
for one in benchlore-*.whl; do [ -e "$one" ] && wheel=$one; done
[ -n "$wheel" ] || stay "Benchlore is not on this computer. Put its file, benchlore-….whl, into this folder and begin again."

python=
for one in python3 python3.13 python3.12 python3.11; do
  if "$one" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1; then python=$one; break; fi
done
[ -n "$python" ] || stay "Python 3.11 or later is not on this computer. Get it from python.org and begin again."

printf '%s\n' "Benchlore is made ready. This is done once and takes a minute or two."
mkdir -p "$own" && "$python" -m venv "$own/env" ||
  stay "No place could be made for Benchlore in $own. Is the disk full? On Debian the package python3-venv may be missing."
"$own/env/bin/python" -m pip install --quiet --disable-pip-version-check --find-links . "$wheel" ||
  stay "Benchlore could not be made ready: what it needs was not to be had. Is there a network? Begin again when there is."
open_with "$own/env/bin/benchlore"
