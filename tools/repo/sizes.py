"""Sizes: lines per file and function, share of comments in the core's headers."""

import ast
import re

from . import layers, tree

FILE_WARN, FILE_LIMIT = 250, 500
FUNCTION_LIMIT = 60
GENERATED = ("api/types/",)
COMMENT_SHARE = 0.35

# Comments, strings and character literals, so that braces in them do not count. Raw strings come first.
NOT_CODE = re.compile(
    r'R"(?P<mark>[^()\\\s]{0,16})\((?s:.*?)\)(?P=mark)"|//[^\n]*|/\*(?s:.*?)\*/|"(?:\\.|[^"\\\n])*"|(?<![0-9a-fA-F])\'(?:\\.|[^\'\\\n])+\'')
# What may stand between a parameter list and the body it opens.
TAIL = re.compile(r"\)\s*(?:const|noexcept(?:\s*\([^()]*\))?|override|final|mutable|&&?|->\s*[\w:<>,&*\s]+|try|\s)*$")
INITIALISERS = re.compile(r"\)\s*(?:noexcept\s*)?:\s*(?!:)[^;{}]*(?:\{[^{}]*\}[^;{}]*)*(?<=[)}])$")
KEYWORD = re.compile(r"\b(?:if|for|while|switch|catch)\s*(?:constexpr\s*)?\($")


def blanked(content):
    """Same length and line breaks, with comments and literals blanked out; preprocessor lines too."""
    def blank(match):
        return re.sub(r"[^\n]", " ", match.group(0))
    content = NOT_CODE.sub(blank, content)
    return re.sub(r"^[ \t]*#(?:[^\n]*\\\n)*[^\n]*", blank, content, flags=re.M)


def opens_function(head):
    """Whether the text before a brace ends a function's head."""
    head = head[-2000:].rstrip()
    if INITIALISERS.search(head):
        return True
    return bool(TAIL.search(head[max(head.rfind(each) for each in ";{}") + 1:]))


def functions(content):
    """(first line, last line) of each outermost function body with its braces."""
    code, depth, start, inside = blanked(content), 0, None, None
    for at, sign in ((match.start(), match.group(0)) for match in re.finditer(r"[{}]", code)):
        if sign == "{":
            if inside is None and opens_function(code[:at]):
                start, inside = at, depth
            depth += 1
        else:
            depth -= 1
            if inside is not None and depth == inside:
                yield content.count("\n", 0, start) + 1, content.count("\n", 0, at) + 1
                inside = None


def check_files():
    problems, large = [], []
    for name in tree.suffixed(".h", ".cpp", ".py", ".mjs", ".ts", ".sh", ".cmake"):
        lines = tree.text(name).count("\n")
        if name.startswith(GENERATED):
            continue
        if lines > FILE_LIMIT:
            problems.append(f"{name}: {lines} lines, the limit is {FILE_LIMIT}")
        elif lines > FILE_WARN:
            large.append(f"{name} {lines}")
    if large:
        print(f"  over {FILE_WARN} lines: " + ", ".join(large))
    return problems


def check_functions():
    problems = []
    for name in tree.suffixed(".h", ".cpp"):
        for first, last in functions(tree.text(name)):
            if last - first + 1 > FUNCTION_LIMIT:
                problems.append(f"{name}:{first}: a function of {last - first + 1} lines, the limit is {FUNCTION_LIMIT}")
    for name in tree.suffixed(".py"):
        for node in ast.walk(ast.parse(tree.text(name))):
            if isinstance(node, ast.FunctionDef) and node.end_lineno - node.lineno + 1 > FUNCTION_LIMIT:
                problems.append(f"{name}:{node.lineno}: {node.name} has {node.end_lineno - node.lineno + 1} lines, "
                                f"the limit is {FUNCTION_LIMIT}")
    return problems


def comment_share(content):
    lines = [line.strip() for line in content.splitlines() if line.strip()]
    return sum("//" in line or line.startswith(("/*", "*")) for line in lines) / max(len(lines), 1)


def check_comments():
    problems = []
    for name in tree.files("core/*.h"):
        if layers.internal(name):
            continue
        share = comment_share(tree.text(name))
        if share < COMMENT_SHARE:
            problems.append(f"{name}: {share:.0%} of its lines carry a comment, at least {COMMENT_SHARE:.0%} should")
    return problems


def checks():
    yield f"no file over {FILE_LIMIT} lines", check_files()
    yield f"no function over {FUNCTION_LIMIT} lines", check_functions()
    yield f"headers of the core are contracts: comments on {COMMENT_SHARE:.0%} of their lines", check_comments()
