# Flags that every target shares. Same bits natively and in WebAssembly: no fused multiply-add, no fast-math.
set(CMAKE_CXX_STANDARD 20)
set(CMAKE_CXX_STANDARD_REQUIRED ON)
set(CMAKE_CXX_EXTENSIONS OFF)
set(CMAKE_EXPORT_COMPILE_COMMANDS ON)
add_compile_options(-Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion -Werror -ffp-contract=off)
if(CMAKE_CXX_COMPILER_ID STREQUAL GNU)
    # GCC 12 raises this one falsely on std::string concatenation at -O3 (its bug 105651).
    add_compile_options(-Wno-restrict)
endif()
add_compile_definitions(EIGEN_DONT_VECTORIZE FALLWRIGHT_VERSION="${PROJECT_VERSION}")

if(FALLWRIGHT_SANITIZE)
    # One build for unit tests and for fuzzing (clang): edges are counted in everything, libFuzzer's main() comes with
    # each target of fuzz/.
    add_compile_options(-fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer)
    add_link_options(-fsanitize=address,undefined)
endif()

# What nothing calls stays out of the programs: a tenth of the file, and 0.7 MB less in memory once it runs.
if(NOT EMSCRIPTEN AND NOT FALLWRIGHT_SANITIZE)
    add_link_options(-Wl,--gc-sections)
endif()

# A phone fetches the module once, over whatever network there is: everything is compiled for size, but the stages in
# which a large book spends its time. All for speed is 40 % more to fetch; all for size takes five times as long.
if(EMSCRIPTEN)
    set(CMAKE_CXX_FLAGS_RELEASE "-Os -DNDEBUG")
    set(FALLWRIGHT_FAST base book quantity where staff effect adjust model page design suspect evaluation verdict)
    add_compile_options(-fwasm-exceptions)
    # -Oz: what the linker put together is made smaller as a whole.
    add_link_options(-fwasm-exceptions -Oz)
    # Debian keeps header-only libraries in /usr/include, which must not come before emscripten's own headers.
    set(FALLWRIGHT_HEADERS ${CMAKE_BINARY_DIR}/headers)
    file(MAKE_DIRECTORY ${FALLWRIGHT_HEADERS})
    foreach(folder nlohmann rapidjson eigen3)
        file(CREATE_LINK /usr/include/${folder} ${FALLWRIGHT_HEADERS}/${folder} SYMBOLIC)
    endforeach()
    add_library(fw_json_headers INTERFACE)
    target_include_directories(fw_json_headers SYSTEM INTERFACE ${FALLWRIGHT_HEADERS})
    add_library(fw_eigen_headers INTERFACE)
    target_include_directories(fw_eigen_headers SYSTEM INTERFACE ${FALLWRIGHT_HEADERS}/eigen3)
else()
    find_package(nlohmann_json REQUIRED)
    find_package(Eigen3 REQUIRED NO_MODULE)
    add_library(fw_json_headers INTERFACE)
    target_link_libraries(fw_json_headers INTERFACE nlohmann_json::nlohmann_json)
    add_library(fw_eigen_headers INTERFACE)
    target_include_directories(fw_eigen_headers SYSTEM INTERFACE /usr/include/eigen3)
endif()
