#!/usr/bin/env bash
# The suite on the lowest Python and the lowest versions that pyproject.toml names, in a new environment:
# tests/bench/oldest.sh [TESTS AND OPTIONS OF PYTEST]
set -euo pipefail
cd "$(dirname "$0")/../.."
exec python3 -m tests.bench.ends_of_ranges oldest "$@"
