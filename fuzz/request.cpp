// Any request is answered by one JSON object.
#include <nlohmann/json.hpp>

#include "desk/desk.h"
#include "fuzz/fuzz.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string answer = fallwright::desk::answer(fallwright::fuzz::text(data, size));
    const nlohmann::json parsed = nlohmann::json::parse(answer, nullptr, false);
    fallwright::fuzz::must(parsed.is_object(), "an answer is a JSON object");
    return 0;
}
