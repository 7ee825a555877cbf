#include "data/reading/hashing.h"

#include <sodium.h>

#include <array>
#include <stdexcept>

namespace foreday::data {

std::string sha256_hex(std::string_view bytes)
{
    static const bool ready = sodium_init() >= 0;
    if (!ready) {
        throw std::runtime_error("libsodium cannot be made ready");
    }
    std::array<unsigned char, crypto_hash_sha256_BYTES> hash{};
    crypto_hash_sha256(hash.data(), reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
    // The function writes a closing zero as well.
    std::array<char, 2 * crypto_hash_sha256_BYTES + 1> text{};
    sodium_bin2hex(text.data(), text.size(), hash.data(), hash.size());
    return std::string(text.data(), text.size() - 1);
}

}  // namespace foreday::data
