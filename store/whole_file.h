// whole_file: a file that can be made again at any time (a report, a drawing, an export), written as a whole
// or not at all.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/finding.h"
#include "store/file.h"

namespace fallwright::store {

// Writes beside the path, makes it durable, then gives it its name: whoever opens the path finds the old file
// or the new one, and after an error the old one or none. What is no regular file (a pipe, a device) is
// written to as it is. Nothing, or the finding that says in one sentence why not.
std::optional<Finding> write_whole(Files& files, const std::string& path, std::string_view bytes);

}  // namespace fallwright::store
