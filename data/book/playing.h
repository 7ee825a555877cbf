#pragma once
#include <stdexcept>
#include <string>
#include <vector>

#include "data/book/book.h"
#include "data/book/contents_of.h"

namespace foreday::book {

/// Writes one thing that a record says through the verb it belongs to, as the people of the unit would: the
/// writer in view of the case as it stands, fingerprints and sheet as they are then.
/// @throws std::runtime_error with the refusal
void play(Book& book, const Writer& writer, const RecordedContent& recorded);

/// What a record says in the order in which people did it: patient and booking before anything else, what a
/// phone call learns before anything is decided on it, then by time.
[[nodiscard]] std::vector<RecordedContent> in_order_of_work(std::vector<RecordedContent> contents);

/// Asks again what is past its age and a patient can say, with the same answer.
void ask_again_what_is_old(Book& book, const Writer& writer, const std::string& case_id);

/// Asks every yes-or-no question that applies and nobody has asked, and gets the harmless answer.
void ask_what_is_left(Book& book, const Writer& writer, const std::string& case_id);

/// Unwraps an outcome.
/// @throws std::runtime_error with the refusal, headed by `what`
template <class T>
T must(Outcome<T> outcome, const std::string& what)
{
    if (!outcome) {
        throw std::runtime_error(what + ": " + in_words(outcome.error()));
    }
    return std::move(*outcome);
}

}  // namespace foreday::book
