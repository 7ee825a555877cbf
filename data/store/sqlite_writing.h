#pragma once
#include <optional>
#include <string>
#include <type_traits>
#include <vector>

#include "data/store/connection.h"
#include "data/store/entries_table.h"
#include "data/store/projections.h"
#include "data/store/store.h"

namespace foreday::store {

/// What is read in its life is of one moment. In a write transaction it does nothing.
class Snapshot {
public:
    explicit Snapshot(const Connection& connection)
        : connection_{connection}, own_{!connection.in_transaction()}
    {
        if (own_) {
            connection_.query("BEGIN").run();
        }
    }
    ~Snapshot()
    {
        if (own_) {
            connection_.roll_back();
        }
    }
    Snapshot(const Snapshot&) = delete;
    Snapshot& operator=(const Snapshot&) = delete;

private:
    const Connection& connection_;
    bool own_;
};

/// After a fault SQLite may have undone the whole transaction by itself, and what came after would stand
/// alone. So nothing comes after: every further call gives the same fault.
class SqliteWriting : public Writing {
public:
    explicit SqliteWriting(const Connection& connection) : connection_{connection} {}

    Entry append(Chain chain, const NewEntry& entry) override
    {
        return doing([&] { return put_entry(connection_, chain, entry); });
    }
    [[nodiscard]] std::vector<Entry> entries_of(const std::string& subject) const override
    {
        return doing([&] { return entries_about(connection_, subject); });
    }
    std::string keep_document(std::string_view bytes) override
    {
        return doing([&] { return put_document(connection_, bytes); });
    }
    void project(const CaseProjection& projection) override
    {
        doing([&] { put_projection(connection_, projection); });
    }
    void forget_projections() override
    {
        doing([&] { drop_projections(connection_); });
    }

    /// For the case that `work` has caught it and gone on.
    void throw_fault() const
    {
        if (fault_) {
            throw *fault_;
        }
    }

private:
    template <typename Work>
    std::invoke_result_t<const Work&> doing(const Work& work) const
    {
        throw_fault();
        try {
            return with_faults(connection_, work);
        } catch (const StoreFault& fault) {
            fault_ = fault;
            throw;
        }
    }

    const Connection& connection_;
    mutable std::optional<StoreFault> fault_;
};

}  // namespace foreday::store
