"""Where a picture may be written, by the same rule as the program's own commands have, and writing it."""

import io
import os
import tempfile

from PIL import Image  # matplotlib brings it

from drawing.manner import Trouble


def add_replace(parser):
    parser.add_argument("--replace", action="store_true", help="write over a picture that is there already")


def check_place(picture, inputs, replace):
    """Refuses a place before anything is drawn: no folder, something that is read, a file that is there."""
    folder = os.path.dirname(picture) or "."
    if not os.path.isdir(folder):
        raise Trouble(f"{picture}: there is no folder {folder}")
    if os.path.isdir(picture):
        raise Trouble(f"{picture}: this is a folder; give a file name")
    for name in inputs:
        same = os.path.exists(picture) and os.path.exists(name) and os.path.samefile(picture, name)
        if same or os.path.realpath(picture) == os.path.realpath(name):
            raise Trouble(f"{picture}: this is what is read; give the picture another name")
    if os.path.exists(picture):
        if not os.path.isfile(picture):
            raise Trouble(f"{picture}: this is not an ordinary file")
        if not replace:
            raise Trouble(f"{picture}: there is a file of this name already; --replace writes over it")


def save(figure, picture, colours=None, **how):
    """The picture as a PNG, of so few colours if asked, for they make it small. It appears whole or not at all and,
    where it is a link, in what that points at."""
    drawn = io.BytesIO()
    figure.savefig(drawn, format="png", facecolor=figure.get_facecolor(), metadata={"Software": None}, **how)
    if colours:
        few = Image.open(drawn).convert("RGB").quantize(colors=colours, kmeans=3, dither=Image.Dither.NONE)
        drawn = io.BytesIO()
        few.save(drawn, format="png", optimize=True)
    target = os.path.realpath(picture)
    try:
        handle, unfinished = tempfile.mkstemp(dir=os.path.dirname(target), prefix=".dullcast-unfinished-", suffix=".tmp")
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(drawn.getvalue())
            os.chmod(unfinished, 0o666 & ~current_umask())
            os.replace(unfinished, target)
        except BaseException:
            os.unlink(unfinished)
            raise
    except OSError as error:
        raise Trouble(f"{picture}: cannot write the picture ({error.strerror or error})") from error


def current_umask():
    mask = os.umask(0)
    os.umask(mask)
    return mask
