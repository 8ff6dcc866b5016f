#!/usr/bin/env bash
# The page in a real browser: builds what is missing, then runs web/tests. Not part of .ci/run, which needs
# no browser. SKIP_BUILD=1 tests the page that is there.
set -euo pipefail
cd "$(dirname "$0")/.."
if [ -z "${SKIP_BUILD:-}" ]; then bash web/build.sh; fi
cargo build --quiet
cargo test --quiet -p printseam-web
command -v chromium >/dev/null || { apt-get update -qq && apt-get install -y -qq chromium >/dev/null; }
cd web/tests
[ -d node_modules/puppeteer-core ] || npm ci --no-audit --no-fund
npm test
