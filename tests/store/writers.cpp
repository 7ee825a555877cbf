#include "tests/store/writers.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <fstream>

#include "data/store/sqlite_store.h"

namespace foreday::tests {
namespace {

store::NewEntry entry_with(const std::string& payload)
{
    const screening::Moment noon = date::sys_days{date::year{2027} / 4 / 12} + std::chrono::hours{12};
    return {"case", noon, "Nurse Ilse Marrack", "phone desk", "note", 1, payload};
}

}  // namespace

Writers::~Writers()
{
    kill_all();
}

std::filesystem::path Writers::notes_of(int writer) const
{
    return book_.string() + fmt::format(".acknowledged-{}", writer);
}

void Writers::start(int count, int entries)
{
    for (int i = 0; i < count; ++i) {
        const int writer = started_++;
        const pid_t program = fork();
        if (program == 0) {
            write_on(writer, entries);
        }
        programs_.push_back(program);
    }
}

void Writers::write_on(int writer, int entries) const
{
    try {
        const int notes = open(notes_of(writer).c_str(), O_CREAT | O_WRONLY | O_APPEND | O_CLOEXEC, 0600);
        const auto book = store::open_book(book_, store::OpenMode::read_write);
        for (int i = 0; entries == 0 || i < entries; ++i) {
            const std::string payload = fmt::format("{}-{}", writer, i);
            book->write([&](store::Writing& writing) {
                writing.append(store::Chain::journal, entry_with(payload));
                writing.keep_document(payload);
            });
            const std::string line = payload + "\n";
            if (write(notes, line.data(), line.size()) != static_cast<ssize_t>(line.size())) {
                _exit(3);
            }
        }
    } catch (const std::exception& error) {
        fmt::print(stderr, "writer {}: {}\n", writer, error.what());
        _exit(2);
    }
    _exit(0);  // no test of the parent's goes on in here
}

void Writers::kill_all()
{
    for (const pid_t program : programs_) {
        kill(program, SIGKILL);
    }
    static_cast<void>(wait_for_all());
}

std::vector<int> Writers::wait_for_all()
{
    std::vector<int> statuses;
    for (const pid_t program : programs_) {
        int status = 0;
        waitpid(program, &status, 0);
        statuses.push_back(WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status));
    }
    programs_.clear();
    return statuses;
}

std::set<std::string> Writers::acknowledged() const
{
    std::set<std::string> payloads;
    for (int writer = 0; writer < started_; ++writer) {
        std::ifstream notes(notes_of(writer));
        for (std::string line; std::getline(notes, line);) {
            payloads.insert(line);
        }
    }
    return payloads;
}

}  // namespace foreday::tests
