"""What every test starts from."""

import os

from hypothesis import settings

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")  # windows are drawn in memory: no screen is needed
settings.register_profile("anywhere", deadline=None)  # a busy machine is not a fault
settings.load_profile("anywhere")
