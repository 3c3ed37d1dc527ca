#!/usr/bin/env python3
"""Which sources of a target may be read as one: those where none defines a name of its own that another has too.
Usage: tools/build/together.py MOST SOURCE...   prints "GROUP SOURCE" line by line
"""

import os
import re
import sys

# What stands at the start of a line inside an unnamed namespace: types, functions, constants.
DEFINED = re.compile(r"^(?:template .*|)(?:struct|class|enum class|enum) (\w+)\b|^using (\w+) ="
                     r"|^\w[\w:<>,&* ]*[>&*\w] [&*]?(\w+)(?= ?[({=;\[])", re.M)


# What is brought in by name, anywhere.
BROUGHT_IN = re.compile(r"^using ([\w:]+::(\w+));", re.M)
# Further constants of one line.
FURTHER = re.compile(r"^constexpr [^;({]*;", re.M)
# Equal names in two namespaces are two names.
NAMESPACE = re.compile(r"^namespace ([\w:]+) \{", re.M)


def own_names(text):
    """What each name of the source's own means, by namespace and name: its file's own thing (None), or what is brought in."""
    names = {name: whole for whole, name in BROUGHT_IN.findall(text)}
    start = text.find("namespace {")
    if start >= 0:
        inner = text[start:]
        names |= {name: None for found in DEFINED.findall(inner) for name in found if name}
        names |= {name: None for line in FURTHER.findall(inner) for name in re.findall(r", (\w+) =", line)}
    spaces = set(NAMESPACE.findall(text)) or {""}
    return {(space, name): meaning for space in spaces for name, meaning in names.items()}


def clash(names, taken):
    """Whether some name means two things; the same brought in twice is one."""
    return any(name in taken and (meaning is None or taken[name] != meaning) for name, meaning in names.items())


def groups(paths, most, root="."):
    """Lists of paths, in their order, none longer than `most`."""
    made = []
    for path in paths:
        with open(os.path.join(root, path), encoding="utf-8") as file:
            names = own_names(file.read())
        for together, taken in made:
            if len(together) < most and not clash(names, taken):
                together.append(path)
                taken |= names
                break
        else:
            made.append(([path], names))
    return [together for together, _ in made]


if __name__ == "__main__":
    for number, group in enumerate(groups(sys.argv[2:], int(sys.argv[1]))):
        for one in group:
            print(number, one)
