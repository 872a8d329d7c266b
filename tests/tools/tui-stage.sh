#!/usr/bin/env bash
# The nine scenes of Stage in a real terminal, on a private sound server, while what sounds is recorded and measured apart.
#   bash tests/tools/with-sound-server.sh bash tests/tools/tui-stage.sh [PROGRAM]
# Then the program is killed on stage and begun again. Needs tmux, pulseaudio-utils, python3 with numpy.
set -u
cd "$(dirname "$0")/../.." || exit 1
program=${1:-$PWD/src/BrassVox.App/bin/Debug/net10.0/brassvox}
work=$(mktemp -d)
terminal() { tmux -L "brassvox-stage-$$" -f /dev/null "$@"; }
recorder= watcher=
trap '[ -n "$recorder" ] && kill "$recorder" 2>/dev/null; [ -n "$watcher" ] && kill "$watcher" 2>/dev/null; terminal kill-server 2>/dev/null; rm -rf "$work"' EXIT
fail() { echo "FAILED  $1"; terminal capture-pane -t stage -p | sed 's/^/        |/'; exit 1; }
shown() { terminal capture-pane -t stage -p; }
sees() { for _ in $(seq 300); do shown | grep -qF -- "$1" && return; sleep 0.05; done; fail "sees $1"; }
begin() {
  terminal kill-server 2>/dev/null
  sleep 0.3
  rm -f "$work/exit"
  terminal new-session -d -s stage -x 80 -y 24 \
    "env LC_ALL=C.UTF-8 TERM=tmux-256color BRASSVOX_DATA=$work/data '$program' 2>$work/errors; echo \$? >$work/exit; sleep 600"
}

begin
sees WELCOME
terminal send-keys -t stage Escape
sleep 0.6
sees START
for _ in 1 2 3 4; do terminal send-keys -t stage +; sleep 0.6; done
terminal send-keys -t stage 7
sees "9 scenes"
# Latency asked for by name: without it the server hands on what it has seconds late.
parec --device=brassvox.monitor --rate=48000 --channels=1 --format=float32le --raw --latency-msec=10 >"$work/sound.raw" &
recorder=$!
/usr/bin/python3 tests/tools/stillness.py 21 >"$work/still" &
watcher=$!
sleep 1
: >"$work/keys"
for scene in 1 2 3 4 5 6 7 8 9; do
  # Where the recording stands as the key goes out: 4 bytes a sample.
  stat -c "$scene %s" "$work/sound.raw" >>"$work/keys"
  if [ "$scene" = 1 ]; then terminal send-keys -t stage PageDown; else terminal send-keys -t stage "$scene"; fi
  sees "$scene of 9"
  [ -n "${BRASSVOX_SCREENS:-}" ] && { sleep 1; shown >"$BRASSVOX_SCREENS/stage-$scene.txt"; }
  case $scene in 6) sleep 16 ;; 7) sleep 14 ;; *) sleep 3 ;; esac
done
stat -c "tacet %s" "$work/sound.raw" >>"$work/keys"
terminal send-keys -t stage Space
sleep 1
kill "$recorder"; wait "$recorder" 2>/dev/null; recorder=
kill "$watcher"; wait "$watcher" 2>/dev/null; watcher=
read -r times longest how <"$work/still"
heard="the nine scenes sound as they should"
if ! /usr/bin/python3 tests/tools/check_stage.py "$work/sound.raw" "$work/keys"; then
  [ "$times" -gt 0 ] && [ "$how" = ahead ] && [ "${BRASSVOX_TRIES_LEFT:-1}" -eq 0 ] || fail "the scenes as measured; the machine stood still $times times, longest $longest ms"
  heard="the nine scenes were shown"
  echo "skipped the scenes as measured: the machine itself stood still $times times, longest $longest ms, the buffer lasts 21"
fi

terminal send-keys -t stage 4
sees "4 of 9"
kill -KILL "$(pgrep -n -f "^$program")"
sleep 0.5
begin
sees "▸ 4 Whole tone  PgUp"
shown | head -1 | grep -q tacet || fail "tacet after a kill"
terminal send-keys -t stage Escape
sleep 0.6
sees START
terminal send-keys -t stage q
for _ in $(seq 100); do [ -s "$work/exit" ] && break; sleep 0.1; done
[ "$(cat "$work/exit")" = 0 ] || fail "ends with 0"
echo "$heard; a kill on stage loses nothing"
