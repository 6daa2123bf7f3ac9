#include "shells/server/app_files.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>

namespace fallwright::server {

namespace fs = std::filesystem;

namespace {

constexpr std::array<std::pair<std::string_view, std::string_view>, 17> types = {
    {{".html", "text/html; charset=utf-8"},
     {".js", "text/javascript; charset=utf-8"},
     {".mjs", "text/javascript; charset=utf-8"},
     {".css", "text/css; charset=utf-8"},
     {".wasm", "application/wasm"},
     {".json", "application/json"},
     {".map", "application/json"},
     {".webmanifest", "application/manifest+json"},
     {".svg", "image/svg+xml"},
     {".png", "image/png"},
     {".ico", "image/x-icon"},
     {".woff2", "font/woff2"},
     {".txt", "text/plain; charset=utf-8"},
     {".csv", "text/csv; charset=utf-8"},
     {".jsonl", "application/x-ndjson; charset=utf-8"},
     {".xml", "application/xml"},
     {".pdf", "application/pdf"}}};

// No name of the app has anything else; each part of a path, so that none is "..", hidden or empty.
bool plain_part(std::string_view part) {
    if (part.empty() || part.front() == '.') return false;
    return std::all_of(part.begin(), part.end(), [](char letter) {
        const auto byte = static_cast<unsigned char>(letter);
        return byte > ' ' && byte < 0x7F && letter != '\\' && letter != ':';
    });
}

bool plain_path(std::string_view path) {
    while (true) {
        const std::size_t slash = path.find('/');
        if (!plain_part(path.substr(0, slash))) return false;
        if (slash == std::string_view::npos) return true;
        path.remove_prefix(slash + 1);
    }
}

// assets/NAME-HASH.ending, as bundlers name what changes with its content.
bool has_hash(std::string_view target) {
    constexpr std::string_view folder = "assets/";
    constexpr std::size_t hash = 8;
    if (!target.starts_with(folder)) return false;
    const std::size_t ending = target.find_last_of('.');
    if (ending == std::string_view::npos || ending < folder.size() + hash + 1) return false;
    const std::string_view letters = target.substr(ending - hash, hash);
    const bool dashed = target[ending - hash - 1] == '-' || target[ending - hash - 1] == '.';
    return dashed && std::all_of(letters.begin(), letters.end(), [](char letter) {
               return std::isalnum(static_cast<unsigned char>(letter)) != 0 || letter == '_' || letter == '-';
           });
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
    return text;
}

// "q=0", "q=0.0": refused.
bool weight_0(std::string_view parameters) {
    const std::size_t at = parameters.find("q=");
    if (at == std::string_view::npos) return false;
    const std::string_view weight = trimmed(parameters.substr(at + 2));
    return !weight.empty() && weight.find_first_not_of("0.") == std::string_view::npos;
}

}  // namespace

std::string media_type(const fs::path& name) {
    const std::string ending = name.extension().string();
    for (const auto& [known, type] : types) {
        if (known == ending) return std::string(type);
    }
    return "application/octet-stream";
}

bool takes_coding(std::string_view accepts, std::string_view coding) {
    bool any = false;
    while (!accepts.empty()) {
        const std::size_t comma = accepts.find(',');
        const std::string_view item = accepts.substr(0, comma);
        const std::size_t semicolon = std::min(item.find(';'), item.size());
        const std::string_view name = trimmed(item.substr(0, semicolon));
        const bool refused = weight_0(item.substr(semicolon));
        if (name == coding) return !refused;
        if (name == "*") any = !refused;
        accepts = comma == std::string_view::npos ? std::string_view() : accepts.substr(comma + 1);
    }
    return any;
}

AppFiles::AppFiles(const fs::path& folder) {
    std::error_code error;
    root_ = fs::canonical(folder, error);
}

bool AppFiles::there() const {
    return !root_.empty() && inside(root_ / "index.html");
}

bool AppFiles::inside(const fs::path& file) const {
    std::error_code error;
    const fs::path real = fs::canonical(file, error);
    if (error || !fs::is_regular_file(real, error)) return false;
    const auto [in_root, in_file] = std::mismatch(root_.begin(), root_.end(), real.begin(), real.end());
    return in_root == root_.end() && in_file != real.end();
}

std::optional<AppFile> AppFiles::find(std::string_view target, std::string_view accepts) const {
    if (root_.empty() || target.empty() || target.front() != '/') return std::nullopt;
    target.remove_prefix(1);
    if (target.empty()) target = "index.html";
    if (!plain_path(target)) return std::nullopt;
    const fs::path plain = root_ / target;
    if (!inside(plain)) return std::nullopt;
    AppFile found = {plain, media_type(plain), "", has_hash(target), false};
    constexpr std::array<std::pair<const char*, const char*>, 2> codings = {{{"br", ".br"}, {"gzip", ".gz"}}};
    for (const auto& [coding, ending] : codings) {
        const fs::path coded = plain.string() + ending;
        if (!inside(coded)) continue;
        found.varies = true;
        if (!found.encoding.empty() || !takes_coding(accepts, coding)) continue;
        found.path = coded;
        found.encoding = coding;
    }
    return found;
}

std::optional<fs::path> usual_folder() {
    std::error_code error;
    const fs::path beside = fs::read_symlink("/proc/self/exe", error).parent_path();
    for (const fs::path& folder : {beside / "../share/fallwright/app", beside / "../../dist"}) {
        if (AppFiles(folder).there()) return fs::canonical(folder, error);
    }
    return std::nullopt;
}

}  // namespace fallwright::server
