#include "viewer/tables/part_tree.h"

#include <QContextMenuEvent>
#include <QHeaderView>
#include <QMenu>
#include <QSignalBlocker>
#include <algorithm>
#include <map>

#include "joinery/making/marks.h"
#include "viewer/look/look.h"
#include "viewer/look/panels.h"
#include "viewer/look/words.h"

namespace dryfit::viewer {
namespace {

constexpr int kIdRole = Qt::UserRole;
constexpr int kHeadRoom = 16;   // pixels beside the words of a heading
constexpr int kWoodRoom = 60;   // pixels
constexpr int kNameRoom = 160;  // pixels, at the least

void addPartsUnder(QTreeWidgetItem* item, std::vector<joinery::PartId>& ids) {
  const QVariant id = item->data(PartTree::part, kIdRole);
  if (id.isValid()) {
    ids.emplace_back(static_cast<std::size_t>(id.toULongLong()));
    return;
  }
  for (int i = 0; i < item->childCount(); ++i) addPartsUnder(item->child(i), ids);
}

using joinery::MarkState;

QString stateWords(MarkState state) {
  switch (state) {
    case MarkState::rough:
      return PartTree::tr("rough");
    case MarkState::machined:
      return PartTree::tr("machined");
    case MarkState::cut:
      return PartTree::tr("cut");
    case MarkState::jointed:
      return PartTree::tr("jointed");
  }
  return {};
}

}  // namespace

PartTree::PartTree(BenchDocument& document, QWidget* parent)
    : QTreeWidget(parent), document_(document) {
  setColumnCount(columns);
  setSelectionMode(QAbstractItemView::ExtendedSelection);
  setAlternatingRowColors(true);
  setUniformRowHeights(true);
  setIndentation(12);
  header()->setStretchLastSection(false);
  header()->setMinimumSectionSize(40);
  header()->setSectionResizeMode(material, QHeaderView::Stretch);
  showWholeTextsOf(this);
  constexpr int kRestMs = 80;
  widths_.setSingleShot(true);
  widths_.setInterval(kRestMs);
  connect(&widths_, &QTimer::timeout, this, &PartTree::fitColumns);
  showHeads();
  fitColumns();
  connect(&document, &BenchDocument::opened, this, &PartTree::rebuild);
  connect(&document, &BenchDocument::listsChanged, this, &PartTree::rebuild);
  connect(&document, &BenchDocument::numbersChanged, this, &PartTree::refresh);
  connect(this, &QTreeWidget::itemSelectionChanged, this, [this] { Q_EMIT partsChosen(chosen()); });
}

void PartTree::rebuild() {
  const QSignalBlocker quiet(this);
  clear();
  items_.clear();
  std::map<std::string, QTreeWidgetItem*> groups;
  for (const joinery::Group& group : document_.model().groups) {
    auto* item = new QTreeWidgetItem(this);
    item->setText(part, titled(spaced(group.name)));
    groups[group.name] = item;
  }
  for (const joinery::Part& p : document_.model().parts) {
    const auto group = groups.find(p.group);
    QTreeWidgetItem* item =
        group == groups.end() ? new QTreeWidgetItem(this) : new QTreeWidgetItem(group->second);
    item->setData(part, kIdRole, static_cast<qulonglong>(items_.size()));
    for (const int column : {shoulder, overall, width, thickness}) {
      item->setTextAlignment(column, Qt::AlignRight | Qt::AlignVCenter);
    }
    items_.push_back(item);
  }
  refresh();
  expandAll();
  fitColumns();
}

void PartTree::showHeads() {
  setHeaderLabels(
      {document_.isOpen() ? tr("Part, sizes in %1").arg(unitWords(document_.unit())) : tr("Part"),
       tr("Shoulder"), tr("Overall"), tr("Width"), tr("Thick"), tr("Wood"), tr("Made")});
  headerItem()->setToolTip(made,
                           tr("How far the part is made; right-click, or use “Edit”, to mark it"));
  for (const int column : {shoulder, overall, width, thickness}) {
    headerItem()->setTextAlignment(column, Qt::AlignRight | Qt::AlignVCenter);
  }
  headerItem()->setToolTip(shoulder, tr("Length from shoulder to shoulder"));
  headerItem()->setToolTip(overall, tr("Length to cut, including tenons and tongues"));
}

void PartTree::refresh() {
  const QSignalBlocker quiet(this);
  widths_.start();
  showHeads();
  const joinery::Piece* piece = document_.piece();
  const joinery::Unit unit = document_.unit();
  for (std::size_t i = 0; i < items_.size(); ++i) {
    const joinery::Part& p = document_.model().parts[i];
    QTreeWidgetItem* item = items_[i];
    item->setText(part, labelWords(p));
    item->setText(material, spaced(p.material));
    const joinery::Mark* mark = joinery::markOf(document_.model(), p.name);
    item->setText(made, mark == nullptr ? QString() : stateWords(mark->state));
    if (piece == nullptr) continue;
    const joinery::PlacedPart& placed = piece->parts[i];
    const kernel::Vec3 size = placed.overall().size();
    item->setText(shoulder, lengthWords(placed.size.x, unit));
    item->setText(overall, lengthWords(size.x, unit));
    item->setText(width, lengthWords(size.y, unit));
    item->setText(thickness, lengthWords(size.z, unit));
  }
}

/// Sizes and marks get what they need, names what is left beside the wood: a name cut short is told
/// whole where the pointer rests.
void PartTree::fitColumns() {
  for (const int column : {part, shoulder, overall, width, thickness, made}) {
    // The header's own hint leaves room for an arrow that ours never shows.
    const int heading = fontMetrics().horizontalAdvance(headerItem()->text(column)) + kHeadRoom;
    setColumnWidth(column, std::max(sizeHintForColumn(column), heading));
  }
  int others = kWoodRoom;
  for (const int column : {shoulder, overall, width, thickness, made}) {
    others += columnWidth(column);
  }
  const int left = std::max(viewport()->width() - others, kNameRoom);
  if (columnWidth(part) > left) setColumnWidth(part, left);
}

void PartTree::choose(const std::vector<joinery::PartId>& parts) {
  const QSignalBlocker quiet(this);
  clearSelection();
  for (const joinery::PartId id : parts) {
    if (id.index() < items_.size()) items_[id.index()]->setSelected(true);
  }
  if (!parts.empty() && parts.front().index() < items_.size()) {
    QTreeWidgetItem* first = items_[parts.front().index()];
    scrollToItem(first);
    // The arrow keys go on from here.
    selectionModel()->setCurrentIndex(indexFromItem(first), QItemSelectionModel::NoUpdate);
  }
  viewport()->update();  // the blocked signals would have done it
}

void PartTree::contextMenuEvent(QContextMenuEvent* event) {
  if (chosen().empty()) return;
  QMenu menu;
  menu.addSection(tr("Made so far"));
  addMarkActions(menu);
  menu.exec(event->globalPos());
}

void PartTree::addMarkActions(QMenu& menu) {
  for (const MarkState state :
       {MarkState::rough, MarkState::machined, MarkState::cut, MarkState::jointed}) {
    QAction* action =
        menu.addAction(titled(stateWords(state)), this, [this, state] { markChosen(state); });
    action->setToolTip(tr("Fixes %1").arg(QString::fromUtf8(joinery::fixedBy(state))));
  }
  menu.addAction(tr("Remove the mark"), this, [this] { markChosen(std::nullopt); });
  menu.setToolTipsVisible(true);
}

void PartTree::markChosen(std::optional<MarkState> state) {
  const std::vector<joinery::PartId> parts = chosen();
  if (parts.empty()) {
    Q_EMIT refused(tr("First choose the parts to mark in the list"));
    return;
  }
  // Marks tell of real wood, so the sizes are those of the wood, whatever is shown.
  const auto piece = document_.measuredPiece();
  if (!piece) {
    Q_EMIT refused(QString::fromStdString(piece.error().line()));
    return;
  }
  const BenchDocument::Edit edit = [&](joinery::ModelFile& file) -> Result<void> {
    for (const joinery::PartId id : parts) {
      const std::string& name = piece->part(id).name;
      const bool marked = joinery::markOf(file.model(), name) != nullptr;
      if (!state && !marked) continue;
      Result<void> done =
          state ? file.setMark(joinery::markFor(*piece, id, *state)) : file.eraseMark(name);
      if (!done) return done;
    }
    return {};
  };
  if (const auto done = document_.apply(tr("mark parts"), edit); !done) {
    Q_EMIT refused(QString::fromStdString(done.error().line()));
  } else {
    Q_EMIT told(markedWords(*piece, parts, state));
  }
}

/// What has been recorded, in words.
QString PartTree::markedWords(const joinery::Piece& piece,
                              const std::vector<joinery::PartId>& parts,
                              std::optional<MarkState> state) const {
  const QString who =
      parts.size() == 1 ? labelWords(piece.part(parts.front())) : tr("%1 parts").arg(parts.size());
  if (!state) return tr("Mark removed: %1").arg(who);
  QString words = tr("Marked as %1: %2").arg(stateWords(*state), who);
  if (parts.size() == 1) {
    const kernel::Vec3 size = piece.parts[parts.front().index()].overall().size();
    const joinery::Unit unit = document_.unit();
    words += tr(", %1 × %2 × %3 %4")
                 .arg(lengthWords(size.x, unit), lengthWords(size.y, unit),
                      lengthWords(size.z, unit), unitWords(unit));
  }
  return words + tr("; fixes %1").arg(QString::fromUtf8(joinery::fixedBy(*state)));
}

std::vector<joinery::PartId> PartTree::chosen() const {
  std::vector<joinery::PartId> ids;
  for (QTreeWidgetItem* item : selectedItems()) addPartsUnder(item, ids);
  return ids;
}

}  // namespace dryfit::viewer
