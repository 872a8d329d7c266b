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
  for _ in $(seq 100); do
    terminal kill-server 2>/dev/null
    terminal list-sessions >/dev/null 2>&1 || break
    sleep 0.1
  done
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
  local key before
  for key in "$@"; do
    before=$(shown)
    terminal send-keys -t walk "$key"
    case $key in
      Escape)
        sleep 0.6
        # On a machine that is busy for longer a key right after it would make Alt with it, not two keys.
        for _ in $(seq 50); do [ "$(shown)" != "$before" ] && break; sleep 0.1; done ;;
      *) sleep 0.15 ;;
    esac
  done
}

take_begun() { # Enter, once more where a device is still being looked for
  for _ in 1 2 3 4 5; do
    keys Enter
    for _ in $(seq 20); do
      shown | grep -qE "BEGIN IN|the cue sounds" && break 2
      sleep 0.1
    done
  done
}

keep() { shown >"$screens/$walk-$1.txt"; }

ascii_only() { ! shown | LC_ALL=C grep -q '[^ -~]'; check "only 0x20 to 0x7E" $?; }

running() { pgrep -P "$(terminal display -t walk -p '#{pane_pid}')" -f "^$program"; }

ends_with() { # exit code, text: waits up to 10 s; the terminal is as it was; stderr holds one line with the text, or nothing without
  for _ in $(seq 100); do
    [ -s "$work/after" ] && break
    sleep 0.1
  done
  [ "$(cat "$work/exit" 2>/dev/null)" = "$1" ]; check "exit code $1, not $(cat "$work/exit" 2>/dev/null)" $?
  cmp -s "$work/before" "$work/after"; check "terminal modes restored" $?
  # Screen of the shell, cursor, no mouse, usual keys; what the terminal answered was read and not left to the shell.
  left=$(terminal display -t walk -p '#{alternate_on}#{cursor_flag}#{mouse_any_flag}#{keypad_flag}#{keypad_cursor_flag}')
  [ "$left" = 01000 ]; check "terminal left as it was found, not $left" $?
  lacks "^["
  if [ -n "${2:-}" ]; then
    [ "$(wc -l <"$work/errors")" -eq 1 ] && grep -qF -- "$2" "$work/errors"; check "one line on stderr with \"$2\": $(head -c 300 "$work/errors" 2>/dev/null)" $?
  else
    [ ! -s "$work/errors" ]; check "nothing on stderr: $(head -c 300 "$work/errors" 2>/dev/null)" $?
  fi
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
  # Well within the five seconds of the sound, also where every key takes long: one more after its end would be the answer.
  for _ in 1 2 3 4; do keys Enter; sleep 0.2; done
  sees "▸ I counted"
  # Right after the sound a key is one tap more, not the answer.
  sleep 0.8
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
  take_begun
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
  keys 2 2 1 1 1
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
without_sound=(ALSA_CONFIG_PATH=/dev/null PULSE_SERVER=unix:/nonexistent)

take_kept() { # a take was begun before: its sound, its record and its row are there
  ls "$work"/data/takes/*.wav >/dev/null 2>&1 && [ "$(BRASSVOX_DATA=$work/data "$program" takes list --json 2>/dev/null | grep -c '"id"')" -eq 1 ]
  check "the take at hand is kept" $?
  rm -rf "$work/data/takes" "$work"/data/log.db*
}

walks_without_sound() {
  for size in 80x24 200x60; do
    walk="no-sound-$size"
    rm -rf "$work/data"
    begin "${size%x*}" "${size#*x}" "${without_sound[@]}"
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
  begin 80 24 LC_ALL=C "${without_sound[@]}"
  sees "WELCOME"
  ascii_only
  keys Escape 1
  sees "minus ======&S-P"
  ascii_only
  keep explore
  keys Escape q
  ends_with 0

  walk="second-run-remembers-linux-console"
  begin 80 24 TERM=linux NO_COLOR=1 "${without_sound[@]}"
  sees "START"
  ascii_only
  keys t
  sees "there is one theme, none"
  keys q
  ends_with 0

  walk="small-window"
  begin 60 20 "${without_sound[@]}"
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

  # Ended from outside during a take: terminal restored, take kept to there.
  for ending in TERM:143 HUP:129 INT:130 QUIT:131; do
    for arguments in "" "--plain"; do
      walk="take-SIG${ending%:*}$arguments"
      begin 80 24 "${without_sound[@]}"
      sees "Nothing sounds until Enter"
      keys 3 1 4 Enter
      sees "no recording device could be opened"
      take_begun
      sees "unseen"
      sleep 0.5
      kill "-${ending%:*}" "$(running)"
      ends_with "${ending#*:}"
      take_kept
    done
  done

  for arguments in "" "--plain"; do
    walk="take-terminal-gone$arguments"
    begin 80 24 "${without_sound[@]}"
    sees "Nothing sounds until Enter"
    keys 3 1 4 Enter
    sees "no recording device could be opened"
    take_begun
    sees "unseen"
    sleep 0.5
    left=$(running)
    terminal kill-server
    for _ in $(seq 100); do kill -0 "$left" 2>/dev/null || break; sleep 0.1; done
    ! kill -0 "$left" 2>/dev/null; check "the program ends with its terminal" $?
    take_kept
  done
  arguments=""

  walk="suspended-and-resumed"
  begin 80 24 "${without_sound[@]}"
  sees "START"
  keys 1 Enter C-z
  sleep 0.5
  kill -CONT "$(running)"
  sees "Back from the shell. Tacet"
  keys Escape q
  ends_with 0

  walk="sighup-while-sounding"
  begin 80 24 "${without_sound[@]}"
  sees "START"
  keys 1 Enter
  kill -HUP "$(running)"
  ends_with 129

  # The disk fails meanwhile: said where it happens, never the end of the screens; told once more at the end, with its own exit code.
  walk="data-folder-gone"
  rm -rf "$work/data"
  begin 80 24 "${without_sound[@]}"
  sees "WELCOME"
  keys Escape
  sees "START"
  rm -rf "$work/data"; echo "no folder" >"$work/data"
  keys y 1
  sees "The body note could not be kept"
  keys 1 Right k
  sees "The scene could not be written"
  keys Escape
  sees "stand.json cannot be written"
  sees "Nothing can be kept"
  sees "is a file"
  sees "no sound device"
  keep start
  keys 6
  sees "TODAY"
  keys .
  sees "The minutes of the plan could not be kept"
  keys Escape q
  ends_with 5 "not everything could be kept"
  rm -f "$work/data"

  # Settings and letters that cannot be read: Start says both beside the missing device.
  walk="troubles-at-start"
  mkdir -p "$work/data"
  echo "{ nothing" >"$work/data/stand.json"; echo "{ \"sound\": 1 }" >"$work/data/keys.json"
  begin 80 24 "${without_sound[@]}"
  sees "WELCOME"
  keys Escape
  sees "START"
  sees "stand.json could not be used"
  sees "keys.json, line 1"
  sees "no sound device"
  sees "VOICE"
  keep start
  keys q
  ends_with 0
  rm -rf "$work/data"

  walk="next-and-plan-begin"
  begin 80 24 "${without_sound[@]}"
  sees "WELCOME"
  keys Escape
  sees "NEXT     ▸ 1 Find the added tone"
  keys Enter
  sees "trial 1 of"
  keys Escape 6
  sees "TODAY"
  keys Enter
  sees "trial 1 of"
  keep plan-begun
  keys Escape
  sees "TODAY"
  keys Escape q
  ends_with 0
  rm -rf "$work/data"

  walk="log-damaged-and-locked"
  begin 80 24 "${without_sound[@]}"
  sees "WELCOME"
  keys Escape
  sees "START"
  keys y 1
  for _ in $(seq 50); do [ -s "$work/data/log.db" ] && break; sleep 0.1; done
  /usr/bin/python3 -c 'import sqlite3, sys, time; log = sqlite3.connect(sys.argv[1], timeout=20); log.execute("begin exclusive"); print(1, flush=True); time.sleep(600)' "$work/data/log.db" >"$work/locked" 2>&1 &
  locker=$!
  for _ in $(seq 50); do [ -s "$work/locked" ] && break; sleep 0.1; done
  keys y 2
  sees "The body note could not be kept"
  kill "$locker"; wait "$locker" 2>/dev/null
  rm -f "$work"/data/log.db*; head -c 60000 /dev/urandom >"$work/data/log.db"
  keys 5
  sees "untouched"
  [ "$(stat -c %s "$work/data/log.db")" -eq 60000 ]; check "the damaged log is left as it is" $?
  keys Escape q
  ends_with 5 "in use by another instance"
  rm -f "$work"/data/log.db*

  walk="plain"
  arguments="--plain"
  begin 120 40 "${without_sound[@]}"
  sees "Start. Nothing sounds until Enter."
  keys 1
  sees "P B-flat 1, S F 2, fifth 700.0 cents (just 702.0)"
  sees "no playback device"
  keys Enter
  sees "sound on"
  keys Right
  sees "S plus 5 cents. It beats 0.3 times a second: 3 of P with 2 of S."
  keys Space
  sees "tacet."
  keep explore
  keys Escape 7
  sees "Stage"
  keys PageDown
  sees "Stage: 1 Fifth, separate."
  keep stage
  keys Space Escape 8
  sees "Set-up"
  keys Down w
  keep set-up
  keys Escape q
  ends_with 0
  arguments=""

  walk="unforeseen-fault"
  breaks "${without_sound[@]}"

  # The invented ensemble appears when all of it is there, and not before.
  walk="demo-broken-off"
  BRASSVOX_DATA=$work/data timeout -s INT 3 "$program" demo >"$work/out" 2>"$work/err"
  [ ! -e "$work/data/demo" ]; check "a demo broken off leaves no half of one" $?
  [ ! -e "$work/data/demo.unfinished" ]; check "nor anything beside it" $?
  ! grep -q "Unhandled" "$work/err"; check "Ctrl-C tells no stack" $?

  walk="no-terminal"
  "$program" </dev/null >"$work/out" 2>"$work/err"
  code=$?
  [ "$code" -ne 0 ] && [ "$(wc -l <"$work/err")" -eq 1 ] && [ ! -s "$work/out" ]
  check "stdout not a terminal: one line on stderr and a code that is not 0 ($code)" $?
  ! LC_ALL=C grep -q "$(printf '\033')" "$work/err" "$work/out"
  check "no escape codes in redirected output" $?
}

# The program's own screens in a host whose engine throws when told to: what an unforeseen fault leaves behind, seen from outside.
breaks() {
  local own=$program
  program=$PWD/tests/BrassVox.Benchmarks/bin/Debug/net10.0/BrassVox.Benchmarks
  rm -rf "$work/data" "$work/trigger"
  arguments="crash $work/data $work/trigger"
  begin 80 24 "$@"
  sees "WELCOME"
  keys Escape 1 Enter
  sees "separate (Enter)"
  sleep 1
  touch "$work/trigger"
  ends_with 1 "something broke in the screens: made to fail by the test that runs this. A note of it: $work/data/crash-"
  grep -q "InvalidOperationException" "$work"/data/crash-*.txt; check "the note holds what is needed to mend it" $?
  ls "$work/data/stand.json" >/dev/null 2>&1; check "settings are kept" $?
  arguments="" program=$own
  rm -rf "$work/data"
}

walks_with_sound() {
  walk="unforeseen-fault-while-sounding"
  pactl load-module module-null-sink sink_name=broken rate=48000 channels=2 format=float32le norewinds=1 >/dev/null && pactl set-default-sink broken
  parec --device=broken.monitor --format=float32le --rate=48000 --channels=2 --latency-msec=20 >"$work/broken.raw" &
  recorder=$!
  breaks
  sleep 1
  kill "$recorder"; wait "$recorder" 2>/dev/null
  /usr/bin/python3 -c '
import sys, numpy
sound = numpy.abs(numpy.fromfile(sys.argv[1], dtype="<f4"))
half = 48000
print("loudest", sound.max(), "last half second", sound[-half:].max())
sys.exit(0 if sound.max() > 1e-3 and sound[-half:].max() < 1e-4 else 1)' "$work/broken.raw" >"$work/heard" 2>&1
  check "it sounded before and is silent after: $(cat "$work/heard")" $?

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

  walk="sound-server-killed"
  begin 80 24
  sees "START"
  keys 3 1 4 Enter
  sees "Microphone:"
  take_begun
  sees "SECONDS LEFT"
  sleep 1
  touch "$BRASSVOX_SOUND_SERVER_FOLDER/down"
  kill -KILL "$(cat "$BRASSVOX_SOUND_SERVER_FOLDER/pid")"
  sees "kept to here"
  sees "finish the sentence"
  keys Escape Escape 5
  sees "2 kept here"
  keys Escape q
  ends_with 0
  rm -f "$BRASSVOX_SOUND_SERVER_FOLDER/down"
}

# Which walks: BRASSVOX_WALKS=silent, sound or, without it, all that can be had here.
case ${BRASSVOX_WALKS:-all} in silent | all) walks_without_sound ;; esac
case ${BRASSVOX_WALKS:-all}${BRASSVOX_SOUND_SERVER:-} in sound* | all1) walks_with_sound ;; esac

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
