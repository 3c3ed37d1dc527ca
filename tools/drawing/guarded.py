"""Reading files that may come from anywhere: ordinary ones only, results only with the checksum that ends them, and
HDF5 in a process of its own, since it crashes and hangs on wrong bytes and anyone can write a checksum."""

import os
import resource
import signal
import stat
import sys
import traceback
import zlib

from drawing.manner import Trouble, plain

MOST_TEXT = 1 << 30  # bytes of a table that is read
MOST_RESULT = 4 << 30  # as dullcast itself reads
PROCESSOR_TIME = 60  # s; a picture takes some seconds
MEMORY = 8 << 30  # bytes of addresses, the drawing library's own among them
SIGNATURE = b"\x89HDF\r\n\x1a\n"  # how HDF5 files begin (HDF5 file format specification, "Superblock")
WAY_OUT = "copy it anew, or run its scenario again"


def check_ordinary(path, most=MOST_TEXT, folder_words="this is a folder, not a file"):
    """Raises Trouble unless `path` is an ordinary file that is not too large; returns its size. A pipe would be waited
    for, and a device read without end."""
    try:
        there = os.stat(path)
    except FileNotFoundError as error:
        raise Trouble(f"{path}: there is no such file") from error
    except OSError as error:
        raise Trouble(f"{path}: cannot be read ({error.strerror})") from error
    if stat.S_ISDIR(there.st_mode):
        raise Trouble(f"{path}: {folder_words}")
    if not stat.S_ISREG(there.st_mode):
        raise Trouble(f"{path}: this is not an ordinary file")
    if there.st_size == 0:
        raise Trouble(f"{path}: this file is empty")
    if there.st_size > most:
        raise Trouble(f"{path}: this file has more than the {most >> 30} GiB that are read of such a file")
    return there.st_size


def check_result(path):
    """Raises Trouble unless `path` is an HDF5 file whose bytes agree with the checksum at its end."""
    size = check_ordinary(path, MOST_RESULT, "this is a folder; give the .h5 file of one run")
    try:
        with open(path, "rb") as file:
            if file.read(len(SIGNATURE)) != SIGNATURE[:size]:
                raise Trouble(f"{path}: this is not a dullcast run: it is not an HDF5 file")
            file.seek(max(0, size - 16))
            end = file.read(16)
            if len(end) < 16 or not end.startswith(b"\nCRC-32 "):
                raise Trouble(f"{path}: this file has no checksum at its end: it is cut short ({WAY_OUT}), or another "
                              "program wrote it (dullcast seal writes a copy with a checksum)")
            file.seek(0)
            crc, left = 0, size - 16
            while left > 0:
                block = file.read(min(left, 1 << 20))
                if not block:
                    break
                crc, left = zlib.crc32(block, crc), left - len(block)
    except OSError as error:
        raise Trouble(f"{path}: cannot be read ({error.strerror})") from error
    if end != b"\nCRC-32 %08x" % crc:
        raise Trouble(f"{path}: this result is damaged: its bytes do not agree with the checksum at its end; {WAY_OUT}")


def guarded(name, path, work):
    """Does `work` on `path` in a child process of bounded time and memory and ends this one as it ended; a child that
    crashes or takes too long is one sentence."""
    sys.stdout.flush()
    child = os.fork()
    if child == 0:
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        resource.setrlimit(resource.RLIMIT_CPU, (PROCESSOR_TIME, PROCESSOR_TIME + 1))
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        code = 1
        try:
            work()
            code = 0
        except Trouble as trouble:
            print(f"{name}: {plain(trouble)}", file=sys.stderr)
        except (LookupError, AttributeError, TypeError, ValueError, ArithmeticError, RuntimeError, OSError) as trouble:
            print(f"{name}: {plain(path)}: this result lacks a part that it should have, or holds something else there "
                  f"({plain(trouble)})", file=sys.stderr)
        except MemoryError:
            print(f"{name}: {plain(path)}: this result takes more memory than a run's", file=sys.stderr)
        except Exception:
            traceback.print_exc()  # a mistake of ours
        finally:
            sys.stdout.flush()
            sys.stderr.flush()
            os._exit(code)
    _, status = os.waitpid(child, 0)
    if os.WIFSIGNALED(status):
        why = "drawing it takes far too long" if os.WTERMSIG(status) == signal.SIGXCPU else "HDF5 broke over it"
        sys.exit(f"{name}: {plain(path)}: this result is damaged: {why}; {WAY_OUT}")
    sys.exit(os.WEXITSTATUS(status))
