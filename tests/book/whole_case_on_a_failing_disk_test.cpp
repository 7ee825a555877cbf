#include <gmock/gmock.h>

#include <iostream>
#include <memory>

#include "data/book/playing.h"
#include "data/book/projecting.h"
#include "data/book/verbs_day.h"
#include "data/book/verbs_phone.h"
#include "data/book/verbs_unit.h"
#include "data/store/sqlite_store.h"
#include "data/store/verify.h"
#include "tests/book/desk.h"
#include "tests/store/failing_disk.h"
#include "tests/support/temporary_folder.h"

/// One patient from the booking to the closed case, on a disk of which one call fails. Whoever is told that
/// nothing was written does it again; whoever is told that it may stand or not looks first. At the end the
/// book is the one that a sound disk gives, byte for byte.
namespace foreday::tests {
namespace {

using store::StoreFault;

/// One thing done at a desk, at its time.
struct Step {
    screening::Moment when;
    std::function<void(book::Book&)> act;  ///< throws for a refusal
};

/// The first answer that is past its age is said once more; nothing when none is.
void ask_one_again(book::Book& book, const std::string& id)
{
    const auto now = book::must(book.open(id), id);
    const auto& facts = now.rules().protocol.facts;
    for (std::size_t place = 0; place < facts.size(); ++place) {
        const auto& reading = now.whole.assessment.readings.at(place);
        if (reading.past_its_age && reading.values.size() == 1 &&
            facts[place].type == screening::FactType::yes_no) {
            const bool as_before = std::get<bool>(reading.values.front());
            static_cast<void>(book::must(
                book::answer(book, nurse, book::as_shown(now), said(facts[place].id, as_before)), id));
            return;
        }
    }
}
constexpr int answers_of_the_phone_call = 12;  // at least as many as are past their age on the day

std::vector<Step> whole_case()
{
    constexpr const char* file = "arriving_with_everything_right.yaml";
    const std::string id = "LK-0416";
    std::vector<Step> steps{{at("2027-03-01T09:00"), [](book::Book& book) {
                                 if (const auto refused = book::put_in_force(book, director, demo_texts())) {
                                     throw std::runtime_error(book::in_words(*refused));
                                 }
                             }}};
    for (const book::RecordedContent& said : demo_contents(file)) {
        steps.push_back({said.at, [said](book::Book& book) { book::play(book, writer_of(said), said); }});
    }
    const auto then = [&](std::string_view when, auto verb) {
        steps.push_back({at(when), [id, verb](book::Book& book) {
                             const auto now = book::must(book.open(id), id);
                             static_cast<void>(book::must(verb(book, book::as_shown(now)), id));
                         }});
    };
    for (int old = 0; old < answers_of_the_phone_call; ++old) {
        steps.push_back({at("2027-06-15T09:30"), [id](book::Book& book) { ask_one_again(book, id); }});
    }
    then("2027-06-15T09:45",
         [](book::Book& book, const book::OnCase& on) { return book::go_in(book, nurse, on); });
    then("2027-06-15T10:30", [](book::Book& book, const book::OnCase& on) {
        return book::record_what_was_done(book, nurse, on, {wall("2027-06-15T10:05"), {"colonoscopy"}, ""});
    });
    then("2027-06-15T10:35", [](book::Book& book, const book::OnCase& on) {
        return book::decide_restart(book, physician, on, {"hold:m1", "", day("2027-06-15")});
    });
    then("2027-06-15T10:40", [](book::Book& book, const book::OnCase& on) {
        return book::tell_restart(book, nurse, on, {{"hold:m1"}, ""});
    });
    then("2027-06-15T10:45",
         [](book::Book& book, const book::OnCase& on) { return book::close(book, nurse, on, "done"); });
    return steps;
}

/// The unit at work on one file, with a clock that is set to each thing it does.
class Unit {
public:
    explicit Unit(const std::filesystem::path& file)
        : file_(file), clock_(std::make_shared<screening::Moment>())
    {
        settings_.wait = std::chrono::milliseconds{200};
    }

    /// Does what has not been done yet, and goes on after a fault; gives up on a thing that fails twice.
    /// @param done  how many of the steps stand
    void work(const std::vector<Step>& steps, std::size_t& done, const std::string& disk)
    {
        settings_.vfs = disk;
        int faults = 0;
        while (done < steps.size() && faults < 2) {
            try {
                open();
                const std::int64_t before = book_->store().head(store::Chain::journal).number;
                *clock_ = steps[done].when;
                try {
                    steps[done].act(*book_);
                } catch (const StoreFault& fault) {
                    if (fault.kind() == StoreFault::Kind::unsure && stands_after(before)) {
                        ++unsure_;
                    } else {
                        throw;
                    }
                }
                ++done;
                faults = 0;
            } catch (const StoreFault&) {
                ++faults;
            }
        }
        book_.reset();
    }
    [[nodiscard]] int unsure() const { return unsure_; }

private:
    void open()
    {
        if (!book_) {
            auto store = std::filesystem::exists(file_)
                             ? store::open_book(file_, store::OpenMode::read_write, settings_)
                             : store::create_book(file_, settings_);
            book_ = std::make_unique<book::Book>(std::move(store), [clock = clock_] { return *clock; });
        }
    }

    [[nodiscard]] bool stands_after(std::int64_t before) const
    {
        return book_->store().head(store::Chain::journal).number > before;
    }

    std::filesystem::path file_;
    std::shared_ptr<screening::Moment> clock_;
    store::BookSettings settings_;
    std::unique_ptr<book::Book> book_;
    int unsure_ = 0;
};

struct Outcome {
    store::Head journal;
    std::optional<store::CaseProjection> lists;
    bool operator==(const Outcome&) const = default;
};

Outcome outcome_of(const std::filesystem::path& file)
{
    const auto book = store::open_book(file, store::OpenMode::read_only);
    EXPECT_THAT(store::verify(*book).damages, testing::IsEmpty());
    return {book->head(store::Chain::journal), book->projection("LK-0416")};
}

Outcome on_a_sound_disk(const std::vector<Step>& steps)
{
    const TemporaryFolder folder;
    const auto file = folder.path() / "unit.foreday";
    Unit unit{file};
    std::size_t done = 0;
    unit.work(steps, done, "");
    EXPECT_EQ(done, steps.size());
    return outcome_of(file);
}

/// Fails the n-th call, n from 1 to `most` or until nothing fails any more. Returns the last n that failed.
int fail_one_after_the_other(DiskFails what, int most)
{
    const std::vector<Step> steps = whole_case();
    const Outcome expected = on_a_sound_disk(steps);
    for (int nth = 1; nth <= most; ++nth) {
        SCOPED_TRACE("call " + std::to_string(nth));
        const TemporaryFolder folder;
        const auto file = folder.path() / "unit.foreday";
        Unit unit{file};
        std::size_t done = 0;
        bool failed = false;
        {
            const FailingDisk disk(what, nth);
            unit.work(steps, done, FailingDisk::name);
            failed = disk.has_failed();
        }
        if (what != DiskFails::write_for_want_of_room) {
            EXPECT_EQ(done, steps.size()) << "one fault, and the case came to no end";
        }
        unit.work(steps, done, "");  // the room that was missing is there
        EXPECT_EQ(done, steps.size());
        EXPECT_EQ(outcome_of(file), expected);
        if (!failed) {
            return nth - 1;
        }
        if (testing::Test::HasFailure()) {
            return nth;
        }
    }
    return most;
}

class RunWholeCaseOnAFailingDisk : public testing::TestWithParam<DiskFails> {};

TEST_P(RunWholeCaseOnAFailingDisk, IsTheSameBookInTheEnd)
{
    EXPECT_GT(fail_one_after_the_other(GetParam(), 60), 0) << "nothing ever failed";
}

class LongWholeCaseOnAFailingDisk : public testing::TestWithParam<DiskFails> {};

/// Every call of every step. A step begins on a copy of the book that the steps before it left on a sound
/// disk, so that a thousand faults do not cost a thousand whole cases.
TEST_P(LongWholeCaseOnAFailingDisk, StandsAfterEachStepAsOnASoundDiskWhicheverCallFails)
{
    const std::vector<Step> steps = whole_case();
    const TemporaryFolder folder;
    const auto sound = folder.path() / "sound.foreday";
    const auto copy = folder.path() / "copy.foreday";
    int faults = 0;
    for (std::size_t step = 0; step < steps.size(); ++step) {
        const auto before = folder.path() / "before.foreday";
        std::filesystem::remove(before);
        if (step > 0) {
            std::filesystem::copy_file(sound, before);
        }
        const std::vector<Step> up_to_here(steps.begin(),
                                           steps.begin() + static_cast<std::ptrdiff_t>(step + 1));
        std::size_t done = step;
        Unit{sound}.work(up_to_here, done, "");
        const Outcome expected = outcome_of(sound);
        for (int nth = 1;; ++nth) {
            SCOPED_TRACE(testing::Message() << "step " << step << ", call " << nth);
            for (const char* ending : {"", "-wal", "-shm"}) {
                std::filesystem::remove(copy.string() + ending);
            }
            if (step > 0) {
                std::filesystem::copy_file(before, copy);
            }
            Unit unit{copy};
            done = step;
            bool failed = false;
            {
                const FailingDisk disk(GetParam(), nth);
                unit.work(up_to_here, done, FailingDisk::name);
                failed = disk.has_failed();
            }
            unit.work(up_to_here, done, "");
            ASSERT_EQ(outcome_of(copy), expected);
            if (!failed) {
                break;
            }
            ++faults;
        }
    }
    EXPECT_GT(faults, static_cast<int>(steps.size())) << "some step was never disturbed";
    std::cout << steps.size() << " steps, calls that were made to fail: " << faults << '\n';
}

std::string name_of_failure(const testing::TestParamInfo<DiskFails>& info)
{
    constexpr std::array<const char*, 4> names{"Write", "Sync", "Open", "WriteForWantOfRoom"};
    return names.at(static_cast<std::size_t>(info.param));
}

const auto every_failure =
    testing::Values(DiskFails::write, DiskFails::sync, DiskFails::open, DiskFails::write_for_want_of_room);
INSTANTIATE_TEST_SUITE_P(OnePatient, RunWholeCaseOnAFailingDisk, every_failure, name_of_failure);
INSTANTIATE_TEST_SUITE_P(OnePatient, LongWholeCaseOnAFailingDisk, every_failure, name_of_failure);

}  // namespace
}  // namespace foreday::tests
