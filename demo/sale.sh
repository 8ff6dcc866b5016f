#!/bin/sh
# An invented sale, from the first look at a plate to what its kind's own sales teach.
# Run from the folder above: sh demo/sale.sh [BOOK] (PRINTSEAM=path/to/printseam for one that is not installed).
# Every price in it is made up; it keeps its book in a folder of its own, which it removes again, or in the new file BOOK.
set -eu
: "${PRINTSEAM:=printseam}"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
export PRINTSEAM_STOCK="${1:-$folder/stock.db}"
if [ -e "$PRINTSEAM_STOCK" ]; then
    echo "sale.sh: $PRINTSEAM_STOCK is there already; name a new file" >&2
    exit 2
fi
# A day of the invented sale, so that the figures are the same whenever this runs.
export PRINTSEAM_TODAY=2026-11-28

say() { printf '\n== %s\n' "$*"; }
weigh() { "$PRINTSEAM" shelf demo/clouded-plate.ron --asking 12 --condition sound; }
# Adds a plate, sells it, and keeps quiet.
one_more() {
    id=$("$PRINTSEAM" stock add demo/clouded-plate.ron --condition sound --paid "$1" --when 2026-11-01 --channel stall |
        sed -n 's/^Added: \([^ ]*\) .*/\1/p')
    "$PRINTSEAM" stock sold "$id" --for "$2" --on "$3" >"$folder/said"
}

say "A clouded plate at a fair: what is it?"
"$PRINTSEAM" judge demo/clouded-plate.ron
say "12 are asked. Starting guesses are all there is:"
weigh
say "Another one is bought for less, and put on the stall"
"$PRINTSEAM" stock add demo/clouded-plate.ron --condition sound --paid 4 --when 2026-11-01 --asking 45 --channel stall |
    tee "$folder/said"
id=$(sed -n 's/^Added: \([^ ]*\) .*/\1/p' "$folder/said")
say "It sells after nine days"
"$PRINTSEAM" stock sold "$id" --for 45 --on 2026-11-10
say "So do five more"
one_more 5 42 2026-11-14
one_more 4 48 2026-11-17
one_more 6 40 2026-11-20
one_more 5 45 2026-11-22
one_more 4 44 2026-11-27
"$PRINTSEAM" stock list --sold
say "12 are asked for the same plate again. Now own sales speak:"
weigh
