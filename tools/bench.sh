#!/usr/bin/env bash
# Runs benchmarks six times and shows what benchstat makes of them; with a file
# of earlier figures, what has changed.
#
#   tools/bench.sh [-o save.txt] [-c earlier.txt] [package ...]
#
# RILLWRIGHT_BENCH picks the benchmarks by name (a regular expression).
set -euo pipefail

usage() { echo "usage: tools/bench.sh [-o save.txt] [-c earlier.txt] [package ...]" >&2 && exit 2; }

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
save=$work/new.txt
earlier=
while getopts o:c: flag; do
  case $flag in
    o) save=$OPTARG ;;
    c) earlier=$OPTARG ;;
    *) usage ;;
  esac
done
shift $((OPTIND - 1))
[ $# -gt 0 ] || set -- ./...
[ -z "$earlier" ] || [ -r "$earlier" ] || usage

modfile=$(dirname "$0")/go.mod
go test -run='^$' -bench="${RILLWRIGHT_BENCH:-.}" -benchmem -count=6 "$@" | tee "$save" >&2
go tool -modfile="$modfile" benchstat ${earlier:+"$earlier"} "$save"
