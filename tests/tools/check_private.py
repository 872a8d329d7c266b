"""No socket to the outside: the program under strace, every call about a network caught.

Usage: python3 check_private.py [PROGRAM...]

Commands of every kind and a short session of the screens are run with all their threads and children traced. What is allowed is a socket of
this machine alone (AF_UNIX, as to a sound server); any other fails. The trace is tried first: a program that does open one has to be caught. Needs strace and tmux. The last line is "N passed, N failed".
"""
import os
import re
import subprocess
import sys
import tempfile
import time

PROGRAM = [os.path.abspath(p) if os.path.exists(p) else p for p in sys.argv[1:]] or [os.path.abspath("src/BrassVox.App/bin/Debug/net10.0/brassvox")]
STRACE = ["strace", "-f", "-qq", "-e", "trace=network", "-e", "signal=none", "-o"]
results = []


def check(what, good, said=""):
    results.append(good)
    print(f"{'ok     ' if good else 'FAILED '} {what}" + ("" if good else f"\n        {said}"))


def outside(trace):
    """The calls that lead out of this machine, and how many stay in it."""
    lines = [line.split(" ", 1)[1].strip() for line in open(trace) if re.search(r"^\d+ +(<... )?(socket|connect|bind|listen|sendto|sendmsg|sendmmsg)\b", line)]
    sockets = [line for line in lines if line.startswith("socket(")]
    out = [line for line in sockets if "AF_UNIX" not in line] + [line for line in lines if re.search(r"sa_family=AF_(?!UNIX)", line)]
    return out, len(sockets)


def traced(name, *arguments, **more):
    trace = f"{name.replace(' ', '-')}.trace"
    done = subprocess.run([*STRACE, trace, *arguments], capture_output=True, stdin=subprocess.DEVNULL, timeout=300, env=dict(os.environ, **ENV), text=True)
    return done, *outside(trace)


def session():
    """First run, Explore with sound asked for, a listening exercise, quit, in a terminal of tmux."""
    server = ["tmux", "-L", f"brassvox-private-{os.getpid()}", "-f", "/dev/null"]
    names = " ".join(f"{name}={value}" for name, value in ENV.items())
    subprocess.run([*server, "new-session", "-d", "-s", "private", "-x", "80", "-y", "24",
                    f"env LC_ALL=C.UTF-8 TERM=tmux-256color {names} {' '.join(STRACE)} screens.trace '{PROGRAM[0]}' 2>errors; echo $? >exit; sleep 600"], check=True)

    def keys(*names):
        for key in names:
            subprocess.run([*server, "send-keys", "-t", "private", key])
            time.sleep(0.8 if key == "Escape" else 0.4)

    def shown(word, seconds=60):
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            if word in subprocess.run([*server, "capture-pane", "-t", "private", "-p"], capture_output=True, text=True).stdout:
                return True
            time.sleep(0.2)
        return False

    try:
        begun = shown("Enter")
        keys("Enter", "Enter", "Enter", "Enter", "Enter", "Enter", "Enter")
        keys("1", "Enter", "+", "Space", "Escape", "2", "Enter", "Enter", "Escape", "Escape", "h", "Escape")
        time.sleep(2)
        keys("C-c")
        end = time.monotonic() + 30
        while not os.path.exists("exit") and time.monotonic() < end:
            time.sleep(0.2)
        code = open("exit").read().strip() if os.path.exists("exit") else "none"
        out, sockets = outside("screens.trace")
        check(f"a session of the screens: nothing leaves ({sockets} sockets of this machine)", begun and code == "130" and not out, f"{begun} {code} {out}")
    finally:
        subprocess.run([*server, "kill-server"], capture_output=True)


with tempfile.TemporaryDirectory() as folder:
    os.chdir(folder)
    ENV = {"BRASSVOX_DATA": os.path.join(folder, "data")}
    reach = "import socket\ntry:\n    socket.create_connection(('127.0.0.1', 9), 1)\nexcept OSError:\n    pass"
    done, out, _ = traced("trial", sys.executable, "-c", reach)
    check("the trace sees a program that does reach out", len(out) >= 2, f"{out} {done.stderr[:300]}")
    for name, arguments in (
            ("render", ["render", "Bb2", "F3", "--seconds", "2", "--output", "pair.wav"]),
            ("measure", ["measure", "pair.wav", "--played", "Bb2", "--sung", "F3", "--csv", "pair.csv"]),
            ("notation", ["notation", "open-home-pair", "--output", "pair.musicxml"]),
            ("read it again", ["passage", "text", "pair.musicxml"]),
            ("handout", ["handout", "14", "--output", "handout.html"]),
            ("picture", ["picture", "interval", "Bb1", "F2", "--output", "pair.png"]),
            ("tracks", ["tracks", "14", "--format", "opus", "--output", "tracks"]),
            ("a take kept", ["exercise", "run", "14", "--played", "Bb2", "--sung", "F3", "--input", "pair.wav", "--keep"]),
            ("takes", ["takes", "map"]),
            ("devices", ["devices"])):
        done, out, sockets = traced(name, *PROGRAM, *arguments)
        check(f"{name}: nothing leaves ({sockets} sockets of this machine)", done.returncode == 0 and not out, f"{done.returncode} {out} {done.stderr[:300]}")
    session()
print(f"{sum(results)} passed, {len(results) - sum(results)} failed")
sys.exit(0 if all(results) and results else 1)
