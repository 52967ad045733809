#include "viewer/document/stock_desk.h"

#include <QUndoCommand>
#include <algorithm>
#include <utility>

#include "export/layout/remaining_stock.h"
#include "export/words/failure_words.h"
#include "joinery/base/atomic_write.h"
#include "joinery/base/read_whole.h"
#include "joinery/base/writer_lock.h"
#include "joinery/layout/lay_out.h"
#include "joinery/stock/rough_sizes.h"
#include "joinery/stock/stock_file.h"

namespace dryfit::viewer {
namespace {

Result<std::vector<joinery::Blank>> blanksOf(const joinery::Piece& piece) {
  const auto rough = joinery::roughSizes(piece);
  if (!rough) return tl::unexpected<Error>(rough.error());
  return joinery::blanksOf(*rough);
}

bool alike(const joinery::Blank& a, const joinery::Blank& b) {
  return a.name == b.name && a.material == b.material && a.species == b.species &&
         a.length == b.length && a.width == b.width && a.thickness == b.thickness &&
         a.grain == b.grain && a.match == b.match;
}

}  // namespace

/// One step of undo: the list before and after.
class StockStep : public QUndoCommand {
 public:
  StockStep(StockDesk& desk, const QString& name, StockDesk::List after)
      : QUndoCommand(name),
        desk_(desk),
        before_(desk.list_),
        after_(std::move(after)),
        opened_(desk.opened_) {}
  void undo() override { show(before_); }
  void redo() override { show(after_); }

 private:
  void show(const StockDesk::List& list) {
    // A step of a list that is no longer open has nothing to change.
    if (opened_ == desk_.opened_) {
      desk_.replaceList(list);
    } else {
      setObsolete(true);
    }
  }

  StockDesk& desk_;
  StockDesk::List before_, after_;
  int opened_;
};

StockDesk::StockDesk(BenchDocument& document, QObject* parent)
    : QObject(parent), document_(document) {
  connect(&document_, &BenchDocument::opened, this, &StockDesk::forgetLayout);
}

StockDesk::~StockDesk() {
  stop();
}

/// Another piece: what is being laid out, or was, is not of it.
void StockDesk::forgetLayout() {
  stop();
  stopped_.reset();
  working_ = false;
  job_.reset();
  Q_EMIT workingChanged();
  Q_EMIT laidOut();
}

Result<void> StockDesk::open(const std::filesystem::path& path) {
  auto bytes = joinery::readWhole(path, "stock list");
  if (!bytes) return tl::unexpected<Error>(bytes.error());
  auto list = joinery::parseStock(*bytes, path.string());
  if (!list) return tl::unexpected<Error>(list.error());
  path_ = path;
  onDisk_ = std::move(*bytes);
  saved_ = std::make_shared<const joinery::StockList>(std::move(*list));
  ++opened_;
  replaceList(saved_);
  return {};
}

Result<void> StockDesk::saveAs(const std::filesystem::path& path) {
  if (list_->items.empty()) return fail(ErrorCode::badUsage, "there is no stock list to save");
  // From the look at the file to the new one in its place, no other program of ours may write.
  const auto lock = joinery::WriterLock::take(path, std::chrono::seconds(5));
  if (!lock) return tl::unexpected<Error>(lock.error());
  if (const auto there = joinery::readWhole(path, "stock list");
      path == path_ && there && *there != onDisk_) {
    return fail(ErrorCode::fileNotWritten, "another program has changed the file meanwhile",
                path.string(), "save under another name, or open it anew and change it again");
  }
  std::string text = exporting::stockText(*list_);
  Result<void> written = joinery::writeAtomically(path, text);
  if (!written) return written;
  path_ = path;
  onDisk_ = std::move(text);
  saved_ = list_;
  Q_EMIT listChanged();
  return {};
}

Result<void> StockDesk::setItem(std::size_t index, const joinery::StockItem& item) {
  auto changed = std::make_shared<joinery::StockList>(*list_);
  changed->items.at(index) = item;
  // The reader knows all that can be wrong with an entry.
  auto read = joinery::parseStock(exporting::stockText(*changed), "stock list");
  if (!read) return tl::unexpected<Error>(read.error());
  document_.undoStack().push(new StockStep(
      *this, tr("change of %1").arg(QString::fromStdString(item.name)), std::move(changed)));
  return {};
}

void StockDesk::replaceList(List list) {
  list_ = std::move(list);
  Q_EMIT listChanged();
}

/// What the latest dry fit found; nothing before the first.
std::vector<joinery::Finding> StockDesk::findingsNow() const {
  const auto assembled = document_.assembled();
  return assembled ? assembled->fit->findings : std::vector<joinery::Finding>{};
}

Result<void> StockDesk::layOut() {
  const joinery::Piece* piece = document_.piece();
  if (piece == nullptr) return fail(ErrorCode::badUsage, "there is no piece to lay out");
  if (list_->items.empty()) {
    return fail(ErrorCode::badUsage, "there is no stock to lay it out on", {}, "open a stock list");
  }
  auto blanks = blanksOf(*piece);
  if (!blanks) return tl::unexpected<Error>(blanks.error());
  stop();
  stopped_ = std::make_shared<std::atomic<bool>>(false);
  working_ = true;
  jobList_ = list_;
  worker_ = std::jthread([this, stopped = stopped_, piece = *piece, findings = findingsNow(),
                          blanks = std::move(*blanks), list = *list_, settings = settings_,
                          unit = document_.unit()] {
    const auto progress = [this, &stopped](double share) {
      QMetaObject::invokeMethod(
          this, [this, share] { Q_EMIT progressed(static_cast<int>(share * 100)); },
          Qt::QueuedConnection);
      return !stopped->load();
    };
    Answer answer = nullptr;
    try {
      auto layout = joinery::layOut(blanks, list, settings, progress);
      if (layout) {
        answer = std::make_shared<const exporting::LayoutJob>(
            exporting::makeLayoutJob(piece, std::move(*layout), list, unit, findings));
      } else {
        answer = tl::unexpected<Error>(layout.error());
      }
    } catch (...) {
      answer = fail(ErrorCode::libraryFailure, exporting::failureWords());
    }
    QMetaObject::invokeMethod(
        this,
        [this, stopped, answer = std::move(answer)] {
          if (stopped == stopped_) take(answer);
        },
        Qt::QueuedConnection);
  });
  Q_EMIT workingChanged();
  return {};
}

void StockDesk::stop() {
  if (stopped_) stopped_->store(true);
}

void StockDesk::take(const Answer& answer) {
  working_ = false;
  if (answer) {
    job_ = *answer;
    Q_EMIT laidOut();
  } else {
    Q_EMIT failed(QString::fromStdString(answer.error().line()));
  }
  Q_EMIT workingChanged();
}

bool StockDesk::isOutdated() const {
  if (!job_) return false;
  if (jobList_ != list_) return true;
  const joinery::Piece* piece = document_.piece();
  if (piece == nullptr) return true;
  const auto blanks = blanksOf(*piece);
  return !blanks || !std::equal(blanks->begin(), blanks->end(), job_->layout.blanks.begin(),
                                job_->layout.blanks.end(), alike);
}

}  // namespace dryfit::viewer
