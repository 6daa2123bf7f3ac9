"""What the scripts of this folder share: the command that adds an entry, the book it adds to, and the counting.

Every script is called as

    SCRIPT -- COMMAND...

where the words {book} and {entry} of COMMAND are filled in: `append_tool add {book} {entry}`. An entry is the text
of a JSON object, here a remark with a text of its own, by which it is found again; a book is begun with BEGIN. An
answer is exit status 0, or at least one whole line on standard output of a program that was killed afterwards.
"""

import contextlib
import fcntl
import json
import os
import pathlib
import resource
import shutil
import subprocess
import sys
import tempfile
import time

BEGIN = {"kind": "book"}
FIRST_LINE = '{"kind":"book","format":"fallwright","version":1}\n'


class Adder:
    def __init__(self, words, folder):
        self.words = [shutil.which(words[0]) or words[0], *words[1:]]
        self.words[0] = os.path.abspath(self.words[0])
        settings = pathlib.Path(folder) / "settings"
        settings.mkdir(exist_ok=True)
        self.environment = {**os.environ, "XDG_CONFIG_HOME": str(settings), "FALLWRIGHT_BY": "tester",
                            # A tool built with sanitizers: leaks cannot be looked for under ptrace.
                            "ASAN_OPTIONS": "detect_leaks=0"}
        self.environment.pop("FALLWRIGHT_DEVICE", None)

    def command(self, book, entry):
        """`entry`: the text of a remark, or a whole entry."""
        entry = json.dumps({"kind": "remark", "text": entry} if isinstance(entry, str) else entry)
        return [word.replace("{book}", str(book)).replace("{entry}", entry) for word in self.words]

    def start(self, book, entry, before=(), **options):
        return subprocess.Popen([*before, *self.command(book, entry)], env=self.environment, stdin=subprocess.DEVNULL,
                                stdout=subprocess.PIPE, stderr=subprocess.PIPE, **options)

    def add(self, book, entry, before=(), **options):
        """(exit status, standard output, standard error)"""
        running = self.start(book, entry, before, **options)
        out, err = running.communicate(timeout=120)
        return running.returncode, out.decode(), err.decode()


def answered(status, out):
    return status == 0 or "\n" in out


def new_book(path, text=FIRST_LINE):
    path.write_bytes(text.encode())
    return path


class Book:
    """The lines of a book: entries in their order, and pieces that are no entries. No file: none of either."""

    def __init__(self, path):
        self.entries, self.torn = [], []
        for line in path.read_bytes().split(b"\n") if path.exists() else []:
            if not line.strip(b"\0"):
                self.torn += [line] if line else []
                continue
            try:
                self.entries.append(json.loads(line.rstrip(b"\0")))
            except ValueError:
                self.torn.append(line)
        self.begun = sum(each.get("kind") == "book" for each in self.entries)
        self.texts = [each["text"] for each in self.entries if each.get("kind") == "remark"]
        self.ids = [each["id"] for each in self.entries if "id" in each]


class Count:
    def __init__(self):
        self.passed = self.failed = 0

    def check(self, statement, holds, detail=""):
        if holds:
            self.passed += 1
            print(f"ok      {statement}")
        else:
            self.failed += 1
            print(f"FAILED  {statement}" + (f": {detail}" if detail != "" else ""))
        return holds

    def refused(self, statement, result):
        """Exit 2, nothing on standard output, one line with words on standard error."""
        status, out, err = result
        self.check(f"{statement}: exit 2, no answer, one clear line",
                   status == 2 and out == "" and err.count("\n") == 1 and len(err) > 30, result)
        print(f"        {err.strip()}")

    def finish(self):
        print(f"{self.passed} passed, {self.failed} failed")
        return 1 if self.failed else 0


@contextlib.contextmanager
def small_disk(path, options):
    """A tmpfs at `path`, mounted by root or through sudo. Gives None where that may not be done, and says so."""
    path.mkdir()
    as_root = [] if os.geteuid() == 0 else ["sudo", "-n"]
    try:
        done = subprocess.run([*as_root, "mount", "-t", "tmpfs", "-o", f"mode=777,{options}", "fallwright-test",
                               str(path)], capture_output=True, text=True)
        refusal = done.stderr.strip() if done.returncode else None
    except OSError as no_sudo:
        refusal = str(no_sudo)
    if refusal is not None:
        print(f"NOT RUN what needs a disk of its own, for none can be mounted here: {refusal}")
        yield None
        return
    try:
        yield lambda changed: subprocess.run([*as_root, "mount", "-o", f"remount,{changed}", str(path)], check=True)
    finally:
        subprocess.run([*as_root, "umount", str(path)], check=True)


def main(script, test):
    """Runs test(adder, folder, count) in a folder of its own, with the command behind -- on the command line."""
    if "--" not in sys.argv or sys.argv[-1] == "--":
        sys.exit(script)
    count = Count()
    with tempfile.TemporaryDirectory(prefix="fallwright-") as folder:
        test(Adder(sys.argv[sys.argv.index("--") + 1:], folder), pathlib.Path(folder), count)
    sys.exit(count.finish())


def hold(path):
    """An open file with the book's lock, as another adder would hold it."""
    file = open(path, "rb")
    fcntl.flock(file, fcntl.LOCK_EX)
    return file


def wait_until_waiting(running, seconds=0.3):
    """Gives an adder the time to come to the lock somebody else holds; False if it did not wait there."""
    time.sleep(seconds)
    return running.poll() is None


def limit_file_size(size):
    """For preexec_fn: files of the child may have at most `size` bytes."""
    return lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))
