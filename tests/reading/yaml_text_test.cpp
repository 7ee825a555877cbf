#include "data/reading/yaml_text.h"

#include <gtest/gtest.h>

#include <string>

#include "tests/support/temporary_folder.h"

namespace foreday::data {
namespace {

struct Parsed {
    std::optional<Located> tree;
    std::vector<LocatedFault> faults;
};

Parsed parse(const std::string& text)
{
    Faults faults;
    auto tree = parse_yaml(text, "file.yaml", faults);
    return {std::move(tree), faults.sorted()};
}

std::string only_fault(const std::string& text)
{
    const auto parsed = parse(text);
    return parsed.faults.size() == 1 ? text_of(parsed.faults.front())
                                     : std::to_string(parsed.faults.size()) + " faults";
}

TEST(YamlText, WhatAnotherReaderWouldTurnIntoSomethingElseStaysAsItIsWritten)
{
    const auto parsed = parse("[010, no, 1e3, 0x1F, 1_000, 18:00, .5, +1, True, 2027-01-01]");
    ASSERT_TRUE(parsed.tree.has_value());
    const std::vector<std::string> written{"010",   "no", "1e3", "0x1F", "1_000",
                                           "18:00", ".5", "+1",  "True", "2027-01-01"};
    ASSERT_EQ(parsed.tree->items.size(), written.size());
    for (std::size_t i = 0; i < written.size(); ++i) {
        EXPECT_EQ(parsed.tree->items[i].text, written[i]);
        EXPECT_EQ(parsed.tree->items[i].kind, Located::Kind::scalar);
    }
}

TEST(YamlText, NothingWrittenIsNothingAndAnEmptyTextIsAText)
{
    const auto parsed = parse("a:\nb: ~\nc: null\nd: \"\"\ne: \"null\"\n");
    ASSERT_TRUE(parsed.tree.has_value());
    EXPECT_EQ(find(*parsed.tree, "a")->kind, Located::Kind::nothing);
    EXPECT_EQ(find(*parsed.tree, "b")->kind, Located::Kind::nothing);
    EXPECT_EQ(find(*parsed.tree, "c")->kind, Located::Kind::nothing);
    EXPECT_EQ(find(*parsed.tree, "d")->kind, Located::Kind::scalar);
    EXPECT_EQ(find(*parsed.tree, "e")->text, "null");
    EXPECT_EQ(find(*parsed.tree, "f"), nullptr);
}

TEST(YamlText, EveryValueKnowsItsLineAndItsColumnInCharacters)
{
    const auto parsed = parse("a: 1\n\"na\xC3\xAFve\": {caf\xC3\xA9: x, y: z}\r\nlist:\n  - one\n");
    ASSERT_TRUE(parsed.tree.has_value());
    const Located& inner = *find(*parsed.tree, "na\xC3\xAFve");
    EXPECT_EQ(inner.line, 2);
    EXPECT_EQ(inner.column, 10);
    EXPECT_EQ(find(inner, "y")->column, 23);
    EXPECT_EQ(find(*parsed.tree, "list")->items.front().line, 4);
    EXPECT_EQ(find(*parsed.tree, "list")->items.front().column, 5);
}

TEST(YamlText, AByteOrderMarkIsPassedOver)
{
    const auto parsed = parse(
        "\xEF\xBB\xBF"
        "a: 1\n");
    ASSERT_TRUE(parsed.tree.has_value());
    EXPECT_NE(find(*parsed.tree, "a"), nullptr);
    EXPECT_TRUE(parsed.faults.empty());
}

TEST(YamlText, AKeyTwiceIsToldAtTheSecond)
{
    EXPECT_EQ(only_fault("a: 1\nb: {c: 1,\n    c: 2}\n"),
              "file.yaml:3:5: the key \"c\" stands twice; once; it stands in line 2 already");
    EXPECT_EQ(only_fault("a: 1\n\"a\": 2\n"),
              "file.yaml:2:1: the key \"a\" stands twice; once; it stands in line 1 already");
}

TEST(YamlText, EveryDuplicateKeyIsTold)
{
    EXPECT_EQ(parse("a: 1\na: 2\na: 3\nb: {c: 1, c: 2}\n").faults.size(), 3U);
}

TEST(YamlText, AnchorsAliasesTagsAndMergesAreRefused)
{
    EXPECT_EQ(only_fault("a: &x 1\n"), "file.yaml:1:4: an anchor (&); the plain value");
    EXPECT_EQ(parse("a: &x 1\nb: *x\n").faults.size(), 2U);
    EXPECT_EQ(only_fault("a: !!int 1\n"),
              "file.yaml:1:4: a tag (\"tag:yaml.org,2002:int\"); the plain value");
    EXPECT_EQ(only_fault("a: !mine {b: 1}\n"), "file.yaml:1:4: a tag (\"!mine\"); the plain value");
    EXPECT_EQ(parse("base: &b {x: 1}\nmore: {<<: *b}\n").faults.size(), 2U);
}

TEST(YamlText, AKeyThatIsNoWordIsRefused)
{
    EXPECT_EQ(only_fault("{a: 1}: 2\n"), "file.yaml:1:1: a key that is no word; a word before the colon");
    EXPECT_EQ(only_fault("? [a, b]\n: 2\n"), "file.yaml:1:3: a key that is no word; a word before the colon");
}

TEST(YamlText, ASecondDocumentIsAFault)
{
    EXPECT_EQ(only_fault("a: 1\n---\nb: 2\n"),
              "file.yaml:3:1: a second document in one file; one document; leave out the line ---");
    EXPECT_TRUE(parse("---\na: 1\n...\n").faults.empty());
}

TEST(YamlText, AnEmptyFileIsAFault)
{
    EXPECT_EQ(only_fault(""), "file.yaml:1:1: the file is empty; the entries that belong here");
    EXPECT_EQ(only_fault("# nothing but a comment\n"),
              "file.yaml:1:1: the file is empty; the entries that belong here");
}

TEST(YamlText, TextThatDoesNotParseGivesOneFaultWithItsPlace)
{
    const auto parsed = parse("a: 1\na: 2\nb: [1, 2\nc: 3\n");
    ASSERT_EQ(parsed.faults.size(), 1U);
    EXPECT_FALSE(parsed.tree.has_value());
    EXPECT_GE(parsed.faults.front().line, 3);
    EXPECT_NE(parsed.faults.front().what.find("this is not YAML"), std::string::npos);
    EXPECT_EQ(parse("a: b: c\n").faults.size(), 1U);
    EXPECT_EQ(parse("a:\n\t- b\n").faults.size(), 1U);
}

TEST(YamlText, AQuotationThatTheEndOfTheFileCutsOffIsAFault)
{
    const std::string right = "a quotation mark that is never closed; the same mark at the end of the text";
    EXPECT_EQ(only_fault("a: 'open\n"), "file.yaml:1:4: " + right);
    EXPECT_EQ(only_fault("a: 1\nb: \"open\n"), "file.yaml:2:4: " + right);
    EXPECT_EQ(only_fault("- 'it''s\n"), "file.yaml:1:3: " + right);
    EXPECT_TRUE(parse("- 'it''s'\n- \"a \\\" b\"\n- ''\n- \"\"\n").faults.empty());
    for (const char* open : {"a: 'open", "a: \"open", "a: \"open\\\"\n", "[a, 'open\n", "'open: 1\n"}) {
        EXPECT_EQ(parse(open).faults.size(), 1U) << open;
    }
}

TEST(YamlText, WhatTheParserMayCostIsBoundedBeforeItStarts)
{
    const auto commas = [](std::size_t count) {
        std::string text = "a: x";
        for (std::size_t i = 0; i < count; ++i) {
            text += i % 1000 == 999 ? ",\n  x" : ",";
        }
        return text + "\n";
    };
    EXPECT_TRUE(parse(commas(most_marks - 1)).faults.empty());  // the colon counts too
    EXPECT_EQ(parse(commas(most_marks)).faults.size(), 1U);
}

TEST(YamlText, BytesThatAreNoUtf8AreToldAtTheirPlace)
{
    EXPECT_EQ(only_fault("a: 1\nb: x\xFFy\n"),
              "file.yaml:2:5: a byte that is no UTF-8; save the file as UTF-8");
    for (const char* bytes : {"\xC0\xAF", "\xC3", "\xE0\x80\x80", "\xED\xA0\x80", "\xF0\x80\x80\x80",
                              "\xF4\x90\x80\x80", "\x80", "\xF8\x88\x80\x80\x80"}) {
        EXPECT_EQ(parse("a: " + std::string(bytes) + "\n").faults.size(), 1U);
    }
    for (const char* bytes : {"\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xEE\x80\x80",
                              "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"}) {
        EXPECT_TRUE(parse("a: x" + std::string(bytes) + "x\n").faults.empty());
    }
}

TEST(YamlText, ControlCharactersAreRefusedAndTabsAndLineEndsAreNot)
{
    using namespace std::string_literals;
    EXPECT_EQ(only_fault("a: x\0y\n"s),
              "file.yaml:1:5: a control character (code 0); printable text, tabs and line ends only");
    EXPECT_EQ(only_fault("a: x\x04y\nb: [\n"),
              "file.yaml:1:5: a control character (code 4); printable text, tabs and line ends only");
    EXPECT_EQ(only_fault("a: x\ry\n"),
              "file.yaml:1:5: a control character (code 13); printable text, tabs and line ends only");
    EXPECT_TRUE(parse("a: x\ty\r\nb: z\r\n").faults.empty());
}

TEST(YamlText, ALineOf4000CharactersPassesAndOneMoreDoesNot)
{
    const std::string start = "a: ";
    EXPECT_TRUE(parse(start + std::string(longest_line - start.size(), 'x') + "\n").faults.empty());
    EXPECT_EQ(only_fault(start + std::string(longest_line - start.size() + 1, 'x') + "\n"),
              "file.yaml:1:4002: a line of more than 4000 characters; break it into several lines");
    std::string accents = start;
    for (std::size_t i = start.size(); i < longest_line; ++i) {
        accents += "\xC3\xA9";
    }
    EXPECT_TRUE(parse(accents + "\n").faults.empty());
}

TEST(YamlText, FortyLevelsPassAndOneMoreDoesNot)
{
    const auto nested = [](int levels) {
        return std::string(static_cast<std::size_t>(levels), '[') +
               std::string(static_cast<std::size_t>(levels), ']');
    };
    EXPECT_TRUE(parse(nested(deepest)).faults.empty());
    EXPECT_EQ(only_fault(nested(deepest + 1)),
              "file.yaml:1:41: nested more than 40 levels deep; a flatter form");
}

TEST(YamlText, TwoMegabytesPassAndOneByteMoreDoesNot)
{
    std::string text = "a: 1\n";
    while (text.size() + 1001 <= most_bytes) {
        text += "#" + std::string(999, 'x') + "\n";
    }
    text += "#" + std::string(most_bytes - text.size() - 1, 'x');
    ASSERT_EQ(text.size(), most_bytes);
    EXPECT_TRUE(parse(text).faults.empty());
    EXPECT_EQ(only_fault(text + "x"), "file.yaml: the file is larger than 2 MB; a smaller file");
}

TEST(YamlText, WhatIsNoFileIsAFault)
{
    const tests::TemporaryFolder folder;
    Faults faults;
    EXPECT_FALSE(read_yaml(folder.path(), faults).has_value());
    EXPECT_FALSE(read_yaml(folder.path() / "absent.yaml", faults).has_value());
    EXPECT_EQ(faults.sorted().size(), 2U);
}

TEST(CanonicalBytes, KeysInAnotherOrderCommentsAndQuotationMarksChangeNothing)
{
    EXPECT_EQ(canonical_bytes(*parse("{a: 1, b: [x, y]}").tree),
              canonical_bytes(*parse("b:\n  - \"x\"\n  - y\n# more\na: '1'\n").tree));
}

TEST(CanonicalBytes, WhatIsSaidOtherwiseGivesOtherBytes)
{
    const std::string bytes = canonical_bytes(*parse("{a: 1, b: [x, y]}").tree);
    for (const char* other :
         {"{a: 1, b: [y, x]}", "{a: 2, b: [x, y]}", "{a: 1, c: [x, y]}", "{a: 1, b: [x, y], c: 1}",
          "{a: 1, b: [xy]}", "{a: 1, b: {x: y}}", "{a: , b: [x, y]}", "{a: 1, b: [[x, y]]}"}) {
        EXPECT_NE(canonical_bytes(*parse(other).tree), bytes) << other;
    }
    EXPECT_NE(canonical_bytes(*parse("[ab, c]").tree), canonical_bytes(*parse("[a, bc]").tree));
    EXPECT_NE(canonical_bytes(*parse("[\"\"]").tree), canonical_bytes(*parse("[~]").tree));
}

}  // namespace
}  // namespace foreday::data
