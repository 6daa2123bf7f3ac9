// Trouble: an errno of a system call as the finding a person can act on.
//
// One sentence says which file, what could not be done, the system's own word for the cause, and what stands
// now; the cure follows from the cause ("free some space" for a full disk, "check your rights" for EACCES).
// The code is BadFile for all of them. The system's word is in English, whatever the locale.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/finding.h"

namespace fallwright::store {

// What could not be done.
enum class Step : std::uint8_t { Open, Lock, Read, Write, Settle, Replace };

// error: an errno, not 0. `stands`: what holds now ("nothing has been added"), empty where nothing was tried.
Finding trouble(const std::string& path, Step step, int error, std::string_view stands);

}  // namespace fallwright::store
