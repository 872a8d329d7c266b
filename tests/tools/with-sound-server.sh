#!/usr/bin/env bash
# Runs a command beside a private sound server: no hardware, no system service, nothing of the user's own session.
#   bash tests/tools/with-sound-server.sh COMMAND [ARGUMENT...]
# What the command plays goes into a null sink; the default source is that sink's monitor, so it can record it again.
# The command sees PULSE_SERVER, BRASSVOX_SOUND_SERVER=1 (the tests that need a server then run), and
# BRASSVOX_SOUND_SERVER_FOLDER. In that folder "pid" holds the server's process id; a server that ends is started
# again unless a file "down" is there. So a test can stop, kill and restart it.
# Needs (Debian names): libasound2 libasound2-plugins pulseaudio pulseaudio-utils. Leaves with the command's exit code.
set -u
if [ $# -eq 0 ]; then
    echo "usage: with-sound-server.sh COMMAND [ARGUMENT...]" >&2
    exit 2
fi
if ! command -v pulseaudio >/dev/null; then
    echo "with-sound-server.sh: pulseaudio is not installed" >&2
    exit 69
fi

folder=$(mktemp -d)
export XDG_RUNTIME_DIR=$folder XDG_CONFIG_HOME=$folder/config PULSE_RUNTIME_PATH=$folder/run
export PULSE_SERVER=unix:$folder/native
# norewinds: without it an idle sink sleeps for seconds while ALSA's threads spin.
cat >"$folder/start.pa" <<END
load-module module-native-protocol-unix socket=$folder/native auth-anonymous=1
load-module module-null-sink sink_name=brassvox rate=48000 channels=2 format=float32le norewinds=1
set-default-source brassvox.monitor
END

serve() {
    while [ ! -e "$folder/over" ]; do
        if [ -e "$folder/down" ]; then
            sleep 0.1
            continue
        fi
        rm -f "$folder/native"
        pulseaudio -n -F "$folder/start.pa" --daemonize=no --exit-idle-time=-1 --use-pid-file=no \
            --disable-shm=yes >>"$folder/server.log" 2>&1 &
        echo $! >"$folder/pid"
        # Ahead of builds and tests, where the account may: a server that is scheduled late drops sound. Pulseaudio
        # itself gives its null sink real-time priority, but not the thread that speaks with its clients.
        (sleep 0.5; chrt --fifo --pid 5 $!) >/dev/null 2>&1 &
        wait "$(cat "$folder/pid")" 2>/dev/null
    done
}
serve &
server=$!
finish() {
    touch "$folder/over"
    # Again and again: a server may be starting just now, after the last look at "over" and before its id is written down.
    for try in $(seq 100); do
        kill -0 "$server" 2>/dev/null || break
        signal=TERM
        [ "$try" -gt 50 ] && signal=KILL
        [ -s "$folder/pid" ] && kill -CONT "$(cat "$folder/pid")" 2>/dev/null && kill "-$signal" "$(cat "$folder/pid")" 2>/dev/null
        sleep 0.1
    done
    wait "$server" 2>/dev/null
    rm -rf "$folder"
}
trap finish EXIT
trap 'exit 130' INT
trap 'exit 143' TERM

for _ in $(seq 100); do
    pactl info 2>/dev/null | grep -q "brassvox.monitor" && break
    sleep 0.1
done
if ! pactl info >/dev/null 2>&1; then
    echo "with-sound-server.sh: the sound server did not start:" >&2
    cat "$folder/server.log" >&2
    exit 70
fi

export BRASSVOX_SOUND_SERVER=1 BRASSVOX_SOUND_SERVER_FOLDER=$folder
"$@"
