"""The app's name is drawn before the screens are loaded, in the colours she chose."""

import pytest

from core.settings import Settings, write_settings


@pytest.mark.parametrize("light", ["light", "dark"])
def test_the_name_stands_on_paper_and_leaves_nothing_behind(window, tmp_path, light):
    from kivy.graphics.opengl import GL_RGBA, GL_UNSIGNED_BYTE, glFinish, glReadPixels

    from screens.title import show_title
    from screens.tokens import colours

    drawn = []

    def look(_window):
        glFinish()
        drawn.append(glReadPixels(0, 0, *window.system_size, GL_RGBA, GL_UNSIGNED_BYTE))

    write_settings(tmp_path, Settings(light=light))
    before = len(window.canvas.children)
    looked_at, window.looked_at = window.looked_at, True
    window.bind(on_flip=look)
    try:
        show_title(tmp_path)
        paper, ink = colours.paper, colours.ink
    finally:
        window.unbind(on_flip=look)
        window.looked_at, colours.theme = looked_at, "light"
    (picture,) = drawn
    seen = {picture[at : at + 3] for at in range(0, len(picture), 4)}
    for colour in (paper, ink):
        assert bytes(round(255 * part) for part in colour[:3]) in seen
    assert len(window.canvas.children) == before
