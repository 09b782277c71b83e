"""Where the time of `baybook check` of one fit goes, in processor time of whole processes.

    python tests/bench/check.py 10                      # so many runs of each, of which the median
    python tests/bench/check.py 10 VEHICLE/FIT

Bytecode is kept, as of an installed package: a checkout that may not keep any compiles all of it
at each start.
"""

import os
import resource
import subprocess
import sys
from pathlib import Path
from statistics import median

FITS = Path(__file__).resolve().parents[2] / "fits"
LIBRARIES = "import click, json, pydantic, yaml; from pydantic import BaseModel"
IMPORTS = "import baybook.desk.checking"
READ = """
from pathlib import Path
from baybook.intake.read import read_workbook
from baybook.intake.texts import read_texts
book, _ = read_workbook(Path({root!r}), [{fit!r}])
read_texts(Path({root!r}), book, whole=False)
"""


def main(runs: int, fit: str = "brunsall-tansy/j1") -> None:
    """Print what each step takes, and what it adds to the one before."""
    reading = "\n".join((IMPORTS, READ.format(root=str(FITS), fit=fit)))
    steps = {
        "Python": ("-c", "pass"),
        "and the libraries": ("-c", LIBRARIES),
        "and the tool's own modules": ("-c", IMPORTS),
        "and the files read": ("-c", reading),
        "the whole command": ("-m", "baybook", "check", fit, "--workbook", str(FITS)),
    }
    before = 0.0
    for name, call in steps.items():
        taken = median(_processor_ms(call) for _ in range(runs + 1))
        print(f"{name:28} {taken:5.0f} ms {taken - before:+5.0f}")
        before = taken


def _processor_ms(call: tuple[str, ...]) -> float:
    env = {name: text for name, text in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, *call], check=True, capture_output=True, env=env)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return 1000 * (after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime)


if __name__ == "__main__":
    main(int(sys.argv[1]), *sys.argv[2:])
