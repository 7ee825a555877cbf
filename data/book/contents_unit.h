#pragma once
#include <string>
#include <vector>

#include "data/book/contents_value.h"
#include "screening/vocabulary.h"

/// What holds for the whole book (no subject), and what goes to the chain of looks.
namespace foreday::book {

struct ProtocolInForce {
    std::string version;
    std::string hash;      ///< of its parsed content
    std::string document;  ///< of its files, a document of the book
};

struct PolicyInForce {
    std::string unit;
    std::string hash;
    std::string document;
};

/// Somebody who is asked, from and until.
struct OnDuty {
    std::string who;
    screening::Role role = screening::Role::endoscopist;
    std::string phone;
    WallTime from;
    WallTime until;  ///< not included
};

/// In the order in which they are asked. Replaces the one before it.
struct RosterSet {
    std::vector<OnDuty> on_duty;
};

struct Looked {
    std::string page;
};

struct Printed {
    std::string page;
    std::string document;  ///< hash of what was printed; empty: not kept
};

/// Who and where stand in the entry.
struct SignedIn {};

}  // namespace foreday::book
