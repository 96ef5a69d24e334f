#!/usr/bin/env bash
# Makes the picture of each example's page for README.md in this folder.
set -euo pipefail
cd "$(dirname "$0")/.."
go run ./cmd/gaugesheet draw examples/*.yaml --picture --force -o examples/
go run ./cmd/gaugesheet blank V8 --force -o examples/bench-sheet-v8.png
