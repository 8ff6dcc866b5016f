#!/usr/bin/env bash
# Serves the page made by build.sh on this machine: web/serve.sh [PORT]
set -euo pipefail
cd "$(dirname "$0")"
[ -f out/index.html ] || { echo "no page yet: run web/build.sh first" >&2; exit 2; }
exec python3 serve.py out "${1:-8017}"
