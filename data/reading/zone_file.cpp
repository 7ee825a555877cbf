#include "data/reading/zone_file.h"

#include <cstdint>
#include <optional>

namespace foreday::data {
namespace {

using screening::Fault;
using screening::Moment;
using std::chrono::seconds;

tl::unexpected<Fault> not_readable(std::string what)
{
    return tl::unexpected(Fault{std::move(what), "a compiled zone file (TZif, version 2 or later)"});
}

/// A big-endian two's complement number of the width of Int. RFC 8536, section 3.
template <class Int>
Int number_at(std::string_view bytes, std::size_t place)
{
    std::uint64_t value = 0;
    for (std::size_t i = 0; i < sizeof(Int); ++i) {
        value = (value << 8U) | static_cast<unsigned char>(bytes[place + i]);
    }
    return static_cast<Int>(value);
}

/// RFC 8536, section 3.1: four bytes of magic, one of version, 15 unused, six counts of four bytes.
struct Header {
    char version = 0;
    std::size_t utc_flags = 0;
    std::size_t standard_flags = 0;
    std::size_t leaps = 0;
    std::size_t times = 0;
    std::size_t types = 0;
    std::size_t letters = 0;
};
constexpr std::size_t header_size = 44;

std::optional<Header> header_of(std::string_view bytes)
{
    if (bytes.size() < header_size || !bytes.starts_with("TZif")) {
        return std::nullopt;
    }
    const auto count = [&](std::size_t place) -> std::size_t {
        return number_at<std::uint32_t>(bytes, place);
    };
    return Header{bytes[4], count(20), count(24), count(28), count(32), count(36), count(40)};
}

// Bytes that one record takes besides the time in it. RFC 8536, section 3.2.
constexpr std::size_t type_size = 6;
constexpr std::size_t leap_correction_size = 4;

/// The size of what follows a header; a time takes 4 bytes in the first part of a file and 8 in the second.
std::size_t data_size(const Header& header, std::size_t time_size)
{
    return header.times * (time_size + 1) + header.types * type_size + header.letters +
           header.leaps * (time_size + leap_correction_size) + header.standard_flags + header.utc_flags;
}

/// RFC 8536, section 3.2: the times, then for each the number of its type, then the types, each of which
/// begins with its offset from UTC.
screening::Result<ZoneFile> parse_data(std::string_view data, const Header& header)
{
    constexpr std::size_t time_size = 8;
    const std::size_t numbers_at = header.times * time_size;
    const std::size_t types_at = numbers_at + header.times;
    const auto offset_of = [&](std::size_t type) {
        return seconds{number_at<std::int32_t>(data, types_at + type * type_size)};
    };
    ZoneFile file;
    file.first_offset = offset_of(0);
    for (std::size_t i = 0; i < header.times; ++i) {
        const auto type = static_cast<unsigned char>(data[numbers_at + i]);
        if (type >= header.types) {
            return not_readable("a change of clocks names a type that is not there");
        }
        const Moment from{seconds{number_at<std::int64_t>(data, i * time_size)}};
        if (i > 0 && from <= file.transitions.back().from) {
            return not_readable("the changes of clocks are not in their order");
        }
        file.transitions.push_back({from, offset_of(type)});
    }
    return file;
}

}  // namespace

screening::Result<ZoneFile> parse_zone_file(std::string_view bytes)
{
    const auto first = header_of(bytes);
    if (!first) {
        return not_readable("not a zone file");
    }
    if (first->version < '2') {
        return not_readable("a zone file of version 1, which ends in January 2038");
    }
    const std::size_t second_at = header_size + data_size(*first, 4);  // 4: a time in the first part
    const auto second = second_at < bytes.size() ? header_of(bytes.substr(second_at)) : std::nullopt;
    if (!second || second->types == 0) {
        return not_readable("a zone file without its second part");
    }
    if (second->leaps != 0) {
        return tl::unexpected(Fault{"a zone file that counts leap seconds", "the same zone without them"});
    }
    const std::string_view rest = bytes.substr(second_at + header_size);
    const std::size_t size = data_size(*second, 8);  // 8: a time in the second part
    if (rest.size() < size) {
        return not_readable("a zone file that breaks off");
    }
    auto file = parse_data(rest.substr(0, size), *second);
    if (!file) {
        return file;
    }
    // RFC 8536, section 3.3: the rule stands between two newlines.
    const std::string_view footer = rest.substr(size);
    if (footer.size() < 2 || footer.front() != '\n' || footer.find('\n', 1) == std::string_view::npos) {
        return not_readable("a zone file that breaks off before its last line");
    }
    file->rule_after = footer.substr(1, footer.find('\n', 1) - 1);
    return file;
}

}  // namespace foreday::data
