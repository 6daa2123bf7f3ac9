#include "store/trouble.h"

#include <array>
#include <cerrno>
#include <system_error>

namespace fallwright::store {

namespace {

struct Cure {
    int error;
    std::string_view text;
};

constexpr std::string_view free_space = "free some space on this disk, then do it again";
constexpr std::string_view local_disk = "keep the book on a disk of this machine";
constexpr std::string_view other_program = "close the other program that holds it, then do it again";
constexpr std::string_view rights = "check your rights on it and on its folder";

constexpr std::array cures = {
    Cure{ENOENT, "check its name, and that its folder is there"},
    Cure{ENOTDIR, "check its name: what stands before the last / has to be a folder"},
    Cure{EISDIR, "name a file in that folder"},
    Cure{ENAMETOOLONG, "give it a shorter name"},
    Cure{ELOOP, "name the file itself instead of the links that lead in a circle"},
    Cure{EACCES, rights},
    Cure{EPERM, rights},
    Cure{EROFS, "this disk cannot be written: copy the book to one that can"},
    Cure{ENOSPC, free_space},
    Cure{EDQUOT, free_space},
    Cure{EFBIG, "it is as large as this system allows: raise the limit, or begin a new book"},
    Cure{EIO, "the disk reports a fault: copy the book to another disk, then do it again there"},
    Cure{EWOULDBLOCK, other_program},
    Cure{ETXTBSY, other_program},
    Cure{ENOLCK, local_disk},
    Cure{ENOTSUP, local_disk},
    Cure{ENOSYS, local_disk},
    Cure{EMFILE, "close other files or programs, then do it again"},
    Cure{ENFILE, "close other files or programs, then do it again"},
};

std::string_view phrase(Step step) {
    switch (step) {
        case Step::Open:
            return "cannot be opened";
        case Step::Lock:
            return "cannot be locked";
        case Step::Read:
            return "cannot be read";
        case Step::Write:
            return "cannot be written";
        case Step::Settle:
            return "cannot be made durable";
        case Step::Replace:
            return "cannot be replaced";
    }
    return "cannot be used";
}

std::string_view cure_of(int error) {
    for (const Cure& cure : cures) {
        if (cure.error == error) return cure.text;
    }
    return catalogue(Code::BadFile).cure;
}

}  // namespace

Finding trouble(const std::string& path, Step step, int error, std::string_view stands) {
    std::string message(phrase(step));
    message += " (" + std::generic_category().message(error) + ")";
    if (!stands.empty()) message += ", " + std::string(stands);
    return finding(Code::BadFile, {path}, message, std::string(cure_of(error)));
}

}  // namespace fallwright::store
