"""The manual page as its readers take it, and completion in a bash that is typed into.

Usage: python3 check_manual.py [PROGRAM]     (PROGRAM: brassvox, unless given the one just built)

The page goes through mandoc's checks and through groff with all warnings; both must say nothing. Then a bash in a terminal of its own reads
"brassvox completion bash", and the Tab key must complete a command, an option and a file. The last line is "N passed, N failed".
"""
import os
import pty
import select
import shutil
import subprocess
import sys
import tempfile
import time

PROGRAM = os.path.abspath(sys.argv[1] if len(sys.argv) > 1 else "src/BrassVox.App/bin/Debug/net10.0/brassvox")
passed = failed = 0


def check(what, good, said=""):
    global passed, failed
    passed, failed = passed + bool(good), failed + (not good)
    if not good:
        print(f"FAILED  {what}: {said}")


def typed(keys, folder, awaited):
    """What a bash shows after keys are typed."""
    child, terminal = pty.fork()
    if child == 0:
        os.chdir(folder)
        os.environ.update(PATH=f"{os.path.dirname(PROGRAM)}:{os.environ['PATH']}", PS1="READY ", TERM="dumb")
        os.execvp("bash", ["bash", "--norc", "--noprofile", "-i"])
    shown = ""

    def until(words, seconds):
        nonlocal shown
        end = time.time() + seconds
        while words not in shown and time.time() < end:
            if select.select([terminal], [], [], 0.2)[0]:
                shown += os.read(terminal, 4096).decode(errors="replace")

    until("READY", 10)
    os.write(terminal, b"source <(brassvox completion bash); echo COM''PLETES\n")
    until("COMPLETES", 60)
    shown = ""
    os.write(terminal, keys.encode())
    until(awaited, 60)
    os.write(terminal, b"\x15exit\n")
    os.close(terminal)
    os.waitpid(child, 0)
    return shown


page = subprocess.run([PROGRAM, "manual"], capture_output=True, text=True)
check("manual", page.returncode == 0 and page.stdout.startswith(".TH BRASSVOX 1 "), page.stderr)
with tempfile.TemporaryDirectory() as folder:
    open(f"{folder}/brassvox.1", "w").write(page.stdout)
    for reader in (["mandoc", "-Tlint", "-W", "warning"], ["groff", "-man", "-Tutf8", "-ww", "-z"]):
        if shutil.which(reader[0]):
            run = subprocess.run([*reader, f"{folder}/brassvox.1"], capture_output=True, text=True)
            check(reader[0], run.returncode == 0 and not run.stdout + run.stderr, (run.stdout + run.stderr)[:400])
        else:
            print(f"skipped {reader[0]}: not installed")
    open(f"{folder}/own-take.wav", "w").close()
    check("Tab completes a command", "resultants" in typed("brassvox resul\t", folder, "resultants"))
    check("Tab completes an option", "--tuning" in typed("brassvox resultants Bb1 F2 --tu\t", folder, "--tuning"))
    check("Tab completes a command below one", "render" in typed("brassvox passage ren\t", folder, "render"))
    check("Tab completes a file", "own-take.wav" in typed("brassvox measure own-\t", folder, "own-take.wav"))
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
