#!/usr/bin/env bash
# Both archives, made and used as a user would: tests/bench/packed.sh
# The sdist holds every file of the project, the wheel all that the package reads, neither makes
# setuptools speak, also the oldest that pyproject.toml allows; each is installed in a new environment,
# does its work from another folder, and goes without a trace.
set -euo pipefail
cd "$(dirname "$0")/../.."
unset PYTHONDONTWRITEBYTECODE # a user's Python writes it, and pip has to take it away
python=$(python3 -c 'import sys; print(sys.executable)')
home=$(mktemp -d)
trap 'rm -rf "$home"' EXIT
export PIP_CACHE_DIR=${PIP_CACHE_DIR:-${XDG_CACHE_HOME:-$HOME/.cache}/pip}
export HOME=$home/user XDG_CACHE_HOME=$home/user/.cache
mkdir -p "$home/tree" "$HOME"
fail() { echo "FAIL: $*" >&2; exit 1; }
said() { grep -iE 'warn|deprecat|\*{10}' "$1" || true; }

if git rev-parse --git-dir >/dev/null 2>&1; then # uncommitted work too
  git ls-files -co --exclude-standard >"$home/names"
else
  find . -type f -not -path '*/.venv/*' -not -path '*/__pycache__/*' -printf '%P\n' >"$home/names"
fi
LC_ALL=C sort -o "$home/names" "$home/names"
tar c -T "$home/names" | tar x -C "$home/tree"

echo "== archives"
"$python" -m venv "$home/tools"
least=$(sed -n 's/^requires = \["setuptools>=\([0-9.]*\)"\]$/\1/p' pyproject.toml)
"$home/tools/bin/pip" install -q build "setuptools==$least"
"$home/tools/bin/python" -m build -o "$home/new" "$home/tree" >"$home/new.log" 2>&1 || { cat "$home/new.log"; fail build; }
"$home/tools/bin/python" -m build -n -o "$home/old" "$home/tree" >"$home/old.log" 2>&1 || { cat "$home/old.log"; fail "build by setuptools $least"; }
[ -z "$(said "$home/new.log")" ] || fail "setuptools says: $(said "$home/new.log")"
[ -z "$(said "$home/old.log")" ] || fail "setuptools $least says: $(said "$home/old.log")"
sdist=$(echo "$home"/new/*.tar.gz) wheel=$(echo "$home"/new/*.whl)

tar tzf "$sdist" | sed 's,^[^/]*/,,' | LC_ALL=C sort >"$home/packed"
lost=$(LC_ALL=C comm -23 "$home/names" "$home/packed")
[ -z "$lost" ] || fail "not in the sdist: $lost"
list() { "$python" -m zipfile -l "$1" | awk 'NR > 1 {print $1}' | LC_ALL=C sort; }
list "$wheel" >"$home/in-wheel"
diff "$home/in-wheel" <(list "$home"/old/*.whl) || fail "setuptools $least makes another wheel"
sed -nE 's,^cli/front/,platewheel/,p; t; s,^(parts|nesting|cli)/,platewheel/&,p' "$home/names" | LC_ALL=C sort >"$home/asked"
diff "$home/asked" <(grep -v dist-info "$home/in-wheel") || fail "< in the folders alone, > in the wheel alone"
echo "sdist $(wc -l <"$home/packed") names, wheel $(wc -l <"$home/in-wheel")"

use() { # NAME ARCHIVE: installed, used from another folder, taken away
  echo "== $1"
  local venv=$home/$1 bin=$home/$1/bin code=0
  "$python" -m venv "$venv"
  "$bin/pip" install -q "$2"
  mkdir "$home/$1-work" && cd "$home/$1-work"
  "$bin/platewheel" --help >help.txt
  "$bin/platewheel" new mine.toml
  "$bin/platewheel" check mine.toml --quick >check.txt || code=$?
  [ $code -le 1 ] || fail "check ended with $code"
  "$bin/platewheel" demo >demo.txt
  for made in job-sheet.pdf job-sheet.html plates.pdf calculation.pdf report.json solids/wheel.step; do
    test -s "out/oyster-tramway/$made" || fail "the demo has no $made"
  done
  "$bin/platewheel" nest mine.toml --effort normal >nest.txt # compiles
  cd - >/dev/null
  "$bin/pip" uninstall -q -y platewheel
  local left
  left=$(find "$venv" -iname '*platewheel*')
  [ -z "$left" ] || fail "left behind: $left $(find $left -type f | head)"
  left=$(find "$HOME" -path "$XDG_CACHE_HOME/platewheel" -prune -o -iname '*platewheel*' -print)
  [ -z "$left" ] || fail "left in the user's folder: $left"
  test -d "$XDG_CACHE_HOME/platewheel" || fail "compiled code is not where README says"
}
use from-wheel "$wheel"
use from-sdist "$sdist"

echo "== the project's own rules in an unpacked sdist"
"$home/from-sdist/bin/pip" install -q pytest pytest-xdist hypothesis
mkdir "$home/unpacked" && tar xzf "$sdist" -C "$home/unpacked" --strip-components 1
cd "$home/unpacked"
"$home/from-sdist/bin/pip" install -q -e .
"$home/from-sdist/bin/pytest" -n 0 tests/project
echo "packed: sound"
