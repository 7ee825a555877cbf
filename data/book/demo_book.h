#pragma once
#include <filesystem>
#include <memory>

#include "data/book/book.h"

namespace foreday::book {

/// Fills a new book with the demo unit and its patients, through the verbs, as if its people had worked up
/// to a moment: one not begun, ones that wait for a clinician, one told, one moved after telling, one called
/// off while a hold runs, two at the arrival desk, one done.
/// @param store  empty
/// @param demo   the folder with larkmoor.yaml and cases/
/// @param at     entries lie before it; sessions lie on the days around it
/// @throws std::runtime_error with the faults, when the demo does not fit the protocol
[[nodiscard]] std::unique_ptr<Book> make_demo_book(std::unique_ptr<store::Store> store,
                                                   const std::filesystem::path& demo,
                                                   const data::ProtocolTexts& protocol, screening::Moment at);

}  // namespace foreday::book
