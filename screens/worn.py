"""How the app is worn: light or dark, and how large its letters are."""

from collections.abc import Callable

from kivy.utils import platform

from core.settings import Settings
from screens.tokens import SCALES, colours, sizes

_NIGHT_MASK, _NIGHT_YES = 0x30, 0x20
"""Of Android's ``uiMode``: where the night is said, and what says it."""


def device_is_dark() -> bool:
    """Tell whether the device asks for dark; where it cannot be asked, it is light."""
    if platform != "android":
        return False
    from android import mActivity  # type: ignore[import-not-found]

    mode = mActivity.getResources().getConfiguration().uiMode
    return bool((mode & _NIGHT_MASK) == _NIGHT_YES)


def wear(settings: Settings, is_dark: Callable[[], bool] = device_is_dark) -> None:
    """Put on the colours and the letters she chose."""
    dark = is_dark() if settings.light == "device" else settings.light == "dark"
    colours.theme = "dark" if dark else "light"
    sizes.scale = SCALES[settings.text]
