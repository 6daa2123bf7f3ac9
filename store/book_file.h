// The book file: adding lines so that what was answered is still there after a power cut.
//
// append, under one exclusive lock (held_file.h):
//   1. sync of the folder: the name this file is reached by is durable before anything is promised under it.
//      Needed on creation; also done later, because a file may have been put here by a rename (ours, an
//      editor's) whose author never came to make it durable. Costs next to nothing where nothing is due.
//   2. the lines are composed from what the file holds now, so counters and checks are right although others
//      add at the same time.
//   3. if the last byte is no line break: a line break, and sync. A write of its own: torn together with the
//      line it could leave the new line's rest hanging on the line above, which may be a good one.
//   4. all lines in one write, sync, and only then the answer.
//   A write that is short or fails, or a sync that fails: the file is cut back to its old length under the
//   lock, and that is the answer. A failed sync is never asked again for a better one.
//
// What a power cut or a killed program can leave of an append that was not answered: nothing, a torn piece,
// or the whole line. A torn piece has no line break or holds NULs; the next append ends it with a line break
// and readers pass over it and say so. Lines answered before are never touched: assumed is a disk that writes
// a sector whole or not at all and keeps its neighbours.
//
// Several lines in one append: one write. Answered means all of them; an error means none. After a power cut
// without an answer any of them may stand or be torn. Where even then all or none must stand (an import), use
// append_together, which writes a new file beside the book and renames it over the book.
//
// Network folders keep neither locks nor syncs as promised: network_note says so.
//
// Findings: BadFile with the cause and the cure; BadRequest or LineTooLong for a line that may not be
// written; whatever compose or change answers. After any of them the book holds what it held before, unless
// the finding says otherwise. Limiting cases: an empty file is a book not begun and its bytes are "".
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "store/held_file.h"
#include "store/lines.h"

namespace fallwright::store {

// The lines to add to a book that holds these bytes; called under the lock. No lines: nothing is written.
using Compose = std::function<Result<Lines>(std::string_view now)>;
// The bytes that take the place of these; called under the lock.
using Change = std::function<Result<std::string>(std::string_view now)>;

struct Added {
    Lines lines;
    bool created = false;  // the file was not there before
};

Result<Added> append(Files& files, const std::string& path, IfAbsent if_absent, const Compose& compose);

// As append, but even a power cut leaves all lines or none. The file gets a new inode; a writer waiting for
// the old one notices. Costs a copy of the book and needs the right to write to its folder.
Result<Added> append_together(Files& files, const std::string& path, IfAbsent if_absent,
                              const Compose& compose);

// A new book with these lines, all or none. BadFile if there is one; an empty file is none.
Result<Added> create_new(Files& files, const std::string& path, const Lines& lines);

// A file beside it (its name and ".part") is written, made durable and renamed over it; permissions are kept.
// Takes the change and not the bytes: bytes made before the lock would lose what was added since. Answers the
// bytes that stand now.
Result<std::string> rewrite(Files& files, const std::string& path, const Change& change);

// All bytes of a file, or of a pipe. Waits a short time for a writer to finish its line, then reads anyway.
Result<std::string> read_all(Files& files, const std::string& path);

// The note NetworkFolder where the path is on a file system that reaches another machine or a program.
std::optional<Finding> network_note(Files& files, const std::string& path);

}  // namespace fallwright::store
