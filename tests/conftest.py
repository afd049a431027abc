"""What every test starts from."""

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")  # windows are drawn in memory: no screen is needed
