// Any bytes give a book or the one finding that says why not; reading them again gives the same.
#include "book/book.h"

#include "fuzz/fuzz.h"

using namespace fallwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string text = fuzz::text(data, size);
    const Result<std::unique_ptr<Book>> book = read_book(text);
    if (!book) {
        fuzz::must(!book.finding().message.empty(), "a refusal says why");
        return 0;
    }
    const Result<std::unique_ptr<Book>> again = read_book(text);
    fuzz::must(again && (*again)->entries.size() == (*book)->entries.size() &&
                   (*again)->findings.size() == (*book)->findings.size(),
               "same bytes, same book");
    for (const Reading& reading : (*book)->readings)
        fuzz::must(reading.entry < (*book)->entries.size(), "a reading belongs to an entry");
    return 0;
}
