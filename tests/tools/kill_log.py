"""Kills the program with SIGKILL while it keeps takes, and looks whether anything that it said was kept is gone.

Usage: python3 kill_log.py [KILLS] [SEED]     (100 and 1 unless given; from the repository's root, after a build)

Three instances at a time keep takes in one data folder. Each is killed at a seeded random moment: some while starting, most just after
one of their takes was acknowledged on standard error. After every kill the database is opened by Python's own SQLite, past all code of
ours: it has to open, pass integrity_check and hold every acknowledged take, whose sound and record have to be there whole. In the end the
program itself lists the takes, and every one that is there as files is in the log as well.
"""
import json
import os
import random
import signal
import sqlite3
import struct
import subprocess
import sys
import tempfile
import threading
import time

PROGRAM = ["dotnet", "src/BrassVox.App/bin/Debug/net10.0/brassvox.dll"]
AT_A_TIME = 3
TAKES = 40
lock = threading.Lock()
acknowledged, problems, killed_while_keeping = set(), [], 0


def check(data):
    """Opens the database as it lies there; other instances go on writing meanwhile."""
    log = sqlite3.connect(os.path.join(data, "log.db"), timeout=10)
    try:
        whole = log.execute("PRAGMA integrity_check").fetchone()[0]
        if whole != "ok":
            problems.append(f"integrity_check: {whole}")
        known = {row[0] for row in log.execute("SELECT id FROM takes")}
    finally:
        log.close()
    return known


def one(data, sound, moment):
    global killed_while_keeping
    after, pause = moment
    env = dict(os.environ, BRASSVOX_DATA=data)
    run = subprocess.Popen(PROGRAM + ["exercise", "run", "14", "--played", "Bb2", "--sung", "F3", "--keep", "--input"] + [sound] * TAKES,
                           stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, env=env, text=True)
    said = []

    def listen():
        for line in run.stderr:
            if "kept as " in line and line.endswith("\n"):
                said.append(line.split("kept as ")[1].split(" in ")[0])

    listener = threading.Thread(target=listen)
    listener.start()
    end = time.monotonic() + 20
    while after > 0 and len(said) < after and run.poll() is None and time.monotonic() < end:
        time.sleep(0.002)
    time.sleep(pause)
    was_alive = run.poll() is None
    run.send_signal(signal.SIGKILL)
    run.wait()
    listener.join()
    with lock:
        acknowledged.update(said)
        killed_while_keeping += was_alive and bool(said)
        if os.path.exists(os.path.join(data, "log.db")) and os.path.getsize(os.path.join(data, "log.db")):
            gone = acknowledged - check(data)
        else:
            gone = acknowledged
        if gone:
            problems.append(f"acknowledged and gone from the log: {sorted(gone)[:3]}")
        for take in said:
            record = os.path.join(data, "takes", take + ".json")
            wav = os.path.join(data, "takes", take + ".wav")
            try:
                json.load(open(record, encoding="utf-8"))
                with open(wav, "rb") as file:
                    size = struct.unpack("<4sI", file.read(8))[1]
                if size + 8 != os.path.getsize(wav):
                    problems.append(f"{wav}: cut off")
            except (OSError, ValueError) as fault:
                problems.append(f"{take}: {fault}")


def main(kills, seed):
    moments = random.Random(seed)
    started = time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        data, sound = os.path.join(folder, "data"), os.path.join(folder, "short.wav")
        subprocess.run(PROGRAM + ["render", "Bb2", "F3", "--seconds", "0.5", "--output", sound], check=True, stdout=subprocess.DEVNULL)
        # One in six dies before its first take is kept, the others within a tenth of a second of their first to third.
        plan = [(0, moments.uniform(0.1, 0.5)) if i % 6 == 0 else (moments.randint(1, 3), moments.uniform(0, 0.1)) for i in range(kills)]
        while plan:
            batch = [threading.Thread(target=one, args=(data, sound, plan.pop())) for _ in range(min(AT_A_TIME, len(plan)))]
            for thread in batch:
                thread.start()
            for thread in batch:
                thread.join()

        listed = json.loads(subprocess.run(PROGRAM + ["takes", "list", "--json"], check=True, capture_output=True, text=True, env=dict(os.environ, BRASSVOX_DATA=data)).stdout)
        ids = {take["id"] for take in listed}
        files = {name[:-5] for name in os.listdir(os.path.join(data, "takes")) if name.endswith(".json")}
        if not acknowledged <= ids or files != ids or files != check(data):
            problems.append(f"listed {len(ids)}, as files {len(files)}, acknowledged {len(acknowledged)}")

    print(f"{kills} kills (seed {seed}), {killed_while_keeping} of them while keeping takes; {len(acknowledged)} takes acknowledged, "
          f"{len(files) - len(acknowledged)} more entered afterwards, {len(problems)} problems, {time.monotonic() - started:.0f} s")
    for problem in problems[:10]:
        print("  " + problem)
    return 1 if problems or len(acknowledged) < kills // 2 or killed_while_keeping < kills // 2 else 0


sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 100, int(sys.argv[2]) if len(sys.argv) > 2 else 1))
