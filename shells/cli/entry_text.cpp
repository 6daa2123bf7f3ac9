#include "shells/cli/entry_text.h"

#include <nlohmann/json.hpp>

namespace fallwright::cli {

namespace {

using Json = nlohmann::json;

Finding bad_entry(const std::string& what) {
    return finding(Code::BadRequest, {what}, "this is no entry",
                   "write: reading point=A staff=1.432, or one JSON object");
}

// Puts value at "plane.bearing"; false where a part of the way is no object.
bool put(Json& object, const std::string& path, Json value) {
    const std::size_t dot = path.find('.');
    if (dot == std::string::npos) {
        object[path] = std::move(value);
        return true;
    }
    Json& inner = object[path.substr(0, dot)];
    if (inner.is_null()) inner = Json::object();
    return inner.is_object() && put(inner, path.substr(dot + 1), std::move(value));
}

}  // namespace

Result<Json> entry_from_json(const std::string& text) {
    Json object = Json::parse(text, nullptr, false);
    if (!object.is_object()) return bad_entry(text);
    return object;
}

Result<Json> entry_from_words(const std::vector<std::string>& words) {
    if (words.size() == 1 && !words.front().empty() && words.front().front() == '{')
        return entry_from_json(words.front());
    Json object = {{"kind", words.front()}};
    for (std::size_t i = 1; i < words.size(); ++i) {
        const std::size_t equals = words[i].find('=');
        if (equals == 0 || equals == std::string::npos) return bad_entry(words[i]);
        const std::string text = words[i].substr(equals + 1);
        Json value = Json::parse(text, nullptr, false);
        if (value.is_discarded()) value = text;
        if (!put(object, words[i].substr(0, equals), std::move(value))) return bad_entry(words[i]);
    }
    return object;
}

}  // namespace fallwright::cli
