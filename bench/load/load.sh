#!/usr/bin/env bash
# The server under many clients at once, while slow clients drip their requests a byte at a
# time and never end; then on the network under a flood of guesses at the pairing code. Says
# requests, errors, latencies and the server's memory, and fails on any answer that is no
# 200, a connection that broke, a guess that was let in, or memory without a bound.
# Usage: bench/load/load.sh [PROGRAM] [SECONDS] [CLIENTS]   (needs wrk)
set -euo pipefail
cd "$(dirname "$0")/../.."
program=${1:-build/release/maslin}
seconds=${2:-60}
clients=${3:-200}
most_mb=512
work=$(mktemp -d)
server= slow=()
trap 'kill $server "${slow[@]}" 2>/dev/null; wait 2>/dev/null; rm -rf "$work"' EXIT
failed=0
fails() {
  echo "FAILED: $*"
  failed=1
}

# Starts the program as a server with these further words, and sets server and port.
start() {
  : >"$work/log"
  "$program" serve --port 0 --store "$work/store.sqlite" "$@" >"$work/log" 2>&1 &
  server=$!
  for _ in $(seq 200); do
    port=$(grep -oE 'http://127\.0\.0\.1:[0-9]+' "$work/log" | head -1 | grep -oE '[0-9]+$' || true)
    [ -n "$port" ] && return 0
    sleep 0.05
  done
  cat "$work/log"
  exit 1
}
stop() {
  kill "$server"
  wait "$server" || true
}
memory() { awk '/^VmRSS|^VmHWM/ { printf "%s %d MB  ", $1, $2 / 1024 }' "/proc/$server/status"; }
peak_mb() { awk '/^VmHWM/ { print int($2 / 1024) }' "/proc/$server/status"; }
# What wrk said of one kind: "not 200: 3" gives 3.
said() { grep -oE "$1:? [0-9.]+" <<<"$2" | head -1 | grep -oE '[0-9.]+$'; }

# What is kept over and over by those who edit.
export LOAD_RECIPE=$work/recipe.json
printf '%s\n' 'Milk buns' '' '500 g plain flour' '300 ml milk' '7 g instant yeast' '8 g salt' '' 'Knead. Leave to rise until doubled. Bake at 190C for 15 minutes.' |
  "$program" read - --json >"$LOAD_RECIPE"
start
echo "mixed reads, edits and forecasts, $clients clients, $seconds s; 20 slow clients beside them"
echo "before: $(memory)"
# Slow clients: they must be closed, and nobody else may notice.
for _ in $(seq 20); do
  (
    exec 3<>"/dev/tcp/127.0.0.1/$port"
    while printf G >&3; do sleep 1; done
  ) >/dev/null 2>&1 &
  slow+=($!)
done
answer=$(wrk --latency -t 2 -c "$clients" -d "${seconds}s" --timeout 30s -s bench/load/mixed.lua "http://127.0.0.1:$port" | tail -1)
echo "$answer"
echo "after:  $(memory)"
[ "$(said 'not 200' "$answer")" = 0 ] || fails "answers that are no 200"
[ "$(said 'socket errors' "$answer")" = 0 ] || fails "connections broke"
[ "$(peak_mb)" -le "$most_mb" ] || fails "more than $most_mb MB"
left=0
for one in "${slow[@]}"; do kill -0 "$one" 2>/dev/null && left=$((left + 1)); done
[ "$seconds" -lt 15 ] || [ "$left" = 0 ] || fails "$left slow clients are still connected"
stop

lan=$(hostname -I 2>/dev/null | tr ' ' '\n' | grep -E '^[0-9.]+$' | head -1 || true)
if [ -z "$lan" ]; then
  echo "no network here: the flood of guesses is left out"
  exit $failed
fi
start --lan
echo "guesses at the pairing code from 50 clients, 4 others at work beside them, 10 s"
wrk -t 1 -c 50 -d 10s --timeout 30s -s bench/load/guesses.lua "http://$lan:$port" | tail -1 >"$work/guesses" &
guessing=$!
beside=$(wrk --latency -t 1 -c 4 -d 8s --timeout 30s -s bench/load/mixed.lua "http://127.0.0.1:$port" | tail -1)
wait "$guessing"
cat "$work/guesses"
echo "beside: $beside"
echo "after:  $(memory)"
[ "$(said 'let in' "$(cat "$work/guesses")")" = 0 ] || fails "a guess was let in"
[ "$(said 'not 200' "$beside")" = 0 ] && [ "$(said 'socket errors' "$beside")" = 0 ] || fails "others were kept from working"
[ "$(peak_mb)" -le "$most_mb" ] || fails "more than $most_mb MB"
kill -0 "$server"
stop
exit $failed
