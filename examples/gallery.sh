#!/usr/bin/env bash
# Makes the PNG of each example's page for README.md in this folder; needs pdftoppm.
set -euo pipefail
cd "$(dirname "$0")/.."
pages=$(mktemp -d)
trap 'rm -rf "$pages"' EXIT
go run ./cmd/gaugesheet draw examples/*.yaml -o "$pages/"
go run ./cmd/gaugesheet blank V8 -o "$pages/bench-sheet-v8.pdf"
for page in "$pages"/*.pdf; do
	name=$(basename "$page" .pdf)
	pdftoppm -r 80 -png -singlefile "$page" "examples/$name"
done
