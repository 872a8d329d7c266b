"""Tells how often this machine itself stood still: python3 stillness.py MS

Sleeps 5 ms again and again, ahead of all else where the account may, until it is told to end (SIGTERM); then prints how many sleeps took
longer than MS, the longest in ms, and whether it ran "ahead" or, where that was refused, only "beside" all else. A shared machine that is held back by its host stops for some 100 ms at a time, and no buffer of a
sound device outlasts that: what was recorded meanwhile tells nothing of the program.
"""
import os
import signal
import sys
import time

limit = float(sys.argv[1]) / 1000
going = True


def end(*_):
    global going
    going = False


signal.signal(signal.SIGTERM, end)
try:
    os.sched_setscheduler(0, os.SCHED_FIFO, os.sched_param(12))
except OSError:
    pass
ahead = os.sched_getscheduler(0) == os.SCHED_FIFO
times, longest, before = 0, 0.0, time.monotonic()
while going:
    time.sleep(0.005)
    now = time.monotonic()
    times += now - before > limit
    longest = max(longest, now - before)
    before = now
print(f"{times} {1000 * longest:.0f} {'ahead' if ahead else 'beside'}")
