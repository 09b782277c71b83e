"""Write golden pages and figures anew: `python tests/golden/rewrite.py`; read the difference."""

import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from baybook.pipeline import publish
from conftest import TODAY
from golden.figures import reckoned
from golden.pages import FOLDER, produced
from workbooks import copy_workbook

if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        top = Path(folder)
        publish(copy_workbook(top / "fits"), top / "_site", today=TODAY)
        for name, page in produced(top / "_site").items():
            (FOLDER / name).write_text(page, "utf-8")
        for name, figures in reckoned(Path(folder)).items():
            (FOLDER / name).write_text(figures, "utf-8")
