#include "data/book/contents.h"

namespace foreday::book {

Content::Content(const Content& other) = default;
Content::Content(Content&& other) noexcept = default;
Content& Content::operator=(const Content& other) = default;
Content& Content::operator=(Content&& other) noexcept = default;
Content::~Content() = default;

}  // namespace foreday::book
