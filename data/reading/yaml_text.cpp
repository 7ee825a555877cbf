#include "data/reading/yaml_text.h"

#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <sstream>
#include <utility>

#include "data/reading/text_check.h"
#include "screening/as_written.h"
#include "screening/canonical.h"

namespace foreday::data {
namespace {

/// Thrown by the builder through the parser to leave a document that is too deep or too full.
struct GivenUp {};

/// Builds the tree from the parser's events. Nothing is ever expanded, so memory follows the text.
class Builder final : public YAML::EventHandler {
public:
    Builder(std::string file, const LineTable& lines, Faults& faults)
        : file_(std::make_shared<const std::string>(std::move(file))), lines_(lines), faults_(faults)
    {
    }

    void OnDocumentStart(const YAML::Mark& /*mark*/) override {}
    void OnDocumentEnd() override {}

    void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override
    {
        Located node = begin(mark, Located::Kind::nothing);
        refuse_anchor(node, anchor);
        finish(std::move(node));
    }

    void OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override
    {
        Located node = begin(mark, Located::Kind::nothing);
        faults_.add(node, "an alias (*)", "write the value out where it is used");
        finish(std::move(node));
    }

    void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  const std::string& value) override
    {
        Located node = begin(mark, Located::Kind::scalar);
        node.text = value;
        refuse_tag(node, tag);
        refuse_anchor(node, anchor);
        refuse_open_quotation(node, lines_.from(mark.line, mark.column));
        finish(std::move(node));
    }

    void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value /*style*/) override
    {
        open(mark, Located::Kind::list, tag, anchor);
    }
    void OnSequenceEnd() override { close(); }

    void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                    YAML::EmitterStyle::value /*style*/) override
    {
        open(mark, Located::Kind::map, tag, anchor);
    }
    void OnMapEnd() override
    {
        refuse_duplicates(open_.back().node);
        close();
    }

    [[nodiscard]] Located take() && { return std::move(root_); }
    [[nodiscard]] Located here(const YAML::Mark& mark) const
    {
        Located node;
        node.line = std::max(mark.line, 0) + 1;
        node.column = lines_.column_of(mark.line, mark.column);
        node.file = file_;
        return node;
    }

private:
    struct Open {
        Located node;
        std::optional<Located> key;  ///< of a map: read, its value not yet
    };

    Located begin(const YAML::Mark& mark, Located::Kind kind)
    {
        Located node = here(mark);
        node.kind = kind;
        if (++values_ > most_values) {
            faults_.add(node, fmt::format("more than {} values in one file", most_values), "a smaller file");
            throw GivenUp{};
        }
        return node;
    }

    void open(const YAML::Mark& mark, Located::Kind kind, const std::string& tag, YAML::anchor_t anchor)
    {
        Located node = begin(mark, kind);
        if (static_cast<int>(open_.size()) >= deepest) {
            faults_.add(node, fmt::format("nested more than {} levels deep", deepest), "a flatter form");
            throw GivenUp{};
        }
        refuse_tag(node, tag);
        refuse_anchor(node, anchor);
        open_.push_back(Open{std::move(node), std::nullopt});
    }

    void close()
    {
        Located node = std::move(open_.back().node);
        open_.pop_back();
        finish(std::move(node));
    }

    void finish(Located node)
    {
        if (open_.empty()) {
            root_ = std::move(node);
            return;
        }
        Open& parent = open_.back();
        if (parent.node.kind == Located::Kind::list) {
            parent.node.items.push_back(std::move(node));
        } else if (!parent.key) {
            if (node.kind != Located::Kind::scalar) {
                faults_.add(node, "a key that is no word", "a word before the colon");
            }
            parent.key = std::move(node);
        } else {
            parent.node.keys.push_back(std::move(*parent.key));
            parent.node.items.push_back(std::move(node));
            parent.key.reset();
        }
    }

    // "?" is what the parser calls a plain value, "!" a quoted one.
    void refuse_tag(const Located& node, const std::string& tag)
    {
        if (!tag.empty() && tag != "?" && tag != "!") {
            faults_.add(node, fmt::format("a tag ({})", screening::as_written(tag)), "the plain value");
        }
    }

    void refuse_open_quotation(const Located& node, std::string_view written)
    {
        if ((written.starts_with('"') || written.starts_with('\'')) && !closes_its_quotation(written)) {
            faults_.add(node, "a quotation mark that is never closed",
                        "the same mark at the end of the text");
        }
    }

    void refuse_anchor(const Located& node, YAML::anchor_t anchor)
    {
        if (anchor != YAML::NullAnchor) {
            faults_.add(node, "an anchor (&)", "the plain value");
        }
    }

    void refuse_duplicates(const Located& map)
    {
        std::map<std::string_view, int> first_line;
        for (const Located& key : map.keys) {
            if (key.kind != Located::Kind::scalar) {
                continue;
            }
            const auto [found, added] = first_line.emplace(key.text, key.line);
            if (!added) {
                faults_.add(key, fmt::format("the key {} stands twice", screening::as_written(key.text)),
                            fmt::format("once; it stands in line {} already", found->second));
            }
        }
    }

    std::shared_ptr<const std::string> file_;
    const LineTable& lines_;
    Faults& faults_;
    std::vector<Open> open_;
    Located root_;
    std::size_t values_ = 0;
};

/// What the parser found, or empty after a fault that leaves nothing.
std::optional<Located> run_parser(std::string_view text, const std::string& file, Faults& faults)
{
    const LineTable lines(text);
    Faults found;
    Builder builder(file, lines, found);
    std::istringstream stream{std::string(text)};
    try {
        YAML::Parser parser(stream);
        if (!parser.HandleNextDocument(builder)) {
            faults.add(LocatedFault{file, 1, 1, "the file is empty", "the entries that belong here"});
            return std::nullopt;
        }
        Located root = std::move(builder).take();
        Faults unread;
        Builder second(file, lines, unread);
        if (parser.HandleNextDocument(second)) {
            const Located& other = std::move(second).take();
            found.add(other, "a second document in one file", "one document; leave out the line ---");
        }
        for (const LocatedFault& fault : found.sorted()) {
            faults.add(fault);
        }
        return root;
    } catch (const GivenUp&) {
        for (const LocatedFault& fault : found.sorted()) {
            faults.add(fault);
        }
    } catch (const YAML::Exception& trouble) {
        faults.add(builder.here(trouble.mark), fmt::format("this is not YAML: {}", trouble.msg),
                   "mind quotation marks, brackets and the blanks before each line");
    }
    return std::nullopt;
}

void add_canonical(const Located& node, screening::CanonicalBytes& bytes)
{
    switch (node.kind) {
        case Located::Kind::nothing:
            bytes.add("nothing");
            return;
        case Located::Kind::scalar:
            bytes.add("text");
            bytes.add(node.text);
            return;
        case Located::Kind::list:
            bytes.add("list");
            bytes.add_count(node.items.size());
            for (const Located& item : node.items) {
                add_canonical(item, bytes);
            }
            return;
        case Located::Kind::map:
            break;
    }
    std::vector<std::pair<std::string_view, const Located*>> entries;
    for (std::size_t i = 0; i < node.keys.size(); ++i) {
        entries.emplace_back(node.keys[i].text, &node.items[i]);
    }
    std::ranges::stable_sort(entries, {}, [](const auto& entry) { return entry.first; });
    bytes.add("map");
    bytes.add_count(entries.size());
    for (const auto& [key, value] : entries) {
        bytes.add(key);
        add_canonical(*value, bytes);
    }
}

}  // namespace

const Located* find(const Located& node, std::string_view key)
{
    const auto found = std::ranges::find(node.keys, key, &Located::text);
    return found == node.keys.end() ? nullptr
                                    : &node.items[static_cast<std::size_t>(found - node.keys.begin())];
}

std::optional<Located> parse_yaml(std::string_view text, const std::string& file, Faults& faults)
{
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    if (text.starts_with(byte_order_mark)) {
        text.remove_prefix(byte_order_mark.size());
    }
    if (text.size() > most_bytes) {
        faults.add(LocatedFault{file, 0, 0, "the file is larger than 2 MB", "a smaller file"});
        return std::nullopt;
    }
    if (!readable_text(text, file, faults)) {
        return std::nullopt;
    }
    return run_parser(text, file, faults);
}

std::optional<Located> read_yaml(const std::filesystem::path& file, Faults& faults)
{
    std::error_code status;
    if (!std::filesystem::is_regular_file(file, status)) {
        const bool there = std::filesystem::exists(file, status);
        faults.add(LocatedFault{file.string(), 0, 0, there ? "this is no file" : "there is no such file",
                                there ? "a file, not a folder" : "a file at this place"});
        return std::nullopt;
    }
    const auto text = whole_text(file);
    if (!text) {
        faults.add(LocatedFault{file.string(), 0, 0, "the file cannot be read", "a file that may be read"});
        return std::nullopt;
    }
    return parse_yaml(*text, file.string(), faults);
}

std::optional<std::string> whole_text(const std::filesystem::path& file)
{
    std::ifstream stream(file, std::ios::binary);
    std::string text(most_bytes + 1, '\0');
    stream.read(text.data(), static_cast<std::streamsize>(text.size()));
    if (!stream.is_open() || stream.bad()) {
        return std::nullopt;
    }
    text.resize(static_cast<std::size_t>(stream.gcount()));
    return text;
}

std::string canonical_bytes(const Located& node)
{
    screening::CanonicalBytes bytes;
    add_canonical(node, bytes);
    return std::move(bytes).take();
}

}  // namespace foreday::data
