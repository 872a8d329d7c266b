#!/usr/bin/env bash
# Walks through the screens by keyboard alone, in a real terminal, and looks at what stands there:
# first run, Explore, one listening and one play-along exercise, quit; then how it behaves where it cannot or must not run on.
#   bash tests/tools/tui-walk.sh [PROGRAM]
# Needs tmux. With BRASSVOX_SOUND_SERVER=1 (inside with-sound-server.sh) and paplay it also plays a take into the microphone.
# Keeps the captured screens in the folder named by BRASSVOX_SCREENS, if set. The last line is "N passed, N failed".
set -u
cd "$(dirname "$0")/../.." || exit 1
program=${1:-$PWD/src/BrassVox.App/bin/Debug/net10.0/brassvox}
work=$(mktemp -d)
screens=${BRASSVOX_SCREENS:-$work/screens}
mkdir -p "$screens"
terminal() { tmux -L "brassvox-walk-$$" -f /dev/null "$@"; }
trap 'terminal kill-server 2>/dev/null; rm -rf "$work"' EXIT
passed=0 failed=0

check() { # what, 0 or not
  if [ "$2" -eq 0 ]; then
    passed=$((passed + 1))
  else
    failed=$((failed + 1)); echo "FAILED  $walk: $1"; terminal capture-pane -t walk -p | sed 's/^/        |/'
  fi
}

begin() { # columns, rows, environment...
  local columns=$1 rows=$2
  shift 2
  terminal kill-server 2>/dev/null
  while terminal list-sessions >/dev/null 2>&1; do sleep 0.1; done
  sleep 0.2
  terminal new-session -d -s walk -x "$columns" -y "$rows" \
    "stty -g >$work/before; env LC_ALL=C.UTF-8 TERM=tmux-256color BRASSVOX_DATA=$work/data $* '$program' $arguments 2>$work/errors; echo \$? >$work/exit; stty -g >$work/after; sleep 600"
}

shown() { terminal capture-pane -t walk -p; }

sees() { # text: waits up to 20 s until the screen holds it
  for _ in $(seq 200); do
    shown | grep -qF -- "$1" && { check "sees $1" 0; return; }
    sleep 0.1
  done
  check "sees $1" 1
}

lacks() { ! shown | grep -qF -- "$1"; check "lacks $1" $?; }

keys() { # key...: a pause after Esc, which terminals hold back
  for key in "$@"; do
    terminal send-keys -t walk "$key"
    case $key in Escape) sleep 0.6 ;; *) sleep 0.15 ;; esac
  done
}

keep() { shown >"$screens/$walk-$1.txt"; }

ascii_only() { ! shown | LC_ALL=C grep -q '[^ -~]'; check "only 0x20 to 0x7E" $?; }

ends_with() { # exit code: waits up to 10 s; the terminal's modes are as they were, nothing was written beside the screens
  for _ in $(seq 100); do
    [ -s "$work/after" ] && break
    sleep 0.1
  done
  [ "$(cat "$work/exit" 2>/dev/null)" = "$1" ]; check "exit code $1, not $(cat "$work/exit" 2>/dev/null)" $?
  cmp -s "$work/before" "$work/after"; check "terminal modes restored" $?
  [ ! -s "$work/errors" ]; check "nothing on stderr: $(head -c 300 "$work/errors" 2>/dev/null)" $?
  rm -f "$work/exit" "$work/after" "$work/before"
}

first_run_to_start() {
  sees "WELCOME"
  lacks "opening"
  keep welcome
  keys Enter Down Down Down Down Enter
  sees "START"
  sees "Nothing sounds until Enter"
  keep start
}

explore() {
  keys 1
  sees "EXPLORE"
  sees "fifth 700.0 c (just 702.0)"
  sees "beats 0.2 /s: 3 of P with 2 of S"
  keep explore-silent
  keys Enter
  sleep 1
  keep explore-sounding
  keys c c e s Right . a
  sees "separate"
  sees "just A4 440"
  sees "+6 c sung"
  keys n B b 2 Space C 3 Enter
  sees "whole tone 203.9 c (equal 200.0)"
  keys h
  sees "KEYS"
  keep keys
  keys Escape Space
  sees "EXPLORE"
  lacks "))"
  keys Escape
  sees "START"
}

listen() {
  keys 2
  sees "LISTEN"
  sees "Count the beats"
  keep listen-choosing
  keys 4 Enter
  sees "trial 1 of"
  keys Enter
  sleep 0.8
  for _ in 1 2 3 4 5 6 7 8; do keys Enter; sleep 0.35; done
  sees "/s it was (Enter)"
  keys Enter
  sees "You:"
  sees "It was:"
  keep listen-answered
  keys Escape Escape
  sees "START"
}

play_along() { # sound file to play into the microphone, or nothing
  keys 3
  sees "PLAY ALONG"
  keep play-choosing
  keys 1 4 Enter
  sees "then it is dark"
  [ -n "${1:-}" ] && sees "Microphone:"
  keys Enter
  sees "BEGIN IN"
  keep play-cue
  if [ -n "${1:-}" ]; then
    sees "SECONDS LEFT"
    paplay --device=brassvox "$1" &
  fi
  sees "dark"
  keep play-dark
  sees "finish the sentence"
  keep play-sentence
  keys Right Enter Right Enter Enter Enter Enter
  sees "NEXT"
  keep play-reveal
  if [ -n "${1:-}" ]; then
    sees "you said true: yes"
  else
    sees "not told"
  fi
  keys Escape Escape
  sees "START"
}

look_back() {
  keys 5
  sees "TAKES"
  sees "1 kept here"
  keep takes
  keys Escape 8
  sees "SET-UP"
  sees "1 SPEAKER"
  keep set-up
  keys Escape
  sees "START"
}

stage() {
  keys 7
  sees "9 scenes"
  keep stage-choosing
  keys PageDown
  sees "1 of 9"
  keys 2
  sees "2 of 9"
  sees "MADE  S-P  Bb1"
  keep stage-fifth
  keys Tab
  sees "Spotlight on P"
  keys b
  lacks "MADE"
  keys b Space
  sees "tacet"
  keys Escape
  sees "START"
}

leave() {
  keys q
  ends_with 0
}

arguments=""
for size in 80x24 200x60; do
  walk="no-sound-$size"
  rm -rf "$work/data"
  begin "${size%x*}" "${size#*x}" ALSA_CONFIG_PATH=/dev/null PULSE_SERVER=unix:/nonexistent
  sees "no sound"
  first_run_to_start
  explore
  listen
  play_along
  look_back
  stage
  leave
done

walk="ascii-by-locale"
rm -rf "$work/data"
begin 80 24 LC_ALL=C ALSA_CONFIG_PATH=/dev/null PULSE_SERVER=unix:/nonexistent
sees "WELCOME"
ascii_only
keys Escape 1
sees "minus ======rS-P"
ascii_only
keep explore
keys Escape q
ends_with 0

walk="second-run-remembers-linux-console"
begin 80 24 TERM=linux NO_COLOR=1 ALSA_CONFIG_PATH=/dev/null PULSE_SERVER=unix:/nonexistent
sees "START"
ascii_only
keys t
sees "there is one theme, none"
keys q
ends_with 0

walk="small-window"
begin 60 20 ALSA_CONFIG_PATH=/dev/null PULSE_SERVER=unix:/nonexistent
sees "wants 80x24"
terminal resize-window -t walk -x 80 -y 24
sees "START"
for size in 20x5 3x1 1x1 200x60 80x24; do
  terminal resize-window -t walk -x "${size%x*}" -y "${size#*x}"
  sleep 0.1
done
sees "START"
keys C-c
ends_with 130

walk="sigterm"
begin 80 24 ALSA_CONFIG_PATH=/dev/null PULSE_SERVER=unix:/nonexistent
sees "START"
keys 1 Enter
kill -TERM "$(pgrep -n -f "^$program")"
ends_with 143

walk="suspended-and-resumed"
begin 80 24 ALSA_CONFIG_PATH=/dev/null PULSE_SERVER=unix:/nonexistent
sees "START"
keys 1 Enter C-z
sleep 0.5
kill -CONT "$(pgrep -n -f "^$program")"
sees "Back from the shell. Tacet"
keys Escape q
ends_with 0

walk="sighup-while-sounding"
begin 80 24 ALSA_CONFIG_PATH=/dev/null PULSE_SERVER=unix:/nonexistent
sees "START"
keys 1 Enter
kill -HUP "$(pgrep -n -f "^$program")"
ends_with 129

walk="terminal-gone"
begin 80 24 ALSA_CONFIG_PATH=/dev/null PULSE_SERVER=unix:/nonexistent
sees "START"
keys 1 Enter
left=$(pgrep -n -f "^$program")
terminal kill-server
for _ in $(seq 100); do kill -0 "$left" 2>/dev/null || break; sleep 0.1; done
! kill -0 "$left" 2>/dev/null; check "the program ends with its terminal" $?

walk="plain"
arguments="--plain"
begin 120 40 ALSA_CONFIG_PATH=/dev/null PULSE_SERVER=unix:/nonexistent
sees "Start. Nothing sounds until Enter."
keys 1
sees "P B-flat 1, S F 2, fifth 700.0 cents (just 702.0)"
keys Enter Right
sees "S plus 5 cents. beats 0.3 per second: 3 of P with 2 of S."
keys Space
sees "tacet."
keep explore
keys Escape q
ends_with 0
arguments=""

walk="no-terminal"
"$program" </dev/null >"$work/out" 2>"$work/err"
code=$?
[ "$code" -ne 0 ] && [ "$(wc -l <"$work/err")" -eq 1 ] && [ ! -s "$work/out" ]
check "stdout not a terminal: one line on stderr and a code that is not 0 ($code)" $?
! LC_ALL=C grep -q "$(printf '\033')" "$work/err" "$work/out"
check "no escape codes in redirected output" $?

if [ "${BRASSVOX_SOUND_SERVER:-}" = 1 ]; then
  "$program" render Bb1 F2 --seconds 12 --detune-sung 3 --output "$work/player.wav" >/dev/null
  walk="with-sound"
  # A player with headphones: what the program plays goes into a sink of its own, the microphone hears only the player.
  pactl load-module module-null-sink sink_name=headphones rate=48000 channels=2 format=float32le norewinds=1 >/dev/null &&
    pactl set-default-sink headphones
  check "headphones are there" $?
  rm -rf "$work/data"
  begin 80 24
  sees "tacet  -36 dB"
  first_run_to_start
  explore
  listen
  play_along "$work/player.wav"
  look_back
  stage
  leave
  ls "$work"/data/takes/*.wav >/dev/null 2>&1
  check "the take is kept" $?
fi

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
