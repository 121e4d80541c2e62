#!/usr/bin/env bash
# The suite on the newest Python of this machine and the newest versions that pyproject.toml allows, in a
# new environment: tests/bench/newest.sh [TESTS AND OPTIONS OF PYTEST]
set -euo pipefail
cd "$(dirname "$0")/../.."
exec python3 -m tests.bench.ends_of_ranges newest "$@"
