#include "shells/server/answer.h"

#include <fstream>
#include <iterator>
#include <optional>

#include "base/sha256.h"

namespace fallwright::server {

namespace {

// What the app may load and run, after Content Security Policy Level 3. Styles and scripts are files;
// pictures may also be made on the spot.
constexpr const char* policy =
    "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; style-src 'self'; "
    "img-src 'self' blob: data:; connect-src 'self'; object-src 'none'; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'";

std::vector<Header> always() {
    return {{"Content-Security-Policy", policy},
            {"X-Content-Type-Options", "nosniff"},
            {"Referrer-Policy", "no-referrer"},
            {"Cross-Origin-Opener-Policy", "same-origin"},
            {"Cross-Origin-Resource-Policy", "same-origin"},
            {"Permissions-Policy", "camera=(), geolocation=(), microphone=(), payment=(), usb=()"}};
}

Answer plain(int status, const std::string& words) {
    Answer made = {status, "text/plain; charset=utf-8", words, always()};
    made.headers.push_back({"Cache-Control", "no-store"});
    return made;
}

std::optional<std::string> bytes_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    if (!file.good() && !file.eof()) return std::nullopt;
    return bytes;
}

// The tag of these bytes in this coding is in the list of an If-None-Match.
bool listed(const std::string& list, const std::string& tag) {
    return list == "*" || list.find(tag) != std::string::npos;
}

}  // namespace

Answer answer(const AppFiles& files, const Asked& asked) {
    if (asked.method != "GET" && asked.method != "HEAD") {
        Answer refused = plain(405, "The app is files: GET and HEAD only.\n");
        refused.headers.push_back({"Allow", "GET, HEAD"});
        return refused;
    }
    const std::optional<AppFile> file = files.find(asked.target, asked.accept_encoding);
    if (!file) return plain(404, "The app has no such file.\n");
    std::optional<std::string> bytes = bytes_of(file->path);
    if (!bytes) return plain(500, "The file cannot be read.\n");
    Answer made = {200, file->type, "", always()};
    constexpr std::size_t enough = 32;  // digits of the fingerprint
    const std::string tag = "\"" + sha256_hex(*bytes).substr(0, enough) + "\"";
    made.headers.push_back({"ETag", tag});
    made.headers.push_back(
        {"Cache-Control", file->hashed ? "public, max-age=31536000, immutable" : "no-cache"});
    if (file->varies) made.headers.push_back({"Vary", "Accept-Encoding"});
    if (listed(asked.if_none_match, tag)) {
        made.status = 304;
        return made;
    }
    if (!file->encoding.empty()) made.headers.push_back({"Content-Encoding", file->encoding});
    made.body = std::move(*bytes);
    return made;
}

}  // namespace fallwright::server
