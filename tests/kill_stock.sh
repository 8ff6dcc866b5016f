#!/usr/bin/env bash
# The stock book under more violence than an everyday test run has time for: 240 runs, some two hundred killed in the middle
# of writes, or as many as named, then a disk that really runs full. Needs Linux with user namespaces
# (`unshare`) or root for the disk.
#
#   tests/kill_stock.sh [RUNS]
set -euo pipefail
cd "$(dirname "$0")/.."

STOCK_KILLS="${1:-240}" cargo test --test it stock_kill::no_acknowledged -- --nocapture

program="$(pwd)/target/debug/printseam"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cat > "$work/full.sh" <<'INSIDE'
set -euo pipefail
mkdir "$2/disk"
mount -t tmpfs -o size=400k tmpfs "$2/disk"
book="$2/disk/stock.db"
known=()
# One piece after another until there is no room; then every one that was acknowledged must be there.
for n in $(seq 1 2000); do
    if said=$("$1" stock --stock "$book" add --json --title "piece $n" --remark "$(printf 'x%.0s' $(seq 1 2000))" 2> "$2/error"); then
        known+=("$(printf '%s' "$said" | sed 's/.*"id":"\([^"]*\)".*/\1/')")
    else
        break
    fi
done
echo "${#known[@]} pieces acknowledged before the disk was full; then: $(cat "$2/error")"
[ "$(wc -l < "$2/error")" -eq 1 ]
# A book can be read on a full disk.
"$1" stock --stock "$book" export - > "$2/all.csv"
for id in "${known[@]}"; do grep -q "^$id," "$2/all.csv"; done
[ "$(grep -c '^[0-9a-z]\{10\},' "$2/all.csv")" -eq "${#known[@]}" ]
umount "$2/disk"
INSIDE
export XDG_CONFIG_HOME=/nonexistent
if [ "$(id -u)" -eq 0 ]; then
    bash "$work/full.sh" "$program" "$work"
else
    unshare --user --map-root-user --mount bash "$work/full.sh" "$program" "$work"
fi
echo "full disk: no acknowledged piece lost"
