"""Layering: a stage includes only what its CMake line allows, and heavy headers stay where they belong."""

import re

from . import tree

INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]', re.M)
STAGE = re.compile(r"add_stage\((\w+)(?:\s+USES\s+([\w\s]+?))?(?:\s+PRIVATE\s+([\w\s]+?))?\s*\)")

# Where the full JSON header and Eigen may be included; tests may look at results with the JSON header too.
JSON_HOMES = ("core/book/", "core/desk/", "exchange/", "tests/", "shells/", "bench/", "fuzz/")
EIGEN_HOMES = ("core/adjust/", "tests/adjust/", "bench/")


def stages():
    """{stage: (folder, stages it may use, itself and transitive ones included)}"""
    direct, folders = {}, {}
    for name in tree.files("*CMakeLists.txt"):
        for stage, uses, _ in STAGE.findall(tree.text(name)):
            direct[stage] = set(uses.split())
            folders[stage] = name.rsplit("/", 1)[0]

    def reach(stage, seen):
        for used in direct.get(stage, ()):
            if used not in seen:
                seen.add(used)
                reach(used, seen)
        return seen

    return {stage: (folders[stage], reach(stage, {stage})) for stage in direct}


def includes(name):
    """(line number, path, whether quoted) of each include."""
    content = tree.text(name)
    for match in INCLUDE.finditer(content):
        yield content.count("\n", 0, match.start()) + 1, match.group(2), match.group(1) == '"'


def owner(path, known):
    """The stage that a quoted include path belongs to, or None."""
    for stage, (folder, _) in known.items():
        if (folder + "/").endswith("/" + path.rsplit("/", 1)[0] + "/") or path.startswith(folder + "/"):
            return stage
    return None


def check_includes(known):
    problems = []
    for stage, (folder, reachable) in known.items():
        for name in tree.files(f"{folder}/*.h", f"{folder}/*.cpp"):
            for line, path, quoted in includes(name):
                if not quoted:
                    continue
                target = owner(path, known)
                if target is None:
                    problems.append(f"{name}:{line}: \"{path}\" belongs to no stage")
                elif target not in reachable:
                    problems.append(f"{name}:{line}: {stage} does not name {target} in its CMakeLists.txt")
    return problems


# What the first comment of a header says that only its own stage may include; its comments need not make a contract.
INTERNAL = re.compile(r"Inside ([a-z_]+) only\.")


def internal(name):
    """Whether a header is no part of its stage's contract."""
    return bool(INTERNAL.search(tree.text(name).split("#pragma once")[0]))


def check_internal():
    hidden = {name.split("/", 1)[1]: name.rsplit("/", 1)[0] for name in tree.files("core/*.h") if internal(name)}
    problems = []
    for name in tree.suffixed(".h", ".cpp"):
        for line, path, quoted in includes(name):
            if quoted and path in hidden and not name.startswith(hidden[path] + "/"):
                problems.append(f"{name}:{line}: \"{path}\" belongs to its own stage only")
    return problems


def check_heavy():
    problems = []
    for name in tree.suffixed(".h", ".cpp"):
        for line, path, _ in includes(name):
            if path == "nlohmann/json.hpp" and not name.startswith(JSON_HOMES) and not name.endswith("_test.cpp"):
                problems.append(f"{name}:{line}: the full JSON header belongs to book and desk only")
            if path.startswith("Eigen/") and not name.startswith(EIGEN_HOMES):
                problems.append(f"{name}:{line}: Eigen belongs to adjust only")
            if path in ("iostream", "fstream", "chrono", "ctime", "thread") and name.startswith("core/") \
                    and not name.endswith("_test.cpp"):
                problems.append(f"{name}:{line}: <{path}>: the core does no I/O and knows no clock")
    return problems


NAMESPACE = re.compile(r"^namespace([\w: ]*)\{", re.M)
TYPE = re.compile(r"^(?:struct|class|enum class|enum) (\w+)(?: final)?(?: :[^;{]*)? \{", re.M)


def named_types(content):
    """The types a file defines that other files could name: with their namespaces, those without a name left out."""
    events = sorted([(m.start(), "in", m.group(1).strip()) for m in NAMESPACE.finditer(content)]
                    + [(m.start(), "out", "") for m in re.finditer(r"^\}  // namespace", content, re.M)]
                    + [(m.start(), "type", m.group(1)) for m in TYPE.finditer(content)])
    inside = []
    for _, what, name in events:
        if what == "in":
            inside.append(name)
        elif what == "out":
            inside.pop()
        elif "" not in inside:
            yield "::".join([*inside, name])


def check_types(named):
    """named: {file: its named types}. Two of one name in one program are one to the linker, whichever it meets first."""
    places = {}
    for name, types in named.items():
        for each in types:
            places.setdefault(each, []).append(name)
    return [f"{each} is defined in {' and in '.join(where)}" for each, where in sorted(places.items()) if len(where) > 1]


def checks():
    known = stages()
    yield "each stage includes only stages it uses", check_includes(known)
    yield "headers inside a stage are included by that stage only", check_internal()
    yield "JSON, Eigen and I/O headers stay where they belong", check_heavy()
    code = [name for name in tree.suffixed(".h", ".cpp") if name.startswith(("core/", "exchange/", "store/", "shells/"))]
    yield "no type has a name that another file's type has", check_types({name: named_types(tree.text(name)) for name in code})
