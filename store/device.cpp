#include "store/device.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <optional>
#include <random>
#include <system_error>
#include <utility>

#include "store/book_file.h"

namespace fallwright::store {

namespace {

constexpr std::size_t longest_name = 32;
constexpr int random_letters = 6;
// Numbers of more digits were not written by a tool, and counting on from them would overflow.
constexpr std::size_t most_digits = 15;
constexpr std::string_view set_it = "set FALLWRIGHT_DEVICE to a name for this device";

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

bool is_name(std::string_view text) {
    const auto allowed = [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || is_digit(c) || c == '-' || c == '_';
    };
    return !text.empty() && text.size() <= longest_name && std::all_of(text.begin(), text.end(), allowed);
}

std::optional<std::string> set_variable(const char* name) {
    const char* value = std::getenv(name);
    if (value == nullptr || *value == '\0') return std::nullopt;
    return value;
}

std::optional<std::string> settings_folder() {
    if (const auto stated = set_variable("XDG_CONFIG_HOME")) return *stated + "/fallwright";
    if (const auto home = set_variable("HOME")) return *home + "/.config/fallwright";
    return std::nullopt;
}

std::string random_name() {
    std::random_device source;
    std::string name;
    for (int i = 0; i < random_letters; ++i) name += static_cast<char>('a' + source() % 26);
    return name;
}

Result<std::string> checked(std::string name, const std::string& from) {
    if (is_name(name)) return name;
    return finding(Code::BadRequest, {from}, "holds no name of a device",
                   "give it 1 to 32 letters, digits, - or _");
}

Result<std::string> read_name(Files& files, const std::string& path) {
    Result<std::string> bytes = read_all(files, path);
    if (!bytes) return bytes;
    return checked(bytes->substr(0, bytes->find_first_of("\r\n")), path);
}

bool is_there(Files& files, const std::string& path) {
    const Call<Status> status = files.status(path);
    return status.ok() && status.value.size > 0;
}

// Two programs may come here at once: one makes the file, the other finds it made and reads it.
Result<std::string> make_name(Files& files, const std::string& path) {
    std::error_code failed;
    std::filesystem::create_directories(folder_of(path), failed);
    const Result<Added> made = create_new(files, path, {random_name()});
    if (made) return made->lines.front();
    if (is_there(files, path)) return read_name(files, path);
    Finding why = made.finding();
    why.cure = set_it;
    return why;
}

// The number behind "DEVICE- at the front of `text`; 0 where there is none.
std::uint64_t number_at(std::string_view text) {
    std::size_t digits = 0;
    std::uint64_t number = 0;
    while (digits < text.size() && is_digit(text[digits])) {
        if (++digits > most_digits) return 0;
        number = 10 * number + static_cast<std::uint64_t>(text[digits - 1] - '0');
    }
    return number;
}

std::uint64_t highest(std::string_view device, std::string_view book) {
    const std::string front = '"' + std::string(device) + '-';
    std::uint64_t found = 0;
    for (std::size_t at = book.find(front); at != std::string_view::npos; at = book.find(front, at)) {
        at += front.size();
        found = std::max(found, number_at(book.substr(at)));
    }
    return found;
}

}  // namespace

Result<std::string> device_name(Files& files) {
    if (auto stated = set_variable("FALLWRIGHT_DEVICE"))
        return checked(std::move(*stated), "FALLWRIGHT_DEVICE");
    const std::optional<std::string> folder = settings_folder();
    if (!folder) {
        return finding(Code::BadFile, {"device"},
                       "there is no settings folder to keep the name of this device in", std::string(set_it));
    }
    const std::string path = *folder + "/device";
    return is_there(files, path) ? read_name(files, path) : make_name(files, path);
}

Ids::Ids(std::string device, std::string_view book)
    : device_(std::move(device)), last_(highest(device_, book)) {}

std::string Ids::next() {
    return device_ + '-' + std::to_string(++last_);
}

}  // namespace fallwright::store
