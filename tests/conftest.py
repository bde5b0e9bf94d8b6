"""What holds for the whole run: one thread for numpy in each worker, and one cache folder for all workers.

Both must stand before anything is imported or started; what is started inherits them.
"""

from __future__ import annotations

import os
import tempfile

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # as the program itself does, and before numpy is there


def pytest_configure(config):
    """Keep compiled packs and phrases in a folder of this run: made once, and never the user's own."""
    if not hasattr(config, "workerinput"):  # workers inherit the folder of the run that started them
        folder = tempfile.TemporaryDirectory(prefix="barrelside-tests-", ignore_cleanup_errors=True)
        config.add_cleanup(folder.cleanup)
        os.environ["BARRELSIDE_CACHE"] = folder.name
