"""What a quiet room costs: an hour of noise faster than real time, and some minutes live.

    LAPEL=build/lapel LAPEL_SOURCE=. python3 tests/devices/quiet_room.py [MINUTES]

Goal: at most 3 % of one core, and no growth of memory. The noise is that of a room at about -55 dBFS
whose level wanders, with a hum. Without MINUTES there is no live part."""

import array
import math
import os
import random
import subprocess
import sys
import time
import unittest
import wave

from live import Station
from pulse import missing

MINUTES = float(sys.argv.pop(1)) if len(sys.argv) > 1 else 0
RATE_HZ, HOUR_S, PAGE = 16000, 3600, os.sysconf("SC_PAGE_SIZE")


def write_noise(path, seconds):
    """A minute of noise, over and over."""
    noise = random.Random(1)
    second = [noise.gauss(0, 1) for _ in range(4 * RATE_HZ)]
    hum = [20 * math.sin(2 * math.pi * 100 * i / RATE_HZ) for i in range(RATE_HZ)]
    minute = array.array("h")
    for at in range(60):
        level = 58 * (1 + 0.5 * math.sin(2 * math.pi * at / 60))
        start = noise.randrange(3 * RATE_HZ)
        minute.extend(int(level * value + hum[i])
                      for i, value in enumerate(second[start:start + RATE_HZ]))
    with wave.open(path, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE_HZ)
        for at in range(0, seconds, 60):
            file.writeframes(minute[:(seconds - at) * RATE_HZ].tobytes())


def cpu_s(process):
    with open(f"/proc/{process}/stat") as file:
        fields = file.read().rsplit(") ", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def memory_mb(process):
    with open(f"/proc/{process}/statm") as file:
        return int(file.read().split()[1]) * PAGE / 1e6


class QuietRoom(Station):
    def test_an_hour_of_noise_faster_than_real_time(self):
        path = os.path.join(self.scratch.name, "hour.wav")
        write_noise(path, HOUR_S)
        process = subprocess.Popen([self.program, "listen", "--sound", path, "--db", self.db],
                                   env=self.environment, stdout=subprocess.PIPE)
        began, memory, used = time.monotonic(), [], 0
        while process.poll() is None:
            try:
                used = cpu_s(process.pid)
                memory.append(memory_mb(process.pid))
            except (OSError, IndexError):
                pass
            time.sleep(0.2)
        process.stdout.close()
        settled = memory[len(memory) // 4]
        print(f"an hour of noise: {used:.1f} s of computing, {100 * used / HOUR_S:.2f} % of one "
              f"core; memory {settled:.1f} MB after a quarter of it, {memory[-2]:.1f} MB at the "
              f"end; it took {time.monotonic() - began:.0f} s")
        self.assertLess(used / HOUR_S, 0.03)
        self.assertLess(memory[-2] - settled, 1)

    @unittest.skipUnless(MINUTES, "no minutes were given")
    def test_live(self):
        path = os.path.join(self.scratch.name, "room.wav")
        write_noise(path, int(MINUTES * 60) + 30)
        self.start()
        playing = self.speak(path)
        process = self.station.process.pid
        time.sleep(15)
        began, used, memory = time.monotonic(), cpu_s(process), memory_mb(process)
        time.sleep(MINUTES * 60)
        lasted = time.monotonic() - began
        used = cpu_s(process) - used
        print(f"{lasted / 60:.1f} minutes live: {100 * used / lasted:.2f} % of one core; memory "
              f"{memory:.1f} MB, {memory_mb(process):.1f} MB at the end")
        self.assertLess(memory_mb(process) - memory, 1)
        self.assertLess(used / lasted, 0.03)
        playing.terminate()
        self.end()


if __name__ == "__main__":
    if missing():
        sys.exit("there is no " + ", ".join(missing()))
    unittest.main()
