#include "preset/preset.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>

namespace fallwright::preset {

namespace {

// The row of a preset in docs/methods/presets.md.
std::string row(const Listed& preset) {
    std::string out = "| " + preset.name + " | " + preset.figures + " | " + preset.use + " | ";
    if (preset.source.text.empty())
        return out + "- | - | " + std::string(provenance_word(preset.source.provenance)) + " |";
    out += std::string(preset.source.text) + " | " + std::string(preset.source.edition);
    return out + " | " + std::string(provenance_word(preset.source.provenance)) + " |";
}

std::string page() {
    const auto folder = std::filesystem::path(__FILE__).parent_path();
    const std::ifstream file(folder / "../../docs/methods/presets.md");
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

}  // namespace

TEST(Preset, PageListsEveryPresetWithItsSource) {
    const std::string text = page();
    for (const Listed& preset : all_presets()) {
        EXPECT_NE(text.find(row(preset) + "\n"), std::string::npos) << "missing or changed:\n" << row(preset);
    }
}

TEST(Preset, PageListsNothingElse) {
    std::stringstream lines(page());
    std::set<std::string> rows;
    for (const Listed& preset : all_presets()) rows.insert(row(preset));
    std::size_t listed = 0;
    for (std::string line; std::getline(lines, line);) {
        if (line.rfind("| ", 0) != 0 || line.rfind("| preset ", 0) == 0) continue;
        ++listed;
        EXPECT_TRUE(rows.count(line) == 1) << "no preset of this version:\n" << line;
    }
    EXPECT_EQ(listed, rows.size());
}

TEST(Preset, NamesAreUniqueAndInKebabCase) {
    std::set<std::string> names;
    for (const Listed& preset : all_presets()) {
        EXPECT_TRUE(names.insert(preset.name).second) << preset.name;
        EXPECT_EQ(preset.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-"), std::string::npos);
    }
}

TEST(Preset, WhatHasASourceHasAnEdition) {
    for (const Listed& preset : all_presets()) {
        const bool practice = preset.source.provenance == Provenance::CommonPractice;
        EXPECT_EQ(preset.source.text.empty(), practice) << preset.name;
        EXPECT_EQ(preset.source.edition.empty(), practice) << preset.name;
    }
}

}  // namespace fallwright::preset
