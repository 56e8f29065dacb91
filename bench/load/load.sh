#!/usr/bin/env bash
# The server under many clients at once, with one client that sends its request a byte at
# a time and never ends. Says requests, errors, latencies and the server's memory before
# and after. Usage: bench/load/load.sh [PROGRAM] [SECONDS] [CLIENTS]   (needs wrk)
set -euo pipefail
cd "$(dirname "$0")/../.."
program=${1:-build/release/maslin}
seconds=${2:-60}
clients=${3:-200}
log=$(mktemp)
"$program" serve --port 0 >"$log" 2>&1 &
server=$!
slow=
trap 'kill $server $slow 2>/dev/null; wait 2>/dev/null; rm -f "$log"' EXIT
for _ in $(seq 100); do
  address=$(grep -oE 'http://127\.0\.0\.1:[0-9]+' "$log" | head -1) && break
  sleep 0.05
done
port=${address##*:}
memory() { awk '/^VmRSS|^VmHWM/ { printf "%s %d MB  ", $1, $2 / 1024 }' "/proc/$server/status"; }
echo "before: $(memory)"
# A client that dawdles: it must be closed, and nobody else may notice.
(
  exec 3<>"/dev/tcp/127.0.0.1/$port"
  for letter in G E T ' ' / ' ' H T T P; do printf '%s' "$letter" >&3; sleep 2; done
  cat <&3
) >/dev/null 2>&1 &
slow=$!
wrk --latency -t 2 -c "$clients" -d "${seconds}s" --timeout 30s -s bench/load/mixed.lua "$address" | tail -1
echo "after:  $(memory)"
kill -0 $server
