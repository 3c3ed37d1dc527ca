"""How fuzz-results changes files: bytes, and what HDF5 itself lets anyone put into a file."""

import os

import h5py
import numpy as np

np.seterr(all="ignore")  # numbers that do not fit are part of the trade

NASTY = "\x1b]0;gone\x07\x1b[2J"
TEXTS = [NASTY, "", "x" * 70000, "a\nb\tc", "\u202egnorw", "1e999", "../../etc"]
NUMBERS = [0, 1, -1, 2, 255, 2**31 - 1, -2**31, 2**62, -2**63, 2**63 - 1]
DECIMALS = [0.0, -1.0, 1e308, -1e308, float("nan"), float("inf"), 5e-324, 0.5]


def change_bytes(rng, data):
    """Changes some bytes in place; returns what was done."""
    kind = rng.choice(["bits", "bits", "bits", "number", "number", "block", "copy", "cut", "longer"])
    end = max(9, len(data) - 16)
    # HDF5's own words are thick at the beginning.
    place = lambda: rng.randrange(8, min(end, rng.choice([200, 3000, end])))
    if kind == "bits":
        for _ in range(rng.choice([1, 1, 2, 5, 20])):
            data[place()] ^= 1 << rng.randrange(8)
    elif kind == "number":
        at, size = place(), rng.choice([1, 2, 4, 8])
        value = rng.choice([0, 1, -1, 2**31, 2**15, 255, len(data), rng.randrange(2**32)])
        data[at:at + size] = (value % 2**(8 * size)).to_bytes(size, "little")
    elif kind == "block":
        at, size = place(), rng.choice([8, 64, 512])
        data[at:at + size] = bytes([rng.choice([0, 255, 65])]) * len(data[at:at + size])
    elif kind == "copy":
        at, other, size = place(), place(), rng.choice([8, 32, 256])
        piece = data[other:other + size]
        data[at:at + len(piece)] = piece
    elif kind == "cut":
        del data[rng.randrange(len(data)):]
    else:
        data += rng.randbytes(rng.choice([1, 16, 5000]))
    return f"bytes {kind}"


def change_structure(rng, path):
    """Lets HDF5 change a file once to three times; returns what was done."""
    done = []
    with h5py.File(path, "r+") as file:
        for _ in range(rng.choice([1, 1, 2, 3])):
            name = some_name(rng, file)
            change = rng.choice([drop, retype, retype, reshape, reshape, revalue, revalue, revalue, attribute, attribute,
                                 attribute, link, link, layout])
            try:
                change(rng, file, name)
                done.append(f"{change.__name__} {name}")
            except (ValueError, TypeError, KeyError, RuntimeError, OSError, AttributeError, OverflowError) as error:
                done.append(f"nothing ({type(error).__name__})")
    return "structure: " + ", ".join(done)


def some_name(rng, file):
    """Of a dataset or a group, every group as likely as any other: most datasets are columns of one table."""
    groups = {"/": list(file)}
    file.visititems(lambda name, thing: groups.update({name: list(thing)}) if isinstance(thing, h5py.Group) else None)
    group = rng.choice(sorted(groups))
    members = groups[group]
    return f"{group.rstrip('/')}/{rng.choice(members)}" if members and rng.random() < 0.9 else group


def drop(rng, file, name):
    del file[name]


def some_type(rng):
    return rng.choice([np.int8, np.uint64, np.float16, np.float32, np.float64, ">i4", ">f8", "S1", "S40", bool,
                       h5py.string_dtype(), h5py.vlen_dtype(np.int64), h5py.ref_dtype,
                       np.dtype([("a", "i4"), ("b", "f8")]), np.dtype((np.float64, (3,))),
                       h5py.enum_dtype({"a": 1, "b": 2}), h5py.opaque_dtype(np.dtype("V16")), np.complex128])


def some_shape(rng):
    return rng.choice([(), (0,), (1,), (3,), (1, 1), (8, 1), (3, 5), (240, 2), (0, 0), (2, 2, 2), (1,) * 7, (100000,)])


def retype(rng, file, name):
    shape = file[name].shape if isinstance(file[name], h5py.Dataset) else some_shape(rng)
    attributes = dict(file[name].attrs)
    del file[name]
    made = file.create_dataset(name, shape=shape, dtype=some_type(rng))
    for key in ("units", "long_name", "role"):
        if key in attributes:
            made.attrs[key] = attributes[key]


def reshape(rng, file, name):
    old = file[name]
    dtype = old.dtype if isinstance(old, h5py.Dataset) else np.float64
    attributes = {key: old.attrs[key] for key in ("units", "long_name", "role") if key in old.attrs}
    del file[name]
    if rng.random() < 0.25:
        made = file.create_dataset(name, shape=(rng.choice([2**31, 2**40, 2**60]),), dtype=dtype, chunks=(1024,),
                                   compression=rng.choice([None, "gzip"]))
    else:
        shape = some_shape(rng)
        made = file.create_dataset(name, shape=shape, dtype=dtype)
        if dtype.kind in "fiu":
            made[...] = np.full(shape, rng.choice([0, 1, 3]))
    for key, value in attributes.items():
        made.attrs[key] = value


def revalue(rng, file, name):
    data = file[name]
    if not isinstance(data, h5py.Dataset):
        raise TypeError
    flat = np.array(data[...], dtype=object if data.dtype.kind == "O" else data.dtype, ndmin=1).ravel()
    for k in (range(flat.size) if rng.random() < 0.5 else [rng.randrange(flat.size)] if flat.size else []):
        if data.dtype.kind == "f":
            flat[k] = rng.choice(DECIMALS)
        elif data.dtype.kind in "iu":
            flat[k] = rng.choice([n for n in NUMBERS if np.iinfo(data.dtype).min <= n <= np.iinfo(data.dtype).max])
        elif data.dtype.kind == "S":
            flat[k] = rng.choice([b"\x1b", b"\xff", b"\0", b"x"])
        else:
            flat[k] = rng.choice([t.encode() for t in TEXTS] + [b"\xff\xfe\xc0\x80"])
    data[...] = flat.reshape(data.shape)


def attribute(rng, file, name):
    owner = file[name if rng.random() < 0.6 else "/"]
    # Attributes that netCDF and HDF5 keep for themselves are not read.
    names = [name for name in owner.attrs if not name.isupper()]
    key = rng.choice(names) if names else "units"
    kind = rng.choice([0, 1, 2, 2, 2, 3, 4, 5, 6, 6])
    if kind == 0:
        del owner.attrs[key]
    elif kind == 1:
        owner.attrs[key] = rng.choice(TEXTS)[:60000]
    elif kind == 2:
        owner.attrs.create(key, np.arange(rng.choice([0, 1, 3, 5000])), dtype=rng.choice([np.int64, np.float64, np.int8]))
    elif kind == 3:
        owner.attrs.create(key, rng.choice(NUMBERS[:-1]), dtype=np.int64)
    elif kind == 4:
        owner.attrs[key] = h5py.Empty(rng.choice(["f8", "S10", h5py.string_dtype()]))
    elif kind == 5:
        owner.attrs.create(key, np.zeros(1, dtype=np.dtype([("a", "i4"), ("b", "S300")])))
    else:
        owner.attrs.create(key, np.array([np.arange(100), np.arange(3)], dtype=object), dtype=h5py.vlen_dtype(np.int64))


def link(rng, file, name):
    at = f"{name}/extra" if isinstance(file[name], h5py.Group) else name
    kind = rng.randrange(5)
    if kind != 4 and at in file:
        del file[at]
    if kind == 0:
        file[at] = h5py.SoftLink(rng.choice(["/", "/nowhere", "/history/weight", "/runs"]))
    elif kind == 1:
        file[at] = h5py.ExternalLink(rng.choice(["/dev/zero", "other.h5", "first.h5"]), "/history")
    elif kind == 2:
        file[at] = file["/"]
    elif kind == 3:
        deep = at
        for _ in range(rng.choice([3, 30, 300])):
            deep += "/d"
        file.create_group(deep)
    else:
        file.move(name, f"/{rng.choice([NASTY, 'x' * 500, 'case', 'weight', '..', 'ü'])}")


def layout(rng, file, name):
    old = file[name]
    if not isinstance(old, h5py.Dataset):
        raise TypeError
    shape, dtype = old.shape or (4,), old.dtype
    del file[name]
    kind = rng.randrange(4)
    if kind == 0:
        file.create_dataset(name, shape=shape, dtype=dtype, external=[(os.devnull, 0, h5py.h5f.UNLIMITED)])
    elif kind == 1:
        virtual = h5py.VirtualLayout(shape=shape, dtype=dtype)
        virtual[...] = h5py.VirtualSource("/dev/zero", "x", shape=shape)
        file.create_virtual_dataset(name, virtual)
    elif kind == 2:
        file.create_dataset(name, shape=shape, dtype=dtype, compression=rng.choice(["lzf", "gzip"]),
                            chunks=True, maxshape=(None,) * len(shape))
    else:
        file.create_dataset(name, data=np.zeros((50_000_000,), dtype=np.int8), compression="gzip")
