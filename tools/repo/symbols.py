"""Banned symbols: what the core's objects must not ask of their host."""

import re
import subprocess

from . import tree

ARCHIVES = "build/release/core"
# snprintf formats into a buffer and is allowed; so is what the C++ library needs to throw and to allocate.
BANNED = re.compile(
    r"^(?:printf|fprintf|vprintf|vfprintf|puts|fputs|putchar|fputc|putc|fwrite|perror|fopen|fopen64|fdopen|freopen|"
    r"fread|fgets|getline|scanf|fscanf|open|open64|read|write|close|unlink|rename|stat|"
    r"time|clock|clock_gettime|gettimeofday|localtime|localtime_r|gmtime|gmtime_r|mktime|"
    r"exit|_exit|quick_exit|getenv|secure_getenv|setlocale|system|fork|execve|popen|"
    r"rand|srand|random|srandom|rand_r|drand48|signal|sigaction|pthread_create|sleep|usleep|nanosleep|"
    r"__printf_chk|__fprintf_chk|__vfprintf_chk|"
    r"std::ios_base::Init::Init\(\)|std::c(?:out|err|log|in)|std::basic_[io]?fstream.*|std::basic_filebuf.*|"
    r"std::random_device.*|std::chrono::.*::now\(\)|std::thread::.*|std::filesystem::.*)(?:@.*)?$")


def undefined(archive):
    """{symbol: objects that ask for it}"""
    listed = subprocess.run(["nm", "--undefined-only", "--demangle", "--print-file-name", str(archive)],
                            capture_output=True, check=True, text=True).stdout
    asked = {}
    for line in listed.splitlines():
        place, _, symbol = line.partition(" U ")
        if symbol:
            asked.setdefault(symbol.strip(), set()).add(place.split(":")[1] if ":" in place else place.strip())
    return asked


def check_symbols():
    archives = sorted((tree.ROOT / ARCHIVES).glob("*/libfw_*.a"))
    if not archives:
        return [f"{ARCHIVES} has no libraries: build the release preset first"]
    problems = []
    for archive in archives:
        for symbol, objects in sorted(undefined(archive).items()):
            if BANNED.match(symbol):
                problems.append(f"{archive.name}: {', '.join(sorted(objects))} asks for {symbol}")
    return problems


def checks():
    yield "the core prints, reads, waits for and ends nothing (symbols of its release objects)", check_symbols()
