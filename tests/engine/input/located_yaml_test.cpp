#include "engine/input/located_yaml.hpp"

#include <gtest/gtest.h>

#include <filesystem>

#include "engine/base/words.hpp"

namespace dullcast::input {
namespace {

std::vector<std::string> errors(const std::string& text) {
  Problems problems;
  parse_yaml(text, "f.yaml", problems);
  std::vector<std::string> result;
  for (const auto& error : problems.errors()) result.push_back(error.message());
  return result;
}
using Messages = std::vector<std::string>;

TEST(LocatedYaml, EverythingKnowsItsPlace) {
  Problems problems;
  const YamlValue root = parse_yaml("a: 1\nb:\n  - {c: two words, d: []}\n  - ~\n", "f.yaml", problems);
  EXPECT_FALSE(problems.any_error());
  ASSERT_TRUE(root.is_map());
  const YamlEntry* b = root.find("b");
  ASSERT_TRUE(b && b->value.is_list());
  EXPECT_EQ(b->location.line, 2);
  ASSERT_EQ(b->value.items.size(), 2u);
  EXPECT_TRUE(b->value.items[1].is_nothing());
  const YamlEntry* c = b->value.items[0].find("c");
  ASSERT_TRUE(c);
  EXPECT_EQ(c->value.text, "two words");
  EXPECT_EQ(c->value.location.line, 3);
  EXPECT_EQ(c->value.location.column, 9);
  EXPECT_EQ(c->location.column, 6);
}

TEST(LocatedYaml, RepeatedKeysAreSeenAtAnyDepth) {
  EXPECT_EQ(errors("a: 1\nb: {c: 1, c: 2}\na: 3\n"),
            (Messages{"f.yaml:2:11: b.c: is given twice, first on line 2; keep one of them",
                      "f.yaml:3:1: a: is given twice, first on line 1; keep one of them"}));
}

TEST(LocatedYaml, SyntaxErrorsNameTheirPlace) {
  const auto found = errors("a: 1\nb: [1, 2\nc: 3\n");
  ASSERT_EQ(found.size(), 1u);
  EXPECT_TRUE(found[0].starts_with("f.yaml:3:")) << found[0];
  EXPECT_NE(found[0].find("check the indentation, brackets, quotes and colons"), std::string::npos);
}

TEST(LocatedYaml, AliasesTagsSecondDocumentsAndZeroBytesAreRefused) {
  EXPECT_EQ(errors("a: &x 1\nb: *x\n"),
            Messages{"f.yaml:2:4: b: is a YAML alias (*name); write the value out in full"});
  EXPECT_EQ(errors("a: !!str 1\n"),
            Messages{"f.yaml:1:4: a: has the YAML tag tag:yaml.org,2002:str; leave it out"});
  EXPECT_EQ(errors("a: 1\n---\nb: 2\n"),
            Messages{"f.yaml:3:1: starts a second YAML document; keep one to a file"});
  EXPECT_EQ(errors(std::string("a: 1\0", 5)), Messages{"f.yaml:1:1: is no text file: it holds zero bytes"});
  EXPECT_EQ(errors("[a]: 1\n"), Messages{"f.yaml:1:1: has a list for a key; a key is one plain word"});
}

TEST(LocatedYaml, EscapesThatTheParserTurnsIntoBytesOfNoTextAreRefused) {
  for (const char* escape : {"\\_", "\\N"}) {
    const auto found = errors(std::string("a: \"b") + escape + "c\"\n");
    ASSERT_EQ(found.size(), 1u) << escape;
    EXPECT_EQ(found[0], "f.yaml:1:4: a: holds \\_ or \\N in its quotes; write the character itself");
  }
  EXPECT_EQ(errors("a: \"b\\xa0\\u0085c\"\n"), Messages{});
}

TEST(LocatedYaml, AnAliasToItsOwnAncestorDoesNotLoop) {
  EXPECT_EQ(errors("a: &x [*x]\n").size(), 1u);
}

TEST(LocatedYaml, DeepNestingIsAnErrorNotACrash) {
  EXPECT_FALSE(errors("a: " + std::string(100000, '[')).empty());
  EXPECT_FALSE(errors("a: " + std::string(100000, '{')).empty());
}

TEST(LocatedYaml, QuotedTextsReadBack) {
  Problems problems;
  const std::string odd = "a \"b\" \\ c\n\td: # e\x01 µ";
  const YamlValue root = parse_yaml("k: " + yaml_quoted(odd) + "\n", "f.yaml", problems);
  ASSERT_FALSE(problems.any_error());
  EXPECT_EQ(root.find("k")->value.text, odd);
}

TEST(NearestWord, FindsSlipsAndNothingElse) {
  const std::vector<std::string> words{"rotary_speed", "flow", "feed_limit"};
  EXPECT_EQ(base::nearest_word("rotary_sped", words), "rotary_speed");
  EXPECT_EQ(base::nearest_word("folw", words), "flow");
  EXPECT_EQ(base::nearest_word("feedlimit", words), "feed_limit");
  EXPECT_EQ(base::nearest_word("temperature", words), "");
  EXPECT_EQ(base::nearest_word("", words), "");
}

}  // namespace
}  // namespace dullcast::input
