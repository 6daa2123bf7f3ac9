#include "shells/wasm/border.h"

#include <memory>
#include <string>
#include <string_view>
#include <utility>

#include "desk/desk.h"
#include "exchange/door/door.h"

namespace {

using fallwright::desk::OpenBook;

constexpr int answered = 0;
constexpr int no_book = 1;

// What a reply points into lives in the same object, so that one fw_free returns all of it.
struct OwnedReply final : fw_reply {
    OwnedReply(int outcome, std::string bytes, std::shared_ptr<const OpenBook> opened = nullptr)
        : fw_reply{nullptr, 0, outcome}, held(std::move(bytes)), book(std::move(opened)) {
        text = held.data();
        size = held.size();
    }

    std::string held;
    std::shared_ptr<const OpenBook> book;
};

std::string_view view(const char* bytes, size_t size) {
    return size == 0 ? std::string_view() : std::string_view(bytes, size);
}

// The core does not throw to its callers; what can still arrive is a failed allocation.
template <class Work>
fw_reply* guarded(Work work) noexcept {
    try {
        return work();
    } catch (...) {
        return nullptr;
    }
}

}  // namespace

extern "C" {

fw_reply* fw_open(const char* book, size_t size) {
    return guarded([&]() -> fw_reply* {
        auto opened = fallwright::desk::open(std::string(view(book, size)));
        if (!opened) return new OwnedReply(no_book, fallwright::desk::refuse(opened.finding()));
        return new OwnedReply(answered, std::string(), std::move(*opened));
    });
}

fw_reply* fw_run(const fw_reply* opened, const char* request, size_t size) {
    return guarded([&]() -> fw_reply* {
        if (opened == nullptr) return new OwnedReply(answered, fallwright::door::answer(view(request, size)));
        const auto& from = *static_cast<const OwnedReply*>(opened);
        if (from.book == nullptr) return new OwnedReply(no_book, from.held);
        return new OwnedReply(answered, fallwright::door::run(*from.book, view(request, size)));
    });
}

void fw_free(fw_reply* reply) {
    delete static_cast<OwnedReply*>(reply);
}

const char* fw_version(void) {
    return FALLWRIGHT_VERSION;
}

}  // extern "C"
