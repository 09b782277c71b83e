"""A thousand sheets need no more memory than a few."""

import subprocess
import sys
from pathlib import Path

PRINTED = """
from pathlib import Path
from prints.paper import edited, printed

def renamed(number):
    def change(guide):
        for chapter in guide["chapters"]:
            for step in chapter["steps"]:
                step["action"]["text"] += f" {number}"
    return change

def held_MB():
    return int(Path("/proc/self/statm").read_text().split()[1]) * 4096 / 1e6

held = []
for number in range(10):
    assert printed(edited(renamed(number)))["a4"]
    held.append(held_MB())
print(*held)
"""


def test_what_is_held_settles_after_a_few_sheets():
    run = subprocess.run(
        [sys.executable, "-c", PRINTED], cwd=Path(__file__).parents[1],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    held = [float(word) for word in run.stdout.split()]
    first, one = held[0], max(held[1] - held[0], 1)
    assert max(held) - first < 5 * one, held
