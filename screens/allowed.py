"""What the device must allow before its folders can be looked into; asked only when needed."""

from kivy.utils import platform


def ask_to_look() -> None:
    """Ask Android to let the app see pictures kept outside it; elsewhere nothing is asked."""
    if platform != "android":
        return
    from android.permissions import Permission, request_permissions  # type: ignore[import-not-found]

    request_permissions([Permission.READ_MEDIA_IMAGES, Permission.READ_EXTERNAL_STORAGE])
