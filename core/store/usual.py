"""Where the clients are kept unless she says otherwise."""

import os
from pathlib import Path

from platformdirs import user_data_path

NAME = "pins-to-seams"


def usual_folder() -> Path:
    """Return the app's own folder on this device, made or not."""
    if "ANDROID_ARGUMENT" in os.environ:
        from android.storage import app_storage_path  # type: ignore[import-not-found]

        return Path(app_storage_path()) / NAME
    return user_data_path(NAME, appauthor=False)
