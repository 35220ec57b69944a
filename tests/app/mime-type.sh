#!/usr/bin/env bash
# mime-type.sh MIME-FILE: the desktop knows a pricking by its name, and by what is in it.
set -euo pipefail
folder=$(mktemp -d "${TMPDIR:-/tmp}/pinfold-mime.XXXXXX")
trap 'rm -rf "$folder"' EXIT
export XDG_DATA_HOME=$folder/data HOME=$folder
mkdir -p "$XDG_DATA_HOME/mime/packages"
cp "$1" "$XDG_DATA_HOME/mime/packages/"
update-mime-database "$XDG_DATA_HOME/mime" 2>/dev/null

failed=0
# expect TYPE NAME CONTENT
expect () {
  local found
  printf '%s' "$3" >"$folder/$2"
  found=$(gio info -a standard::content-type "$folder/$2" | sed -n 's/.*content-type: //p')
  [[ $found == "$1" ]] || { echo "$2 is $found, not $1"; failed=1; }
}
expect application/x-pinfold+json leaf.pinfold 'by its name'
expect application/x-pinfold+json without-a-name $'{\n  "format": "pinfold",\n  "version": 1\n}\n'
expect application/json ground.json $'{\n  "format": "pinfold-ground",\n  "version": 1\n}\n'
exit "$failed"
