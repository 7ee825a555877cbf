#include "data/store/documents.h"

#include <zlib.h>

#include <new>
#include <stdexcept>

namespace foreday::store {
namespace {

const Bytef* as_bytes(std::string_view text)
{
    return reinterpret_cast<const Bytef*>(text.data());
}

}  // namespace

void refuse_too_long(std::string_view document)
{
    if (document.size() > longest_document) {
        throw std::invalid_argument("a document is longer than 64 MiB");
    }
}

std::string compress(std::string_view bytes)
{
    uLongf size = compressBound(bytes.size());
    std::string out(size, '\0');
    if (compress2(reinterpret_cast<Bytef*>(out.data()), &size, as_bytes(bytes), bytes.size(),
                  Z_DEFAULT_COMPRESSION) != Z_OK) {
        throw std::bad_alloc{};  // with room for the bound there is no other fault
    }
    out.resize(size);
    return out;
}

std::optional<std::string> uncompress(std::string_view compressed, std::size_t length)
{
    if (length > longest_document) {
        return std::nullopt;
    }
    std::string out(length + 1, '\0');  // one more, so that a longer text is seen
    uLongf size = out.size();
    if (::uncompress(reinterpret_cast<Bytef*>(out.data()), &size, as_bytes(compressed), compressed.size()) !=
            Z_OK ||
        size != length) {
        return std::nullopt;
    }
    out.resize(length);
    return out;
}

}  // namespace foreday::store
