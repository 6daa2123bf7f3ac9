// app_files: which file of the app a request means, and what goes with it. Knows no network.
//
// Only regular files inside the app's folder are ever given out: no hidden ones, none reached by "..", by an
// absolute path or through a link that leads outside; a folder is no file, and is never listed.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace fallwright::server {

// A file as it goes out. encoding: "br", "gzip", or "" for the file itself.
struct AppFile {
    std::filesystem::path path;  // of the bytes: FILE, FILE.br or FILE.gz
    std::string type;            // media type, by the ending of FILE
    std::string encoding;
    bool hashed = false;  // its name changes with its content, so that it may be kept for good
    bool varies = false;  // there is more than one encoding of it
};

class AppFiles {
  public:
    // folder: of a built app.
    explicit AppFiles(const std::filesystem::path& folder);

    // Whether there is an app: a file index.html.
    bool there() const;
    // target: the path of a request, decoded, without its query. accepts: the request's Accept-Encoding.
    // Where the app has FILE.br or FILE.gz and the request takes it, that one.
    std::optional<AppFile> find(std::string_view target, std::string_view accepts) const;

  private:
    bool inside(const std::filesystem::path& file) const;
    std::filesystem::path root_;
};

// The media type by the ending of a name; application/octet-stream where it says nothing.
std::string media_type(const std::filesystem::path& name);
// Whether an Accept-Encoding header takes a coding (RFC 9110, section 12.5.3, from memory): named and not of
// weight 0, or * and not refused by name.
bool takes_coding(std::string_view accepts, std::string_view coding);

// Where an app is looked for if none is named: installed (PREFIX/share/fallwright/app), else dist/ of the
// tree the program was built in. Nothing where neither has one.
std::optional<std::filesystem::path> usual_folder();

}  // namespace fallwright::server
