// fallwright-serve: the built app on this machine; the verb serve starts it.
#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>
#include <optional>

#include "base/json_out.h"
#include "shells/server/server.h"

namespace fallwright::server {

namespace {

constexpr int usual_port = 8437;
constexpr const char* loopback = "127.0.0.1";

struct Arguments {
    std::string app, listen = loopback;
    int port = usual_port;
    bool json = false;
};

int refuse(const std::string& what) {
    std::fprintf(stderr, "fallwright: %s\n", what.c_str());
    return 2;
}

bool on_this_machine(const std::string& host) {
    return host == "localhost" || host == "::1" || host.rfind("127.", 0) == 0;
}

void say(const Arguments& arguments, const std::string& folder, int port) {
    const bool six = arguments.listen.find(':') != std::string::npos;
    const std::string host = six ? "[" + arguments.listen + "]" : arguments.listen;
    const std::string address = "http://" + host + ":" + std::to_string(port) + "/";
    if (arguments.json) {
        JsonOut out;
        out.begin_object().text("address", address).text("app", folder).end_object();
        std::printf("%s\n", out.take().c_str());
    } else {
        std::printf("Fallwright is at %s\nEnd it with Ctrl-C.\n", address.c_str());
    }
    if (!on_this_machine(arguments.listen))
        std::fprintf(
            stderr,
            "Whoever reaches this machine over the network reaches it too, unencrypted. Browsers keep the "
            "app for use without signal only from this machine or over https.\n");
    std::fflush(stdout);
}

int serve_app(const Arguments& arguments) {
    std::optional<std::filesystem::path> folder = arguments.app;
    if (arguments.app.empty()) folder = usual_folder();
    if (!folder)
        return refuse(
            "no app is installed or built here; build it with ./run app --build, or name its folder with "
            "--app");
    const AppFiles files(*folder);
    if (!files.there())
        return refuse(folder->string() +
                      ": there is no index.html of an app here; name the folder of a built app");
    const bool served = serve(files, arguments.listen, arguments.port,
                              [&](int port) { say(arguments, folder->string(), port); });
    if (served) return 0;
    return refuse("port " + std::to_string(arguments.port) + " of " + arguments.listen +
                  " cannot be had; take another one with --port, or --port 0 for any");
}

int run(int argc, char** argv) {
    CLI::App app("Serves the built app on this machine.", "fallwright serve");
    app.footer("Example:\n  fallwright serve --port 0");
    Arguments arguments;
    app.add_option("--app", arguments.app, "Folder of the built app");
    app.add_option("--port", arguments.port, "Port; 0 for any that is free")->check(CLI::Range(0, 65535));
    app.add_option("--listen", arguments.listen, "Address to listen on; without: this machine only");
    app.add_flag("--json", arguments.json, "The address as JSON");
    app.set_version_flag("--version", "fallwright-serve " FALLWRIGHT_VERSION);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) return app.exit(error);
        return refuse(std::string(error.what()) + "; see fallwright serve --help");
    }
    return serve_app(arguments);
}

}  // namespace

}  // namespace fallwright::server

int main(int argc, char** argv) {
    try {
        return fallwright::server::run(argc, argv);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "fallwright: this is an error of the program: %s; please report it\n",
                     error.what());
        return 2;
    }
}
