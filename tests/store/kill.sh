#!/usr/bin/env bash
# Kills maslin at random moments while it makes a store and writes notes and pictures, from the
# terminal and as a server, and holds it to its word: a note that was answered is there
# afterwards, and the store is sound. Without node no server is killed.
# Usage: tests/store/kill.sh MASLIN KILLS [SEED]
set -uo pipefail
maslin=$(realpath "${1:?usage: tests/store/kill.sh MASLIN KILLS [SEED]}")
kills=${2:?usage: tests/store/kill.sh MASLIN KILLS [SEED]}
RANDOM=${3:-$$}
here=$(realpath "$(dirname "$0")")
picture=$here/pictures/bun.jpg

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
store=$work/store.sqlite
cat >buns.txt <<'TEXT'
Buns

500 g plain flour
300 ml milk
7 g instant yeast
8 g salt

Knead 10 minutes. Leave to rise until doubled. Bake at 190C for 20 minutes.
TEXT

lost=0 unsound=0 answered=0 struck=0 servers=0

# Up to a quarter of a second, so that kills fall into starting, writing and closing.
pause() { sleep "0.$(printf '%03d' $((RANDOM % 250)))"; }

# Kills a process group of ours that is still running.
strike() {
  kill -9 -- "-$1" 2>/dev/null && struck=$((struck + 1))
  wait "$1" 2>/dev/null
}

# Whether every note answered in this round is in the trial, and the store sound.
verify() {
  local round=$1 trial=$2 missing
  # A last line that was cut off by the kill was never read as an answer.
  sed -n '/}$/p' answers | grep -o "\"text\":\"r${round}n[0-9]* " | grep -o 'r[0-9]*n[0-9]*' | sort -u >told
  "$maslin" trial show "$trial" --json --store "$store" | grep -o 'r[0-9]*n[0-9]*' | sort -u >kept
  missing=$(comm -23 told kept)
  answered=$((answered + $(wc -l <told)))
  if [ -n "$missing" ]; then
    echo "round $round: answered and lost: $missing"
    lost=$((lost + $(wc -l <<<"$missing")))
  fi
  sound "$store" || echo "round $round: the store is unsound"
}

sound() {
  "$maslin" library check --store "$1" >/dev/null || { unsound=$((unsound + 1)); return 1; }
}

# Notes from one program that stays, as fast as the disk takes them.
stream() {
  setsid "$maslin" trial note "$2" - --json --store "$store" \
    < <(awk -v r="$1" 'BEGIN { for (i = 1; ; ++i) print "r" r "n" i " doubled at 48 min, tacky" }' 2>/dev/null) \
    >answers 2>/dev/null &
  pause
  strike $!
}

# One program a note, each with a picture of its own.
one_by_one() {
  setsid bash -c 'for ((i = 1; ; ++i)); do
    cp "$4" photo.jpg
    "$0" trial note "$2" "r$1n$i core 96" --picture photo.jpg --no-forecast --json --store "$3" >>answers || exit
  done' "$maslin" "$1" "$2" "$store" "$picture" 2>/dev/null &
  pause
  pause
  strike $!
}

# Notes over the wire: one request a note, or the whole bake each time. A kill may fall before
# the server listens.
served() {
  local client port=
  rm -f trial
  : >serving
  setsid "$maslin" serve --port 0 --store "$store" >serving 2>&1 &
  local server=$!
  if [ $((RANDOM % 8)) = 0 ]; then
    sleep "0.$(printf '%03d' $((RANDOM % 120)))"
  else
    for _ in $(seq 500); do
      port=$(grep -oE '127\.0\.0\.1:[0-9]+' serving | head -1)
      [ -n "$port" ] && break
      sleep 0.02
    done
    node "$here/server_notes.mjs" "${port##*:}" "$1" "$2" 2>refused &
    client=$!
    pause
    pause
    pause
  fi
  strike $server
  servers=$((servers + 1))
  if [ -n "${client:-}" ] && ! wait "$client"; then
    echo "round $1: refused: $(cat refused)"
    lost=$((lost + 1))
  fi
}

# The birth of a store, which a kill may leave unborn but not crippled.
birth() {
  local new=$work/new$1.sqlite
  setsid "$maslin" trial start buns.txt --json --store "$new" >born 2>/dev/null &
  sleep "0.$(printf '%03d' $((RANDOM % 80)))"
  strike $!
  sound "$new" || echo "round $1: a store killed at its birth is unsound"
  if [ -s born ] && ! "$maslin" trial show 1 --store "$new" >/dev/null; then
    echo "round $1: a trial was answered and lost"
    lost=$((lost + 1))
  fi
  rm -f "$new"*
}

for ((round = 1; struck < kills; ++round)); do
  : >answers
  if [ $((round % 5)) = 4 ]; then
    birth "$round"
    continue
  fi
  if [ $((round % 5)) -ge 2 ] && command -v node >/dev/null; then
    served "$round" "$([ $((round % 5)) = 2 ] && echo notes || echo baked)"
    if [ -s trial ]; then verify "$round" "$(cat trial)"; else sound "$store" || echo "round $round: the store is unsound"; fi
    continue
  fi
  [ "$round" -gt $((20 * kills + 100)) ] && { echo "the kills come too late to strike"; exit 1; }
  trial=$("$maslin" trial start buns.txt --json --store "$store" | grep -o '^{"trial":[0-9]*' | grep -o '[0-9]*$')
  if [ -z "$trial" ]; then
    echo "round $round: no trial could be started after the kill before"
    exit 1
  fi
  if [ $((round % 5)) = 0 ]; then one_by_one "$round" "$trial"; else stream "$round" "$trial"; fi
  verify "$round" "$trial"
done

echo "$((round - 1)) rounds, $struck kills of a running program, $servers of them of a server, $answered notes answered, $lost lost, $unsound times unsound"
[ "$lost" = 0 ] && [ "$unsound" = 0 ] && [ "$answered" -gt 0 ]
