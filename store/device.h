// Device: the first half of the ids the tools write, and the next free number for the second.
//
// An id is DEVICE-COUNTER, "qkzmwd-17": two devices never write the same one, so books can be joined. The
// name of this device is FALLWRIGHT_DEVICE, else what stands in the file `device` of the settings folder
// ($XDG_CONFIG_HOME/fallwright, else ~/.config/fallwright); if there is none, six random letters are put
// there once. A name: 1 to 32 ASCII letters, digits, - and _.
//
// The counter is not kept anywhere: it is one above the highest the book mentions for this device, found
// under the book's lock (book_file.h, Compose), so two adders at once, a copied book and a restored backup
// are right. Highest mentioned, not lowest free: a number stands also where the line around it is torn or
// struck.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/result.h"
#include "store/file.h"

namespace fallwright::store {

// BadRequest where FALLWRIGHT_DEVICE or the file holds no name; BadFile where the file can be neither read
// nor made (the cure: set FALLWRIGHT_DEVICE).
Result<std::string> device_name(Files& files);

// Hands out ids for one device, each once. Cost: one pass over the book's bytes.
class Ids {
  public:
    Ids(std::string device, std::string_view book);

    std::string next();

  private:
    std::string device_;
    std::uint64_t last_;
};

}  // namespace fallwright::store
