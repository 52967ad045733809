#include "export/files/move_journal.h"

#include <sys/stat.h>

#include <algorithm>
#include <charconv>
#include <fstream>
#include <iterator>
#include <optional>
#include <set>
#include <string>

#include "joinery/base/atomic_write.h"
#include "joinery/base/disk_files.h"

namespace dryfit::exporting {

namespace fs = std::filesystem;

namespace {

constexpr auto kJournal = "moves";
constexpr auto kPointer = "moves-are-in";
constexpr std::string_view kHead = "dryfit moves 1";

// A path may hold anything but the byte 0, which therefore ends every field.
void put(std::string& text, std::string_view field) {
  text.append(field).push_back('\0');
}

std::string textOf(const MoveJournal& journal) {
  std::string text;
  put(text, kHead);
  put(text, std::to_string(journal.folders.size()));
  for (const fs::path& folder : journal.folders) put(text, folder.native());
  put(text, std::to_string(journal.moves.size()));
  for (const MoveJournal::Move& move : journal.moves) {
    for (const fs::path& path : {move.from, move.to, move.old}) put(text, path.native());
    for (const std::uint64_t number : {move.moved.device, move.moved.number, move.moved.size}) {
      put(text, std::to_string(number));
    }
    put(text, std::to_string(move.moved.seconds));
    put(text, std::to_string(move.moved.nanoseconds));
  }
  return text;
}

/// Takes one field after another off a journal's text.
class Fields {
 public:
  explicit Fields(std::string_view text) : rest_(text) {}

  std::string_view next() {
    const std::size_t end = rest_.find('\0');
    if (end == std::string_view::npos) good_ = false;
    const std::string_view field = good_ ? rest_.substr(0, end) : std::string_view();
    if (good_) rest_.remove_prefix(end + 1);
    return field;
  }
  template <class Number>
  Number number() {
    const std::string_view field = next();
    Number value{};
    const auto read = std::from_chars(field.data(), field.data() + field.size(), value);
    good_ = good_ && read.ec == std::errc() && read.ptr == field.data() + field.size();
    return value;
  }
  [[nodiscard]] bool good() const { return good_; }

 private:
  std::string_view rest_;
  bool good_ = true;
};

std::optional<MoveJournal> journalFrom(const std::string& text) {
  Fields fields(text);
  if (fields.next() != kHead) return std::nullopt;
  MoveJournal journal;
  for (auto n = fields.number<std::size_t>(); n > 0 && fields.good(); --n) {
    journal.folders.emplace_back(fields.next());
  }
  for (auto n = fields.number<std::size_t>(); n > 0 && fields.good(); --n) {
    MoveJournal::Move move;
    for (fs::path* path : {&move.from, &move.to, &move.old}) *path = fields.next();
    for (std::uint64_t* number : {&move.moved.device, &move.moved.number, &move.moved.size}) {
      *number = fields.number<std::uint64_t>();
    }
    move.moved.seconds = fields.number<std::int64_t>();
    move.moved.nanoseconds = fields.number<std::int64_t>();
    journal.moves.push_back(std::move(move));
  }
  return fields.good() ? std::optional(std::move(journal)) : std::nullopt;
}

std::string bytesOf(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace

FileIdentity identityOf(const fs::path& file) {
  struct stat it {};
  if (::lstat(file.c_str(), &it) != 0) return {};
  return {it.st_dev, it.st_ino, static_cast<std::uint64_t>(it.st_size), it.st_mtim.tv_sec,
          it.st_mtim.tv_nsec};
}

bool MoveJournal::undo() const {
  bool all = true;
  for (auto move = moves.rbegin(); move != moves.rend(); ++move) {
    if (!(identityOf(move->to) == move->moved)) continue;
    std::error_code failed;
    if (move->old.empty()) {
      fs::rename(move->to, move->from, failed);
    } else {
      fs::rename(move->old, move->to, failed);
    }
    all = all && !failed;
  }
  std::error_code ignored;
  // Only empty ones go.
  for (auto folder = folders.rbegin(); folder != folders.rend(); ++folder) {
    fs::remove(*folder, ignored);
  }
  for (const fs::path& place : places()) joinery::syncFolder(place);
  return all;
}

std::vector<fs::path> MoveJournal::places() const {
  std::set<fs::path> all;
  for (const fs::path& folder : folders) all.insert(joinery::folderOf(folder));
  for (const Move& move : moves) all.insert(joinery::folderOf(move.to));
  return {all.begin(), all.end()};
}

Result<void> writeJournal(const fs::path& scratch, const MoveJournal& journal) {
  return joinery::writeAtomically(scratch / kJournal, textOf(journal));
}

Result<void> pointToJournal(const fs::path& scratch, const fs::path& journalScratch) {
  return joinery::writeAtomically(scratch / kPointer, journalScratch.native());
}

void closeJournal(const fs::path& scratch) {
  std::error_code ignored;
  fs::remove(scratch / kJournal, ignored);
  joinery::syncFolder(scratch);
}

bool settle(const fs::path& scratch) {
  std::error_code failed;
  fs::path keeper = scratch;
  joinery::UseMark mark;
  if (fs::exists(scratch / kPointer, failed)) {
    keeper = bytesOf(scratch / kPointer);
    if (!joinery::isOwnScratch(keeper)) {
      // Gone from its place: the moves were final. Where the place itself is out of reach, a disk
      // that is not there now, nobody knows.
      return fs::is_directory(joinery::folderOf(keeper), failed) &&
             fs::symlink_status(keeper, failed).type() == fs::file_type::not_found;
    }
    if (!mark.take(keeper) || !mark.isHeld()) return false;
  }
  if (!fs::exists(keeper / kJournal, failed)) return true;
  const auto journal = journalFrom(bytesOf(keeper / kJournal));
  if (!journal || !journal->undo()) return false;
  closeJournal(keeper);
  return true;
}

}  // namespace dryfit::exporting
