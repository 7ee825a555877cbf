#include "tests/store/golden_book.h"

#include <fmt/format.h>

#include "tests/store/samples.h"

namespace foreday::tests {

void fill_as_golden(store::Store& store)
{
    for (int number = 1; number <= golden_entries; ++number) {
        store.write([&](store::Writing& writing) {
            const std::string subject = fmt::format("case {}", number % 3);
            const std::string payload = fmt::format("{{\"words\":\"\u00e9\u0142 {}\\n\"}}", number);
            writing.append(store::Chain::journal, entry_about(subject, payload, number));
            writing.append(store::Chain::looks, entry_about(subject, "{}", number));
            writing.keep_document(std::string(static_cast<std::size_t>(number) * 100, 'x') + payload);
            if (number <= 2) {
                writing.project(projection_of(subject, number));
            }
        });
    }
}

}  // namespace foreday::tests
