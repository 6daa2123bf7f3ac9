"""What a program makes, against the files somebody looked at and approved."""

import pathlib

APPROVED = pathlib.Path(__file__).resolve().parent / "approved"


def fault(path, text, broken):
    """Why a text is not the approved one; "" where it is."""
    if why := broken(text):
        return why
    if not path.exists():
        return "was never approved"
    before, now = path.read_text(encoding="utf-8").splitlines(), text.splitlines()
    for number, (old, new) in enumerate(zip(before, now), 1):
        if old != new:
            return f"differs from line {number} on: {old[:120]} | {new[:120]}"
    return "" if len(before) == len(now) else f"has {len(now)} lines, approved are {len(before)}"


def approve(folder, ending, made):
    folder.mkdir(exist_ok=True)
    for path in folder.glob(f"*{ending}"):
        if path.name not in made:
            path.unlink()
    for name, text in made.items():
        (folder / name).write_text(text, encoding="utf-8")
    print(f"{len(made)} approved")


def end(folder, ending, made, approving, broken=lambda text: ""):
    """Approves `made`, {file name: text}, or says what differs and ends with "N passed, N failed". The exit status."""
    if approving:
        approve(folder, ending, made)
        return 0
    faults = {name: fault(folder / name, text, broken) for name, text in sorted(made.items())}
    faults.update({path.name: "is not made any more" for path in folder.glob(f"*{ending}") if path.name not in made})
    failed = {name: why for name, why in faults.items() if why}
    for name, why in failed.items():
        print(f"{name}: {why}")
    if failed:
        print("Look at them; what is right is approved by the same command with --approve")
    print(f"{len(faults) - len(failed)} passed, {len(failed)} failed")
    return 1 if failed else 0
