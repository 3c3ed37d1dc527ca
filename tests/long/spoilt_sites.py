"""Where C++ sources can be spoilt, and the sources rewritten so that each such place is switched at run time
(spoilt_switch.hpp). Works on the text alone and counts on its layout: blanks around operators of two operands, none beside
signs and pointers. A place whose new form does not compile is dropped by whoever compiles it."""

import re
import zlib

TOKEN = re.compile(
    r"""(?P<comment>//[^\n]*|/\*.*?\*/)|(?P<directive>^[ \t]*\#(?:[^\n\\]|\\.)*)|(?P<text>R"\((?:.*?)\)"|"(?:[^"\\\n]|\\.)*"
    |'(?:[^'\\\n]|\\.)+')|(?P<number>(?:0[xX][\da-fA-F']+\w*)|(?:\d[\d']*\.?\d*|\.\d+)(?:[eE][-+]?\d+)?\w*)
    |(?P<word>[A-Za-z_]\w*)|(?P<sign>->|::|\+\+|--|<=|>=|==|!=|&&|\|\||<<|[-+*/%&|^]=|[^\s\w])""", re.S | re.M | re.X)
FLOATING = re.compile(r"(\d[\d']*\.\d*|\.\d+)([eE][-+]?\d+)?|\d+[eE][-+]?\d+")
SILENT = re.compile(r"require|refuse|throw|static_assert|assert|decltype|sizeof|alignas")  # calls and words left alone
LONGEST_TABLE = 24  # numbers; longer tables are data, held against their source by tests of their own
LITERAL = ["x1.1", "x0.5", "x3"]


class Site:
    """One place. kinds: what can be done to it, one number each from `number` on, the gentlest first. forms: ways to write it,
    (kinds or None for all, before, after); the next is tried when one does not compile, and none is left when it is dropped."""

    def __init__(self, source, start, end, label, kinds, forms, constant):
        self.source, self.start, self.end, self.constant = source, start, end, constant
        self.label, self.all_kinds, self.forms, self.number, self.columns = label, kinds, forms, 0, (0, 0)
        self.line = source.text.count("\n", 0, start) + 1
        self.frozen = False  # in a function that the compiler may evaluate

    def drop(self):
        """Goes on to a simpler form, which may do less, or to none."""
        self.forms = self.forms[1:]

    def live(self):
        return bool(self.forms) and (self.constant is None or self.constant.kept)

    def kinds(self):
        return (self.forms[0][0] or self.all_kinds) if self.live() else []

    def numbers(self):
        return range(self.number, self.number + len(self.all_kinds))

    def number_of(self, kind):
        return self.number + self.all_kinds.index(kind)

    def changes(self):
        """What can be done to it; and what need only be tried when the first of these goes unnoticed: a test that sees 10 %
        sees more as well. A division is turned in any case."""
        first = 2 if self.label == "/" else 1
        return self.kinds()[:first], self.kinds()[first:]


class Constant:
    """A declaration with constexpr that must be read at load to be spoilt."""

    def __init__(self, source, start, in_class):
        self.source, self.start, self.in_class, self.names, self.numbers, self.kept = source, start, in_class, [], 0, True
        self.end = start
        self.types = []


class Source:
    """One file: its places and how it reads with them."""

    def __init__(self, path, name):
        self.path, self.name, self.text = path, name, path.read_text()
        self.sites, self.constants = [], []
        self.lines = self.text.split("\n")
        Finder(self).find()

    def state(self):
        """What is left of each place and constant; goes with this text alone."""
        return [zlib.crc32(self.text.encode()), [len(site.forms) for site in self.sites], [c.kept for c in self.constants]]

    def recall(self, state):
        """Takes a state up again, if it is this text's."""
        if state and state[0] == self.state()[0] and len(state[1]) == len(self.sites):
            for site, forms in zip(self.sites, state[1]):
                site.forms = site.forms[len(site.forms) - forms:]
            for constant, kept in zip(self.constants, state[2]):
                constant.kept = kept

    def snippet(self, line):
        """A line without its comment, with single blanks."""
        return " ".join(re.sub(r"//.*", "", self.lines[line - 1]).split())

    def rewritten(self):
        """The text with every place switched, its lines numbered as in the original."""
        edits = []  # start, end, text, site
        for constant in self.constants:
            if constant.kept:
                text = "inline const" if constant.in_class else "const"
                edits.append((constant.start, constant.start + len("constexpr"), text, None))
        for site in self.sites:
            if not site.live():
                continue
            number = str(site.number_of(site.kinds()[0]))
            number = f"spoilt::at_load({number})" if site.constant else number
            before, after = (part.replace("@", number) for part in site.forms[0][1:])
            if site.start == site.end or after:  # something is put around or behind
                edits += [(site.start, site.start, before, site)] + ([(site.end, site.end, after, None)] if after else [])
            else:
                edits.append((site.start, site.end, before, site))
        edits.sort(key=lambda edit: (edit[0], edit[1]))
        parts, at, line, column = ['#include "spoilt_switch.hpp"\n#line 1\n'], 0, 1, 1
        for start, end, text, site in edits:
            passed = self.text[at:start]
            line, column = line + passed.count("\n"), len(passed) - passed.rfind("\n") + (0 if "\n" in passed else column - 1)
            parts += [passed, text]
            if site:
                site.columns = (column, column + len(text))
            column += len(text)
            at = end
        return "".join(parts) + self.text[at:]


class Finder:
    """Walks through the tokens of one source."""

    def __init__(self, source):
        self.source, self.text = source, source.text
        self.tokens = [(m.lastgroup, m.group(), m.start(), m.end()) for m in TOKEN.finditer(source.text)
                       if m.lastgroup not in ("comment", "directive")]
        self.frames = []  # of braces: [kind, constant function]
        self.chains = []  # of products, by depth of brackets
        self.head = []  # tokens since the last ; or brace
        self.constant, self.constant_depth, self.depth = None, 0, 0

    def find(self):
        self.chains = [Chain()]
        i = 0
        while i < len(self.tokens):
            i = self.token(i)
        self.chains.pop().close()
        self.source.sites.sort(key=lambda site: site.start)
        for constant in self.source.constants:
            integral = not constant.types or constant.types[0] in ("int", "std", "char", "bool") and "double" not in constant.types
            constant.kept = constant.numbers <= LONGEST_TABLE and ("double" in constant.types or
                                                                   (constant.numbers > 0 and not integral))
        self.source.sites = [site for site in self.source.sites if site.constant is None or site.constant.kept]

    def kind(self):
        return self.frames[-1][0] if self.frames else "space"

    def spoilable(self):
        """In a function's body, in what a constant or a member begins as, or among default arguments."""
        if self.kind() == "body" or self.constant:
            return True
        if self.kind() == "class":
            return "=" in self.head or "(" in self.head
        return self.kind() == "space" and ("=" in self.head or (self.depth > 0 and "(" in self.head))

    def token(self, i):
        """Takes the token i; the next one to take."""
        group, text, start, end = self.tokens[i]
        if group == "word" and SILENT.match(text):
            return self.skip(i)
        if text == "{":
            self.open_brace(start)
        elif text == "}":
            self.close_brace()
        elif text in "([":
            self.depth += 1
            self.chains.append(Chain())
        elif text in ")]":
            self.depth -= 1
            self.chains.pop().close()
        elif text == ";" or (text == ":" and self.head[-1:] in (["public"], ["private"], ["protected"])):
            if self.constant and self.depth <= self.constant_depth:
                self.constant.end, self.constant = start, None
            self.head = []
            self.end_chain()
            return i + 1
        elif text == "constexpr":
            self.declaration(i)
        elif group == "number":
            self.number(text, start, end)
        elif group == "word" and text in ("max", "min") and self.tokens[i - 1][1] == "::" and self.tokens[i - 2][1] == "std":
            self.extreme(i)
        elif text in ("+", "-", "*", "/", "+=", "-=", "*=", "/=") and self.blank(start - 1) and self.blank(end):
            self.operator(i)
        elif group == "sign" and text not in (".", "->", "::", "+", "-", "*", "&", "!", "<", ">") or text == "return":
            self.end_chain()
        elif text in ("<", ">") and self.blank(start - 1):
            self.end_chain()
        if text not in "{}":
            self.head.append(text)
        return i + 1

    def blank(self, at):
        return self.text[at:at + 1].isspace()

    def end_chain(self):
        self.chains[-1].close()
        self.chains[-1] = Chain()

    def skip(self, i):
        """Past a call or a throw that is left alone."""
        depth, word = 0, self.tokens[i][1]
        i += 1
        if word != "throw" and self.tokens[i][1] != "(":
            return i
        while i < len(self.tokens):
            text = self.tokens[i][1]
            if text == ";" and depth == 0:
                return i
            depth += (text in "([{") - (text in ")]}")
            i += 1
            if depth == 0 and word != "throw":
                return i
        return i

    def open_brace(self, start):
        words, constant_function = self.head, False
        if self.constant:
            kind = "body"
        elif self.kind() == "body":
            kind, constant_function = "body", self.frames[-1][1]
        elif "namespace" in words:
            kind = "space"
        elif "(" not in words and any(word in words for word in ("class", "struct", "union", "enum")):
            kind = "class"
        elif "(" not in words and words and self.depth == 0 and self.kind() == "class":
            kind = "class"  # what a member begins as
        else:
            kind, constant_function = "body", "constexpr" in words
        self.frames.append([kind, constant_function])
        self.depth += 1
        self.chains.append(Chain())
        if not self.constant:
            self.head = []

    def close_brace(self):
        if self.frames:
            self.frames.pop()
        self.depth -= 1
        if len(self.chains) > 1:
            self.chains.pop().close()
        if not self.constant:
            self.head = []

    def declaration(self, i):
        """A constexpr: of a variable when = or { comes before any bracket."""
        if self.tokens[i - 1][1] == "if" or self.constant:
            return
        words, angle = [], 0
        for group, text, _, _ in self.tokens[i + 1:i + 60]:
            angle += (text == "<") - (text == ">")
            if text in ("=", "{", "(", ";") and angle == 0:
                break
            words.append((group, text))
        if text not in ("=", "{") or not words or words[-1][0] != "word":
            return
        constant = Constant(self.source, self.tokens[i][2], self.kind() == "class")
        constant.types = [word for group, word in words[:-1] if group == "word"]
        depth = 0
        for k in range(i + 1, len(self.tokens)):
            group, text, _, _ = self.tokens[k]
            depth += (text in "([{") - (text in ")]}")
            if text == ";" and depth == 0:
                break
            if text == "{" and depth == 1 or text == "=" and depth == 0:
                constant.names.append(self.tokens[k - 1][1])
            constant.numbers += group == "number" and bool(FLOATING.fullmatch(text)) and float(text.replace("'", "")) != 0
        self.source.constants.append(constant)
        self.constant, self.constant_depth = constant, self.depth

    def site(self, start, end, label, kinds, forms):
        site = Site(self.source, start, end, label, kinds, forms, self.constant)
        site.frozen = bool(self.frames and self.frames[-1][1])
        self.source.sites.append(site)
        return site

    def number(self, text, start, end):
        if not FLOATING.fullmatch(text):
            return
        self.chains[-1].literal = True
        neutral = self.kind() == "class" and "(" not in self.head and float(text) == 1  # a share or a factor that others fill in
        if self.spoilable() and float(text.replace("'", "")) != 0 and not neutral:
            form = (None, f"spoilt::literal(@, {text})", "")
            self.site(start, end, text, [f"{text} {change}" for change in LITERAL], [form])

    def extreme(self, i):
        if not self.spoilable():
            return
        end = i + 1
        while self.tokens[end][1] != "(":  # past <double>
            end += 1
            if end > i + 5:
                return
        word, other = self.tokens[i][1], {"max": "min", "min": "max"}[self.tokens[i][1]]
        between = self.text[self.tokens[i][3]:self.tokens[end][2]]
        self.site(self.tokens[i - 2][2], self.tokens[end][3], word, [f"{word} to {other}"],
                  [(None, f"spoilt::{word}{between}(@, ", "")])

    def operator(self, i):
        _, text, _, end = self.tokens[i]
        before, after = self.tokens[i - 1], self.tokens[i + 1]
        chain = self.chains[-1]
        product = text[0] in "*/"
        if before[0] == "text" or after[0] == "text" or not self.spoilable() or before[1] == "operator":
            self.end_chain()
            return
        compound, other = len(text) == 2, {"+": "-", "-": "+", "*": "/", "/": "*"}[text[0]]
        label = [f"{text} to {other}{'=' if compound else ''}"]
        if compound:
            self.end_chain()
            start, stop = end, self.end_of_expression(i + 1)
            literal = FLOATING.search(self.text[start:stop]) and product
            forms = [(None, " spoilt::Sign{@} * (", ")")]
            if product:
                full = [f"factor x1.1 in {text}"] + label
                forms = ([] if literal else [(full, " spoilt::right<true, true>(@, ", ")")]) + [
                    (label, " spoilt::right<false, true>(@, ", ")")]
                label = forms[0][0]
            self.site(start, stop, text, label, forms)
        elif product:
            turned = [(label, " spoilt::Factor<false, true>{@} *", "")]
            site = self.site(end, end, text, label, turned)
            chain.products.append(site)
        else:
            self.end_chain()
            if not (after[0] == "number" and not FLOATING.fullmatch(after[1])):  # an index
                self.site(end, end, text, label, [(None, " spoilt::Sign{@} *", "")])

    def end_of_expression(self, k):
        depth = 0
        while True:
            text = self.tokens[k][1]
            if depth == 0 and text in (";", ",", ")", "}"):
                return self.tokens[k][2]
            depth += (text in "([{") - (text in ")]}")
            k += 1


class Chain:
    """Factors multiplied and divided by each other: 10 % more of one is 10 % more of any, so one of them stands for all, and
    a number among them for it."""

    def __init__(self):
        self.products, self.literal = [], False

    def close(self):
        for site in self.products:
            turned = site.forms if site.label == "/" else []
            if site is self.products[0] and not self.literal:
                scaled = [f"factor x1.1 at {site.label}"]
                site.all_kinds = scaled + site.all_kinds
                site.forms = [(site.all_kinds, " spoilt::Factor<true, true>{@} *", ""),
                              (scaled, " spoilt::Factor<true, false>{@} *", "")] + turned
            elif not turned:
                site.source.sites.remove(site)


def read_sources(root, folders):
    """The sources in folders of a tree, in order, their places numbered from 1 on."""
    paths = sorted({path for folder in folders for path in (root / folder).rglob("*") if path.suffix in (".cpp", ".hpp")})
    sources, number = [Source(path, str(path.relative_to(root))) for path in paths], 1
    for source in sources:
        for site in source.sites:
            site.number = number
            number += len(site.all_kinds)
    return sources
