#!/usr/bin/env python3
"""The checks of the tree can fail: each is shown something wrong and something right."""

import pathlib
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1]))

from repo import evidence, layers, sections, sizes, symbols, words  # noqa: E402


class Functions(unittest.TestCase):
    def test_bodies_are_found_and_other_braces_are_not(self):
        code = ("namespace a {\nstruct B : C {\n    B() : x_{1} {\n        f();\n    }\n    int x_;\n};\n"
                "enum class D { e };\nconst int list[] = {1, 2};\n"
                "int f(int a) noexcept {\n    auto g = [&](int b) { return b; };\n    return g(a);\n}\n"
                "auto h() -> std::vector<int> {\n    return {1};\n}\n}\n")
        self.assertEqual(list(sizes.functions(code)), [(3, 5), (10, 13), (14, 16)])

    def test_braces_in_text_and_comments_do_not_count(self):
        code = 'void f() {\n    // }\n    use("}", \'}\', R"x(}})x", 1\'000);\n    /* } */\n}\n'
        self.assertEqual(list(sizes.functions(code)), [(1, 5)])

    def test_comment_share_counts_lines_that_carry_a_comment(self):
        self.assertEqual(sizes.comment_share("// a\n\nint b;  // metres\nint c;\nint d;\n"), 0.5)


class Layers(unittest.TestCase):
    known = {"base": ("core/base", {"base"}), "text": ("exchange/text", {"text", "base"}), "store": ("store", {"store"})}

    def test_an_include_names_its_stage(self):
        self.assertEqual(layers.owner("base/print.h", self.known), "base")
        self.assertEqual(layers.owner("exchange/text/csv.h", self.known), "text")
        self.assertEqual(layers.owner("store/file.h", self.known), "store")
        self.assertIsNone(layers.owner("other/file.h", self.known))

    def test_the_real_tree_has_its_stages_and_what_they_reach(self):
        known = layers.stages()
        self.assertEqual(known["base"][1], {"base"})
        self.assertIn("base", known["desk"][1])
        self.assertNotIn("desk", known["book"][1])


class Types(unittest.TestCase):
    def test_types_are_named_with_their_namespace_and_hidden_ones_are_not(self):
        code = ("namespace a {\nstruct Forward;\nstruct B : C {\n    struct Inner {};\n};\nnamespace {\nclass D {\n};\n"
                "}  // namespace\nenum class E : int { f };\n}  // namespace a\nnamespace a::g {\nclass B {\n};\n}  // namespace a::g\n")
        self.assertEqual(list(layers.named_types(code)), ["a::B", "a::E", "a::g::B"])

    def test_two_of_one_name_are_found(self):
        self.assertEqual(layers.check_types({"x.h": ["a::B", "a::C"], "y.cpp": ["a::C"]}), ["a::C is defined in x.h and in y.cpp"])
        self.assertEqual(layers.check_types({"x.h": ["a::B"], "y.cpp": ["b::B"]}), [])


class Words(unittest.TestCase):
    def test_unfinished_business_is_found(self):
        for word in ("// TO" + "DO later", "FIX" + "ME", "in /wor" + "k/main", "/ro" + "ot/x"):
            self.assertTrue(words.FORBIDDEN.search(word), word)
        for word in ("work/", "the roots", "toad", "network/x"):
            self.assertFalse(words.FORBIDDEN.search(word), word)


class Symbols(unittest.TestCase):
    def test_banned_and_allowed(self):
        for symbol in ("printf", "fopen", "time", "exit@GLIBC_2.2.5", "getenv", "std::cout", "std::ios_base::Init::Init()",
                       "std::chrono::_V2::system_clock::now()"):
            self.assertTrue(symbols.BANNED.match(symbol), symbol)
        for symbol in ("snprintf", "malloc", "memcpy", "std::__throw_length_error(char const*)", "timer_of_ours",
                       "fallwright::time(int)", "abort", "strtod"):
            self.assertFalse(symbols.BANNED.match(symbol), symbol)


class Evidence(unittest.TestCase):
    def test_what_no_runner_takes_is_stray(self):
        self.assertEqual(len(evidence.stray(["cases/x/a.case", "cases/FORMAT.md", "cases/x/b.failing", "cases/x/c.txt",
                                             "cases/import/d.csv"])), 1)

    def test_half_a_pair_is_named(self):
        self.assertEqual(len(evidence.unpaired(["cases/import/a.csv", "cases/import/b.csv", "cases/import/b.expected"])), 1)

    def test_a_folder_without_a_case_is_empty(self):
        problems = evidence.empty_folders(["cases/published/a.case", "cases/invalid/b.case", "cases/regress/README.md",
                                           "cases/invariant/c.case"])
        self.assertEqual(problems, ["cases/regress holds no case"])


class Sections(unittest.TestCase):
    def test_links_are_seen(self):
        self.assertEqual(sections.LINK.findall("a [b](c/d.md#e) and [x](http://y)"), ["c/d.md", "http://y"])


if __name__ == "__main__":
    unittest.main()
