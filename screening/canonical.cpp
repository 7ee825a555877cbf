#include "screening/canonical.h"

#include <stdexcept>

namespace foreday::screening {

void CanonicalBytes::add(std::string_view field)
{
    if (field.size() > UINT32_MAX) {
        throw std::length_error("a field is longer than its length can say");
    }
    const auto length = static_cast<std::uint32_t>(field.size());
    for (const unsigned shift : {24U, 16U, 8U, 0U}) {  // big-endian bytes of the length
        bytes_.push_back(static_cast<char>((length >> shift) & 0xFFU));
    }
    bytes_.append(field);
}

void CanonicalBytes::add_count(std::size_t count)
{
    add(std::to_string(count));
}

}  // namespace foreday::screening
